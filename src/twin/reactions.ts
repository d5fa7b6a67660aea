/**
 * What happens inside one body: gas exchange, breathing, light, shells, bacteria, decay. Rates in mol/h per body, one body
 * at a time, from concentrations per kg. Every equation: docs/science.md.
 */
import { calcificationFactor, co2FromHydrogen, omegaAragonite, solveHydrogen } from "../science/index.ts";
import {
  BODY_COLUMNS,
  CA,
  CARBON,
  DIC,
  HEAT,
  HEAT_CAPACITY,
  HYDROGEN,
  META,
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
import {
  BREATHING,
  BURNED,
  DECAYED,
  EXCRETED,
  GAS_CARBON,
  GAS_OXYGEN,
  GROWN,
  NITRATE_LOST,
  PHOTO,
  SHELLS,
  SKIMMED,
  TO_NITRATE,
  TO_NITRITE,
  TURNED,
} from "./rates.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

const O2_MG_PER_MOL = 31998.8;
/** Moles of O2 per mole of CO2 in photosynthesis and the inverse in breathing (docs/science.md#respiration). */
const PHOTO_QUOTIENT = 1.1;
const BREATH_QUOTIENT = 0.95;
/** Carbon and oxygen that go with one mole of nitrogen in decaying matter (Redfield, without nitrification). */
const CARBON_PER_N = 6.6;
const OXYGEN_PER_N = 6.6;
const PHOSPHORUS_PER_N = 1 / 16;
/** Rates at 26 degrees C, 1/h. */
const META_PER_H = 0.2;
const DECAY_PER_H = 0.6 / 24;
const CARBON_PER_H = 0.15;
/** Fresh food and bodies are colonised over some twelve hours before they rot (trade and fault reports: ammonia after 12 to 24 h). */
const TURN_PER_H = 1 / 12;
/** Share of used organic carbon that becomes bacteria. */
const YIELD = 0.4;
/** Half-saturations: ammonia and nitrite 0.2 mg N/L, oxygen 0.5 mg/L (docs/science.md#nitrification). */
const NITROGEN_HALF_MOL_KG = 0.2 / 14007 / 1.023;
const OXYGEN_HALF_MG_L = 0.5;
/** Oxygen below which breathing falls in proportion, mg/L (docs/science.md#respiration). */
const FISH_CRITICAL_MG_L = 1.6;
const CORAL_CRITICAL_MG_L = 3.7;
/** Bacteria take at most what this share of the water brings to their film in an hour, however many they are. */
const FILM_PER_H = 4.5;
/**
 * Carbon follows the air no faster than this. In sea water the buffer holds it far below; in acid or nearly fresh water, where
 * all carbon is gas, a skimmer in a small chamber would exchange it several times in a step.
 */
const FASTEST_PER_H = 6;
/** The second step of nitrification has a little more capacity than the first. */
const NITRITE_SPEED = 1.3;
/** Skimming of waste, 1/h, while a skimmer works (0.2 a day). */
const SKIM_PER_H = 0.2 / 24;

/**
 * Adds the sources of one body to `out` (mol/h, J/h), given its amounts.
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
  const perKg = 1 / Math.max(massKg, 1e-6);
  const kgPerL = twin.scratch.slow[body * SLOW_COLUMNS + SLOW.kgPerL];
  // Half-way through a step an amount can lie a little below nothing; what is not there is not used.
  const oxygenMgL = Math.max(0, amounts[at + O2] * perKg * kgPerL * O2_MG_PER_MOL);
  out[at + HEAT] += heatJPerH(twin, body, amounts[at + HEAT], massKg);
  react(twin, body, amounts, at, massKg);
  breathe(twin, body, oxygenMgL);
  decay(twin, body, amounts, at, oxygenMgL / (oxygenMgL + OXYGEN_HALF_MG_L));
  nitrify(twin, body, amounts, at, massKg, oxygenMgL / (oxygenMgL + OXYGEN_HALF_MG_L));
  addUp(twin.scratch.rates, bodyLever(twin, body, AT.body.carbonDioxideMolH), at, out);
}

function bodyLever(twin: Twin, body: number, at: number): number {
  return twin.levers[twin.model.levers.base.body[body] + at];
}

/** Devices and sun less what is lost through walls and dry surface; evaporation goes with the water. */
function heatJPerH(twin: Twin, body: number, heatJ: number, massKg: number): number {
  const { slow } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const temperatureC = heatJ / (Math.max(massKg, 1e-6) * HEAT_CAPACITY);
  const dryW = slow[s + SLOW.lossWPerK] * (temperatureC - slow[s + SLOW.airC]);
  return 3600 * (slow[s + SLOW.heatW] - dryW);
}

/** What hangs on the pH: shells and the exchange of gas with the air. */
function react(twin: Twin, body: number, amounts: Float64Array, at: number, massKg: number): void {
  const { slow, constants, rates } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const perKg = 1 / Math.max(massKg, 1e-6);
  const dicKg = amounts[at + DIC] * perKg;
  const hydrogenAt = body * BODY_COLUMNS + HYDROGEN;
  const hydrogen = solveHydrogen(constants[body], amounts[at + TA] * perKg, dicKg, twin.bodies[hydrogenAt]);
  twin.bodies[hydrogenAt] = hydrogen;
  rates[SHELLS] = shellsMolH(twin, body, omegaAragonite(constants[body], amounts[at + CA] * perKg, dicKg, hydrogen));
  rates[GAS_OXYGEN] = slow[s + SLOW.oxygenKgH] * (slow[s + SLOW.oxygenSaturation] - amounts[at + O2] * perKg);
  const co2Kg = co2FromHydrogen(constants[body], dicKg, hydrogen);
  const freelyKgH = slow[s + SLOW.carbonKgH];
  const carbonKgH = co2Kg > 0 ? Math.min(freelyKgH, (FASTEST_PER_H * massKg * dicKg) / co2Kg) : freelyKgH;
  rates[GAS_CARBON] = carbonKgH * (slow[s + SLOW.co2Equilibrium] - co2Kg);
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
function breathe(twin: Twin, body: number, oxygenMgL: number): void {
  const { slow, rates } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const life = twin.model.life[body];
  const fish = life.fishO2MolH * slow[s + SLOW.fishOxygen] * Math.min(1, oxygenMgL / FISH_CRITICAL_MG_L);
  const rest = life.benthosO2MolH * slow[s + SLOW.q10] * Math.min(1, oxygenMgL / CORAL_CRITICAL_MG_L);
  rates[BREATHING] = (fish + rest) * bodyLever(twin, body, AT.body.demand);
  rates[PHOTO] = life.photoO2MolH * slow[s + SLOW.light];
}

/** Food on its way through the fish, waste that rots or is skimmed, and organic carbon that bacteria use. */
function decay(twin: Twin, body: number, amounts: Float64Array, at: number, freeOxygen: number): void {
  const { slow, rates } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const q10 = slow[s + SLOW.q10];
  const usedCarbon = CARBON_PER_H * q10 * freeOxygen * amounts[at + CARBON];
  rates[TURNED] = TURN_PER_H * q10 * amounts[at + UNROTTED];
  rates[EXCRETED] = META_PER_H * q10 * amounts[at + META];
  rates[DECAYED] = DECAY_PER_H * q10 * freeOxygen * amounts[at + ORGANIC];
  rates[BURNED] = usedCarbon * (1 - YIELD);
  rates[GROWN] = usedCarbon * YIELD;
  rates[SKIMMED] = slow[s + SLOW.skim] * SKIM_PER_H * amounts[at + ORGANIC];
}

function nitrify(
  twin: Twin,
  body: number,
  amounts: Float64Array,
  at: number,
  massKg: number,
  freeOxygen: number,
): void {
  const { slow, rates } = twin.scratch;
  const life = twin.model.life[body];
  const q10 = slow[body * SLOW_COLUMNS + SLOW.q10];
  const perKg = 1 / Math.max(massKg, 1e-6);
  const bacteria = life.nitrifyMolH * q10 * freeOxygen * bodyLever(twin, body, AT.body.filter);
  const filter = Math.min(bacteria, FILM_PER_H * NITROGEN_HALF_MOL_KG * massKg);
  const tanKg = Math.max(0, amounts[at + TAN] * perKg);
  const nitriteKg = Math.max(0, amounts[at + NO2] * perKg);
  rates[TO_NITRITE] = filter * (tanKg / (NITROGEN_HALF_MOL_KG + tanKg));
  rates[TO_NITRATE] = filter * NITRITE_SPEED * (nitriteKg / (NITROGEN_HALF_MOL_KG + nitriteKg));
  rates[NITRATE_LOST] = life.nitrateLossPerH * q10 * amounts[at + NO3];
}

/** Every rate moves several columns, in the proportions of its reaction; `gasedMolH` is CO2 that is bubbled in. */
function addUp(rates: Float64Array, gasedMolH: number, at: number, out: Float64Array): void {
  out[at + O2] +=
    rates[PHOTO] -
    rates[BREATHING] -
    OXYGEN_PER_N * rates[DECAYED] -
    rates[BURNED] -
    1.5 * rates[TO_NITRITE] -
    0.5 * rates[TO_NITRATE] +
    rates[GAS_OXYGEN];
  out[at + DIC] +=
    BREATH_QUOTIENT * rates[BREATHING] -
    rates[PHOTO] / PHOTO_QUOTIENT +
    CARBON_PER_N * rates[DECAYED] +
    rates[BURNED] -
    rates[SHELLS] +
    rates[GAS_CARBON] +
    gasedMolH;
  out[at + TA] += -2 * rates[SHELLS] + rates[EXCRETED] + rates[DECAYED] - 2 * rates[TO_NITRITE] + rates[NITRATE_LOST];
  out[at + CA] -= rates[SHELLS];
  out[at + TAN] += rates[EXCRETED] + rates[DECAYED] - rates[TO_NITRITE];
  out[at + NO2] += rates[TO_NITRITE] - rates[TO_NITRATE];
  out[at + NO3] += rates[TO_NITRATE] - rates[NITRATE_LOST];
  out[at + PO4] += PHOSPHORUS_PER_N * (rates[EXCRETED] + rates[DECAYED]);
  out[at + META] -= rates[EXCRETED];
  out[at + ORGANIC] += rates[TURNED] - rates[DECAYED] - rates[SKIMMED];
  out[at + UNROTTED] -= rates[TURNED];
  out[at + CARBON] -= rates[BURNED] + rates[GROWN];
}
