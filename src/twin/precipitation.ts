/** Calcium carbonate that falls out of overcharged water. Sources: docs/science.md#precipitation. */
import { aragonitePrecipitationRate, omegaAragonite, solveHydrogen } from "../science/index.ts";
import { BODY_COLUMNS, CA, DIC, HYDROGEN, MASS, SOLID, TA } from "./columns.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

/** Saturation above which crystals form by themselves while particles are about (Moras et al. 2022). */
const SEED_OMEGA = 7;
/** Saturation below which a shower of crystals ends (docs/science.md#precipitation). */
const END_OMEGA = 2;
/** Reactive surface of new crystals, m2 per mol (about 2 m2/g, half of it open). */
const CRYSTAL_M2_PER_MOL = 100;
/** Seed crystals, mol per litre and hour at twice the threshold. */
const SEED_MOL_L_H = 2e-6;
/** Part of the new crystals that settles or is caught, 1/h. */
const SETTLE_PER_H = 0.3;
/** Under this much nothing floats about, mol. */
const NOTHING_MOL = 1e-9;
/** Substeps of a shower, and where no new crystals form and the old grow little more than they settle, 1/h. */
const SUBSTEPS_PER_H = 60;
const CALM_SUBSTEPS_PER_H = 6;
/** The part of what is there that may fall in one. */
const MOST_SHARE = 0.1;

/**
 * Lets calcium carbonate fall out where the water is overcharged, over `hours`. Two alkalinity
 * and one carbon go with each calcium, so a shower ends below the alkalinity it began with. Substeps keep the run-away
 * bounded by what is there.
 */
export function precipitate(twin: Twin, body: number, hours: number): void {
  const { bodies } = twin;
  const at = body * BODY_COLUMNS;
  let omega = omegaOf(twin, body);
  if (omega < SEED_OMEGA && bodies[at + SOLID] < NOTHING_MOL) return;
  const steps = Math.max(1, Math.ceil(hours * (omega < SEED_OMEGA ? CALM_SUBSTEPS_PER_H : SUBSTEPS_PER_H)));
  const dt = hours / steps;
  for (let step = 0; step < steps; step++) {
    if (omega > SEED_OMEGA) seed(twin, body, omega, dt);
    if (omega > END_OMEGA) growCrystals(twin, body, omega, dt);
    settle(twin, body, dt);
    updateHydrogen(twin, body);
    omega = omegaOf(twin, body);
  }
}

function massOf(twin: Twin, body: number): number {
  return Math.max(twin.bodies[body * BODY_COLUMNS + MASS], 1e-6);
}

function omegaOf(twin: Twin, body: number): number {
  const { bodies, scratch } = twin;
  const at = body * BODY_COLUMNS;
  const massKg = massOf(twin, body);
  return omegaAragonite(
    scratch.constants[body],
    bodies[at + CA] / massKg,
    bodies[at + DIC] / massKg,
    bodies[at + HYDROGEN],
  );
}

/** Solves the pH of a body as it is now. */
export function updateHydrogen(twin: Twin, body: number): void {
  const { bodies, scratch } = twin;
  const at = body * BODY_COLUMNS;
  const massKg = massOf(twin, body);
  bodies[at + HYDROGEN] = solveHydrogen(
    scratch.constants[body],
    bodies[at + TA] / massKg,
    bodies[at + DIC] / massKg,
    bodies[at + HYDROGEN],
  );
}

function seed(twin: Twin, body: number, omega: number, hours: number): void {
  fall(twin, body, SEED_MOL_L_H * massOf(twin, body) * hours * ((omega - SEED_OMEGA) / SEED_OMEGA));
}

function growCrystals(twin: Twin, body: number, omega: number, hours: number): void {
  const { bodies, scratch } = twin;
  const at = body * BODY_COLUMNS;
  const temperatureC = scratch.slow[body * SLOW_COLUMNS + SLOW.temperatureC];
  const rate = aragonitePrecipitationRate(omega, temperatureC) * 1e-6 * CRYSTAL_M2_PER_MOL * bodies[at + SOLID];
  const there = Math.min(bodies[at + CA], bodies[at + DIC], bodies[at + TA] / 2);
  fall(twin, body, Math.min(rate * hours, Math.max(0, MOST_SHARE * there * ((omega - END_OMEGA) / omega))));
}

function settle(twin: Twin, body: number, hours: number): void {
  const at = body * BODY_COLUMNS + SOLID;
  const mol = twin.bodies[at] * Math.min(1, SETTLE_PER_H * hours);
  twin.bodies[at] -= mol;
  twin.books?.settled(body, mol);
}

/** Moles of calcium carbonate become crystals. */
function fall(twin: Twin, body: number, mol: number): void {
  const { bodies } = twin;
  const at = body * BODY_COLUMNS;
  bodies[at + CA] -= mol;
  bodies[at + DIC] -= mol;
  bodies[at + TA] -= 2 * mol;
  bodies[at + SOLID] += mol;
}
