/** The thermostats, cut-outs, floats and run limits that devices have of their own. */
import { askLever } from "./asked.ts";
import { DEVICE_COLUMNS, DEVICE_LATCH, DEVICE_LOCKED, DEVICE_STARTED } from "./columns.ts";
import { deviceLever, isRunning, volumeL } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import type { Island } from "./model.ts";
import { type Twin, timeS } from "./state.ts";
import { temperatureC } from "./water-values.ts";

/** A thermostat or float that is this close to its point has reached it. */
const TEMPERATURE_TOLERANCE_K = 1e-3;
const VOLUME_TOLERANCE_L = 1e-4;
const TIME_TOLERANCE_S = 1e-6;
/** A cut-out closes again this far below its point. */
const CUT_OUT_RESET_K = 2;

/** Whether a device's own thermostat or float calls; one without any always does. */
export function ownSwitchCalls(twin: Twin, device: number, running: boolean): boolean {
  const spec = twin.model.site.devices[device];
  if (spec.ownThermostatC !== null || spec.cutOutC !== null) return thermostatCalls(twin, device);
  if (spec.ownFloat !== null) return floatCalls(twin, device, spec.ownFloat, running);
  if (deviceLever(twin, device, AT.device.thermostat) < 0) return false;
  twin.devices[device * DEVICE_COLUMNS + DEVICE_LATCH] = 1;
  return true;
}

function thermostatCalls(twin: Twin, device: number): boolean {
  const spec = twin.model.site.devices[device];
  const at = device * DEVICE_COLUMNS + DEVICE_LATCH;
  const waterC = temperatureC(twin, twin.model.bodyOfDevice[device]);
  if (spec.cutOutC !== null) cutOut(twin, device, waterC, spec.cutOutC);
  const forced = deviceLever(twin, device, AT.device.thermostat);
  if (forced !== 0) return forced > 0;
  if (spec.ownThermostatC === null) return true;
  const set = spec.ownThermostatC + deviceLever(twin, device, AT.device.setPointC);
  const warms = spec.kind === "heater";
  const onC = warms ? set - spec.ownHysteresisC : set + spec.ownHysteresisC;
  const on = warms ? waterC <= onC + TEMPERATURE_TOLERANCE_K : waterC >= onC - TEMPERATURE_TOLERANCE_K;
  const off = warms ? waterC >= set - TEMPERATURE_TOLERANCE_K : waterC <= set + TEMPERATURE_TOLERANCE_K;
  if (on) twin.devices[at] = 1;
  else if (off) twin.devices[at] = 0;
  return twin.devices[at] > 0;
}

function cutOut(twin: Twin, device: number, waterC: number, pointC: number): void {
  const at = device * DEVICE_COLUMNS + DEVICE_LOCKED;
  const was = twin.devices[at];
  if (was === 0 && waterC < pointC - TEMPERATURE_TOLERANCE_K) return;
  if (askLever(twin, twin.model.levers.base.device[device] + AT.device.cutOut) > 0) {
    twin.devices[at] = 0;
    return;
  }
  if (waterC >= pointC - TEMPERATURE_TOLERANCE_K) twin.devices[at] = 1;
  else if (waterC < pointC - CUT_OUT_RESET_K) twin.devices[at] = 0;
  if (was === 0 && twin.devices[at] === 1)
    tellStandIn(twin, device, `the cut-out of ${twin.model.site.devices[device].id} opens at ${pointC} °C`);
}

function tellStandIn(twin: Twin, device: number, text: string): void {
  twin.onEvent?.({ tS: timeS(twin), kind: "stand-in", part: twin.model.site.devices[device].id, text });
}

interface Float {
  readonly onL: number;
  readonly offL: number;
  readonly spareL: number | null;
  readonly longestRunS: number | null;
}

function floatCalls(twin: Twin, device: number, float: Float, running: boolean): boolean {
  const at = device * DEVICE_COLUMNS + DEVICE_LATCH;
  const levelL = volumeL(twin, twin.model.bodyOfDevice[device]);
  const stuck = deviceLever(twin, device, AT.device.float);
  if (stuck !== 0) twin.devices[at] = stuck > 0 ? 1 : 0;
  else if (levelL <= float.onL + VOLUME_TOLERANCE_L) twin.devices[at] = 1;
  else if (levelL >= float.offL - VOLUME_TOLERANCE_L) twin.devices[at] = 0;
  const forced = deviceLever(twin, device, AT.device.thermostat);
  if (forced !== 0) twin.devices[at] = forced > 0 ? 1 : 0;
  if (twin.devices[at] === 0) return false;
  if (spareFloatStops(twin, device, float, levelL)) {
    if (running) tellStandIn(twin, device, `the second float of ${twin.model.site.devices[device].id} stops it`);
    return false;
  }
  if (running && hasRunTooLong(twin, device, float)) {
    twin.devices[device * DEVICE_COLUMNS + DEVICE_LOCKED] = 1;
    tellStandIn(twin, device, `${twin.model.site.devices[device].id} has run as long as it may and stops`);
  }
  return true;
}

function spareFloatStops(twin: Twin, device: number, { spareL }: Float, levelL: number): boolean {
  if (spareL === null || levelL < spareL - VOLUME_TOLERANCE_L) return false;
  return askLever(twin, twin.model.levers.base.device[device] + AT.device.spareFloat) === 0;
}

function hasRunTooLong(twin: Twin, device: number, { longestRunS }: Float): boolean {
  if (longestRunS === null || deviceLever(twin, device, AT.device.runLimit) !== 0) return false;
  const ranS = timeS(twin) - twin.devices[device * DEVICE_COLUMNS + DEVICE_STARTED];
  return ranS >= longestRunS - TIME_TOLERANCE_S;
}

/** Time at which a running fill of an island reaches its own limit, s; Infinity where none runs. */
export function nextRunLimitS(twin: Twin, { limitedFills }: Island): number {
  let next = Number.POSITIVE_INFINITY;
  for (const { device, longestRunS } of limitedFills) {
    if (!isRunning(twin, device) || deviceLever(twin, device, AT.device.runLimit) > 0) continue;
    next = Math.min(next, twin.devices[device * DEVICE_COLUMNS + DEVICE_STARTED] + longestRunS);
  }
  return next;
}

/** Temperature at which a device's own thermostat or cut-out would switch next, degrees C; NaN where it has none. */
export function thermostatPoint(twin: Twin, device: number): number {
  const spec = twin.model.site.devices[device];
  if (spec.ownThermostatC === null || deviceLever(twin, device, AT.device.thermostat) !== 0)
    return spec.cutOutC ?? Number.NaN;
  const set = spec.ownThermostatC + deviceLever(twin, device, AT.device.setPointC);
  if (twin.devices[device * DEVICE_COLUMNS + DEVICE_LATCH] > 0) return set;
  return spec.kind === "heater" ? set - spec.ownHysteresisC : set + spec.ownHysteresisC;
}
