/** When the water will stand at a level at which something switches. */
import { BODY_COLUMNS, MASS, ROOM_COLUMNS, ROOM_FLOOR } from "./columns.ts";
import { kgPerL, SPLASH_L, volumeL } from "./hydraulics.ts";
import type { SystemModel } from "./model.ts";
import { PLENTY_MG_L } from "./oxygen-demand.ts";
import type { Twin } from "./state.ts";
import { oxygenMgL } from "./water-values.ts";

/** A step that lands on a level goes this far past it, so that the switch sees it crossed, L. */
const PAST_LEVEL_L = 1e-5;
/** A body may lose this share of its water in one step, so that what hangs on its level keeps up. */
const LOSS_STEP_SHARE = 0.1;
const LONGEST_STEP_H = 1;
/** Where oxygen runs short, or the water does harm, no step is longer than this, h. */
const LONGEST_HARMFUL_H = 1 / 3;

/** Hours for which the plan of a system holds: until a watched volume is reached at the planned flows, or its water goes too fast. */
export function planHoldsH(twin: Twin, system: SystemModel): number {
  const { netKgH } = twin.scratch;
  let soonest = Number.POSITIVE_INFINITY;
  for (const { body, volumeL: level } of system.watchedLevels) {
    if (netKgH[body] === 0) continue;
    const ratePerH = netKgH[body] / kgPerL(twin, body);
    const gap = level - volumeL(twin, body);
    if (Math.abs(gap) < PAST_LEVEL_L || gap * ratePerH <= 0) continue;
    soonest = Math.min(soonest, (gap + Math.sign(gap) * PAST_LEVEL_L) / ratePerH);
  }
  for (const body of system.waters) {
    const mass = twin.bodies[body * BODY_COLUMNS + MASS];
    const losesKgH = -netKgH[body];
    if (losesKgH * LONGEST_STEP_H > LOSS_STEP_SHARE * mass)
      soonest = Math.min(soonest, (LOSS_STEP_SHARE * mass) / losesKgH);
  }
  if (isHarmful(twin, system)) soonest = Math.min(soonest, LONGEST_HARMFUL_H);
  return Math.min(soonest, hoursToSplash(twin, system));
}

function isHarmful(twin: Twin, system: SystemModel): boolean {
  if (twin.scratch.harms[system.index] > 0) return true;
  for (const body of system.waters) if (oxygenMgL(twin, body) < PLENTY_MG_L) return true;
  return false;
}

/** Hours until what runs to the floor is more than a splash; Infinity where nothing runs or it is so already. */
function hoursToSplash(twin: Twin, system: SystemModel): number {
  const { floorKgH } = twin.scratch.flows[system.index];
  let soonest = Number.POSITIVE_INFINITY;
  for (let local = 0; local < floorKgH.length; local++) {
    if (floorKgH[local] <= 0) continue;
    const body = system.waters[local];
    const lies = twin.rooms[twin.model.roomOfBody[body] * ROOM_COLUMNS + ROOM_FLOOR];
    if (lies < SPLASH_L)
      soonest = Math.min(soonest, ((SPLASH_L - lies + PAST_LEVEL_L) * kgPerL(twin, body)) / floorKgH[local]);
  }
  return soonest;
}
