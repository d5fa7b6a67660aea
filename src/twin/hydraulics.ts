/**
 * What water a body holds and what the pumps move now, from the state and its levers. Sources: docs/science.md#plumbing.
 */
import { seawaterDensity } from "../science/index.ts";
import {
  BODY_COLUMNS,
  DEVICE_COLUMNS,
  DEVICE_RUNNING,
  FLOW_COLUMNS,
  FLOW_NOW,
  FLOW_SUCTION,
  HEAT,
  HEAT_CAPACITY,
  MASS,
  ROOM_COLUMNS,
  ROOM_FLOOR,
  ROOM_WET,
  SALT,
  SUCTION_FULL,
  SUCTION_GURGLING,
} from "./columns.ts";
import { AT } from "./levers.ts";
import { lookAtFloor } from "./look-soon.ts";
import type { PumpEdge, WeirEdge } from "./model.ts";
import { SAME_S } from "./moments.ts";
import { SLOW, SLOW_COLUMNS, type Twin, timeS } from "./state.ts";

/** Below this share of the intake volume a pump moves nothing. */
export const DRY_SHARE = 0.8;

/** Above this volume a pump that sucked air is free of it again, L. */
export function fullAgainL(intakeL: number): number {
  return intakeL * 1.1 + 1;
}

/** Within this a level is taken to be reached, L. */
export const LEVEL_TOLERANCE_L = 0.01;
/** A pump that sucks air moves this share of its rated flow until the water over its intake is back. */
const GURGLE_SHARE = 0.3;
/** Litres under which water on the floor is a splash. */
export const SPLASH_L = 0.1;
/** Masses are never divided by less, kg. */
const LEAST_KG = 1e-9;

export function volumeL(twin: Twin, body: number): number {
  return twin.bodies[body * BODY_COLUMNS + MASS] / kgPerL(twin, body);
}

export function kgPerL(twin: Twin, body: number): number {
  const known = twin.scratch.slow[body * SLOW_COLUMNS + SLOW.kgPerL];
  return Number.isNaN(known) ? densityNow(twin, body) : known;
}

/** Density before the first step after a restore, when hands may already move water, kg/L. */
function densityNow(twin: Twin, body: number): number {
  const at = body * BODY_COLUMNS;
  const massKg = Math.max(twin.bodies[at + MASS], 1e-6);
  const temperatureC = Math.min(45, Math.max(0, twin.bodies[at + HEAT] / (massKg * HEAT_CAPACITY)));
  return seawaterDensity(temperatureC, Math.min((1000 * twin.bodies[at + SALT]) / massKg, 45)) / 1000;
}

export function isRunning(twin: Twin, device: number): boolean {
  return twin.devices[device * DEVICE_COLUMNS + DEVICE_RUNNING] !== 0;
}

export function deviceLever(twin: Twin, device: number, at: number): number {
  return twin.levers[twin.model.levers.base.device[device] + at];
}

export function flowLever(twin: Twin, flow: number, at: number): number {
  return twin.levers[twin.model.levers.base.flow[flow] + at];
}

/** Water that a pump moves as of the last look at the levels, L/h. */
export function flowNow(twin: Twin, flow: number): number {
  return twin.flows[flow * FLOW_COLUMNS + FLOW_NOW];
}

/** Share of its rated effect that a device has now. */
export function outputOf(twin: Twin, device: number): number {
  return Math.max(0, deviceLever(twin, device, AT.device.output));
}

/** Water that a pump moves now, L/h. */
export function pumpFlow(twin: Twin, pump: PumpEdge): number {
  if (!isRunning(twin, pump.device) || flowLever(twin, pump.flow, AT.flow.shut) > 0) return 0;
  if (deviceLever(twin, pump.device, AT.device.idle) > 0) return 0;
  const suction = twin.flows[pump.flow * FLOW_COLUMNS + FLOW_SUCTION];
  const air = suction === SUCTION_FULL ? 1 : suction === SUCTION_GURGLING ? GURGLE_SHARE : 0;
  return pump.ratedLPerH * outputOf(twin, pump.device) * air;
}

/** What the drain of a weir can take, with its spare, L/h. */
export function drainCapacity(twin: Twin, weir: WeirEdge): number {
  return (
    weir.drainLPerH * flowLever(twin, weir.flow, AT.flow.drain) +
    weir.spareDrainLPerH * flowLever(twin, weir.flow, AT.flow.spareDrain)
  );
}

/** Moves water with all that is in it, at once. Both bodies keep their own concentrations but for the mixing. */
export function moveWater(twin: Twin, from: number, to: number, litres: number): void {
  const { bodies } = twin;
  const source = from * BODY_COLUMNS;
  const target = to * BODY_COLUMNS;
  const share = Math.min(1, (litres * kgPerL(twin, from)) / Math.max(bodies[source + MASS], LEAST_KG));
  for (let column = 0; column <= MASS; column++) {
    const part = bodies[source + column] * share;
    bodies[source + column] -= part;
    bodies[target + column] += part;
    twin.books?.moved(twin.model.systemOfBody[from], column, -part);
    twin.books?.moved(twin.model.systemOfBody[to], column, part);
  }
}

/** Water of a body leaves the place: to the floor of its room, or down a drain. */
export function loseWater(twin: Twin, system: number, body: number, litres: number, toFloor: boolean): void {
  const { bodies, books } = twin;
  const source = body * BODY_COLUMNS;
  const share = Math.min(1, (litres * kgPerL(twin, body)) / Math.max(bodies[source + MASS], LEAST_KG));
  for (let column = 0; column <= MASS; column++) {
    const part = bodies[source + column] * share;
    bodies[source + column] -= part;
    books?.moved(system, column, -part);
    if (column === MASS && toFloor) wetFloor(twin, body, part / kgPerL(twin, body), timeS(twin));
  }
}

/** Water on the floor of the room in which a body stands by `atS`; leak sensors are read as soon as it is more than a splash. */
export function wetFloor(twin: Twin, body: number, litres: number, atS: number): void {
  const room = twin.model.roomOfBody[body];
  const at = room * ROOM_COLUMNS;
  const wasDry = twin.rooms[at + ROOM_FLOOR] < SPLASH_L;
  twin.rooms[at + ROOM_FLOOR] += litres;
  if (!wasDry || twin.rooms[at + ROOM_FLOOR] < SPLASH_L) return;
  twin.rooms[at + ROOM_WET] = atS;
  lookAtFloor(twin, room, atS);
}

/** Whether a sensor on the floor of a room is wet. An island may have wetted the floor already at a time to come. */
export function isFloorWet(twin: Twin, room: number): boolean {
  const at = room * ROOM_COLUMNS;
  return twin.rooms[at + ROOM_FLOOR] >= SPLASH_L && twin.rooms[at + ROOM_WET] <= timeS(twin) + SAME_S;
}
