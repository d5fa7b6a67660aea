/** What goes on around the systems: rooms, and what fouls and fades. */
import { firstAfter } from "../foundation/index.ts";
import { BODY_COLUMNS, CLOCK_ROOMS, HEAT, HEAT_CAPACITY, MASS, ROOM_AIR_C, ROOM_COLUMNS } from "./columns.ts";
import { isRunning } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import { nextMarkS } from "./look-soon.ts";
import type { SystemModel } from "./model.ts";
import { mainsUp } from "./power.ts";
import { stepRoom } from "./rooms.ts";
import { SLOW, SLOW_COLUMNS, type Twin, timeS } from "./state.ts";

/** When the air of the rooms is moved on next, s: at the next mark, or where people come or the heating is set back. */
export function nextRoomS(twin: Twin): number {
  const { roomEdges } = twin.scratch;
  const edgeS = roomEdges[firstAfter(roomEdges, timeS(twin))] ?? Number.POSITIVE_INFINITY;
  return Math.min(nextMarkS(twin), edgeS);
}

/** Moves the air of all rooms on to now, by what the systems give them. */
export function moveRooms(twin: Twin): void {
  const { model } = twin;
  const rooms = model.site.rooms.length;
  const nowS = timeS(twin);
  const hours = (nowS - twin.clocks[CLOCK_ROOMS]) / 3600;
  twin.clocks[CLOCK_ROOMS] = nowS;
  for (const system of model.systems) findGains(twin, system);
  twin.gains?.note(nowS, twin.scratch.roomHeatW, twin.scratch.roomVapourKgH);
  const up = mainsUp(twin);
  for (let room = 0; room < rooms; room++) stepRoom(twin, room, hours, gainsOf(twin, room), up);
  for (const system of model.systems)
    if (twin.active[system.index] > 0) for (const store of system.stores) followRoom(twin, system.index, store);
}

/** What all systems together give to a room. */
function gainsOf({ model, scratch }: Twin, room: number) {
  let heatW = 0;
  let vapourKgH = 0;
  for (const { index } of model.systems) {
    const at = index * model.site.rooms.length + room;
    heatW += scratch.roomHeatW[at];
    vapourKgH += scratch.roomVapourKgH[at];
  }
  return { heatW, vapourKgH };
}

/** What a system gives to each room now: as it is, or where it is not simulated as it was in normal life. */
function findGains(twin: Twin, system: SystemModel): void {
  const { model, scratch } = twin;
  const rooms = model.site.rooms.length;
  const from = system.index * rooms;
  if (twin.active[system.index] === 0 && twin.elsewhere !== null) {
    twin.elsewhere.recall(timeS(twin), from, from + rooms, scratch.roomHeatW, scratch.roomVapourKgH);
    return;
  }
  for (let room = 0; room < rooms; room++) scratch.roomHeatW[from + room] = scratch.roomVapourKgH[from + room] = 0;
  for (const body of system.waters) addWaterGains(twin, from, body);
  for (const device of system.devices)
    if (isRunning(twin, device))
      scratch.roomHeatW[from + roomOfDevice(twin, device)] += model.site.devices[device].powerW;
}

/** A tank gives its room what it loses, less the power of its devices, which the room has already. */
function addWaterGains(twin: Twin, from: number, body: number): void {
  const { slow, roomHeatW, roomVapourKgH } = twin.scratch;
  const s = body * SLOW_COLUMNS;
  const at = from + twin.model.roomOfBody[body];
  roomHeatW[at] +=
    slow[s + SLOW.lossWPerK] * (slow[s + SLOW.temperatureC] - slow[s + SLOW.airC]) - slow[s + SLOW.heatW];
  roomVapourKgH[at] += slow[s + SLOW.evaporationKgH];
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
export function creep(twin: Twin, hours: number): void {
  const { levers } = twin;
  const base = twin.model.levers.base.device;
  for (let device = 0; device < base.length; device++) {
    const perDay = levers[base[device] + AT.device.outputPerDay];
    if (perDay === 0) continue;
    const at = base[device] + AT.device.output;
    levers[at] = Math.max(0, levers[at] + (perDay * hours) / 24);
  }
}
