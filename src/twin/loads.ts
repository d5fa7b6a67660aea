/** What draws on circuits and batteries, and what follows when it is too much. */
import { askLever } from "./asked.ts";
import { BATTERY_COLUMNS, BATTERY_DROPPED, BATTERY_ENERGY } from "./columns.ts";
import { deviceLever, isRunning } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import { batteryReady, circuitLive, energyWh, powerMoved } from "./power.ts";
import { type Twin, timeS } from "./state.ts";

/** Power of a hub or a link, W. */
const HUB_W = 6;
const LINK_W = 10;
/** Share of a breaker's rating at which it opens. */
const TRIP_SHARE = 1.05;
/** A battery takes in this share of its energy an hour. */
const CHARGE_PER_H = 0.2;
/** A step that lands on an empty battery goes this far past it, h. */
const PAST_EMPTY_H = 1e-6;

/** Opens what is overloaded or leaks. */
export function tripCircuits(twin: Twin): void {
  const { site } = twin.model;
  for (let circuit = 0; circuit < site.circuits.length; circuit++) {
    if (!circuitLive(twin, circuit)) continue;
    const { limitA, tripsOnLeakMA } = site.circuits[circuit];
    const watts = circuitLoadW(twin, circuit);
    const leakMA = circuitLeakMA(twin, circuit);
    if (watts / site.mains.volts > limitA * TRIP_SHARE)
      open(twin, circuit, `${Math.round(watts)} W is more than it carries`);
    else if (tripsOnLeakMA !== null && leakMA > tripsOnLeakMA)
      open(twin, circuit, `${Math.round(leakMA)} mA leak to earth`);
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
  const { power, site } = twin.model;
  let watts = 0;
  for (const device of power.carriedDevices[battery])
    if (isRunning(twin, device) && !circuitLive(twin, power.circuitOfDevice[device]))
      watts += site.devices[device].powerW;
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

/** Draws from and charges the batteries over a span; returns true where one ran empty. */
export function stepBatteries(twin: Twin, hours: number): boolean {
  let emptied = false;
  for (let battery = 0; battery < twin.model.site.batteries.length; battery++)
    if (stepBattery(twin, battery, hours)) emptied = true;
  return emptied;
}

/** What hangs on it draws on it; while its own circuit lives it charges, and takes over again the next time. */
function stepBattery(twin: Twin, battery: number, hours: number): boolean {
  const spec = twin.model.site.batteries[battery];
  const at = battery * BATTERY_COLUMNS;
  const loadW = batteryLoadW(twin, battery);
  if (loadW <= 0 || !batteryReady(twin, battery)) {
    if (circuitLive(twin, twin.model.power.chargedBy[battery])) charge(twin, battery, hours);
    return false;
  }
  twin.batteries[at + BATTERY_ENERGY] -= loadW * hours;
  if (energyWh(twin, battery) > 0) return false;
  twin.onEvent?.({ tS: timeS(twin) + hours * 3600, kind: "power", part: spec.id, text: `${spec.id} is empty` });
  return true;
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
