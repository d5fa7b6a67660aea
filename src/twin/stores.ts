/** What carries take out of reservoirs and containers over a step. */
import { BODY_COLUMNS, MASS, TRANSPORTED } from "./columns.ts";
import type { SystemModel } from "./model.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

/** What is left in an empty store, kg. */
const LEAST_KG = 1e-6;

/**
 * Each carry takes its share of what its store held before the step: what a body of water gets was planned from that, and what
 * goes into another store is set aside until every store has given.
 */
export function drawFromStores(twin: Twin, system: SystemModel, hours: number): void {
  const { scratch, bodies } = twin;
  for (const store of system.stores) scratch.given[store] = 0;
  for (const { device, from, to } of system.carries) {
    if (from < 0 || scratch.deviceFlow[device] === 0) continue;
    const kg = scratch.deviceFlow[device] * scratch.slow[from * SLOW_COLUMNS + SLOW.kgPerL] * hours;
    const share = kg / Math.max(bodies[from * BODY_COLUMNS + MASS], 1e-9);
    scratch.given[from] += share;
    if (twin.model.localOfBody[to] < 0) setAside(twin, from, to, share);
  }
  for (const store of system.stores) if (needsSettling(twin, store)) settleStore(twin, store, hours);
}

function setAside(twin: Twin, from: number, to: number, share: number): void {
  const { poured } = twin.scratch;
  for (let column = 0; column < TRANSPORTED; column++)
    poured[to * TRANSPORTED + column] += twin.bodies[from * BODY_COLUMNS + column] * share;
}

/** Most stores neither give nor take in a step. */
function needsSettling(twin: Twin, store: number): boolean {
  const { given, netKgH } = twin.scratch;
  return given[store] !== 0 || netKgH[store] !== 0 || twin.bodies[store * BODY_COLUMNS + MASS] < LEAST_KG;
}

function settleStore(twin: Twin, store: number, hours: number): void {
  const { bodies, scratch } = twin;
  const { given, poured, netKgH } = scratch;
  const at = store * BODY_COLUMNS;
  const left = Math.max(0, 1 - given[store]);
  for (let column = 0; column < TRANSPORTED; column++) {
    bodies[at + column] = bodies[at + column] * left + poured[store * TRANSPORTED + column];
    poured[store * TRANSPORTED + column] = 0;
  }
  bodies[at + MASS] = Math.max(LEAST_KG, bodies[at + MASS] + netKgH[store] * hours);
}
