/** What carries take out of reservoirs and containers over a step. */
import { BODY_COLUMNS, HEAT, HEAT_CAPACITY, MASS, ROOM_AIR_C, ROOM_COLUMNS, TRANSPORTED } from "./columns.ts";
import type { CarryEdge, SystemModel } from "./model.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

/**
 * Each carry takes its share of what its store held before the step: what a body of water gets was planned from that, and what
 * goes into another store is set aside until every store has given.
 */
export function drawFromStores(twin: Twin, system: SystemModel, hours: number): void {
  const { scratch, bodies } = twin;
  for (const store of system.stores) scratch.given[store] = 0;
  for (const carry of system.carries) {
    const { device, from, to } = carry;
    if (scratch.deviceFlow[device] === 0) continue;
    const toStore = twin.model.localOfBody[to] < 0;
    if (from < 0) {
      if (toStore) setAsideLineWater(twin, to, scratch.deviceFlow[device] * hours);
    } else if (carry.borrows) takeBorrowed(twin, system, carry, hours, toStore);
    else {
      const kg = scratch.deviceFlow[device] * scratch.slow[from * SLOW_COLUMNS + SLOW.kgPerL] * hours;
      const share = kg / Math.max(bodies[from * BODY_COLUMNS + MASS], 1e-9);
      scratch.given[from] += share;
      if (toStore) setAside(twin, from, to, share);
    }
  }
  for (const store of system.stores) if (needsSettling(twin, store)) settleStore(twin, store, hours);
}

function setAside(twin: Twin, from: number, to: number, share: number): void {
  const { poured } = twin.scratch;
  for (let column = 0; column < TRANSPORTED; column++)
    poured[to * TRANSPORTED + column] += twin.bodies[from * BODY_COLUMNS + column] * share;
}

/** Water of the supply line brings the warmth of the room. */
function setAsideLineWater(twin: Twin, to: number, kg: number): void {
  const airC = twin.rooms[twin.model.roomOfBody[to] * ROOM_COLUMNS + ROOM_AIR_C];
  twin.scratch.poured[to * TRANSPORTED + HEAT] += kg * HEAT_CAPACITY * airC;
}

/** Out of the store of another system, exactly what was planned: that store may have changed since. */
function takeBorrowed(
  twin: Twin,
  system: SystemModel,
  { device, from, to }: CarryEdge,
  hours: number,
  toStore: boolean,
): void {
  const { borrowed, poured } = twin.scratch;
  const owner = twin.model.systemOfBody[from];
  for (let column = 0; column <= MASS; column++) {
    const amount = borrowed[device * (MASS + 1) + column] * hours;
    twin.bodies[from * BODY_COLUMNS + column] -= amount;
    twin.books?.moved(owner, column, -amount);
    twin.books?.moved(system.index, column, amount);
    if (toStore && column < TRANSPORTED) poured[to * TRANSPORTED + column] += amount;
  }
}

/** Most stores neither give nor take in a step. */
function needsSettling(twin: Twin, store: number): boolean {
  const { given, netKgH } = twin.scratch;
  return given[store] !== 0 || netKgH[store] !== 0;
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
  bodies[at + MASS] = Math.max(0, bodies[at + MASS] + netKgH[store] * hours);
}
