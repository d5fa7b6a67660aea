/**
 * What happens inside one body: gas exchange, breathing, light, shells, bacteria, decay. Rates in mol/h per body, one body
 * at a time, from concentrations per kg. Every equation: docs/science.md.
 */
import {
  aragonitePrecipitationRate,
  calcificationFactor,
  co2FromHydrogen,
  omegaAragonite,
  solveHydrogen,
} from "../science/index.ts";
import {
  BODY_COLUMNS,
  CA,
  CARBON,
  DIC,
  HEAT,
  HEAT_CAPACITY,
  HYDROGEN,
  MASS,
  META,
  NO2,
  NO3,
  O2,
  ORGANIC,
  PO4,
  SOLID,
  TA,
  TAN,
  UNROTTED,
} from "./columns.ts";
import { AT } from "./levers.ts";
import type { BodyLife } from "./model.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

const O2_MG_PER_MOL = 31998.8;
/** Moles of O2 per mole of CO2 in photosynthesis and the inverse in breathing (science.md 5.1). */
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
/** Half-saturations: ammonia and nitrite 0.2 mg N/L, oxygen 0.5 mg/L. */
const NITROGEN_HALF_MOL_KG = 0.2 / 14007 / 1.023;
const OXYGEN_HALF_MG_L = 0.5;
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
  const { slow, constants } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const life = twin.model.life[body];
  const levers = twin.levers;
  const base = twin.model.levers.base.body[body];
  const perKg = 1 / Math.max(massKg, 1e-6);
  const oxygenKg = amounts[at + O2] * perKg;
  // Half-way through a step an amount can lie a little below nothing; what is not there is not used.
  const oxygenMgL = Math.max(0, oxygenKg * slow[s + SLOW.kgPerL] * O2_MG_PER_MOL);
  const dicKg = amounts[at + DIC] * perKg;
  const constant = constants[body];
  const hydrogen = solveHydrogen(
    constant,
    amounts[at + TA] * perKg,
    dicKg,
    twin.bodies[body * BODY_COLUMNS + HYDROGEN],
  );
  twin.bodies[body * BODY_COLUMNS + HYDROGEN] = hydrogen;
  const omega = omegaAragonite(constant, amounts[at + CA] * perKg, dicKg, hydrogen);

  heat(twin, body, amounts[at + HEAT], massKg, out, at);

  const q10 = slow[s + SLOW.q10];
  const light = slow[s + SLOW.light];
  const freeOxygen = oxygenMgL / (oxygenMgL + OXYGEN_HALF_MG_L);
  const breathing = breathe(life, slow[s + SLOW.fishOxygen], q10, oxygenMgL) * levers[base + AT.body.demand];
  const photo = life.photoO2MolH * light;
  const shells = shellsMolH(life, omega, light, slow[s + SLOW.temperatureC]) * levers[base + AT.body.calcify];
  const filter = Math.min(
    life.nitrifyMolH * q10 * freeOxygen * levers[base + AT.body.filter],
    FILM_PER_H * NITROGEN_HALF_MOL_KG * massKg,
  );
  const tanKg = Math.max(0, amounts[at + TAN] * perKg);
  const nitriteKg = Math.max(0, amounts[at + NO2] * perKg);
  const toNitrite = filter * (tanKg / (NITROGEN_HALF_MOL_KG + tanKg));
  const toNitrate = filter * NITRITE_SPEED * (nitriteKg / (NITROGEN_HALF_MOL_KG + nitriteKg));
  const excreted = META_PER_H * q10 * amounts[at + META];
  const decayed = DECAY_PER_H * q10 * freeOxygen * amounts[at + ORGANIC];
  const burned = CARBON_PER_H * q10 * freeOxygen * amounts[at + CARBON] * (1 - YIELD);
  const grown = CARBON_PER_H * q10 * freeOxygen * amounts[at + CARBON] * YIELD;
  const nitrateLost = life.nitrateLossPerH * q10 * amounts[at + NO3];
  const turned = TURN_PER_H * q10 * amounts[at + UNROTTED];
  const skim = slow[s + SLOW.skim] * SKIM_PER_H * amounts[at + ORGANIC];
  const gasOxygen = slow[s + SLOW.oxygenKgH] * (slow[s + SLOW.oxygenSaturation] - oxygenKg);
  const co2Kg = co2FromHydrogen(constant, dicKg, hydrogen);
  const carbonKgH =
    co2Kg > 0 ? Math.min(slow[s + SLOW.carbonKgH], (FASTEST_PER_H * massKg * dicKg) / co2Kg) : slow[s + SLOW.carbonKgH];
  const gasCarbon = carbonKgH * (slow[s + SLOW.co2Equilibrium] - co2Kg);

  out[at + O2] += photo - breathing - OXYGEN_PER_N * decayed - burned - 1.5 * toNitrite - 0.5 * toNitrate + gasOxygen;
  out[at + DIC] +=
    BREATH_QUOTIENT * breathing -
    photo / PHOTO_QUOTIENT +
    CARBON_PER_N * decayed +
    burned -
    shells +
    gasCarbon +
    levers[base + AT.body.carbonDioxideMolH];
  out[at + TA] += -2 * shells + excreted + decayed - 2 * toNitrite + nitrateLost;
  out[at + CA] -= shells;
  out[at + TAN] += excreted + decayed - toNitrite;
  out[at + NO2] += toNitrite - toNitrate;
  out[at + NO3] += toNitrate - nitrateLost;
  out[at + PO4] += PHOSPHORUS_PER_N * (excreted + decayed);
  out[at + META] -= excreted;
  out[at + ORGANIC] += turned - decayed - skim;
  out[at + UNROTTED] -= turned;
  out[at + CARBON] -= burned + grown;
}

function heat(twin: Twin, body: number, heatJ: number, massKg: number, out: Float64Array, at: number): void {
  const { slow } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const temperatureC = heatJ / (Math.max(massKg, 1e-6) * HEAT_CAPACITY);
  const dry = slow[s + SLOW.lossWPerK] * (temperatureC - slow[s + SLOW.airC]);
  out[at + HEAT] += 3600 * (slow[s + SLOW.heatW] - dry);
}

/** Oxygen uptake of all that breathes, mol/h; falls below the critical oxygen of each (science.md 6.6, 6.7). */
function breathe(life: BodyLife, fishFactor: number, q10: number, oxygenMgL: number): number {
  const fish = life.fishO2MolH * fishFactor * Math.min(1, oxygenMgL / FISH_CRITICAL_MG_L);
  const rest = life.benthosO2MolH * q10 * Math.min(1, oxygenMgL / CORAL_CRITICAL_MG_L);
  return fish + rest;
}

function shellsMolH(life: BodyLife, omega: number, light: number, temperatureC: number): number {
  if (life.calcifyMolH === 0) return 0;
  return life.calcifyMolH * calcificationFactor(omega, light, temperatureC);
}

/** Saturation above which crystals form by themselves while particles are about (Moras et al. 2022). */
const SEED_OMEGA = 7;
/** Saturation below which a shower of crystals ends (science.md 4.4). */
const END_OMEGA = 2;
/** Reactive surface of new crystals, m2 per mol (about 2 m2/g, half of it open). */
const CRYSTAL_M2_PER_MOL = 100;
/** Seed crystals, mol per litre and hour at twice the threshold. */
const SEED_MOL_L_H = 2e-6;
/** Rest of the new crystals that settles or is caught, 1/h. */
const SETTLE_PER_H = 0.3;

/**
 * Lets calcium carbonate fall out where the water is overcharged, over `hours`. Two alkalinity and one carbon go with each
 * calcium, so a shower ends below the alkalinity it began with. Substeps keep the run-away bounded by what is there.
 */
export function precipitate(twin: Twin, body: number, hours: number): number {
  const { bodies, scratch } = twin;
  const at = body * BODY_COLUMNS;
  const massKg = Math.max(bodies[at + MASS], 1e-6);
  const constant = scratch.constants[body];
  const temperatureC = scratch.slow[body * SLOW_COLUMNS + SLOW.temperatureC];
  let omega = omegaOf(bodies, at, massKg, constant);
  if (omega < SEED_OMEGA && bodies[at + SOLID] < 1e-9) return 0;
  let settled = 0;
  const steps = Math.max(1, Math.ceil(hours * 60));
  const dt = hours / steps;
  for (let step = 0; step < steps; step++) {
    if (omega > SEED_OMEGA)
      bodies[at + SOLID] += grow(twin, at, SEED_MOL_L_H * massKg * dt * ((omega - SEED_OMEGA) / SEED_OMEGA));
    if (omega > END_OMEGA) {
      const rate = aragonitePrecipitationRate(omega, temperatureC) * 1e-6 * CRYSTAL_M2_PER_MOL * bodies[at + SOLID];
      const most =
        0.1 * Math.min(bodies[at + CA], bodies[at + DIC], bodies[at + TA] / 2) * ((omega - END_OMEGA) / omega);
      bodies[at + SOLID] += grow(twin, at, Math.min(rate * dt, Math.max(0, most)));
    }
    const falls = bodies[at + SOLID] * Math.min(1, SETTLE_PER_H * dt);
    bodies[at + SOLID] -= falls;
    settled += falls;
    bodies[at + HYDROGEN] = solveHydrogen(
      constant,
      bodies[at + TA] / massKg,
      bodies[at + DIC] / massKg,
      bodies[at + HYDROGEN],
    );
    omega = omegaOf(bodies, at, massKg, constant);
  }
  return settled;
}

function omegaOf(bodies: Float64Array, at: number, massKg: number, constant: Float64Array): number {
  return omegaAragonite(constant, bodies[at + CA] / massKg, bodies[at + DIC] / massKg, bodies[at + HYDROGEN]);
}

function grow(twin: Twin, at: number, mol: number): number {
  twin.bodies[at + CA] -= mol;
  twin.bodies[at + DIC] -= mol;
  twin.bodies[at + TA] -= 2 * mol;
  return mol;
}
