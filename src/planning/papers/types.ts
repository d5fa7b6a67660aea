/** What stands on the papers, as data: a page of the app and a sheet of paper say the same. Texts are whole sentences or labels. */
import type { VerdictKind } from "../../drills/index.ts";
import type { DefaultUsed } from "../../site/index.ts";

/** All papers of a site. */
export interface Papers {
  readonly site: string;
  readonly zone: string;
  /** When they were made, ISO. */
  readonly madeAt: string;
  readonly setUp: SetUpSheet;
  readonly proving: ProvingList;
  /** Null where nothing has been rehearsed. */
  readonly report: ReportPaper | null;
  /** A sheet for each person, in the order of the site file. */
  readonly keyHolders: readonly KeyHolderSheet[];
}

// --- set-up sheet

/** One plug: a device, what feeds and switches it, and what it falls to. */
export interface Socket {
  readonly device: string;
  readonly kind: string;
  readonly system: string;
  /** Circuit that it is plugged into; null: needs no mains. */
  readonly circuit: string | null;
  /** Hub that switches it; null: plugged straight in. */
  readonly hub: string | null;
  readonly loadW: number;
  readonly loadA: number;
  /** What the socket falls to when its hub is dead; null where no hub switches it. */
  readonly withoutHub: "on" | "off" | "as it was" | null;
  readonly normally: "on" | "off";
  /** Working hours of its own timer; empty: always. */
  readonly hours: string;
}

export interface CircuitLoad {
  readonly circuit: string;
  /** What it hangs from; null: straight from the mains. */
  readonly on: string | null;
  readonly limitA: number;
  readonly tripsOnLeakMA: number | null;
  readonly staysOpenAfterCut: boolean;
  /** Everything on it and on what hangs from it, all running at once. */
  readonly loadW: number;
  readonly loadA: number;
  /** What of this hubs and links take, W: the simulator's own figures. */
  readonly talkingW: number;
  readonly overLimit: boolean;
}

export interface RuleLine {
  readonly rule: string;
  readonly hub: string;
  /** What it does, in sentences. */
  readonly words: string;
}

/** Someone on the ladder of a notice. */
export interface Rung {
  readonly person: string;
  /** Minutes after the notice was sent, if nobody before has taken it. */
  readonly afterMin: number;
  /** Ways by which this notice reaches them; empty: it does not. */
  readonly over: readonly string[];
}

export interface NoticeLine {
  readonly rule: string;
  readonly urgency: "urgent" | "soon" | "note";
  readonly says: string;
  readonly ladder: readonly Rung[];
  /** Ways out of the house that its hub has; empty: it cannot leave. */
  readonly sentOver: readonly string[];
  readonly siren: boolean;
}

export interface BatteryLine {
  readonly battery: string;
  readonly kind: "battery" | "generator";
  readonly energyWh: number;
  readonly powerW: number;
  readonly feeds: readonly string[];
  readonly on: string | null;
  readonly startsItself: boolean;
  /** What it feeds, all running at once. */
  readonly loadW: number;
  /** How long it lasts with that load, h; null where what it feeds takes nothing. */
  readonly lastsH: number | null;
}

export interface SetUpSheet {
  readonly volts: number;
  readonly sockets: readonly Socket[];
  readonly circuits: readonly CircuitLoad[];
  readonly batteries: readonly BatteryLine[];
  readonly hubs: readonly {
    readonly hub: string;
    readonly on: string | null;
    readonly readsEveryS: number;
    readonly sendsOver: readonly string[];
    readonly watchdog: boolean;
    readonly siren: boolean;
  }[];
  readonly rules: readonly RuleLine[];
  readonly notices: readonly NoticeLine[];
  readonly silenceWatch: { readonly afterMin: number; readonly tells: readonly Rung[] } | null;
  readonly cautions: readonly string[];
}

// --- proving list

/** Which age in the site file a trial renews. */
export interface Renews {
  readonly of: "sensor" | "rule" | "hub" | "device" | "flow" | "person" | "battery" | "spare" | "silence watch";
  readonly key: "testedMonths" | "lastTriedMonths";
}

/** A trial on the real place that shows that one thing works. */
export interface Trial {
  /** `part.what`, the same as long as the part keeps its name. */
  readonly id: string;
  readonly part: string;
  readonly title: string;
  readonly steps: readonly string[];
  /** What must be seen for it to have held. */
  readonly must: readonly string[];
  /** Within how long, s; null where it shows at once or not by the clock. */
  readonly withinS: number | null;
  readonly putBack: string;
  /** One sentence where hands meet something that hurts. */
  readonly caution: string | null;
  readonly everyMonths: number;
  /** Null where the site file keeps no age for it. */
  readonly renews: Renews | null;
}

export interface TrialResult {
  /** Of the line in the journal. */
  readonly id: string;
  readonly at: string;
  readonly held: boolean;
  readonly note: string;
  readonly by: string;
}

export interface ProvingItem extends Trial {
  readonly last: TrialResult | null;
  /** Months since it was last seen to hold, by the journal or, where that has nothing, by the file; null: never proved. */
  readonly ageMonths: number | null;
  readonly ageFrom: "journal" | "file" | null;
  readonly due: boolean;
}

export interface ProvingList {
  /** What is due first. */
  readonly items: readonly ProvingItem[];
  /** Lines of the journal that could not be read, in words. */
  readonly unread: readonly string[];
  /** Recorded results of trials that the site no longer has. */
  readonly orphans: number;
  /** Names of those who may have tried something, for the form. */
  readonly people: readonly string[];
}

// --- report

export type Counts = Readonly<Record<VerdictKind, number>>;

export interface CountRow {
  /** A system, a circumstance; empty: the whole site. */
  readonly of: string;
  readonly counts: Counts;
  readonly drills: number;
}

export interface ReportFinding {
  readonly text: string;
  readonly verdict: VerdictKind;
  readonly marginMin: number | null;
  readonly circumstances: readonly string[];
  readonly help: string | null;
  /** Of its worst drill. */
  readonly drill: string;
}

export interface ReportPaper {
  readonly engine: string;
  readonly seed: number;
  readonly finishedAt: string | null;
  readonly complete: boolean;
  readonly notRun: number;
  readonly drills: number;
  readonly faults: number;
  readonly parts: number;
  readonly circumstances: readonly {
    readonly id: string;
    readonly startsLocal: string;
    readonly horizonDays: number;
  }[];
  readonly counts: Counts;
  /** How many drills ended without a finding. */
  readonly held: number;
  readonly bySystem: readonly CountRow[];
  readonly byCircumstance: readonly CountRow[];
  /** Who was told first, of the drills that were handed to a person or came late. */
  readonly byPerson: readonly { readonly person: string; readonly handedOver: number; readonly late: number }[];
  /** Handed over only because someone happened to look. */
  readonly byChance: number;
  readonly plainLife: readonly { readonly circumstance: string; readonly text: string }[];
  /** Worst first. */
  readonly findings: readonly ReportFinding[];
  readonly findingsInAll: number;
  /** Pairs of faults; null where none were rehearsed. */
  readonly pairs: {
    readonly counts: Counts;
    readonly drills: number;
    readonly findings: readonly ReportFinding[];
    readonly findingsInAll: number;
  } | null;
  /** What was taken for granted because the file says nothing, most important first. */
  readonly assumptions: readonly DefaultUsed[];
  readonly assumptionsInAll: number;
  readonly notSimulated: readonly string[];
  readonly cautions: readonly string[];
}

// --- key-holder's sheet

export interface KeyHolderSheet {
  readonly person: string;
  /** Cannot do everything and so needs the sheet most. */
  readonly helps: boolean;
  /** Whom to call, in order. */
  readonly calls: readonly {
    readonly person: string;
    /** Local hours in which they cannot be reached, in words; empty: none are known. */
    readonly notAt: string;
    readonly travelMin: number;
  }[];
  readonly systems: readonly {
    readonly system: string;
    readonly room: string;
    readonly lowC: number | null;
    readonly highC: number | null;
    /** Vessels that this person may fill up, with what they hold. */
    readonly vessels: readonly { readonly body: string; readonly holds: string }[];
    readonly pumps: readonly string[];
  }[];
  /** What to look at on each visit. */
  readonly looks: readonly string[];
  /** At most five, those with the least time first. */
  readonly acts: readonly KeyHolderAct[];
  readonly never: readonly string[];
}

export interface KeyHolderAct {
  /** What they see. */
  readonly see: string;
  readonly act: string;
  /** Plugs that it is about, and where they are. */
  readonly plugs: readonly { readonly device: string; readonly on: string | null }[];
  /** The least time that a rehearsed fault of this kind left, min; null where none was rehearsed or no harm came. */
  readonly haveMin: number | null;
}
