/**
 * Levers that rest: nothing asks for them until the one moment at which they decide (a cut-out when it is hot, a spare when it
 * would run, a battery when the power is gone). Each such question leaves a mark, so that one can tell of a course that a lever
 * was never asked for, and thus that the course would have been the same, bit for bit, had it been pulled.
 *
 * Whoever reads such a lever asks last, when all else is known. docs/how/drills.md, "Pairs".
 */
import { SENSOR_COLUMNS, SENSOR_READING } from "./columns.ts";
import { AT, type LeverKind, type LeverName } from "./levers.ts";
import type { Model } from "./model.ts";
import type { Twin } from "./state.ts";

const RESTING: { readonly [K in LeverKind]?: readonly LeverName<K>[] } = {
  device: ["dead", "noRestart", "cutOut", "spareFloat"],
  flow: ["checkValve", "siphonBreak"],
  battery: ["capacity", "noTakeover"],
  link: ["down"],
  hub: ["muted"],
  rule: ["off"],
  // The twin knows nothing of people: what becomes of messages is worked out afterwards.
  person: ["unreachable", "unsure"],
  system: ["silenceWatchDead", "serviceDown"],
};
/** Those of sensors that say yes or no: they decide when the answer turns. */
const RESTING_CONTACT: readonly LeverName<"sensor">[] = ["fixed", "frozen"];

/** Value of a lever that rests; it decides now. */
export function askLever(twin: Twin, place: number): number {
  twin.asked[place] = 1;
  return twin.levers[place];
}

/** A sensor says something new: whatever would have held it decides now. */
export function markTurn(twin: Twin, sensor: number): void {
  const base = twin.model.levers.base.sensor[sensor];
  for (const name of RESTING_CONTACT) twin.asked[base + AT.sensor[name]] = 1;
}

/** Marks of the levers that were asked for since they were last forgotten, by place. */
export function leversAsked(twin: Twin): Uint8Array {
  return twin.asked.slice();
}

export function forgetAsked(twin: Twin): void {
  twin.asked.fill(0);
}

/** Adds the marks since they were last forgotten to others. */
export function addAsked(twin: Twin, marks: Uint8Array): void {
  for (let place = 0; place < marks.length; place++) marks[place] |= twin.asked[place];
}

/**
 * Places of the levers that were pulled since the state `before`, where all of them rest and nothing else was touched; else null.
 * A contact that is held where it stands rests too.
 */
export function pulledAtRest(twin: Twin, before: Float64Array): readonly number[] | null {
  const { layout, levers } = twin.model;
  const rests = restingLevers(twin.model);
  const pulled: number[] = [];
  for (let at = 0; at < before.length; at++) {
    if (Object.is(before[at], twin.state[at])) continue;
    const place = at - layout.levers;
    if (place < 0 || place >= levers.neutral.length || rests[place] === 0) return null;
    pulled.push(place);
  }
  return pulled.every((place) => isHeldAsItStands(twin, place)) ? pulled : null;
}

/** True for all but a sensor that is held at another reading than its last one. */
function isHeldAsItStands(twin: Twin, place: number): boolean {
  const sensor = twin.model.levers.base.sensor.indexOf(place - AT.sensor.fixed);
  return sensor < 0 || Object.is(twin.levers[place], twin.sensors[sensor * SENSOR_COLUMNS + SENSOR_READING]);
}

const known = new WeakMap<Model, Uint8Array>();

/** 1 for each lever that rests, by place. */
function restingLevers(model: Model): Uint8Array {
  const before = known.get(model);
  if (before) return before;
  const { base, neutral } = model.levers;
  const rests = new Uint8Array(neutral.length);
  for (const [kind, names] of Object.entries(RESTING) as [LeverKind, readonly string[]][]) {
    const offsets: Readonly<Record<string, number>> = AT[kind];
    for (const first of base[kind]) for (const name of names) rests[first + offsets[name]] = 1;
  }
  for (const [sensor, first] of base.sensor.entries())
    for (const name of RESTING_CONTACT) rests[first + AT.sensor[name]] = model.sensing.isYesOrNo[sensor];
  known.set(model, rests);
  return rests;
}
