/** What a drill and a rehearsal give back: the words of design and the contract of `--json`. */

export type VerdictKind = "absorbed" | "handled" | "handed over" | "late" | "unseen" | "not simulated";

export interface FaultRef {
  readonly part: string;
  readonly mode: string;
}

/** Minutes from the fault; null where it did not happen within the horizon. */
export interface DrillMinutes {
  readonly sign: number | null;
  readonly noticed: number | null;
  readonly told: number | null;
  readonly acting: number | null;
  readonly harm_early: number | null;
  readonly harm_likely: number | null;
  readonly harm_late: number | null;
}

export interface DrillResult {
  /** `part.mode@circumstance` or `part.mode+part.mode@circumstance`. */
  readonly id: string;
  readonly faults: readonly FaultRef[];
  readonly circumstance: string;
  readonly verdict: VerdictKind;
  readonly minutes: DrillMinutes;
  /** Last useful moment minus the moment of acting; null where no harm would come at all. */
  readonly margin_min: number | null;
  readonly floor_l: number;
  /** One plain sentence, null where the verdict is good enough. */
  readonly finding: string | null;
  /** Extra for people and pictures, beyond the fixed contract. */
  readonly name: string;
  readonly system: string | null;
  readonly onset: "sudden" | "creeping" | "latent";
  /** What is harmed first, e.g. "corals, heat". */
  readonly harm: string | null;
  readonly told_by: string | null;
  readonly found_by_chance: boolean;
  /** Minute after which an act no longer prevents early harm. */
  readonly last_useful: number | null;
  readonly ended: number | null;
  /** What would change it, most useful first. */
  readonly would_help: readonly string[];
  /** True where the verdict differs between early and late ends of the band. */
  readonly flips_in_band: boolean;
  readonly derived: string | null;
}

export interface DrillEvent {
  readonly t_min: number;
  readonly kind:
    | "fault"
    | "device"
    | "power"
    | "sensor"
    | "rule"
    | "notice"
    | "message"
    | "person"
    | "water"
    | "harm"
    | "look"
    | "end";
  readonly part: string | null;
  readonly person: string | null;
  readonly text: string;
}

export interface Trace {
  readonly t_min: readonly number[];
  readonly truth: Readonly<Record<string, readonly number[]>>;
  readonly sensed: Readonly<Record<string, readonly (number | null)[]>>;
}

/** A rule that looks for the harm of a drill and had not begun when it came; `rule` null: no rule looks for it. */
export interface SilentRule {
  readonly rule: string | null;
  readonly sensor: string | null;
  readonly at_min: number;
  /** In words, as the second half of a sentence that the rule begins. */
  readonly why: string;
}

export interface DrillReport extends DrillResult {
  readonly site: string;
  readonly engine: string;
  readonly seed: number;
  readonly starts: string;
  readonly events: readonly DrillEvent[];
  readonly trace: Trace;
  /** The true quantity whose curve tells the story, where there is one. */
  readonly telling: string | null;
  /** The same span with rules but nobody acting. */
  readonly unattended: { readonly trace: Trace; readonly events: readonly DrillEvent[] };
  /** When each person sleeps, is away, travels, acts: for the lanes of the timeline. */
  readonly people: readonly {
    readonly person: string;
    readonly spans: readonly { readonly from_min: number; readonly to_min: number; readonly what: string }[];
  }[];
  /** Where harm came before help: why the rules that could have noticed it were silent. */
  readonly silent_rules: readonly SilentRule[];
  readonly thresholds: readonly {
    readonly sensor: string;
    readonly rule: string;
    readonly value: number;
    readonly text: string;
  }[];
  /** "What if they had come later": delay of the act in minutes against what follows. */
  readonly later: readonly {
    readonly delay_min: number;
    readonly verdict: VerdictKind;
    readonly harm_early: number | null;
    readonly harm_likely: number | null;
    readonly trace: Readonly<Record<string, readonly number[]>>;
  }[];
}

/** Harm that comes without any fault: a reservoir that runs dry while away, a heater that is too small for the room. */
export interface PlainHarm {
  readonly circumstance: string;
  readonly harm_early: number;
  readonly harm: string;
  readonly finding: string;
}

export interface RehearsalReport {
  readonly site: string;
  readonly engine: string;
  readonly seed: number;
  readonly threads: number;
  readonly elapsed_s: number;
  readonly drills: readonly DrillResult[];
  readonly summary: Readonly<Record<"absorbed" | "handled" | "handed over" | "late" | "unseen", number>>;
  /** What goes wrong in plain life, one line a circumstance; drills do not count it again. */
  readonly plain_life: readonly PlainHarm[];
  readonly complete: boolean;
  readonly not_run: number;
}
