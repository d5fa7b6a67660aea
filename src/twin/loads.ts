/** What draws on circuits and batteries, and what follows when it is too much. */

import { askLever } from "./asked.ts";
import { BATTERY_COLUMNS, BATTERY_DROPPED, BATTERY_ENERGY } from "./columns.ts";
import { deviceLever, isRunning } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import type { Island } from "./model.ts";
import { HUB_W, LINK_W, TRIP_SHARE } from "./overloads.ts";
import { batteryReady, circuitLive, energyWh, powerMoved } from "./power.ts";
import { type Twin, timeS } from "./state.ts";

/** A battery takes in this share of its energy an hour. */
const CHARGE_PER_H = 0.2;
/** A step that lands on an empty battery goes this far past it, h. */
const PAST_EMPTY_H = 1e-6;

/** Opens what is overloaded or leaks. */
export function tripCircuits(twin: Twin): void {
  tripOverloads(twin);
  const { circuits } = twin.model.site;
  for (let circuit = 0; circuit < circuits.length; circuit++) {
    const { tripsOnLeakMA } = circuits[circuit];
    if (tripsOnLeakMA === null || !circuitLive(twin, circuit)) continue;
    const leakMA = circuitLeakMA(twin, circuit);
    if (leakMA > tripsOnLeakMA) open(twin, circuit, `${Math.round(leakMA)} mA leak to earth`);
  }
}

/** Opens what is overloaded. */
export function tripOverloads(twin: Twin): void {
  const { power, site } = twin.model;
  for (const circuit of power.overloadable) {
    if (!circuitLive(twin, circuit)) continue;
    const watts = circuitLoadW(twin, circuit);
    if (watts / site.mains.volts > site.circuits[circuit].limitA * TRIP_SHARE)
      open(twin, circuit, `${Math.round(watts)} W is more than it carries`);
  }
}

function open(twin: Twin, circuit: number, why: string): void {
  const { id } = twin.model.site.circuits[circuit];
  twin.circuits[circuit] = 1;
  powerMoved(twin);
  twin.onEvent?.({ tS: timeS(twin), kind: "power", part: id, text: `${id} opens: ${why}` });
}

/** What a circuit and those below it carry, W. */
export function circuitLoadW(twin: Twin, circuit: number): number {
  const { power, site } = twin.model;
  let watts = 0;
  for (const device of power.devicesUnder[circuit]) if (isRunning(twin, device)) watts += site.devices[device].powerW;
  return watts + HUB_W * power.hubsUnder[circuit].length + LINK_W * power.linksUnder[circuit].length;
}

/** Leakage that this circuit's own protection sees: of its parts and of circuits below it that have none of their own open. */
function circuitLeakMA(twin: Twin, circuit: number): number {
  const { power, levers } = twin.model;
  let leakMA = 0;
  for (const device of power.devicesUnder[circuit]) {
    const ownMA = deviceLever(twin, device, AT.device.leakMA);
    if (ownMA === 0 || !circuitLive(twin, power.circuitOfDevice[device])) continue;
    const isPlugged = askLever(twin, levers.base.device[device] + AT.device.dead) <= 0;
    if (isPlugged) leakMA += ownMA;
  }
  for (const other of power.circuitsUnder[circuit])
    if (circuitLive(twin, other)) leakMA += twin.levers[levers.base.circuit[other] + AT.circuit.leakMA];
  return leakMA;
}

/** What a battery carries now, for things whose own circuit is dead, W. */
function batteryLoadW(twin: Twin, battery: number): number {
  return runningW(twin, twin.model.power.carriedDevices[battery]) + talkingW(twin, battery);
}

/** Of these devices, those that run though their own circuit is dead, W. */
function runningW(twin: Twin, devices: Iterable<number>): number {
  const { power, site } = twin.model;
  let watts = 0;
  for (const device of devices)
    if (isRunning(twin, device) && !circuitLive(twin, power.circuitOfDevice[device]))
      watts += site.devices[device].powerW;
  return watts;
}

/** Hubs and links that a battery carries now, W. */
function talkingW(twin: Twin, battery: number): number {
  const { power } = twin.model;
  let watts = 0;
  for (const hub of power.carriedHubs[battery]) if (!circuitLive(twin, power.circuitOfHub[hub])) watts += HUB_W;
  for (const link of power.carriedLinks[battery]) if (!circuitLive(twin, power.circuitOfLink[link])) watts += LINK_W;
  return watts;
}

/** A battery that is asked for more than it can give lets go of everything. */
export function dropOverloads(twin: Twin): void {
  for (const [battery, { id, powerW }] of twin.model.site.batteries.entries()) {
    const loadW = batteryLoadW(twin, battery);
    if (loadW <= powerW || !batteryReady(twin, battery)) continue;
    twin.batteries[battery * BATTERY_COLUMNS + BATTERY_DROPPED] = 1;
    powerMoved(twin);
    const text = `${id} lets go: ${Math.round(loadW)} W is more than its ${Math.round(powerW)} W`;
    twin.onEvent?.({ tS: timeS(twin), kind: "power", part: id, text });
  }
}

/** What runs in an island draws on the batteries that carry it, over a span that ends at `toS`. */
export function drawOnBatteries(twin: Twin, { carried }: Island, hours: number, toS: number): void {
  for (const { battery, devices } of carried) draw(twin, battery, runningW(twin, devices), hours, toS);
}

/** Hubs and links draw on the batteries that carry them, and those that carry nothing charge, over a span that ends at `toS`. */
export function stepBatteries(twin: Twin, hours: number, toS: number): void {
  for (let battery = 0; battery < twin.model.site.batteries.length; battery++) {
    draw(twin, battery, talkingW(twin, battery), hours, toS);
    const rests = batteryLoadW(twin, battery) <= 0 || !batteryReady(twin, battery);
    if (rests && circuitLive(twin, twin.model.power.chargedBy[battery])) charge(twin, battery, hours);
  }
}

/** Takes so much out of a battery; where it runs empty, what it carried has to be looked at. */
function draw(twin: Twin, battery: number, watts: number, hours: number, toS: number): void {
  if (watts <= 0 || !batteryReady(twin, battery)) return;
  twin.batteries[battery * BATTERY_COLUMNS + BATTERY_ENERGY] -= watts * hours;
  if (energyWh(twin, battery) > 0) return;
  const { id } = twin.model.site.batteries[battery];
  twin.onEvent?.({ tS: toS, kind: "power", part: id, text: `${id} is empty` });
  powerMoved(twin);
}

function charge(twin: Twin, battery: number, hours: number): void {
  const { energyWh: labelWh } = twin.model.site.batteries[battery];
  const at = battery * BATTERY_COLUMNS;
  const chargedWh = twin.batteries[at + BATTERY_ENERGY] + CHARGE_PER_H * labelWh * hours;
  twin.batteries[at + BATTERY_ENERGY] = Math.min(labelWh, chargedWh);
  twin.batteries[at + BATTERY_DROPPED] = 0;
}

/** Hours until the next battery in use is empty. */
export function hoursToEmptyBattery(twin: Twin): number {
  let soonest = Number.POSITIVE_INFINITY;
  for (let battery = 0; battery < twin.model.site.batteries.length; battery++) {
    const loadW = batteryLoadW(twin, battery);
    if (loadW > 0 && batteryReady(twin, battery))
      soonest = Math.min(soonest, energyWh(twin, battery) / loadW + PAST_EMPTY_H);
  }
  return soonest;
}
