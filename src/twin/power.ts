/**
 * Power: which circuits live, and what feeds each thing. Looked at whenever something switches.
 */
import { askLever } from "./asked.ts";
import { BATTERY_COLUMNS, BATTERY_DROPPED, BATTERY_ENERGY, BATTERY_STARTED, CLOCK_LOAD_MOVED } from "./columns.ts";
import { AT } from "./levers.ts";
import { mustFind } from "./must-find.ts";
import type { Twin } from "./state.ts";

export function mainsUp(twin: Twin): boolean {
  return twin.levers[twin.model.levers.base.mains[0] + AT.mains.down] === 0;
}

export function mainsSag(twin: Twin): boolean {
  return twin.levers[twin.model.levers.base.mains[0] + AT.mains.sag] > 0;
}

/** Whether a circuit has power now; circuit -1 has none. */
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
  const opened = twin.levers[twin.model.levers.base.circuit[circuit] + AT.circuit.open] > 0;
  if (opened || twin.circuits[circuit] > 0) return false;
  const parent = twin.model.power.parentOfCircuit[circuit];
  return parent < 0 ? mainsUp(twin) : isFed(twin, parent);
}

/** Something that feeds or opens circuits was touched: they are worked out anew. */
export function powerMoved(twin: Twin): void {
  twin.scratch.next.powerMoved = true;
  twin.clocks[CLOCK_LOAD_MOVED] = 1;
  twin.switchAll.fill(1);
}

/** A battery or generator that could carry its load now; battery -1 cannot. */
export function batteryReady(twin: Twin, battery: number): boolean {
  if (battery < 0) return false;
  const spec = twin.model.site.batteries[battery];
  const at = battery * BATTERY_COLUMNS;
  const started = spec.startsItself || twin.batteries[at + BATTERY_STARTED] > 0;
  const takesOver = batteryLever(twin, battery, AT.battery.noTakeover) === 0;
  return started && takesOver && twin.batteries[at + BATTERY_DROPPED] === 0 && energyWh(twin, battery) > 0;
}

function batteryLever(twin: Twin, battery: number, at: number): number {
  return askLever(twin, twin.model.levers.base.battery[battery] + at);
}

/** What is left in a battery, Wh; below 0 where it has lost more than it holds. */
export function energyWh(twin: Twin, battery: number): number {
  const labelWh = twin.model.site.batteries[battery].energyWh;
  const usedWh = labelWh - twin.batteries[battery * BATTERY_COLUMNS + BATTERY_ENERGY];
  return labelWh * batteryLever(twin, battery, AT.battery.capacity) - usedWh;
}

/** Someone starts a generator, or switches a battery on again that has let go. */
export function startBattery(twin: Twin, battery: number): void {
  twin.batteries[battery * BATTERY_COLUMNS + BATTERY_STARTED] = 1;
  twin.batteries[battery * BATTERY_COLUMNS + BATTERY_DROPPED] = 0;
  powerMoved(twin);
}

export function fillBatteries(twin: Twin): void {
  for (const [battery, spec] of twin.model.site.batteries.entries())
    twin.batteries[battery * BATTERY_COLUMNS + BATTERY_ENERGY] = spec.energyWh;
}

export type Feed = "circuit" | "battery" | "none";

/** What feeds a device now. One without any description of its feed always has power. */
export function feedOfDevice(twin: Twin, device: number): Feed {
  const { power, site } = twin.model;
  const circuit = power.circuitOfDevice[device];
  const battery = power.batteryOfDevice[device];
  if (circuitLive(twin, circuit)) return "circuit";
  if (batteryReady(twin, battery)) return "battery";
  return circuit < 0 && battery < 0 && site.devices[device].on === null ? "circuit" : "none";
}

export function hubPowered(twin: Twin, hub: number): boolean {
  const { levers, power, site } = twin.model;
  if (twin.levers[levers.base.hub[hub] + AT.hub.dead] > 0) return false;
  return isPowered(twin, power.circuitOfHub[hub], power.batteryOfHub[hub], site.hubs[hub].on);
}

function linkPowered(twin: Twin, link: number): boolean {
  const { power, site } = twin.model;
  return isPowered(twin, power.circuitOfLink[link], power.batteryOfLink[link], site.links[link].on);
}

function isPowered(twin: Twin, circuit: number, battery: number, on: string | null): boolean {
  return on === null || circuitLive(twin, circuit) || batteryReady(twin, battery);
}

/** A link carries when it is not down, has power, and the link it needs carries too. */
export function linkCarries(twin: Twin, link: number): boolean {
  const { levers, linkIndex, site } = twin.model;
  const { via } = site.links[link];
  if (!linkPowered(twin, link)) return false;
  if (via !== null && !linkCarries(twin, mustFind(linkIndex.get(via), `The link '${via}'`))) return false;
  return askLever(twin, levers.base.link[link] + AT.link.down) === 0;
}

/** Protection of the kind that needs a hand stays open once the mains have been away. */
export function openAfterCut(twin: Twin): void {
  for (const [circuit, spec] of twin.model.site.circuits.entries())
    if (spec.staysOpenAfterCut) twin.circuits[circuit] = 1;
  powerMoved(twin);
}

/** A person closes a breaker. It opens again at the next look if the cause is still there. */
export function resetCircuit(twin: Twin, circuit: number): void {
  twin.circuits[circuit] = 0;
  twin.levers[twin.model.levers.base.circuit[circuit] + AT.circuit.open] = 0;
  powerMoved(twin);
}
