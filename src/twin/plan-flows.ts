/** The flows of one system for the next step: exchange, what is carried in, what is lost. Sources: docs/science.md#plumbing. */
import { BODY_COLUMNS, HEAT, HEAT_CAPACITY, MASS, TRANSPORTED } from "./columns.ts";
import {
  DRY_SHARE,
  deviceLever,
  drainCapacity,
  flowLever,
  isRunning,
  kgPerL,
  LEVEL_TOLERANCE_L,
  outputOf,
  pumpFlow,
  volumeL,
} from "./hydraulics.ts";
import { AT } from "./levers.ts";
import type { CarryEdge, PumpEdge, SystemModel, WeirEdge } from "./model.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";
import { GIFT } from "./stores.ts";

/** A body that loses water keeps this share of it, in corners and in the sand. */
const DREGS_SHARE = 0.01;
/**
 * A store on which several systems draw gives none of them more than what it would take so many hours to empty it: no step is as long,
 * and so the last of it comes more slowly, but never more than there is.
 */
const BORROWED_H = 2;

/**
 * Works out all flows of a system as they are now: the exchange matrix (kg/h, row = to, column = from), what comes in and
 * goes out by other ways, and the change of each body's water. Leaves them in the scratch space.
 */
export function planFlows(twin: Twin, system: SystemModel): void {
  const { scratch } = twin;
  const flows = scratch.flows[system.index];
  clear(flows.exchange);
  clear(flows.carried);
  clear(flows.lostKgH);
  clear(flows.floorKgH);
  for (const body of system.waters) scratch.netKgH[body] = -scratch.slow[body * SLOW_COLUMNS + SLOW.evaporationKgH];
  for (const body of system.stores) scratch.netKgH[body] = 0;
  for (const pump of system.pumps) planPump(twin, system, pump);
  for (const carry of system.carries) planCarry(twin, system, carry);
  for (const body of system.waters) planLeak(twin, system, body);
  for (const device of system.devices) planWaste(twin, system, device);
  for (const weir of system.weirs) planWeir(twin, system, weir);
  for (const body of system.waters) planBrim(twin, system, body);
}

/** On so few numbers a loop is quicker than `fill`. */
function clear(values: Float64Array): void {
  for (let place = 0; place < values.length; place++) values[place] = 0;
}

function planPump(twin: Twin, system: SystemModel, pump: PumpEdge): void {
  const kgH = pumpFlow(twin, pump) * kgPerL(twin, pump.from);
  if (kgH === 0) return;
  const hose = flowLever(twin, pump.flow, AT.flow.hoseOff);
  addExchange(twin, system, pump.from, pump.to, kgH * (1 - hose));
  if (hose > 0) addLoss(twin, system, pump.from, kgH * hose, true);
}

function addExchange(twin: Twin, system: SystemModel, from: number, to: number, kgH: number): void {
  const { localOfBody } = twin.model;
  twin.scratch.flows[system.index].exchange[localOfBody[to] * system.waters.length + localOfBody[from]] += kgH;
  twin.scratch.netKgH[from] -= kgH;
  twin.scratch.netKgH[to] += kgH;
}

function addLoss(twin: Twin, system: SystemModel, body: number, kgH: number, toFloor: boolean): void {
  const local = twin.model.localOfBody[body];
  if (local < 0) return;
  const flows = twin.scratch.flows[system.index];
  flows.lostKgH[local] += kgH;
  if (toFloor) flows.floorKgH[local] += kgH;
  twin.scratch.netKgH[body] -= kgH;
}

function planCarry(twin: Twin, system: SystemModel, carry: CarryEdge): void {
  const { netKgH, deviceFlow } = twin.scratch;
  const flow = carryFlow(twin, carry);
  deviceFlow[carry.device] = flow;
  if (flow === 0) return;
  const fromLine = carry.from < 0;
  const kgH = flow * (fromLine ? 1 : kgPerL(twin, carry.from));
  netKgH[carry.to] += kgH;
  if (!fromLine) planGift(twin, carry, kgH);
  if (!fromLine && !carry.borrows) netKgH[carry.from] -= kgH;
  const local = twin.model.localOfBody[carry.to];
  if (local >= 0 && fromLine) carryLineWater(twin, system, carry, local, kgH);
  else if (local >= 0) carryStoreWater(twin, system, carry, local);
  if (twin.model.site.devices[carry.device].kind === "water-change") addLoss(twin, system, carry.to, kgH, false);
}

/** Water that a top-off, doser, valve or change pump carries now, L/h. */
function carryFlow(twin: Twin, carry: CarryEdge): number {
  const { site } = twin.model;
  const siphon = deviceLever(twin, carry.device, AT.device.siphonLPerH);
  const idle = deviceLever(twin, carry.device, AT.device.idle) > 0;
  const pumped = isRunning(twin, carry.device) && !idle ? ratedCarry(twin, carry) * outputOf(twin, carry.device) : 0;
  const flow = Math.max(pumped, siphon);
  if (flow === 0 || carry.from < 0) return flow;
  const spareL = volumeL(twin, carry.from) - site.bodies[carry.from].intakeL;
  if (carry.borrows) return Math.max(0, Math.min(flow, spareL / BORROWED_H));
  return spareL > LEVEL_TOLERANCE_L ? flow : 0;
}

/** Notes what a store has to give in an hour, as it is now. */
function planGift(twin: Twin, { device, from }: CarryEdge, kgH: number): void {
  const { gifts } = twin.scratch;
  const source = from * BODY_COLUMNS;
  const perH = kgH / Math.max(twin.bodies[source + MASS], 1e-9);
  for (let column = 0; column < GIFT; column++) gifts[device * GIFT + column] = twin.bodies[source + column] * perH;
}

/** A doser gives in pulses (habits.ts), unless it is stuck on; a water change goes on all day. L/h */
function ratedCarry(twin: Twin, carry: CarryEdge): number {
  const device = twin.model.site.devices[carry.device];
  if (device.kind === "water-change") return device.amountPerDay / 24;
  const isPulsed = device.kind === "doser" && deviceLever(twin, carry.device, AT.device.thermostat) <= 0;
  return isPulsed ? 0 : device.flowLPerH;
}

/** Water of the supply line brings nothing but the warmth of the room. */
function carryLineWater(twin: Twin, system: SystemModel, carry: CarryEdge, local: number, kgH: number): void {
  const airC = twin.scratch.slow[carry.to * SLOW_COLUMNS + SLOW.airC];
  twin.scratch.flows[system.index].carried[local * TRANSPORTED + HEAT] += kgH * HEAT_CAPACITY * airC;
}

function carryStoreWater(twin: Twin, system: SystemModel, { device }: CarryEdge, local: number): void {
  const { flows, gifts } = twin.scratch;
  const { carried } = flows[system.index];
  const strength = deviceLever(twin, device, AT.device.strength);
  for (let column = 0; column < TRANSPORTED; column++)
    carried[local * TRANSPORTED + column] += gifts[device * GIFT + column] * (column === HEAT ? 1 : strength);
}

/** A hole lets through what its head drives: the root of the height of the water over it (Torricelli). */
function planLeak(twin: Twin, system: SystemModel, body: number): void {
  const { model, levers } = twin;
  const base = model.levers.base.body[body];
  const leakLPerH = levers[base + AT.body.leakLPerH];
  if (leakLPerH <= 0) return;
  const stopsAt = Math.min(1 - DREGS_SHARE, Math.max(levers[base + AT.body.leakStopsAt], DREGS_SHARE));
  const head = volumeL(twin, body) / model.site.bodies[body].volumeL - stopsAt;
  if (head <= 0) return;
  addLoss(twin, system, body, leakLPerH * Math.sqrt(head / (1 - stopsAt)) * kgPerL(twin, body), true);
}

/** What a device lets run away: a skimmer only while it works, and nothing out of a body that is nearly dry. */
function planWaste(twin: Twin, system: SystemModel, device: number): void {
  const wasteLPerH = deviceLever(twin, device, AT.device.wasteLPerH);
  if (wasteLPerH <= 0) return;
  const { site, bodyOfDevice } = twin.model;
  const body = bodyOfDevice[device];
  const isLeft = volumeL(twin, body) > site.bodies[body].intakeL * DRY_SHARE;
  const works = site.devices[device].kind !== "skimmer" || isRunning(twin, device);
  if (isLeft && works) addLoss(twin, system, body, wasteLPerH * kgPerL(twin, body), false);
}

/** What comes into a body that stands at its crest runs off as it comes, as far as the drain can take it. */
function planWeir(twin: Twin, system: SystemModel, weir: WeirEdge): void {
  const netKgH = twin.scratch.netKgH[weir.from];
  if (netKgH <= 0 || volumeL(twin, weir.from) < weir.crestL - LEVEL_TOLERANCE_L) return;
  const capacityKgH = drainCapacity(twin, weir) * kgPerL(twin, weir.from);
  addExchange(twin, system, weir.from, weir.to, Math.min(netKgH, capacityKgH));
}

/** What comes into a body that stands at its brim goes over it as it comes. */
function planBrim(twin: Twin, system: SystemModel, body: number): void {
  const netKgH = twin.scratch.netKgH[body];
  if (netKgH > 0 && volumeL(twin, body) >= twin.model.site.bodies[body].brimL - LEVEL_TOLERANCE_L)
    addLoss(twin, system, body, netKgH, true);
}
