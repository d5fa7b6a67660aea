/**
 * A fault mode: one way in which one kind of part goes wrong, as data and three small functions. It knows the site and
 * the levers of the twin; it knows nothing of rules, people, verdicts.
 */

import type { Site, Skill } from "../../site/index.ts";
import type { LeverKind } from "../../twin/index.ts";

export type FaultGroup =
  | "heat"
  | "circulation"
  | "top-off"
  | "dosing"
  | "gas"
  | "light"
  | "feeding"
  | "filtration"
  | "plumbing"
  | "sensing"
  | "power"
  | "network"
  | "people"
  | "livestock"
  | "environment";

/** sudden: acts at once. creeping: grows over days. latent: nothing shows until something else needs the part. */
export type Onset = "sudden" | "creeping" | "latent";

/** The hands of a fault and of whoever ends it: levers and a few things that happen once. */
export interface Bench {
  readonly site: Site;
  /** Sets a lever of a part (names and neutral values: src/twin/levers.ts; the whole site's: part "*"). */
  set(part: string, lever: string, value: number): void;
  /** Puts a lever back to its neutral value; without a name, all levers of the part. */
  release(part: string, lever?: string): void;
  /** Dry food falls into a body. */
  food(body: string, grams: number): void;
  /** A dead animal of this wet weight lies in a body. */
  carcass(body: string, grams: number): void;
  /** Alkalinity (with carbon per charge 0..1), calcium or organic carbon gets into a body at once. */
  pour(body: string, what: "alkalinity" | "calcium" | "carbon" | "co2", amountMol: number, carbonPerEq?: number): void;
  /** Pours litres from one body into another (a siphon, a spilled container). */
  move(from: string, to: string, litres: number): void;
  /** Prepared salt water in place of a share (0..1) of the system's water. */
  changeWater(system: string, share: number): void;
  /** Takes a share (0..1) of what rots out of the system of a body. */
  takeOut(body: string, share: number): void;
  /** Fresh water into a body, L. */
  addFresh(body: string, litres: number): void;
  /** Water of a body to the floor at once, L. */
  spill(body: string, litres: number): void;
  /** Starts a generator or switches a battery on by hand. */
  startBattery(battery: string): void;
  /** Fills a reservoir or container (null: to the volume of the description). */
  refill(body: string): void;
  /** Closes a breaker that opened, if nothing leaks any more. */
  closeCircuit(circuit: string): void;
}

/** What someone who looks at the place would see because of the fault itself, besides what its effects show. */
export type Sight =
  | "nothing"
  | "still"
  | "dark"
  | "noise"
  | "water"
  | "smell"
  | "cloud"
  | "display"
  | "level"
  | "animals";

export interface FaultRate {
  /** Events a year for one such part; for latent ones the chance that it is so when needed. */
  readonly perYear: number;
  /** It may be this many times more or less. */
  readonly factor: number;
  readonly source: string;
}

export interface FaultMode {
  /** Name in ids, `heater-1.stays-on`; kebab-case, unique among the modes of one part. */
  readonly mode: string;
  readonly group: FaultGroup;
  /** What a keeper would say, without the part: "Heater will not switch off". */
  readonly name: string;
  readonly onset: Onset;
  /** Kind of the parts, for messages. */
  readonly of: LeverKind;
  /** Parts of this site that can fail so, by id. */
  readonly parts: (site: Site) => readonly string[];
  readonly inject: (bench: Bench, part: string) => void;
  /** It ends by itself after this long (a power cut), minutes; absent: never. */
  readonly lastsMin?: number;
  /** How a person ends it. `apply` runs when the work is done; most often it releases the levers or unplugs the part. */
  readonly end: {
    readonly act: string;
    readonly needs: Skill;
    readonly minutes: number;
    readonly apply: (bench: Bench, part: string) => void;
  };
  readonly sight: Sight;
  readonly rate: FaultRate;
  /** Changes to the site that would help, most useful first, in plain words with {part} for the id. */
  readonly helps: readonly string[];
  /** Latent only: months between trials that would find it, from the description; null = nobody tries. */
  readonly triedEveryMonths?: (site: Site, part: string) => number | null;
  /** Latent only: parts whose failure makes this one matter, for pairs. */
  readonly backs?: (site: Site, part: string) => readonly string[];
}

/** A mode on a part of a site. */
export interface Fault {
  readonly part: string;
  readonly mode: FaultMode;
}

export function faultId(fault: { readonly part: string; readonly mode: FaultMode }): string {
  return `${fault.part}.${fault.mode.mode}`;
}
