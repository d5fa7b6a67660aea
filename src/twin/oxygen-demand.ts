/**
 * Where oxygen runs out all that uses it slows down at once, faster than a step is short: nothing but counting it as implicit keeps
 * a long step from using more than there is. Rates: reactions.ts.
 */
import { CARBON, DIC, NO2, O2, ORGANIC, PO4, TA, TAN } from "./columns.ts";
import { AT } from "./levers.ts";
import {
  BREATH_QUOTIENT,
  CARBON_PER_H,
  CARBON_PER_N,
  CORAL_CRITICAL_MG_L,
  DECAY_PER_H,
  FISH_CRITICAL_MG_L,
  filterMolH,
  halfNitrogenMol,
  NITRITE_SPEED,
  O2_MG_PER_MOL,
  OXYGEN_HALF_MG_L,
  OXYGEN_PER_N,
  PHOSPHORUS_PER_N,
  toNitrate,
  toNitrite,
  YIELD,
} from "./reactions.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

/** Above this nothing hangs on oxygen so much that a step feels it, mg/L. */
export const PLENTY_MG_L = CORAL_CRITICAL_MG_L;

/** Columns: how much faster each goes for a mole more of oxygen, 1/h; the last is what all of them use of it, 0 where oxygen is plenty. */
export const BREATHED_PER_H = 0; // mol O2
const DECAYED_PER_H = 1; // mol N
export const CARBON_USED_PER_H = 2; // mol C
const NITRITE_MADE_PER_H = 3; // mol N
const NITRATE_MADE_PER_H = 4; // mol N
const ALL_PER_H = 5; // mol O2
export const DEMANDS = 6;

/** How the use of oxygen in a body would move with its oxygen, into `out` from `to` on. */
export function oxygenDemand(
  twin: Twin,
  body: number,
  amounts: Float64Array,
  at: number,
  massKg: number,
  out: Float64Array,
  to: number,
): void {
  const { slow } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const mgLPerMol = (slow[s + SLOW.kgPerL] * O2_MG_PER_MOL) / massKg;
  const mgL = Math.max(0, amounts[at + O2] * mgLPerMol);
  out[to + ALL_PER_H] = 0;
  if (mgL > PLENTY_MG_L) return;
  const { fishO2MolH, benthosO2MolH } = twin.model.life[body];
  const q10 = slow[s + SLOW.q10];
  const perMol = (mgLPerMol * OXYGEN_HALF_MG_L) / (OXYGEN_HALF_MG_L + mgL) ** 2;
  const fish = mgL < FISH_CRITICAL_MG_L ? (fishO2MolH * slow[s + SLOW.fishOxygen]) / FISH_CRITICAL_MG_L : 0;
  const rest = (benthosO2MolH * q10) / CORAL_CRITICAL_MG_L;
  const more = twin.levers[twin.model.levers.base.body[body] + AT.body.demand];
  out[to + BREATHED_PER_H] = (fish + rest) * more * mgLPerMol;
  out[to + DECAYED_PER_H] = DECAY_PER_H * q10 * amounts[at + ORGANIC] * perMol;
  out[to + CARBON_USED_PER_H] = CARBON_PER_H * q10 * amounts[at + CARBON] * perMol;
  filterDemand(twin, body, amounts, at, massKg, perMol, out, to);
  out[to + ALL_PER_H] =
    out[to + BREATHED_PER_H] +
    OXYGEN_PER_N * out[to + DECAYED_PER_H] +
    (1 - YIELD) * out[to + CARBON_USED_PER_H] +
    1.5 * out[to + NITRITE_MADE_PER_H] +
    0.5 * out[to + NITRATE_MADE_PER_H];
}

/** Whether anything is counted as implicit: where oxygen is plenty the columns are not even worked out. */
export function isShort(perH: Float64Array, from: number): boolean {
  return perH[from + ALL_PER_H] > 0;
}

/** Nitrification hangs on oxygen only as far as its bacteria and not the water that reaches them set the pace. */
function filterDemand(
  twin: Twin,
  body: number,
  amounts: Float64Array,
  at: number,
  massKg: number,
  perMol: number,
  out: Float64Array,
  to: number,
): void {
  const halfMol = halfNitrogenMol(massKg);
  const most = filterMolH(twin, body, Number.POSITIVE_INFINITY, 1);
  const oxygenShare = filterMolH(twin, body, halfMol, 1) < most ? 0 : perMol;
  const ammonia = Math.max(0, amounts[at + TAN]);
  const nitrite = Math.max(0, amounts[at + NO2]);
  out[to + NITRITE_MADE_PER_H] = (oxygenShare * most * ammonia) / (halfMol + ammonia);
  out[to + NITRATE_MADE_PER_H] = (oxygenShare * most * NITRITE_SPEED * nitrite) / (halfMol + nitrite);
}

/** Counts the use of oxygen as implicit in a slope `x` of one water: each process moves all its columns in proportion. */
export function solveOxygenDemand(x: Float64Array, at: number, perH: Float64Array, from: number, gH: number): void {
  const all = perH[from + ALL_PER_H];
  if (all === 0) return;
  const oxygen = x[at + O2] / (1 + gH * all);
  const ahead = gH * oxygen;
  const decayed = ahead * perH[from + DECAYED_PER_H];
  const used = ahead * perH[from + CARBON_USED_PER_H];
  toNitrite(x, at, ahead * perH[from + NITRITE_MADE_PER_H]);
  toNitrate(x, at, ahead * perH[from + NITRATE_MADE_PER_H]);
  x[at + DIC] += BREATH_QUOTIENT * ahead * perH[from + BREATHED_PER_H] + CARBON_PER_N * decayed + (1 - YIELD) * used;
  x[at + TA] += decayed;
  x[at + TAN] += decayed;
  x[at + PO4] += PHOSPHORUS_PER_N * decayed;
  x[at + ORGANIC] -= decayed;
  x[at + CARBON] -= used;
  x[at + O2] = oxygen;
}
