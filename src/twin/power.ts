/**
 * Power: which circuits live, what a battery carries, what trips. Looked at whenever something switches.
 */

import { deviceLever, isRunning } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import type { Twin } from "./state.ts";

/** Power of a hub or a link, W. */
const HUB_W = 6;
const LINK_W = 10;
/** Share of a breaker's rating at which it opens. */
const TRIP_SHARE = 1.05;

export function mainsUp(twin: Twin): boolean {
  return twin.levers[twin.model.levers.base.mains[0] + AT.mains.down] === 0;
}

export function mainsSag(twin: Twin): boolean {
  return twin.levers[twin.model.levers.base.mains[0] + AT.mains.sag] > 0;
}

function protectionOpen(twin: Twin, circuit: number): boolean {
  return twin.circuits[circuit] > 0 || twin.levers[twin.model.levers.base.circuit[circuit] + AT.circuit.open] > 0;
}

/** Whether a circuit has power now. */
export function circuitLive(twin: Twin, circuit: number): boolean {
  if (circuit < 0) return false;
  if (twin.scratch.next.powerMoved) refreshCircuits(twin);
  return twin.scratch.circuitLive[circuit] > 0;
}

function refreshCircuits(twin: Twin): void {
  twin.scratch.next.powerMoved = false;
  for (let circuit = 0; circuit < twin.scratch.circuitLive.length; circuit++)
    twin.scratch.circuitLive[circuit] = isFed(twin, circuit) ? 1 : 0;
}

function isFed(twin: Twin, circuit: number): boolean {
  if (protectionOpen(twin, circuit)) return false;
  const parent = twin.model.parentOfCircuit[circuit];
  return parent < 0 ? mainsUp(twin) : isFed(twin, parent);
}

/** Something that feeds or opens circuits was touched: they are worked out anew. */
export function powerMoved(twin: Twin): void {
  twin.scratch.next.powerMoved = true;
  twin.scratch.next.loadMoved = true;
  twin.scratch.next.switchAll = true;
}

const ENERGY = 0;
const STARTED = 1;

function batteryBase(twin: Twin, battery: number): number {
  return twin.model.levers.base.battery[battery];
}

/** A battery or generator that could carry its load now. */
export function batteryReady(twin: Twin, battery: number): boolean {
  if (battery < 0) return false;
  const spec = twin.model.site.batteries[battery];
  const started = spec.startsItself || twin.batteries[battery * 2 + STARTED] > 0;
  const takesOver = twin.levers[batteryBase(twin, battery) + AT.battery.noTakeover] === 0;
  return started && takesOver && energyWh(twin, battery) > 0;
}

export function energyWh(twin: Twin, battery: number): number {
  const used = twin.model.site.batteries[battery].energyWh - twin.batteries[battery * 2 + ENERGY];
  return (
    twin.model.site.batteries[battery].energyWh * twin.levers[batteryBase(twin, battery) + AT.battery.capacity] - used
  );
}

export function startBattery(twin: Twin, battery: number): void {
  twin.batteries[battery * 2 + STARTED] = 1;
}

export function fillBatteries(twin: Twin): void {
  twin.model.site.batteries.forEach((battery, place) => {
    twin.batteries[place * 2 + ENERGY] = battery.energyWh;
  });
}

export type Feed = "circuit" | "battery" | "none";

export function feedOfDevice(twin: Twin, device: number): Feed {
  const { model } = twin;
  const circuit = model.circuitOfDevice[device];
  const battery = model.batteryOfDevice[device];
  if (circuitLive(twin, circuit)) return "circuit";
  if (batteryReady(twin, battery)) return "battery";
  return circuit < 0 && battery < 0 && model.site.devices[device].on === null ? "circuit" : "none";
}

export function hubPowered(twin: Twin, hub: number): boolean {
  const { model } = twin;
  if (twin.levers[model.levers.base.hub[hub] + AT.hub.dead] > 0) return false;
  return fed(twin, model.circuitOfHub[hub], model.batteryOfHub[hub], model.site.hubs[hub].on);
}

export function linkPowered(twin: Twin, link: number): boolean {
  const { model } = twin;
  return fed(twin, model.circuitOfLink[link], model.batteryOfLink[link], model.site.links[link].on);
}

function fed(twin: Twin, circuit: number, battery: number, on: string | null): boolean {
  return on === null || circuitLive(twin, circuit) || batteryReady(twin, battery);
}

/** A link carries when it is not down, has power, and the link it needs carries too. */
export function linkCarries(twin: Twin, link: number): boolean {
  const { model } = twin;
  if (twin.levers[model.levers.base.link[link] + AT.link.down] > 0 || !linkPowered(twin, link)) return false;
  const via = model.site.links[link].via;
  return via === null || linkCarries(twin, model.linkIndex.get(via)!);
}

/** Opens what is overloaded or leaks; says which circuits opened. */
export function tripCircuits(twin: Twin): boolean {
  const { site } = twin.model;
  let tripped = false;
  for (let circuit = 0; circuit < site.circuits.length; circuit++) {
    if (!circuitLive(twin, circuit)) continue;
    const spec = site.circuits[circuit];
    const watts = circuitLoadW(twin, circuit);
    const leakMA = circuitLeakMA(twin, circuit);
    const overloaded = watts / site.mains.volts > spec.limitA * TRIP_SHARE;
    const leaks = spec.tripsOnLeakMA !== null && leakMA > spec.tripsOnLeakMA;
    if (!overloaded && !leaks) continue;
    twin.circuits[circuit] = 1;
    powerMoved(twin);
    tripped = true;
    twin.onEvent?.({
      tS: twin.state[twin.model.layout.clock],
      kind: "power",
      part: spec.id,
      text: overloaded
        ? `${spec.id} opens: ${Math.round(watts)} W is more than it carries`
        : `${spec.id} opens: ${Math.round(leakMA)} mA leak to earth`,
    });
  }
  return tripped;
}

function isUnder(twin: Twin, circuit: number, above: number): boolean {
  for (let at = circuit; at >= 0; at = twin.model.parentOfCircuit[at]) if (at === above) return true;
  return false;
}

export function circuitLoadW(twin: Twin, circuit: number): number {
  const { model } = twin;
  let watts = 0;
  for (let device = 0; device < model.site.devices.length; device++) {
    if (isRunning(twin, device) && isUnder(twin, model.circuitOfDevice[device], circuit))
      watts += model.site.devices[device].powerW;
  }
  for (let hub = 0; hub < model.site.hubs.length; hub++)
    if (isUnder(twin, model.circuitOfHub[hub], circuit)) watts += HUB_W;
  return watts;
}

/** Leakage that this circuit's own protection sees: of its parts and of circuits below it that have none of their own open. */
function circuitLeakMA(twin: Twin, circuit: number): number {
  const { model, levers } = twin;
  let leak = 0;
  for (let device = 0; device < model.site.devices.length; device++) {
    if (deviceLever(twin, device, AT.device.dead) > 0) continue;
    const on = model.circuitOfDevice[device];
    if (isUnder(twin, on, circuit) && circuitLive(twin, on)) leak += deviceLever(twin, device, AT.device.leakMA);
  }
  for (let other = 0; other < model.site.circuits.length; other++) {
    if (isUnder(twin, other, circuit) && circuitLive(twin, other))
      leak += levers[model.levers.base.circuit[other] + AT.circuit.leakMA];
  }
  return leak;
}

/** Watts that a battery carries now, for things whose own circuit is dead. */
export function batteryLoadW(twin: Twin, battery: number): number {
  const { model } = twin;
  let watts = 0;
  for (let device = 0; device < model.site.devices.length; device++) {
    if (model.batteryOfDevice[device] !== battery || !isRunning(twin, device)) continue;
    if (!circuitLive(twin, model.circuitOfDevice[device])) watts += model.site.devices[device].powerW;
  }
  for (let hub = 0; hub < model.site.hubs.length; hub++) {
    if (model.batteryOfHub[hub] === battery && !circuitLive(twin, model.circuitOfHub[hub])) watts += HUB_W;
  }
  for (let link = 0; link < model.site.links.length; link++) {
    if (model.batteryOfLink[link] === battery && !circuitLive(twin, model.circuitOfLink[link])) watts += LINK_W;
  }
  return watts;
}

/** Draws from and charges the batteries over a span; returns true where one ran empty. */
export function stepBatteries(twin: Twin, hours: number): boolean {
  let emptied = false;
  twin.model.site.batteries.forEach((spec, battery) => {
    const load = batteryLoadW(twin, battery);
    const before = energyWh(twin, battery);
    if (load > 0 && before > 0) twin.batteries[battery * 2 + ENERGY] -= load * hours;
    else if (spec.on !== null && circuitLive(twin, twin.model.circuitIndex.get(spec.on) ?? -1)) {
      twin.batteries[battery * 2 + ENERGY] = Math.min(
        spec.energyWh,
        twin.batteries[battery * 2 + ENERGY] + 0.2 * spec.energyWh * hours,
      );
    }
    if (before > 0 && energyWh(twin, battery) <= 0) {
      emptied = true;
      twin.onEvent?.({
        tS: twin.state[twin.model.layout.clock] + hours * 3600,
        kind: "power",
        part: spec.id,
        text: `${spec.id} is empty`,
      });
    }
  });
  return emptied;
}

/** Hours until the next battery in use is empty. */
export function hoursToEmptyBattery(twin: Twin): number {
  let soonest = Number.POSITIVE_INFINITY;
  for (let battery = 0; battery < twin.model.site.batteries.length; battery++) {
    const load = batteryLoadW(twin, battery);
    const left = energyWh(twin, battery);
    if (load > 0 && left > 0) soonest = Math.min(soonest, left / load + 1e-6);
  }
  return soonest;
}

/** Protection of the kind that needs a hand stays open once the mains have been away. */
export function openAfterCut(twin: Twin): void {
  twin.model.site.circuits.forEach((spec, circuit) => {
    if (spec.staysOpenAfterCut) twin.circuits[circuit] = 1;
  });
  powerMoved(twin);
}

/** A person closes a breaker. It opens again at the next look if the cause is still there. */
export function resetCircuit(twin: Twin, circuit: number): void {
  twin.circuits[circuit] = 0;
  twin.levers[twin.model.levers.base.circuit[circuit] + AT.circuit.open] = 0;
  powerMoved(twin);
}
