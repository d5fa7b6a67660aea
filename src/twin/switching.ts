/**
 * What runs: for each device its socket, its feed, its timer, its own thermostat or float, and what a fault does to them.
 */
import { askLever } from "./asked.ts";
import {
  DEVICE_COLUMNS,
  DEVICE_COMMAND,
  DEVICE_LOCKED,
  DEVICE_RUNNING,
  DEVICE_SOCKET,
  DEVICE_STARTED,
} from "./columns.ts";
import { deviceLever, isRunning } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import { lookSettled, lookSoon } from "./look-soon.ts";
import type { SystemModel } from "./model.ts";
import { ownSwitchCalls } from "./own-switches.ts";
import { type Feed, feedOfDevice, hubPowered, mainsSag } from "./power.ts";
import { timerAllows } from "./schedule.ts";
import { PLAN, type Twin, timeS } from "./state.ts";

/** What does not start while the voltage sags. */
const MOTORS = new Set(["return-pump", "wave-pump", "skimmer", "top-off", "air-pump"]);

/**
 * Puts the devices of a system in their state: all, or only those that switch by themselves. True where anything changed; the hubs
 * that see it look soon.
 */
export function switchSystem(twin: Twin, system: SystemModel, all: boolean): boolean {
  let changed = false;
  let jumped = false;
  for (const device of all ? system.devices : system.ownSwitches) {
    if (!switchDevice(twin, device)) continue;
    changed = true;
    if (twin.model.warmsOnly[device] === 0) jumped = true;
  }
  if (jumped) {
    twin.scratch.plan[system.index] = PLAN.none;
    lookSoon(twin, system.index);
  } else if (changed) {
    if (twin.scratch.plan[system.index] === PLAN.stands) twin.scratch.plan[system.index] = PLAN.butHeat;
    lookSettled(twin, system.index);
  }
  return changed;
}

/** Lets one device run or stand as it has to now; true where that changed. */
function switchDevice(twin: Twin, device: number): boolean {
  const at = device * DEVICE_COLUMNS;
  const was = isRunning(twin, device);
  const socket = socketOn(twin, device);
  twin.devices[at + DEVICE_SOCKET] = socket ? 1 : 0;
  const feed = feedOfDevice(twin, device);
  const calls = ownSwitchCalls(twin, device, was);
  const runs = socket && calls && mayRun(twin, device, feed) && timerAllows(twin, device) && isWhole(twin, device, was);
  if (runs === was) return false;
  twin.devices[at + DEVICE_RUNNING] = runs ? 1 : 0;
  if (runs) twin.devices[at + DEVICE_STARTED] = timeS(twin);
  if (twin.onEvent) tellSwitched(twin, device, runs, feed);
  return true;
}

function tellSwitched(twin: Twin, device: number, runs: boolean, feed: Feed): void {
  const { id } = twin.model.site.devices[device];
  const standIn = runs && feed === "battery";
  twin.onEvent?.({
    tS: timeS(twin),
    kind: standIn ? "stand-in" : "device",
    part: id,
    text: `${id} ${runs ? "runs" : "stops"}${standIn ? " on its battery" : ""}`,
  });
}

function mayRun(twin: Twin, device: number, feed: Feed): boolean {
  if (feed === "none") return false;
  if (twin.devices[device * DEVICE_COLUMNS + DEVICE_LOCKED] > 0) return false;
  if (feed === "circuit" && mainsSag(twin) && MOTORS.has(twin.model.site.devices[device].kind)) return false;
  return !waitsForCut(twin, device) || feed === "battery";
}

/** Whether it is alive, and starts again once it has stood. Asked last, where all else lets it run (asked.ts). */
function isWhole(twin: Twin, device: number, was: boolean): boolean {
  const base = twin.model.levers.base.device[device];
  if (askLever(twin, base + AT.device.dead) > 0) return false;
  return was || askLever(twin, base + AT.device.noRestart) <= 0;
}

/** A stand-in on a battery rests until its circuit is dead. */
function waitsForCut(twin: Twin, device: number): boolean {
  const spec = twin.model.site.devices[device];
  return spec.spare !== null && spec.by === null && twin.model.power.batteryOfDevice[device] >= 0;
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
