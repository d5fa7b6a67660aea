/** The true water of a body in the units of the trade, from its amounts. */
import { BODY_COLUMNS, HYDROGEN, MASS, O2, ORGANIC, TA, TAN } from "./columns.ts";
import { DKH_TO_EQ_PER_L } from "./life.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

const O2_MG_PER_MOL = 31998.8;
const N_MG_PER_MOL = 14_007;

export function temperatureC(twin: Twin, body: number): number {
  return twin.scratch.slow[body * SLOW_COLUMNS + SLOW.temperatureC];
}

/** g of salt per kg of water. */
export function salinity(twin: Twin, body: number): number {
  return twin.scratch.slow[body * SLOW_COLUMNS + SLOW.salinity];
}

/** An amount per kg of water, in the unit of its column. */
export function perKg(twin: Twin, body: number, column: number): number {
  return twin.bodies[body * BODY_COLUMNS + column] / Math.max(twin.bodies[body * BODY_COLUMNS + MASS], 1e-6);
}

export function oxygenMgL(twin: Twin, body: number): number {
  // A step may end a trace below nothing.
  return Math.max(0, perKg(twin, body, O2)) * twin.scratch.slow[body * SLOW_COLUMNS + SLOW.kgPerL] * O2_MG_PER_MOL;
}

/** pH on the total scale. */
export function phTotal(twin: Twin, body: number): number {
  return -Math.log10(Math.max(twin.bodies[body * BODY_COLUMNS + HYDROGEN], 1e-14));
}

export function alkalinityDKH(twin: Twin, body: number): number {
  return (perKg(twin, body, TA) * twin.scratch.slow[body * SLOW_COLUMNS + SLOW.kgPerL]) / DKH_TO_EQ_PER_L;
}

/** Ammonia and ammonium together, mg of nitrogen per litre. */
export function ammoniaMgNL(twin: Twin, body: number): number {
  return perKg(twin, body, TAN) * twin.scratch.slow[body * SLOW_COLUMNS + SLOW.kgPerL] * N_MG_PER_MOL;
}

/**
 * Redox as a keeper's probe would show it, mV: falls with decay and with lack of oxygen. A stand-in for an index that no model
 * predicts; its figures are a guess.
 */
export function orpMv(twin: Twin, body: number): number {
  const waste = perKg(twin, body, ORGANIC) * 1e6;
  return 380 - 60 * Math.log10(1 + waste / 5) - 120 * Math.max(0, 1 - oxygenMgL(twin, body) / 5);
}
