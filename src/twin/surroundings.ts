/** What goes on around the systems: rooms, batteries, and what fouls and fades. */
import {
  BODY_COLUMNS,
  CLOCK_ROOMS,
  CLOCK_SWITCH_ALL,
  HEAT,
  HEAT_CAPACITY,
  MASS,
  ROOM_AIR_C,
  ROOM_COLUMNS,
} from "./columns.ts";
import { isRunning } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import { stepBatteries } from "./loads.ts";
import { mainsUp } from "./power.ts";
import { stepRoom } from "./rooms.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

/** Rooms are so slow that they are moved on only so often, s. */
const ROOM_EVERY_S = 290;

/** Batteries and what creeps, over a stretch; the rooms when it is time. */
export function advanceSurroundings(twin: Twin, hours: number, toS: number): void {
  if (stepBatteries(twin, hours)) twin.clocks[CLOCK_SWITCH_ALL] = 1;
  creep(twin, hours);
  const sinceS = toS - twin.clocks[CLOCK_ROOMS];
  if (sinceS < ROOM_EVERY_S) return;
  twin.clocks[CLOCK_ROOMS] = toS;
  moveRooms(twin, sinceS / 3600);
}

function moveRooms(twin: Twin, hours: number): void {
  const { model, scratch } = twin;
  const { roomHeatW, roomVapourKgH } = scratch;
  roomHeatW.fill(0);
  roomVapourKgH.fill(0);
  for (const system of model.systems) {
    for (const body of system.waters) addWaterGains(twin, body);
    for (const device of system.devices)
      if (isRunning(twin, device)) roomHeatW[roomOfDevice(twin, device)] += model.site.devices[device].powerW;
  }
  const up = mainsUp(twin);
  for (let room = 0; room < model.site.rooms.length; room++)
    stepRoom(twin, room, hours, { heatW: roomHeatW[room], vapourKgH: roomVapourKgH[room] }, up);
  for (const system of model.systems) for (const store of system.stores) followRoom(twin, system.index, store);
}

/** A tank gives its room what it loses, less the power of its devices, which the room has already. */
function addWaterGains(twin: Twin, body: number): void {
  const { slow, roomHeatW, roomVapourKgH } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const room = twin.model.roomOfBody[body];
  roomHeatW[room] +=
    slow[s + SLOW.lossWPerK] * (slow[s + SLOW.temperatureC] - slow[s + SLOW.airC]) - slow[s + SLOW.heatW];
  roomVapourKgH[room] += slow[s + SLOW.evaporationKgH];
}

function roomOfDevice(twin: Twin, device: number): number {
  return twin.model.roomOfBody[twin.model.bodyOfDevice[device]] ?? 0;
}

/** Reservoirs and drums stand at the temperature of their room. */
function followRoom(twin: Twin, system: number, store: number): void {
  const at = store * BODY_COLUMNS;
  const airC = twin.rooms[twin.model.roomOfBody[store] * ROOM_COLUMNS + ROOM_AIR_C];
  const heatJ = twin.bodies[at + MASS] * HEAT_CAPACITY * airC;
  twin.books?.moved(system, HEAT, heatJ - twin.bodies[at + HEAT]);
  twin.bodies[at + HEAT] = heatJ;
}

/** Fouling and fading go on. */
function creep(twin: Twin, hours: number): void {
  const { levers } = twin;
  const base = twin.model.levers.base.device;
  for (let device = 0; device < base.length; device++) {
    const perDay = levers[base[device] + AT.device.outputPerDay];
    if (perDay === 0) continue;
    const at = base[device] + AT.device.output;
    levers[at] = Math.max(0, levers[at] + (perDay * hours) / 24);
  }
}
