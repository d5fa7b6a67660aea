/**
 * Levels by quasi-steady state: a display above its weir settles in seconds, so its level follows the inflow at once; what
 * is slow (the sump, a blocked drain, a leak) is integrated. Sources: docs/science.md#hydraulics.
 */
import { askLever } from "./asked.ts";
import { FLOW_COLUMNS, FLOW_NOW, FLOW_SUCTION, SUCTION_DRY, SUCTION_FULL, SUCTION_GURGLING } from "./columns.ts";
import {
  DRY_SHARE,
  drainCapacity,
  flowLever,
  flowNow,
  fullAgainL,
  LEVEL_TOLERANCE_L,
  loseWater,
  moveWater,
  pumpFlow,
  volumeL,
} from "./hydraulics.ts";
import { AT } from "./levers.ts";
import type { PumpEdge, SystemModel, WeirEdge } from "./model.ts";
import type { Twin } from "./state.ts";

/**
 * Brings the fast levels to where they settle within a minute: pipes that drain back when a pump stops, a display that
 * fills when it starts, water above a weir that runs off, and what stands over a brim.
 */
export function settleLevels(twin: Twin, system: SystemModel): void {
  for (const pump of system.pumps) settlePump(twin, system, pump);
  for (const weir of system.weirs) settleWeir(twin, system, weir);
  for (const body of system.bodies) spillOver(twin, system, body);
}

function settlePump(twin: Twin, system: SystemModel, pump: PumpEdge): void {
  updateSuction(twin, pump);
  const flow = pumpFlow(twin, pump);
  const at = pump.flow * FLOW_COLUMNS + FLOW_NOW;
  const wasFlowing = twin.flows[at] > 0;
  twin.flows[at] = flow;
  if (wasFlowing && flow === 0) drainBack(twin, system, pump);
}

/** Full, gurgling or dry: with a gap between going and coming back, since the display gives back water when the flow falls. */
function updateSuction(twin: Twin, pump: PumpEdge): void {
  const at = pump.flow * FLOW_COLUMNS + FLOW_SUCTION;
  const { intakeL } = twin.model.site.bodies[pump.from];
  const waterL = volumeL(twin, pump.from);
  if (waterL < intakeL * DRY_SHARE) twin.flows[at] = SUCTION_DRY;
  else if (waterL >= fullAgainL(intakeL)) twin.flows[at] = SUCTION_FULL;
  else if (waterL < intakeL) twin.flows[at] = Math.max(twin.flows[at], SUCTION_GURGLING);
  else if (twin.flows[at] === SUCTION_DRY) twin.flows[at] = SUCTION_GURGLING;
}

/** A pump has stopped: the water over its mouth runs back through the pipe, by a hose that is off partly to the floor. */
function drainBack(twin: Twin, system: SystemModel, pump: PumpEdge): void {
  const weir = system.weirs.find((one) => one.from === pump.to);
  if (!weir) return;
  const belowCrestL = drainsBelowCrestL(twin, pump);
  const endsAtL = weir.crestL - belowCrestL;
  const runsBackL = volumeL(twin, pump.to) - endsAtL;
  if (runsBackL <= 0) return;
  const hose = flowLever(twin, pump.flow, AT.flow.hoseOff);
  if (hose > 0) loseWater(twin, system.index, pump.to, Math.min(runsBackL, belowCrestL) * hose, true);
  moveWater(twin, pump.to, pump.from, Math.max(0, volumeL(twin, pump.to) - endsAtL));
}

/** How far below its crest a display drains through a stopped pump, L: not at all behind a check valve that holds. */
function drainsBelowCrestL(twin: Twin, pump: PumpEdge): number {
  const base = twin.model.levers.base.flow[pump.flow];
  const holds = pump.checkValve && askLever(twin, base + AT.flow.checkValve) === 0;
  if (holds) return 0;
  const breaks = askLever(twin, base + AT.flow.siphonBreak) === 0;
  return breaks ? pump.backSiphonL : Math.max(pump.backSiphonL, pump.backSiphonUnbrokenL);
}

/** A body whose drain keeps up stands at the level of its inflow; what is missing comes from where its pump draws. */
function settleWeir(twin: Twin, system: SystemModel, weir: WeirEdge): void {
  const inflow = netInflow(twin, system, weir.from);
  if (inflow > drainCapacity(twin, weir)) return;
  const gapL = weirLevelL(weir, inflow) - volumeL(twin, weir.from);
  if (gapL < -LEVEL_TOLERANCE_L) moveWater(twin, weir.from, weir.to, -gapL);
  else if (gapL > LEVEL_TOLERANCE_L && inflow > 0) fillUp(twin, system, weir.from, gapL);
}

/** What pumps and other weirs bring into a body less what pumps take out, L/h. */
function netInflow(twin: Twin, system: SystemModel, body: number): number {
  let inflow = 0;
  for (const pump of system.pumps) {
    if (pump.to === body) inflow += flowNow(twin, pump.flow) * (1 - flowLever(twin, pump.flow, AT.flow.hoseOff));
    if (pump.from === body) inflow -= flowNow(twin, pump.flow);
  }
  for (const other of system.weirs) if (other.to === body) inflow += passing(twin, system, other);
  return inflow;
}

/** Pumped water that passes a weir, without the small terms, L/h. */
function passing(twin: Twin, system: SystemModel, weir: WeirEdge): number {
  let flow = 0;
  for (const pump of system.pumps) if (pump.to === weir.from) flow += flowNow(twin, pump.flow);
  return Math.min(flow, drainCapacity(twin, weir));
}

/** Level at which a weir stands for a given inflow, as the body's volume, L: head grows with flow to the power 2/3 (suppressed weir). */
function weirLevelL(weir: WeirEdge, inflowLPerH: number): number {
  return weir.crestL + weir.headL * Math.cbrt((Math.max(0, inflowLPerH) / weir.ratedLPerH) ** 2);
}

/** The last of the pumps into a body fills it, as far as there is water over its intake. */
function fillUp(twin: Twin, system: SystemModel, body: number, gapL: number): void {
  let source = -1;
  for (const pump of system.pumps) if (pump.to === body) source = pump.from;
  if (source < 0) return;
  const spareL = volumeL(twin, source) - twin.model.site.bodies[source].intakeL;
  if (spareL > 0) moveWater(twin, source, body, Math.min(gapL, spareL));
}

function spillOver(twin: Twin, system: SystemModel, body: number): void {
  const overL = volumeL(twin, body) - twin.model.site.bodies[body].brimL;
  if (overL > 0) loseWater(twin, system.index, body, overL, true);
}
