/** What carries take out of reservoirs and containers over a step, and bring to others: exactly what was planned (plan-flows.ts). */
import { BODY_COLUMNS, HEAT, HEAT_CAPACITY, MASS, ROOM_AIR_C, ROOM_COLUMNS } from "./columns.ts";
import type { CarryEdge, SystemModel } from "./model.ts";
import type { Twin } from "./state.ts";

/** Columns of what a carry gives. */
export const GIFT = MASS + 1;

/** Moves what the carries of a system give in so many hours; what a body of water gets has been planned with its other flows. */
export function drawFromStores(twin: Twin, system: SystemModel, hours: number): void {
  const { localOfBody } = twin.model;
  for (const carry of system.carries) {
    const flow = twin.scratch.deviceFlow[carry.device];
    if (flow === 0) continue;
    const toStore = localOfBody[carry.to] < 0;
    if (carry.from >= 0) give(twin, system, carry, hours, toStore);
    else if (toStore) pourLineWater(twin, carry.to, flow * hours);
  }
}

function give(
  twin: Twin,
  system: SystemModel,
  { device, from, to, borrows }: CarryEdge,
  hours: number,
  toStore: boolean,
): void {
  const { bodies, books, model, scratch } = twin;
  for (let column = 0; column < GIFT; column++) {
    const amount = scratch.gifts[device * GIFT + column] * hours;
    bodies[from * BODY_COLUMNS + column] -= amount;
    if (toStore) bodies[to * BODY_COLUMNS + column] += amount;
    if (!borrows) continue;
    books?.moved(model.systemOfBody[from], column, -amount);
    books?.moved(system.index, column, amount);
  }
}

/** Water of the supply line brings the warmth of the room. */
function pourLineWater(twin: Twin, to: number, kg: number): void {
  const airC = twin.rooms[twin.model.roomOfBody[to] * ROOM_COLUMNS + ROOM_AIR_C];
  twin.bodies[to * BODY_COLUMNS + HEAT] += kg * HEAT_CAPACITY * airC;
  twin.bodies[to * BODY_COLUMNS + MASS] += kg;
}
