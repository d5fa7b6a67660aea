/** What web and server say to each other about the start: a first site by conversation, an example, a file taken in. */
import type {
  Ability,
  Assumption,
  Dosing,
  FirstSiteAnswers,
  HeaterSwitch,
  Life,
  Messages,
  PersonAnswers,
  Plugging,
  Reach,
  TankAnswers,
  TopOff,
  TopOffSwitch,
  Whereabouts,
} from "../../planning/index.ts";
import type { Site } from "../../site/index.ts";
import { ContractError, parseSiteAnswer } from "./parse.ts";
import type { SiteAnswer, SiteProblem } from "./types.ts";

export type { FirstSiteAnswers, PersonAnswers, TankAnswers } from "../../planning/index.ts";

/** How much a conversation takes; more is written into the file by hand. */
export const LIMITS = { tanks: 12, people: 8, heaters: 6, wavePumps: 8, text: 200, fileBytes: 5_000_000 } as const;

/** GET /api/first-site: where the conversation begins. */
export interface FirstSiteStart {
  readonly answers: FirstSiteAnswers;
  readonly anotherTank: TankAnswers;
  readonly anotherPerson: PersonAnswers;
  readonly examples: readonly Example[];
}

interface Example {
  readonly file: string;
  /** Name of the place. */
  readonly name: string;
  readonly systems: number;
  readonly devices: number;
}

/** What is wrong with one answer. */
export interface AnswerProblem extends SiteProblem {
  /** "tanks.0.volume"; empty where it is about no answer alone. */
  readonly field: string;
}

/** POST /api/first-site: what the answers make. */
export interface FirstSite {
  readonly text: string;
  /** Null while an answer can't be read. */
  readonly site: Site | null;
  readonly errors: readonly AnswerProblem[];
  readonly assumptions: readonly Assumption[];
  /** What each blank is taken as, by field. */
  readonly usual: Readonly<Record<string, string>>;
  /** The name under which it would be kept. */
  readonly file: string;
}

/** POST /api/take-in and POST /api/examples/open. */
export interface TakenIn {
  /** Why it could not be read; then nothing was kept. */
  readonly errors: readonly SiteProblem[];
  /** The site that is open now; null where it could not be read. */
  readonly opened: SiteAnswer | null;
}

/** Each word once, so that none can be forgotten here. */
const WORDS = {
  life: words<Life>({ fish: 1, soft: 1, "large-polyp": 1, "small-polyp": 1, mixed: 1, seahorses: 1 }),
  heaterSwitch: words<HeaterSwitch>({ "own-thermostat": 1, hub: 1, "hub-and-own-thermostat": 1 }),
  topOff: words<TopOff>({ "by-hand": 1, fresh: 1, limewater: 1 }),
  topOffSwitch: words<TopOffSwitch>({ "own-float": 1, hub: 1 }),
  dosing: words<Dosing>({ nothing: 1, "two-part": 1, reactor: 1 }),
  plugging: words<Plugging>({ "one-strip": 1, "two-circuits": 1 }),
  reach: words<Reach>({ push: 1, text: 1, call: 1 }),
  whereabouts: words<Whereabouts>({ "lives-here": 1, "works-here": 1, elsewhere: 1 }),
  can: words<Ability>({ everything: 1, simple: 1, call: 1 }),
  messages: words<Messages>({ router: 1, "router-and-mobile": 1, beep: 1 }),
};

function words<T extends string>(each: Readonly<Record<T, 1>>): readonly T[] {
  return Object.keys(each) as T[];
}

/** The door for answers, from the wire or from what a browser has kept. Nothing passes that was not asked for. */
export function parseFirstSiteAnswers(value: unknown): FirstSiteAnswers {
  const at = open(value, "answers");
  return {
    place: at.text("place"),
    zone: at.text("zone"),
    tanks: at.list("tanks", 1, LIMITS.tanks, tankOf),
    plugging: at.word("plugging", WORDS.plugging),
    mains: at.text("mains"),
    airBattery: at.yesNo("airBattery"),
    routerBattery: at.yesNo("routerBattery"),
    hub: at.yesNo("hub"),
    leakSensor: at.yesNo("leakSensor"),
    messages: at.word("messages", WORDS.messages),
    silenceWatch: at.yesNo("silenceWatch"),
    people: at.list("people", 1, LIMITS.people, personOf),
    away: at.text("away"),
  };
}

function tankOf(value: unknown, where: string): TankAnswers {
  const at = open(value, where);
  return {
    name: at.text("name"),
    volume: at.text("volume"),
    life: at.word("life", WORDS.life),
    temperature: at.text("temperature"),
    hasSump: at.yesNo("hasSump"),
    sumpVolume: at.text("sumpVolume"),
    heaters: at.count("heaters", LIMITS.heaters),
    heaterPower: at.text("heaterPower"),
    heaterSwitch: at.word("heaterSwitch", WORDS.heaterSwitch),
    returnFlow: at.text("returnFlow"),
    wavePumps: at.count("wavePumps", LIMITS.wavePumps),
    waveFlow: at.text("waveFlow"),
    hasSkimmer: at.yesNo("hasSkimmer"),
    hasLight: at.yesNo("hasLight"),
    lightHours: at.text("lightHours"),
    topOff: at.word("topOff", WORDS.topOff),
    topOffVolume: at.text("topOffVolume"),
    topOffSwitch: at.word("topOffSwitch", WORDS.topOffSwitch),
    dosing: at.word("dosing", WORDS.dosing),
  };
}

function personOf(value: unknown, where: string): PersonAnswers {
  const at = open(value, where);
  return {
    name: at.text("name"),
    reachedBy: at.list("reachedBy", 0, WORDS.reach.length, (word, place) => oneOf(word, WORDS.reach, place)),
    asleep: at.text("asleep"),
    whereabouts: at.word("whereabouts", WORDS.whereabouts),
    travel: at.text("travel"),
    can: at.word("can", WORDS.can),
  };
}

export function parseFirstSiteStart(value: unknown): FirstSiteStart {
  const at = open(value, "start");
  return {
    answers: parseFirstSiteAnswers(at.raw("answers")),
    anotherTank: tankOf(at.raw("anotherTank"), "start.anotherTank"),
    anotherPerson: personOf(at.raw("anotherPerson"), "start.anotherPerson"),
    examples: at.list("examples", 0, 1000, (example) => example as Example),
  };
}

export function parseFirstSite(value: unknown): FirstSite {
  const at = open(value, "first site");
  if (typeof at.raw("text") !== "string") refuse("first site.text", at.raw("text"), "text");
  at.list("errors", 0, 1000, (each) => each);
  at.list("assumptions", 0, 10_000, (each) => each);
  open(at.raw("usual"), "first site.usual");
  return value as FirstSite;
}

export function parseTakenIn(value: unknown): TakenIn {
  const at = open(value, "answer");
  const opened = at.raw("opened");
  return {
    errors: at.list("errors", 0, 1000, (each) => each as SiteProblem),
    opened: opened === null ? null : parseSiteAnswer(opened),
  };
}

function open(value: unknown, where: string) {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return refuse(where, value, "an object");
  const holder = value as Readonly<Record<string, unknown>>;
  const raw = (key: string): unknown => (Object.hasOwn(holder, key) ? holder[key] : undefined);
  return {
    raw,
    /** A text as it was typed, or null for "as usual". */
    text(key: string): string | null {
      const found = raw(key);
      if (found === null) return null;
      if (typeof found === "string" && found.length <= LIMITS.text) return found;
      return refuse(`${where}.${key}`, found, `null or a text of at most ${LIMITS.text} signs`);
    },
    yesNo(key: string): boolean {
      const found = raw(key);
      return typeof found === "boolean" ? found : refuse(`${where}.${key}`, found, "true or false");
    },
    count(key: string, most: number): number {
      const found = raw(key);
      if (typeof found === "number" && Number.isInteger(found) && found >= 0 && found <= most) return found;
      return refuse(`${where}.${key}`, found, `a whole number from 0 to ${most}`);
    },
    word<T extends string>(key: string, known: readonly T[]): T {
      return oneOf(raw(key), known, `${where}.${key}`);
    },
    list<T>(key: string, least: number, most: number, read: (each: unknown, where: string) => T): readonly T[] {
      const found = raw(key);
      if (!Array.isArray(found) || found.length < least || found.length > most)
        return refuse(`${where}.${key}`, found, `a list of ${least} to ${most}`);
      return found.map((each, index) => read(each, `${where}.${key}.${index}`));
    },
  };
}

function oneOf<T extends string>(value: unknown, known: readonly T[], where: string): T {
  return known.find((word) => word === value) ?? refuse(where, value, `one of ${known.join(", ")}`);
}

function refuse(where: string, have: unknown, want: string): never {
  const shown = JSON.stringify(have)?.slice(0, 40) ?? "nothing";
  throw new ContractError(`Cannot read ${where}: have ${shown}, want ${want}; load the page again`);
}
