/**
 * What happens inside one body: gas exchange, breathing, light, shells, bacteria, decay. Rates in mol/h per body, one body
 * at a time, from concentrations per kg. Every equation: docs/science.md.
 */
import {
  alkalinityBuffer,
  calcificationFactor,
  carbonCharge,
  co2FromHydrogen,
  omegaAragonite,
  solveHydrogen,
} from "../science/index.ts";
import {
  BODY_COLUMNS,
  CA,
  CARBON,
  DIC,
  HYDROGEN,
  META,
  MG,
  NO2,
  NO3,
  O2,
  ORGANIC,
  PO4,
  TA,
  TAN,
  UNROTTED,
} from "./columns.ts";
import { AT } from "./levers.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

export const O2_MG_PER_MOL = 31998.8;
/** Moles of O2 per mole of CO2 in photosynthesis and the inverse in breathing (docs/science.md#respiration). */
const PHOTO_QUOTIENT = 1.1;
export const BREATH_QUOTIENT = 0.95;
/** Magnesium in place of calcium in what a whole tank builds: corals 0.5 %, coralline algae 8 to 25 % (docs/science.md#calcification). */
const MAGNESIUM_SHARE = 0.03;
/** Carbon and oxygen that go with one mole of nitrogen in decaying matter (Redfield, without nitrification). */
export const CARBON_PER_N = 6.6;
export const OXYGEN_PER_N = 6.6;
export const PHOSPHORUS_PER_N = 1 / 16;
/** Rates at 26 degrees C, 1/h. */
const META_PER_H = 0.2;
export const DECAY_PER_H = 0.6 / 24;
export const CARBON_PER_H = 0.15;
/** Fresh food and bodies are colonised over some twelve hours before they rot (trade and fault reports: ammonia after 12 to 24 h). */
const TURN_PER_H = 1 / 12;
/** Share of used organic carbon that becomes bacteria. */
export const YIELD = 0.4;
/** Half-saturations: ammonia and nitrite 0.2 mg N/L, oxygen 0.5 mg/L (docs/science.md#nitrification). */
const NITROGEN_HALF_MOL_KG = 0.2 / 14007 / 1.023;
export const OXYGEN_HALF_MG_L = 0.5;
/** Oxygen below which breathing falls in proportion, mg/L (docs/science.md#respiration). */
export const FISH_CRITICAL_MG_L = 1.6;
export const CORAL_CRITICAL_MG_L = 3.7;
/** Bacteria take at most what this share of the water brings to their film in an hour, however many they are. */
const FILM_PER_H = 4.5;
/**
 * Carbon follows the air no faster than this. In sea water the buffer holds it far below; in acid or nearly fresh water, where
 * all carbon is gas, a skimmer in a small chamber would exchange it several times in a step, and the step would overshoot.
 */
const FASTEST_PER_H = 4;
/** The second step of nitrification has a little more capacity than the first. */
export const NITRITE_SPEED = 1.3;
/** Skimming of waste, 1/h, while a skimmer works (0.2 a day). */
const SKIM_PER_H = 0.2 / 24;

/**
 * Adds the sources of one body to `out` (mol/h), given its amounts.
 *
 * @param amounts TRANSPORTED columns from `at` on; `massKg` the body's water then.
 */
export function addSources(
  twin: Twin,
  body: number,
  amounts: Float64Array,
  at: number,
  massKg: number,
  out: Float64Array,
): void {
  const { slow } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const perKg = 1 / Math.max(massKg, 1e-6);
  const oxygenMgL = oxygenOf(slow, s, amounts[at + O2] * perKg);
  const freeOxygen = freeShare(oxygenMgL);
  react(twin, body, amounts, at, perKg, out);
  breathe(twin, body, oxygenMgL, at, out);
  decay(slow, s, amounts, at, freeOxygen, out);
  nitrify(twin, body, amounts, at, massKg, freeOxygen, out);
}

/** Oxygen of a water, mg/L. Half-way through a step an amount can lie a little below nothing; what is not there is not used. */
function oxygenOf(slow: Float64Array, s: number, molKg: number): number {
  return Math.max(0, molKg * slow[s + SLOW.kgPerL] * O2_MG_PER_MOL);
}

/** How freely bacteria breathe, 0..1. */
function freeShare(oxygenMgL: number): number {
  return oxygenMgL / (oxygenMgL + OXYGEN_HALF_MG_L);
}

function bodyLever(twin: Twin, body: number, at: number): number {
  return twin.levers[twin.model.levers.base.body[body] + at];
}

/** What hangs on the pH: shells and the exchange of gas with the air. */
function react(twin: Twin, body: number, amounts: Float64Array, at: number, perKg: number, out: Float64Array): void {
  const { slow } = twin.scratch;
  const constants = twin.scratch.constants[body];
  const s = body * SLOW_COLUMNS;
  const dicKg = amounts[at + DIC] * perKg;
  const hydrogenAt = body * BODY_COLUMNS + HYDROGEN;
  const hydrogen = solveHydrogen(constants, amounts[at + TA] * perKg, dicKg, twin.bodies[hydrogenAt]);
  twin.bodies[hydrogenAt] = hydrogen;
  const shells = shellsMolH(twin, body, omegaAragonite(constants, amounts[at + CA] * perKg, dicKg, hydrogen));
  const co2Kg = co2FromHydrogen(constants, dicKg, hydrogen);
  const freelyKgH = slow[s + SLOW.carbonKgH];
  const carbonKgH = co2Kg > 0 ? Math.min(freelyKgH, (FASTEST_PER_H * dicKg) / (co2Kg * perKg)) : freelyKgH;
  out[at + O2] += slow[s + SLOW.oxygenKgH] * (slow[s + SLOW.oxygenSaturation] - amounts[at + O2] * perKg);
  out[at + DIC] +=
    carbonKgH * (slow[s + SLOW.co2Equilibrium] - co2Kg) - shells + bodyLever(twin, body, AT.body.carbonDioxideMolH);
  out[at + TA] -= 2 * shells;
  out[at + CA] -= (1 - MAGNESIUM_SHARE) * shells;
  out[at + MG] -= MAGNESIUM_SHARE * shells;
}

function shellsMolH(twin: Twin, body: number, omega: number): number {
  const { calcifyMolH } = twin.model.life[body];
  if (calcifyMolH === 0) return 0;
  const { slow } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const factor = calcificationFactor(omega, slow[s + SLOW.light], slow[s + SLOW.temperatureC]);
  return calcifyMolH * factor * bodyLever(twin, body, AT.body.calcify);
}

/** Oxygen uptake of all that breathes, which falls below the critical oxygen of each, and what light gives. */
function breathe(twin: Twin, body: number, oxygenMgL: number, at: number, out: Float64Array): void {
  const { slow } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const { fishO2MolH, benthosO2MolH, photoO2MolH } = twin.model.life[body];
  const fish = fishO2MolH * slow[s + SLOW.fishOxygen] * Math.min(1, oxygenMgL / FISH_CRITICAL_MG_L);
  const rest = benthosO2MolH * slow[s + SLOW.q10] * Math.min(1, oxygenMgL / CORAL_CRITICAL_MG_L);
  const breath = (fish + rest) * bodyLever(twin, body, AT.body.demand);
  const photo = photoO2MolH * slow[s + SLOW.light];
  out[at + O2] += photo - breath;
  out[at + DIC] += BREATH_QUOTIENT * breath - photo / PHOTO_QUOTIENT;
}

/** Food on its way through the fish, waste that rots or is skimmed, and organic carbon that bacteria use. */
function decay(
  slow: Float64Array,
  s: number,
  amounts: Float64Array,
  at: number,
  freeOxygen: number,
  out: Float64Array,
): void {
  const q10 = slow[s + SLOW.q10];
  const usedCarbon = CARBON_PER_H * q10 * freeOxygen * amounts[at + CARBON];
  const burned = usedCarbon * (1 - YIELD);
  const turned = TURN_PER_H * q10 * amounts[at + UNROTTED];
  const excreted = META_PER_H * q10 * amounts[at + META];
  const decayed = DECAY_PER_H * q10 * freeOxygen * amounts[at + ORGANIC];
  out[at + O2] -= OXYGEN_PER_N * decayed + burned;
  out[at + DIC] += CARBON_PER_N * decayed + burned;
  out[at + TA] += excreted + decayed;
  out[at + TAN] += excreted + decayed;
  out[at + PO4] += PHOSPHORUS_PER_N * (excreted + decayed);
  out[at + META] -= excreted;
  out[at + ORGANIC] += turned - decayed - slow[s + SLOW.skim] * SKIM_PER_H * amounts[at + ORGANIC];
  out[at + UNROTTED] -= turned;
  out[at + CARBON] -= usedCarbon;
}

/** Ammonia, or nitrite, at which the filter works at half its speed, mol in so much water. */
export function halfNitrogenMol(massKg: number): number {
  return NITROGEN_HALF_MOL_KG * massKg;
}

/** Nitrogen that the bacteria of a body can turn over in an hour, mol/h, given its oxygen (0..1). */
export function filterMolH(twin: Twin, body: number, halfMol: number, freeOxygen: number): number {
  const { nitrifyMolH } = twin.model.life[body];
  const q10 = twin.scratch.slow[body * SLOW_COLUMNS + SLOW.q10];
  const bacteria = nitrifyMolH * q10 * freeOxygen * bodyLever(twin, body, AT.body.filter);
  return Math.min(bacteria, FILM_PER_H * halfMol);
}

/** Ammonia to nitrite to nitrate, and what takes nitrate away. */
function nitrify(
  twin: Twin,
  body: number,
  amounts: Float64Array,
  at: number,
  massKg: number,
  freeOxygen: number,
  out: Float64Array,
): void {
  const halfMol = halfNitrogenMol(massKg);
  const filter = filterMolH(twin, body, halfMol, freeOxygen);
  const ammonia = Math.max(0, amounts[at + TAN]);
  const nitrite = Math.max(0, amounts[at + NO2]);
  const lost =
    twin.model.life[body].nitrateLossPerH * twin.scratch.slow[body * SLOW_COLUMNS + SLOW.q10] * amounts[at + NO3];
  toNitrite(out, at, (filter * ammonia) / (halfMol + ammonia));
  toNitrate(out, at, (filter * NITRITE_SPEED * nitrite) / (halfMol + nitrite));
  out[at + TA] += lost;
  out[at + NO3] -= lost;
}

export function toNitrite(out: Float64Array, at: number, mol: number): void {
  out[at + O2] -= 1.5 * mol;
  out[at + TA] -= 2 * mol;
  out[at + TAN] -= mol;
  out[at + NO2] += mol;
}

export function toNitrate(out: Float64Array, at: number, mol: number): void {
  out[at + O2] -= 0.5 * mol;
  out[at + NO2] -= mol;
  out[at + NO3] += mol;
}

/** Columns of what is stiff in a water: how fast a little more ammonia, nitrite, oxygen or carbon would go, 1/h. */
const AMMONIA_PER_H = 0;
const NITRITE_PER_H = 1;
export const OXYGEN_GAS_PER_H = 2;
export const CARBON_GAS_PER_H = 3;
/** How much more carbon dioxide a little more alkalinity draws in. */
export const CARBON_DRAWN_PER_H = 4;
export const STIFF = 5;

/**
 * How fast the fastest reactions of a body are now, into `out` from `to` on: with much filter and little ammonia nitrification, and
 * the exchange of gas with the air. A little more carbon raises CO2 by the Revelle factor more than its share, a little more
 * alkalinity lowers it (docs/science.md#carbonate-species).
 */
export function stiffness(
  twin: Twin,
  body: number,
  amounts: Float64Array,
  at: number,
  massKg: number,
  out: Float64Array,
  to: number,
): void {
  const { slow, constants } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const halfMol = halfNitrogenMol(massKg);
  const filter = filterMolH(twin, body, halfMol, freeShare(oxygenOf(slow, s, amounts[at + O2] / massKg)));
  const ammonia = halfMol + Math.max(0, amounts[at + TAN]);
  const nitrite = halfMol + Math.max(0, amounts[at + NO2]);
  const hydrogen = twin.bodies[body * BODY_COLUMNS + HYDROGEN];
  const dicKg = Math.max(0, amounts[at + DIC] / massKg);
  const share = co2FromHydrogen(constants[body], 1, hydrogen);
  const charge = carbonCharge(constants[body], hydrogen);
  const perBuffer = (dicKg * share * charge) / alkalinityBuffer(constants[body], dicKg, hydrogen);
  const gasPerH = (slow[s + SLOW.carbonKgH] * (share + perBuffer * charge)) / massKg;
  out[to + AMMONIA_PER_H] = (filter * halfMol) / (ammonia * ammonia);
  out[to + NITRITE_PER_H] = (filter * NITRITE_SPEED * halfMol) / (nitrite * nitrite);
  out[to + OXYGEN_GAS_PER_H] = slow[s + SLOW.oxygenKgH] / massKg;
  out[to + CARBON_GAS_PER_H] = Math.min(FASTEST_PER_H, gasPerH);
  out[to + CARBON_DRAWN_PER_H] = gasPerH > FASTEST_PER_H ? 0 : (slow[s + SLOW.carbonKgH] * perBuffer) / massKg;
}

/**
 * Counts nitrification as implicit in a slope `x` of one water, by their `perH` from `from` on: each moves all its columns in
 * proportion.
 */
export function solveReactions(x: Float64Array, at: number, perH: Float64Array, from: number, gH: number): void {
  const first = gH * perH[from + AMMONIA_PER_H];
  const second = gH * perH[from + NITRITE_PER_H];
  const ammonia = (first / (1 + first)) * x[at + TAN];
  toNitrite(x, at, ammonia);
  const nitrite = (second / (1 + second)) * x[at + NO2];
  toNitrate(x, at, nitrite);
}
