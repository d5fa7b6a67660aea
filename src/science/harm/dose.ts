/**
 * Harm as dose: exposure divided by the hours that half of the animals bear, added up over time.
 *
 * dD/dt = 1/t50(x) beyond the threshold, -D/repair within it; D = 1 is the median effect. Form: thermal death time
 * (Rezende et al. 2014), carried over to the other stressors. Sources and certainty: docs/science.md#harm.
 */
import type { Group, Stressor } from "./groups.ts";
import { GROUPS, groupIndex, STRESSORS, stressorIndex } from "./groups.ts";
import { tolerances } from "./tolerances.ts";

/** Highest temperature that corals are taken to be used to where nobody says otherwise, degrees C. */
const USED_TO_C = 27.5;

/** Dose at which stress shows, harm is done, and half are lost. */
export const HARM_DOSE = { stress: 0.1, harm: 0.5, loss: 1 } as const;

/** Spread of ln D among animals: one species, or a mixed tank. */
export const DOSE_SPREAD = { oneSpecies: 0.35, mixedTank: 0.6 } as const;

/** Nothing is taken to die faster than within a minute, h. */
const FASTEST_T50_H = 1 / 60;

const PAIRS = GROUPS.length * STRESSORS.length;

/** Uncertainty factor of the hours, at group * STRESSORS.length + stressor; 1 where the stressor does nothing. */
export const HARM_FACTOR = new Float64Array(PAIRS).fill(1);

/** Time constant of recovery, h, at group * STRESSORS.length + stressor. */
export const REPAIR_HOURS = new Float64Array(PAIRS).fill(24);

/** Per pair: side, relative, logarithmic, threshold, number of points, then three points as (place, ln hours). */
const SIDE = 0;
const RELATIVE = 1;
const LOGARITHMIC = 2;
const THRESHOLD = 3;
const COUNT = 4;
const POINTS = 5;
const ROW = 11;
const table = new Float64Array(PAIRS * ROW);

for (const row of tolerances) {
  const pair = groupIndex(row.group) * STRESSORS.length + stressorIndex(row.stressor);
  const base = pair * ROW;
  HARM_FACTOR[pair] = row.factor;
  REPAIR_HOURS[pair] = row.repairHours;
  table[base + SIDE] = row.harmIs === "above" ? 1 : -1;
  table[base + RELATIVE] = row.relative ? 1 : 0;
  table[base + LOGARITHMIC] = row.along === "x" ? 0 : 1;
  table[base + THRESHOLD] = row.threshold;
  table[base + COUNT] = row.points.length;
  for (const [index, [x, hours]] of row.points.entries()) {
    table[base + POINTS + 2 * index] = row.along === "x" ? x : Math.log(x);
    table[base + POINTS + 2 * index + 1] = Math.log(hours);
  }
}

/** ln hours at `place` on the row's points: straight through them and on beyond the outer ones. */
function logHours(base: number, place: number): number {
  const count = table[base + COUNT];
  const first = base + POINTS;
  if (count < 2) return table[first + 1];
  const from = count > 2 && place > table[first + 2] ? first + 2 : first;
  const slope = (table[from + 3] - table[from + 1]) / (table[from + 2] - table[from]);
  return table[from + 1] + slope * (place - table[from]);
}

/**
 * Dose that a group (its position in GROUPS) takes up in an hour from a stressor (its position in STRESSORS) of size `x` (see
 * STRESSOR_MEASURE): 0 within the threshold, else 1/t50. `usedToC` matters for the heat of corals only. Allocates nothing.
 */
export function harmRatePerH(group: number, stressor: number, x: number, usedToC: number = USED_TO_C): number {
  const base = (group * STRESSORS.length + stressor) * ROW;
  const side = table[base + SIDE];
  if (side === 0) return 0;
  const seen = x - table[base + RELATIVE] * usedToC;
  if (!((seen - table[base + THRESHOLD]) * side > 0)) return 0;
  const place = table[base + LOGARITHMIC] === 1 ? Math.log(seen) : seen;
  const hours = Math.exp(logHours(base, place));
  return 1 / Math.max(hours, FASTEST_T50_H);
}

/** Median hours to effect at steady exposure; Infinity within the threshold. */
export function t50Hours(group: Group, stressor: Stressor, x: number, usedToC: number = USED_TO_C): number {
  return 1 / harmRatePerH(groupIndex(group), stressorIndex(stressor), x, usedToC);
}

/** Share (0..1) of the animals that show the effect after a dose: log-logistic, one half at dose 1. */
export function effectShare(dose: number, spread: number): number {
  return dose > 0 ? 1 / (1 + dose ** (-1 / spread)) : 0;
}
