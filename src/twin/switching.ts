/**
 * What runs: for each device its socket, its feed, its timer, its own thermostat or float, and what a fault does to them.
 */
import {
  DEVICE_COLUMNS,
  DEVICE_COMMAND,
  DEVICE_LATCH,
  DEVICE_LOCKED,
  DEVICE_RUNNING,
  DEVICE_SOCKET,
  DEVICE_STARTED,
} from "./columns.ts";
import { deviceLever, volumeL } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import { type Feed, feedOfDevice, hubPowered, mainsSag } from "./power.ts";
import { timerAllows } from "./schedule.ts";
import { SLOW, SLOW_COLUMNS, type Twin, timeS } from "./state.ts";

/** A thermostat or float that is this close to its point has reached it. */
const TEMPERATURE_TOLERANCE_K = 1e-3;
const VOLUME_TOLERANCE_L = 1e-4;
/** A cut-out closes again this far below its point. */
const CUT_OUT_RESET_K = 2;
const MOTORS = new Set(["return-pump", "wave-pump", "skimmer", "top-off", "air-pump"]);

/** Puts the devices of the active systems in their state: all, or only those that switch by themselves. True where anything changed. */
export function switchDevices(twin: Twin, all: boolean): boolean {
  let changed = false;
  for (const system of twin.model.systems) {
    if (twin.active[system.index] === 0) continue;
    for (const device of all ? system.devices : system.ownSwitches) if (switchDevice(twin, device)) changed = true;
  }
  return changed;
}

/** Own thermostats and floats of one system only: what may switch inside a step. */
export function switchDevice(twin: Twin, device: number): boolean {
  const at = device * DEVICE_COLUMNS;
  const was = twin.devices[at + DEVICE_RUNNING];
  const socket = socketOn(twin, device);
  twin.devices[at + DEVICE_SOCKET] = socket ? 1 : 0;
  const feed = feedOfDevice(twin, device);
  const calls = latch(twin, device, was > 0);
  const runs = socket && calls && mayRun(twin, device, feed, was > 0) && timerAllows(twin, device);
  if (runs === was > 0) return false;
  const spec = twin.model.site.devices[device];
  twin.devices[at + DEVICE_RUNNING] = runs ? 1 : 0;
  if (runs) twin.devices[at + DEVICE_STARTED] = timeS(twin);
  if (twin.onEvent) {
    const standIn = runs && feed === "battery";
    twin.onEvent({
      tS: timeS(twin),
      kind: standIn ? "stand-in" : "device",
      part: spec.id,
      text: `${spec.id} ${runs ? "runs" : "stops"}${standIn ? " on its battery" : ""}`,
    });
  }
  return true;
}

function mayRun(twin: Twin, device: number, feed: Feed, was: boolean): boolean {
  if (deviceLever(twin, device, AT.device.dead) > 0 || feed === "none") return false;
  if (!was && deviceLever(twin, device, AT.device.noRestart) > 0) return false;
  if (twin.devices[device * DEVICE_COLUMNS + DEVICE_LOCKED] > 0) return false;
  const spec = twin.model.site.devices[device];
  if (feed === "circuit" && mainsSag(twin) && MOTORS.has(spec.kind)) return false;
  return !waitsForCut(twin, device) || feed === "battery";
}

/** A stand-in on a battery rests until its circuit is dead. */
function waitsForCut(twin: Twin, device: number): boolean {
  const spec = twin.model.site.devices[device];
  return spec.spare !== null && spec.by === null && twin.model.batteryOfDevice[device] >= 0;
}

function socketOn(twin: Twin, device: number): boolean {
  const spec = twin.model.site.devices[device];
  const hub = twin.model.hubOfDevice[device];
  if (deviceLever(twin, device, AT.device.direct) > 0) return true;
  if (hub < 0) return spec.normally === "on" || waitsForCut(twin, device);
  const relay = deviceLever(twin, device, AT.device.socket);
  if (relay !== 0) return relay > 0;
  const at = device * DEVICE_COLUMNS;
  const before = twin.devices[at + DEVICE_SOCKET] > 0;
  const base = twin.model.levers.base.hub[hub];
  if (!hubPowered(twin, hub) || twin.levers[base + AT.hub.blank] > 0)
    return spec.withoutHub === "as it was" ? before : spec.withoutHub === "on";
  if (twin.levers[base + AT.hub.hung] > 0) return before;
  const command = twin.devices[at + DEVICE_COMMAND];
  return command < 0 ? spec.normally === "on" : command > 0;
}

/** Whether the device's own thermostat or float calls. */
function latch(twin: Twin, device: number, running: boolean): boolean {
  const spec = twin.model.site.devices[device];
  const at = device * DEVICE_COLUMNS;
  if (spec.ownThermostatC !== null || spec.cutOutC !== null) return thermostatCalls(twin, device);
  if (spec.ownFloat !== null) return floatCalls(twin, device, running);
  const forced = deviceLever(twin, device, AT.device.thermostat);
  if (forced < 0) return false;
  twin.devices[at + DEVICE_LATCH] = 1;
  return true;
}

function thermostatCalls(twin: Twin, device: number): boolean {
  const spec = twin.model.site.devices[device];
  const at = device * DEVICE_COLUMNS;
  const body = twin.model.bodyOfDevice[device];
  const temperatureC = twin.scratch.slow[body * SLOW_COLUMNS + SLOW.temperatureC];
  if (spec.cutOutC !== null) cutOut(twin, device, temperatureC, spec.cutOutC);
  const forced = deviceLever(twin, device, AT.device.thermostat);
  if (forced !== 0) return forced > 0;
  if (spec.ownThermostatC === null) return true;
  const set = spec.ownThermostatC + deviceLever(twin, device, AT.device.setPointC);
  const warms = spec.kind === "heater";
  const [onC, offC] = warms ? [set - spec.ownHysteresisC, set] : [set + spec.ownHysteresisC, set];
  const on = warms ? temperatureC <= onC + TEMPERATURE_TOLERANCE_K : temperatureC >= onC - TEMPERATURE_TOLERANCE_K;
  const off = warms ? temperatureC >= offC - TEMPERATURE_TOLERANCE_K : temperatureC <= offC + TEMPERATURE_TOLERANCE_K;
  if (on) twin.devices[at + DEVICE_LATCH] = 1;
  else if (off) twin.devices[at + DEVICE_LATCH] = 0;
  return twin.devices[at + DEVICE_LATCH] > 0;
}

function cutOut(twin: Twin, device: number, temperatureC: number, pointC: number): void {
  const at = device * DEVICE_COLUMNS + DEVICE_LOCKED;
  if (deviceLever(twin, device, AT.device.cutOut) > 0) {
    twin.devices[at] = 0;
    return;
  }
  const was = twin.devices[at];
  if (temperatureC >= pointC - TEMPERATURE_TOLERANCE_K) twin.devices[at] = 1;
  else if (temperatureC < pointC - CUT_OUT_RESET_K) twin.devices[at] = 0;
  if (was === 0 && twin.devices[at] === 1)
    tellStandIn(twin, device, `the cut-out of ${twin.model.site.devices[device].id} opens at ${pointC} °C`);
}

function tellStandIn(twin: Twin, device: number, text: string): void {
  twin.onEvent?.({ tS: timeS(twin), kind: "stand-in", part: twin.model.site.devices[device].id, text });
}

function floatCalls(twin: Twin, device: number, running: boolean): boolean {
  const spec = twin.model.site.devices[device];
  const float = spec.ownFloat!;
  const at = device * DEVICE_COLUMNS;
  const level = volumeL(twin, twin.model.bodyOfDevice[device]);
  const stuck = deviceLever(twin, device, AT.device.float);
  if (stuck !== 0) twin.devices[at + DEVICE_LATCH] = stuck > 0 ? 1 : 0;
  else if (level <= float.onL + VOLUME_TOLERANCE_L) twin.devices[at + DEVICE_LATCH] = 1;
  else if (level >= float.offL - VOLUME_TOLERANCE_L) twin.devices[at + DEVICE_LATCH] = 0;
  const forced = deviceLever(twin, device, AT.device.thermostat);
  if (forced !== 0) twin.devices[at + DEVICE_LATCH] = forced > 0 ? 1 : 0;
  if (twin.devices[at + DEVICE_LATCH] === 0) return false;
  if (
    float.spareL !== null &&
    level >= float.spareL - VOLUME_TOLERANCE_L &&
    deviceLever(twin, device, AT.device.spareFloat) === 0
  ) {
    if (running) tellStandIn(twin, device, `the second float of ${spec.id} stops it`);
    return false;
  }
  const ranS = timeS(twin) - twin.devices[at + DEVICE_STARTED];
  const limited = float.longestRunS !== null && deviceLever(twin, device, AT.device.runLimit) === 0;
  if (running && limited && ranS >= float.longestRunS! - 1e-6) {
    twin.devices[at + DEVICE_LOCKED] = 1;
    tellStandIn(twin, device, `${spec.id} has run as long as it may and stops`);
  }
  return true;
}

/** Time at which a running fill reaches its own limit, s; Infinity where none runs. */
export function nextRunLimitS(twin: Twin): number {
  let next = Number.POSITIVE_INFINITY;
  const { devices } = twin.model.site;
  for (let device = 0; device < devices.length; device++) {
    const limit = devices[device].ownFloat?.longestRunS ?? null;
    if (
      limit === null ||
      twin.devices[device * DEVICE_COLUMNS + DEVICE_RUNNING] === 0 ||
      deviceLever(twin, device, AT.device.runLimit) > 0
    )
      continue;
    next = Math.min(next, twin.devices[device * DEVICE_COLUMNS + DEVICE_STARTED] + limit);
  }
  return next;
}

/** Temperatures at which own thermostats of a body would switch, given what they do now; used to find crossings. */
export function thermostatPoint(twin: Twin, device: number): number {
  const spec = twin.model.site.devices[device];
  if (spec.ownThermostatC === null || deviceLever(twin, device, AT.device.thermostat) !== 0)
    return spec.cutOutC ?? Number.NaN;
  const set = spec.ownThermostatC + deviceLever(twin, device, AT.device.setPointC);
  if (twin.devices[device * DEVICE_COLUMNS + DEVICE_LATCH] > 0) return set;
  return spec.kind === "heater" ? set - spec.ownHysteresisC : set + spec.ownHysteresisC;
}
