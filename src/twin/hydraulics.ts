/**
 * Levels and flows of one system by quasi-steady state: a display above its weir settles in seconds, so its level follows
 * the inflow at once; what is slow (the sump, a blocked drain, a leak) is integrated. Sources: docs/science.md#plumbing.
 */
import { seawaterDensity } from "../science/index.ts";
import {
  BODY_COLUMNS,
  DEVICE_COLUMNS,
  DEVICE_RUNNING,
  FLOW_COLUMNS,
  FLOW_NOW,
  FLOW_SUCTION,
  HEAT,
  HEAT_CAPACITY,
  LEDGER_COLUMNS,
  LEDGER_WATER,
  MASS,
  ROOM_COLUMNS,
  ROOM_FLOOR,
  SALT,
  TRANSPORTED,
} from "./columns.ts";
import { AT } from "./levers.ts";
import type { CarryEdge, PumpEdge, SystemModel, WeirEdge } from "./model.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

/** Below this share of the intake volume a pump moves nothing, and above this volume it is free of air again. */
export const DRY_SHARE = 0.8;

export function fullAgainL(intakeL: number): number {
  return intakeL * 1.1 + 1;
}

/** Within this a weir is taken to be at its level, L. */
const LEVEL_TOLERANCE_L = 0.01;
/** A pump that sucks air moves this share of its rated flow until the water over its intake is back. */
const GURGLE_SHARE = 0.3;
/** A step that lands on a level goes this far past it, so that the switch sees it crossed, L. */
const PAST_LEVEL_L = 1e-5;
const FULL = 0;
const GURGLING = 1;
const DRY = 2;
/** A body that loses water keeps this share of it, in corners and in the sand. */
const DREGS_SHARE = 0.01;
/** A body may lose this share of its water in one step, so that what hangs on its level keeps up. */
const LOSS_STEP_SHARE = 0.1;
const LONGEST_STEP_H = 1 / 6;
/** Litres under which water on the floor is a splash. */
export const SPLASH_L = 0.1;

export function volumeL(twin: Twin, body: number): number {
  return twin.bodies[body * BODY_COLUMNS + MASS] / kgPerL(twin, body);
}

export function kgPerL(twin: Twin, body: number): number {
  const known = twin.scratch.slow[body * SLOW_COLUMNS + SLOW.kgPerL];
  return Number.isNaN(known) ? densityNow(twin, body) : known;
}

/** Density before the first step after a restore, when hands may already move water, kg/L. */
function densityNow(twin: Twin, body: number): number {
  const at = body * BODY_COLUMNS;
  const massKg = Math.max(twin.bodies[at + MASS], 1e-6);
  const temperatureC = Math.min(45, Math.max(0, twin.bodies[at + HEAT] / (massKg * HEAT_CAPACITY)));
  return seawaterDensity(temperatureC, Math.min((1000 * twin.bodies[at + SALT]) / massKg, 45)) / 1000;
}

export function isRunning(twin: Twin, device: number): boolean {
  return twin.devices[device * DEVICE_COLUMNS + DEVICE_RUNNING] !== 0;
}

export function deviceLever(twin: Twin, device: number, at: number): number {
  return twin.levers[twin.model.levers.base.device[device] + at];
}

function flowLever(twin: Twin, flow: number, at: number): number {
  return twin.levers[twin.model.levers.base.flow[flow] + at];
}

/** Water that a pump moves as of the last look at the levels, L/h. */
export function flowNow(twin: Twin, flow: number): number {
  return twin.flows[flow * FLOW_COLUMNS + FLOW_NOW];
}

/** Share of its rated effect that a device has now. */
export function outputOf(twin: Twin, device: number): number {
  return Math.max(0, deviceLever(twin, device, AT.device.output));
}

/** Water that a pump moves now, L/h. */
export function pumpFlow(twin: Twin, pump: PumpEdge): number {
  if (!isRunning(twin, pump.device) || flowLever(twin, pump.flow, AT.flow.shut) > 0) return 0;
  if (deviceLever(twin, pump.device, AT.device.idle) > 0) return 0;
  const suction = twin.flows[pump.flow * FLOW_COLUMNS + FLOW_SUCTION];
  const air = suction === FULL ? 1 : suction === GURGLING ? GURGLE_SHARE : 0;
  return pump.ratedLPerH * outputOf(twin, pump.device) * air;
}

/** Full, gurgling or dry: with a gap between going and coming back, since the display gives back water when the flow falls. */
function updateSuction(twin: Twin, pump: PumpEdge): void {
  const at = pump.flow * FLOW_COLUMNS + FLOW_SUCTION;
  const { intakeL } = twin.model.site.bodies[pump.from];
  const waterL = volumeL(twin, pump.from);
  if (waterL < intakeL * DRY_SHARE) twin.flows[at] = DRY;
  else if (waterL >= fullAgainL(intakeL)) twin.flows[at] = FULL;
  else if (waterL < intakeL) twin.flows[at] = Math.max(twin.flows[at], GURGLING);
  else if (twin.flows[at] === DRY) twin.flows[at] = GURGLING;
}

/** Water that a top-off, doser, valve or change pump carries now, L/h. */
function carryFlow(twin: Twin, carry: CarryEdge): number {
  const { site } = twin.model;
  const device = site.devices[carry.device];
  const siphon = deviceLever(twin, carry.device, AT.device.siphonLPerH);
  const pulsed = device.kind === "doser" && deviceLever(twin, carry.device, AT.device.thermostat) <= 0;
  const rated = device.kind === "water-change" ? device.amountPerDay / 24 : pulsed ? 0 : device.flowLPerH;
  const idle = deviceLever(twin, carry.device, AT.device.idle) > 0;
  const pumped = isRunning(twin, carry.device) && !idle ? rated * outputOf(twin, carry.device) : 0;
  const flow = Math.max(pumped, siphon);
  if (flow === 0 || carry.from < 0) return flow;
  return volumeL(twin, carry.from) > site.bodies[carry.from].intakeL + LEVEL_TOLERANCE_L ? flow : 0;
}

/** Moves water with all that is in it, at once. Both bodies keep their own concentrations but for the mixing. */
export function moveWater(twin: Twin, from: number, to: number, litres: number): void {
  const { bodies } = twin;
  const source = from * BODY_COLUMNS;
  const target = to * BODY_COLUMNS;
  const share = Math.min(1, (litres * kgPerL(twin, from)) / Math.max(bodies[source + MASS], 1e-9));
  for (let column = 0; column <= MASS; column++) {
    const part = bodies[source + column] * share;
    bodies[source + column] -= part;
    bodies[target + column] += part;
  }
}

/** Water of a body leaves the place: to the floor of its room, or down a drain. */
export function loseWater(twin: Twin, system: number, body: number, litres: number, toFloor: boolean): void {
  const { bodies, ledger, model } = twin;
  const source = body * BODY_COLUMNS;
  const share = Math.min(1, (litres * kgPerL(twin, body)) / Math.max(bodies[source + MASS], 1e-9));
  const book = system * LEDGER_COLUMNS;
  const counts = model.localOfBody[body] >= 0 ? 1 : 0;
  for (let column = 0; column < TRANSPORTED; column++) {
    const part = bodies[source + column] * share;
    bodies[source + column] -= part;
    ledger[book + column] -= part * counts;
  }
  const kg = bodies[source + MASS] * share;
  bodies[source + MASS] -= kg;
  ledger[book + LEDGER_WATER] -= kg * counts;
  if (toFloor) wetFloor(twin, model.roomIndex.get(model.site.bodies[body].room)!, kg / kgPerL(twin, body));
}

export function wetFloor(twin: Twin, room: number, litres: number): void {
  twin.rooms[room * ROOM_COLUMNS + ROOM_FLOOR] += litres;
}

/** Level at which a weir stands for a given inflow, as the body's volume, L: head grows with flow to the power 2/3 (suppressed weir). */
function weirLevelL(weir: WeirEdge, inflowLPerH: number): number {
  return weir.crestL + weir.headL * Math.cbrt((Math.max(0, inflowLPerH) / weir.ratedLPerH) ** 2);
}

function drainCapacity(twin: Twin, weir: WeirEdge): number {
  return (
    weir.drainLPerH * flowLever(twin, weir.flow, AT.flow.drain) +
    weir.spareDrainLPerH * flowLever(twin, weir.flow, AT.flow.spareDrain)
  );
}

/**
 * Brings the fast levels to where they settle within a minute: pipes that drain back when a pump stops, a display that
 * fills when it starts, water above a weir that runs off, and what stands over a brim.
 */
export function settleLevels(twin: Twin, system: SystemModel): void {
  for (const pump of system.pumps) settlePump(twin, system, pump);
  for (const weir of system.weirs) settleWeir(twin, system, weir);
  for (const body of system.waters) spillOver(twin, system, body);
  for (const body of system.stores) spillOver(twin, system, body);
}

function settlePump(twin: Twin, system: SystemModel, pump: PumpEdge): void {
  updateSuction(twin, pump);
  const flow = pumpFlow(twin, pump);
  const at = pump.flow * FLOW_COLUMNS + FLOW_NOW;
  const wasFlowing = twin.flows[at] > 0;
  twin.flows[at] = flow;
  const weir = system.weirs.find((one) => one.from === pump.to);
  if (!weir || flow > 0 || !wasFlowing) return;
  const holds = pump.checkValve && flowLever(twin, pump.flow, AT.flow.checkValve) === 0;
  const broken = flowLever(twin, pump.flow, AT.flow.siphonBreak) === 0;
  const belowCrestL = holds ? 0 : broken ? pump.backSiphonL : Math.max(pump.backSiphonL, pump.backSiphonUnbrokenL);
  const runsBackL = volumeL(twin, pump.to) - (weir.crestL - belowCrestL);
  const hose = flowLever(twin, pump.flow, AT.flow.hoseOff);
  if (runsBackL <= 0) return;
  if (hose > 0) loseWater(twin, system.index, pump.to, Math.min(runsBackL, belowCrestL) * hose, true);
  moveWater(twin, pump.to, pump.from, Math.max(0, volumeL(twin, pump.to) - (weir.crestL - belowCrestL)));
}

function settleWeir(twin: Twin, system: SystemModel, weir: WeirEdge): void {
  let inflow = 0;
  let feeder: PumpEdge | null = null;
  for (const pump of system.pumps) {
    if (pump.to === weir.from) {
      inflow += flowNow(twin, pump.flow) * (1 - flowLever(twin, pump.flow, AT.flow.hoseOff));
      feeder = pump;
    }
    if (pump.from === weir.from) inflow -= flowNow(twin, pump.flow);
  }
  for (const other of system.weirs) if (other.to === weir.from) inflow += passing(twin, system, other);
  const capacity = drainCapacity(twin, weir);
  if (inflow > capacity) return;
  const target = weirLevelL(weir, inflow);
  const gapL = target - volumeL(twin, weir.from);
  if (gapL < -LEVEL_TOLERANCE_L) moveWater(twin, weir.from, weir.to, -gapL);
  else if (gapL > LEVEL_TOLERANCE_L && feeder && inflow > 0) {
    const spare = volumeL(twin, feeder.from) - twin.model.site.bodies[feeder.from].intakeL;
    if (spare > 0) moveWater(twin, feeder.from, weir.from, Math.min(gapL, spare));
  }
}

/** Pumped water that passes a weir, without the small terms. */
function passing(twin: Twin, system: SystemModel, weir: WeirEdge): number {
  let flow = 0;
  for (const pump of system.pumps) if (pump.to === weir.from) flow += flowNow(twin, pump.flow);
  return Math.min(flow, drainCapacity(twin, weir));
}

function spillOver(twin: Twin, system: SystemModel, body: number): void {
  const over = volumeL(twin, body) - twin.model.site.bodies[body].brimL;
  if (over > 0) loseWater(twin, system.index, body, over, true);
}

/**
 * Works out all flows of a system as they are now: the exchange matrix (kg/h, row = to, column = from), what comes in and
 * goes out by other ways, and the change of each body's volume. Leaves them in the scratch space.
 */
export function planFlows(twin: Twin, system: SystemModel): void {
  const { scratch } = twin;
  const flows = scratch.flows[system.index];
  flows.exchange.fill(0);
  flows.carried.fill(0);
  flows.lostKgH.fill(0);
  flows.floorKgH.fill(0);
  for (const body of system.waters) scratch.netKgH[body] = -evaporation(twin, body);
  for (const body of system.stores) scratch.netKgH[body] = 0;
  for (const pump of system.pumps) planPump(twin, system, pump);
  for (const carry of system.carries) planCarry(twin, system, carry);
  planLosses(twin, system);
  for (const weir of system.weirs) planWeir(twin, system, weir);
  for (const body of system.waters) planBrim(twin, system, body);
}

function evaporation(twin: Twin, body: number): number {
  return twin.scratch.slow[body * SLOW_COLUMNS + SLOW.evaporationKgH];
}

function planPump(twin: Twin, system: SystemModel, pump: PumpEdge): void {
  const flow = pumpFlow(twin, pump) * kgPerL(twin, pump.from);
  if (flow === 0) return;
  const hose = flowLever(twin, pump.flow, AT.flow.hoseOff);
  addExchange(twin, system, pump.from, pump.to, flow * (1 - hose));
  if (hose > 0) addLoss(twin, system, pump.from, flow * hose, true);
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
  const { scratch, model, bodies } = twin;
  const { carried } = scratch.flows[system.index];
  const flow = carryFlow(twin, carry);
  scratch.deviceFlow[carry.device] = flow;
  if (flow === 0) return;
  const fromLine = carry.from < 0;
  const kgH = flow * (fromLine ? 1 : kgPerL(twin, carry.from));
  scratch.netKgH[carry.to] += kgH;
  if (!fromLine) scratch.netKgH[carry.from] -= kgH;
  const local = model.localOfBody[carry.to];
  const source = carry.from * BODY_COLUMNS;
  if (local >= 0 && fromLine) {
    const airC = scratch.slow[carry.to * SLOW_COLUMNS + SLOW.airC];
    carried[local * TRANSPORTED + HEAT] += kgH * HEAT_CAPACITY * airC;
  } else if (local >= 0) {
    const perKg = kgH / Math.max(bodies[source + MASS], 1e-9);
    const strength = deviceLever(twin, carry.device, AT.device.strength);
    for (let column = 0; column < TRANSPORTED; column++) {
      carried[local * TRANSPORTED + column] += bodies[source + column] * perKg * (column === HEAT ? 1 : strength);
    }
  }
  if (model.site.devices[carry.device].kind === "water-change") addLoss(twin, system, carry.to, kgH, false);
}

function planLosses(twin: Twin, system: SystemModel): void {
  const { model, levers } = twin;
  for (const body of system.waters) {
    const base = model.levers.base.body[body];
    const leak = levers[base + AT.body.leakLPerH];
    if (leak > 0) {
      const full = model.site.bodies[body].volumeL;
      const stopsAt = Math.min(1 - DREGS_SHARE, Math.max(levers[base + AT.body.leakStopsAt], DREGS_SHARE));
      const head = volumeL(twin, body) / full - stopsAt;
      if (head > 0) addLoss(twin, system, body, leak * Math.sqrt(head / (1 - stopsAt)) * kgPerL(twin, body), true);
    }
  }
  for (const device of system.devices) {
    const waste = deviceLever(twin, device, AT.device.wasteLPerH);
    const body = model.bodyIndex.get(model.site.devices[device].in)!;
    const needsRun = model.site.devices[device].kind === "skimmer";
    const left = volumeL(twin, body) > model.site.bodies[body].intakeL * DRY_SHARE;
    if (waste > 0 && left && (!needsRun || isRunning(twin, device)))
      addLoss(twin, system, body, waste * kgPerL(twin, body), false);
  }
}

function planWeir(twin: Twin, system: SystemModel, weir: WeirEdge): void {
  const density = kgPerL(twin, weir.from);
  const net = twin.scratch.netKgH[weir.from];
  if (net <= 0) return;
  const capacity = drainCapacity(twin, weir) * density;
  const level = volumeL(twin, weir.from);
  const atCrest = level >= weir.crestL - LEVEL_TOLERANCE_L;
  if (atCrest) addExchange(twin, system, weir.from, weir.to, Math.min(net, capacity));
}

/** What comes into a body that stands at its brim goes over it as it comes. */
function planBrim(twin: Twin, system: SystemModel, body: number): void {
  const net = twin.scratch.netKgH[body];
  if (net > 0 && volumeL(twin, body) >= twin.model.site.bodies[body].brimL - LEVEL_TOLERANCE_L)
    addLoss(twin, system, body, net, true);
}

/** Hours until a watched volume of this system is reached at the planned flows; Infinity if none is. */
export function hoursToLevel(twin: Twin, system: SystemModel): number {
  let soonest = Number.POSITIVE_INFINITY;
  for (const { body, volumeL: level } of twin.model.watchedLevels[system.index]) {
    const ratePerH = twin.scratch.netKgH[body] / kgPerL(twin, body);
    const gap = level - volumeL(twin, body);
    if (Math.abs(gap) < PAST_LEVEL_L || gap * ratePerH <= 0) continue;
    soonest = Math.min(soonest, (gap + Math.sign(gap) * PAST_LEVEL_L) / ratePerH);
  }
  for (const body of system.waters) {
    const mass = twin.bodies[body * BODY_COLUMNS + MASS];
    const losesKgH = -twin.scratch.netKgH[body];
    if (losesKgH * LONGEST_STEP_H > LOSS_STEP_SHARE * mass)
      soonest = Math.min(soonest, (LOSS_STEP_SHARE * mass) / losesKgH);
  }
  return soonest;
}
