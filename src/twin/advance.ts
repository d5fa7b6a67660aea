/**
 * The course of time: from one moment at which something may switch to the next, all systems together.
 */
import {
  BODY_COLUMNS,
  CA,
  CLOCK_ROOMS,
  DEVICE_COLUMNS,
  DEVICE_RUNNING,
  DIC,
  HEAT,
  HEAT_CAPACITY,
  LEDGER_COLUMNS,
  MASS,
  ROOM_AIR_C,
  ROOM_COLUMNS,
  TA,
  TRANSPORTED,
} from "./columns.ts";
import { runHabits } from "./habits.ts";
import { updateHarm } from "./harm.ts";
import { look, lookSoon } from "./hub.ts";
import { deviceLever, hoursToLevel, isRunning, outputOf, planFlows, settleLevels } from "./hydraulics.ts";
import { stepSystem } from "./integrate.ts";
import { AT } from "./levers.ts";
import type { SystemModel } from "./model.ts";
import { hoursToEmptyBattery, mainsUp, stepBatteries, tripCircuits } from "./power.ts";
import { stepRoom } from "./rooms.ts";
import { updateSlow, updateWaters } from "./slow.ts";
import { SLOW, SLOW_COLUMNS, type Twin, timeS } from "./state.ts";
import { nextRunLimitS, switchDevice, switchDevices, thermostatPoint } from "./switching.ts";

/** Longest and shortest stretch between two looks at everything, s. */
export const STRETCH_S = 600;
const SHORTEST_S = 0.5;
/** A crossing is landed on this far past its point, K. */
const PAST_POINT_K = 1e-5;
const SHORTEST_HOURS = 0.5 / 3600;

/** Runs the twin up to `untilS`. */
export function advance(twin: Twin, untilS: number): void {
  // After a start or a restore nothing is known of the water yet, and thermostats and floats must see it before they switch.
  for (const system of twin.model.systems) {
    if (!isUnknown(twin, system)) continue;
    if (twin.active[system.index]) updateSlow(twin, system);
    else prepare(twin, system);
  }
  while (timeS(twin) < untilS - 1e-6) {
    const fromS = timeS(twin);
    settleSwitches(twin);
    prepareSystems(twin);
    const toS = nextStop(twin, fromS, untilS);
    for (const system of twin.model.systems) if (twin.active[system.index]) advanceSystem(twin, system, fromS, toS);
    surroundings(twin, (toS - fromS) / 3600, toS);
    twin.state[twin.model.layout.clock] = toS;
    for (const system of twin.model.systems) if (twin.active[system.index]) runHabits(twin, system, fromS, toS);
    for (let hub = 0; hub < twin.model.site.hubs.length; hub++) {
      if (twin.scratch.next.lookS[hub] <= toS + 1e-6 && look(twin, hub)) twin.scratch.next.switchAll = true;
    }
  }
}

/** Lets sockets, thermostats and breakers come to rest. A breaker that opens changes the sockets, which changes the load. */
function settleSwitches(twin: Twin): void {
  for (let round = 0; round < 8; round++) {
    const changed = switchDevices(twin, round > 0 || switchAllDue(twin)) || twin.scratch.next.loadMoved;
    if (!changed) return;
    twin.scratch.next.loadMoved = false;
    tripCircuits(twin);
    lookSoon(twin);
  }
}

/** Everything is looked at when something was touched, when a timer turns, and once every stretch in any case. */
function switchAllDue(twin: Twin): boolean {
  const { next, timerEdges } = twin.scratch;
  const nowS = timeS(twin);
  let due = next.switchAll || nowS - next.switchedS >= STRETCH_S - 1;
  while (next.edge < timerEdges.length && timerEdges[next.edge] <= nowS + 1e-6) {
    next.edge++;
    due = true;
  }
  if (due) {
    next.switchAll = false;
    next.switchedS = nowS;
  }
  return due;
}

function isUnknown(twin: Twin, system: SystemModel): boolean {
  const first = system.waters[0] ?? system.stores[0];
  return first !== undefined && Number.isNaN(twin.scratch.slow[first * SLOW_COLUMNS + SLOW.evaporationKgH]);
}

function prepareSystems(twin: Twin): void {
  for (const system of twin.model.systems) if (twin.active[system.index]) prepare(twin, system);
}

function prepare(twin: Twin, system: SystemModel): void {
  updateSlow(twin, system);
  settleLevels(twin, system);
  planFlows(twin, system);
  planReactors(twin, system);
}

function nextStop(twin: Twin, fromS: number, untilS: number): number {
  const { next, timerEdges } = twin.scratch;
  let stop = Math.min(
    untilS,
    fromS + STRETCH_S,
    timerEdges[next.edge] ?? Number.POSITIVE_INFINITY,
    nextRunLimitS(twin),
  );
  for (const lookS of next.lookS) stop = Math.min(stop, lookS);
  for (const system of twin.model.systems)
    if (twin.active[system.index]) stop = Math.min(stop, fromS + 3600 * hoursToLevel(twin, system));
  stop = Math.min(stop, fromS + 3600 * hoursToEmptyBattery(twin));
  return Math.min(untilS, Math.max(stop, fromS + SHORTEST_S));
}

/** One system from stop to stop; its own thermostats switch in between, each at its moment. */
function advanceSystem(twin: Twin, system: SystemModel, fromS: number, toS: number): void {
  let left = (toS - fromS) / 3600;
  if (system.thermostats.length === 0) {
    stepSystem(twin, system, left);
    updateWaters(twin, system);
    updateHarm(twin, system, left);
    return;
  }
  const { clock } = twin.model.layout;
  const saved = save(twin, system);
  while (left > 1e-9) {
    // Within the stretch flows may change, so that a level is near that was far when the stretch was planned.
    let hours = Math.min(left, Math.max(SHORTEST_HOURS, hoursToLevel(twin, system)));
    saved.take();
    stepSystem(twin, system, hours);
    updateWaters(twin, system);
    const share = firstCrossing(twin, system, saved.temperatures);
    if (share < 1 && hours * share > SHORTEST_HOURS) {
      saved.putBack();
      hours *= share;
      stepSystem(twin, system, hours);
      updateWaters(twin, system);
    }
    updateHarm(twin, system, hours);
    left -= hours;
    if (left <= 1e-9) break;
    twin.state[clock] = toS - left * 3600;
    let changed = false;
    for (const device of system.devices) if (switchDevice(twin, device)) changed = true;
    if (changed) lookSoon(twin);
    prepare(twin, system);
  }
  twin.state[clock] = fromS;
}

/** Share of the step at which the first own thermostat reaches its point; 1 where none does. */
function firstCrossing(twin: Twin, system: SystemModel, before: Float64Array): number {
  let first = 1;
  for (const device of system.thermostats) {
    const body = twin.model.bodyOfDevice[device];
    const local = twin.model.localOfBody[body];
    const point = thermostatPoint(twin, device);
    if (local < 0 || Number.isNaN(point)) continue;
    const start = before[local] - point;
    const end = twin.scratch.slow[body * SLOW_COLUMNS + SLOW.temperatureC] - point;
    if (start * end >= 0 || Math.abs(start) < 2 * PAST_POINT_K) continue;
    first = Math.min(first, (Math.abs(start) + PAST_POINT_K) / Math.abs(end - start));
  }
  return first;
}

interface Saved {
  readonly temperatures: Float64Array;
  take(): void;
  putBack(): void;
}

/** Keeps what a step of one system changes, to take it back. */
function save(twin: Twin, system: SystemModel): Saved {
  const { undo } = twin.scratch;
  const bodies = [...system.waters, ...system.stores];
  const book = system.index * LEDGER_COLUMNS;
  const ledgerAt = bodies.length * BODY_COLUMNS;
  const floorAt = ledgerAt + LEDGER_COLUMNS;
  return {
    temperatures: twin.scratch.before,
    take() {
      for (let place = 0; place < bodies.length; place++) {
        const at = bodies[place] * BODY_COLUMNS;
        undo.set(twin.bodies.subarray(at, at + BODY_COLUMNS), place * BODY_COLUMNS);
      }
      undo.set(twin.ledger.subarray(book, book + LEDGER_COLUMNS), ledgerAt);
      undo.set(twin.rooms, floorAt);
      system.waters.forEach((body, local) => {
        twin.scratch.before[local] = twin.scratch.slow[body * SLOW_COLUMNS + SLOW.temperatureC];
      });
    },
    putBack() {
      for (let place = 0; place < bodies.length; place++) {
        twin.bodies.set(undo.subarray(place * BODY_COLUMNS, (place + 1) * BODY_COLUMNS), bodies[place] * BODY_COLUMNS);
      }
      twin.ledger.set(undo.subarray(ledgerAt, floorAt), book);
      twin.rooms.set(undo.subarray(floorAt, floorAt + twin.rooms.length));
    },
  };
}

/** Effluent of a carbonate column fed with CO2: alkalinity 40 dKH, half of it calcium, carbon dioxide 2 mmol/L left over (science.md 9.6). */
const EFFLUENT_EQ_L = 14.3e-3;
const EFFLUENT_CO2_MOL_L = 2e-3;
/** Saturated with gas at one atmosphere. */
const OPEN_VALVE_CO2_MOL_L = 26e-3;

function planReactors(twin: Twin, system: SystemModel): void {
  for (const device of system.reactors) {
    const spec = twin.model.site.devices[device];
    if (!isRunning(twin, device)) continue;
    const local = twin.model.localOfBody[twin.model.bodyOfDevice[device]];
    const litres = spec.flowLPerH * outputOf(twin, device);
    const open = deviceLever(twin, device, AT.device.gasOpen) > 0;
    const works = deviceLever(twin, device, AT.device.strength);
    const { carried } = twin.scratch.flows[system.index];
    const at = local * TRANSPORTED;
    carried[at + TA] += litres * EFFLUENT_EQ_L * works;
    carried[at + CA] += (litres * EFFLUENT_EQ_L * works) / 2;
    carried[at + DIC] += litres * (EFFLUENT_EQ_L * works + (open ? OPEN_VALVE_CO2_MOL_L : EFFLUENT_CO2_MOL_L * works));
  }
}

/** Rooms are so slow that they are moved on only so often, s. */
const ROOM_EVERY_S = 290;

/** Batteries and what creeps, over a stretch; the rooms when it is time. */
function surroundings(twin: Twin, hours: number, toS: number): void {
  if (twin.model.site.batteries.length > 0 && stepBatteries(twin, hours)) twin.scratch.next.switchAll = true;
  creep(twin, hours);
  const roomAt = twin.model.layout.clock + CLOCK_ROOMS;
  const sinceS = toS - twin.state[roomAt];
  if (sinceS < ROOM_EVERY_S) return;
  twin.state[roomAt] = toS;
  moveRooms(twin, sinceS / 3600);
}

function moveRooms(twin: Twin, hours: number): void {
  const { model, scratch, rooms } = twin;
  scratch.roomHeatW.fill(0);
  scratch.roomVapourKgH.fill(0);
  for (const system of model.systems) {
    for (const body of system.waters) {
      const s = body * SLOW_COLUMNS;
      const room = model.roomOfBody[body];
      scratch.roomHeatW[room] +=
        scratch.slow[s + SLOW.lossWPerK] * (scratch.slow[s + SLOW.temperatureC] - scratch.slow[s + SLOW.airC]) -
        scratch.slow[s + SLOW.heatW];
      scratch.roomVapourKgH[room] += scratch.slow[s + SLOW.evaporationKgH];
    }
    for (const device of system.devices) {
      if (twin.devices[device * DEVICE_COLUMNS + DEVICE_RUNNING] === 0) continue;
      const body = model.bodyOfDevice[device];
      scratch.roomHeatW[model.roomOfBody[body] ?? 0] += model.site.devices[device].powerW;
    }
  }
  const up = mainsUp(twin);
  for (let room = 0; room < model.site.rooms.length; room++)
    stepRoom(twin, room, hours, scratch.roomHeatW[room], scratch.roomVapourKgH[room], up);
  for (const system of model.systems) {
    for (const store of system.stores) {
      const at = store * BODY_COLUMNS;
      twin.bodies[at + HEAT] =
        twin.bodies[at + MASS] * HEAT_CAPACITY * rooms[model.roomOfBody[store] * ROOM_COLUMNS + ROOM_AIR_C];
    }
  }
}

/** Fouling and fading go on. */
function creep(twin: Twin, hours: number): void {
  const base = twin.model.levers.base.device;
  for (let device = 0; device < base.length; device++) {
    const perDay = twin.levers[base[device] + AT.device.outputPerDay];
    if (perDay !== 0)
      twin.levers[base[device] + AT.device.output] = Math.max(
        0,
        twin.levers[base[device] + AT.device.output] + (perDay * hours) / 24,
      );
  }
}
