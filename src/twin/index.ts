/**
 * Twin: the simulator. A site is compiled once to flat tables; a twin is one flat array that runs through time. Faults and
 * people bend it by levers (levers.ts); everything that matters is told through `onEvent`.
 *
 * Looks down on: rules, site, science, foundation. Never heard of: drills, watch, the clock on the wall, chance.
 */
export { advance } from "./advance.ts";
export { addAsked, askLever, forgetAsked, leversAsked, pulledAtRest } from "./asked.ts";
export {
  BODY_COLUMNS,
  CA,
  CARBON,
  DEVICE_COLUMNS,
  DIC,
  ORGANIC,
  TA,
  UNROTTED,
} from "./columns.ts";
export { compile } from "./compile.ts";
export { addFood, addMol, pourFresh } from "./habits.ts";
export { atEase, type HarmEnd, type HarmWhat, isHarmed, worstDose, worstHarm } from "./harm.ts";
export { hubWorks } from "./hub.ts";
export { flowNow, isRunning, loseWater, moveWater, volumeL } from "./hydraulics.ts";
export { LEVERS, type LeverKind, SITE_LEVERS } from "./levers.ts";
export { DKH_TO_EQ_PER_L, isStore, systemWaterL } from "./life.ts";
export { lookNow, lookSoon } from "./look-soon.ts";
export type { Looker, Model, SystemModel } from "./model.ts";
export { mustFind } from "./must-find.ts";
export { changeWater, fillUp } from "./new-water.ts";
export { HUB_W, LINK_W } from "./overloads.ts";
export {
  linkCarries,
  openAfterCut,
  powerMoved,
  resetCircuit,
  startBattery,
} from "./power.ts";
export { RoomGains } from "./room-gains.ts";
export { fillStores, refillStore, restSwitches, roundRooms, startTwin, topUp, warmTo } from "./start.ts";
export {
  createTwin,
  leverAt,
  restore,
  snapshot,
  stepCount,
  type Twin,
  type TwinEvent,
  type TwinOptions,
  timeS,
} from "./state.ts";
export { AIR_COLUMNS, floorL, type Probe, roomProbes, sensedProbes, truthProbes } from "./trace.ts";
export { alkalinityDKH, ammoniaMgNL, oxygenMgL, phTotal, salinity, temperatureC } from "./water-values.ts";
