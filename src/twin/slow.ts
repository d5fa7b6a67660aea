/**
 * Quantities of a body that hardly move within a step: its temperature, density and constants, and what acts on it from
 * around. Worked out once a step. Sources: docs/science.md#seawater, #carbonate-constants.
 */
import { CARBONATE_SIZE, carbonateConstants, oxygenSaturation, seawaterDensity } from "../science/index.ts";
import { updateAround, updateHeat } from "./around.ts";
import { BODY_COLUMNS, HEAT, HEAT_CAPACITY, MASS, SALT } from "./columns.ts";
import type { SystemModel } from "./model.ts";
import type { KnownWater } from "./scratch.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

/** Constants are worked out for the water rounded to this, so that they follow from the state alone and not from the way there. */
const REFRESH_K = 0.05;
const REFRESH_S = 0.05;
/** The laws hold up to these; water beyond counts as water there. */
const WARMEST_C = 45;
const SALTIEST = 45;
/** Rounded waters are numbered: steps of temperature times this, plus steps of salinity. */
const STEPS_APART = 1000;
/** So many waters are kept in mind; when there are more, all are worked out anew. */
const MOST_KNOWN = 10_000;
/** Rates are known at this temperature, degrees C; those of life double with 10 K, those of fish grow by the other. */
const USUAL_C = 26;
const LIFE_Q10 = 2;
const FISH_Q10 = 2.4;

/** Temperature and salinity only: what a step has just changed. */
export function updateWaters(twin: Twin, system: SystemModel): void {
  for (const body of system.waters) updateWater(twin, body);
}

export function updateSlow(twin: Twin, system: SystemModel): void {
  for (const body of system.bodies) updateWater(twin, body);
  for (const around of system.around) updateAround(twin, around);
}

/** What heats the waters of a system, after a heater has switched. */
export function updateHeating(twin: Twin, system: SystemModel): void {
  for (const around of system.around) updateHeat(twin, around);
}

function updateWater(twin: Twin, body: number): void {
  const { bodies, scratch } = twin;
  const at = body * BODY_COLUMNS;
  const s = body * SLOW_COLUMNS;
  const massKg = Math.max(bodies[at + MASS], 1e-6);
  const temperatureC = bodies[at + HEAT] / (massKg * HEAT_CAPACITY);
  const salinity = (1000 * bodies[at + SALT]) / massKg;
  scratch.slow[s + SLOW.temperatureC] = temperatureC;
  scratch.slow[s + SLOW.salinity] = salinity;
  const stepsC = clamp(Math.round(temperatureC / REFRESH_K), 0, WARMEST_C / REFRESH_K);
  const stepsS = Math.min(Math.round(salinity / REFRESH_S), SALTIEST / REFRESH_S);
  const number = stepsC * STEPS_APART + stepsS;
  if (number !== scratch.slow[s + SLOW.roundedWater]) updateChemistry(twin, body, stepsC, stepsS, number);
}

function updateChemistry(twin: Twin, body: number, stepsC: number, stepsS: number, number: number): void {
  const { slow, constants, waters } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  let water = waters.get(number);
  if (water === undefined) {
    water = knowWater(stepsC * REFRESH_K, stepsS * REFRESH_S);
    if (waters.size >= MOST_KNOWN) waters.clear();
    waters.set(number, water);
  }
  constants[body] = water.constants;
  slow[s + SLOW.roundedWater] = number;
  slow[s + SLOW.kgPerL] = water.kgPerL;
  slow[s + SLOW.oxygenSaturation] = water.oxygenSaturation;
  slow[s + SLOW.q10] = water.q10;
  slow[s + SLOW.fishOxygen] = water.fishOxygen;
}

function knowWater(temperatureC: number, salinity: number): KnownWater {
  const constants = new Float64Array(CARBONATE_SIZE);
  carbonateConstants(temperatureC, salinity, constants);
  return {
    constants,
    kgPerL: seawaterDensity(temperatureC, salinity) / 1000,
    oxygenSaturation: oxygenSaturation(temperatureC, salinity) * 1e-6,
    q10: LIFE_Q10 ** ((temperatureC - USUAL_C) / 10),
    fishOxygen: FISH_Q10 ** ((temperatureC - USUAL_C) / 10),
  };
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}
