/** One system from one stop of the twin to the next. Its own thermostats and floats switch in between, each at its moment. */

import { CLOCK_NOW } from "./columns.ts";
import { updateHarm } from "./harm.ts";
import { stepSystem } from "./integrate.ts";
import type { SystemModel } from "./model.ts";
import { hoursToLevel } from "./next-level.ts";
import { thermostatPoint } from "./own-switches.ts";
import { planFlows } from "./plan-flows.ts";
import { planReactors } from "./reactor.ts";
import { settleLevels } from "./settle-levels.ts";
import { updateSlow, updateWaters } from "./slow.ts";
import type { Twin } from "./state.ts";
import { switchSystem } from "./switching.ts";
import { keepBefore, takeBack } from "./undo.ts";
import { temperatureC } from "./water-values.ts";

/** A crossing is landed on this far past its point, K. */
const PAST_POINT_K = 1e-5;
const SHORTEST_H = 0.5 / 3600;
/** Less than this is no time, h. */
const NO_TIME_H = 1e-9;

/** Works out what the next step of a system needs: slow quantities, levels, flows. */
export function prepare(twin: Twin, system: SystemModel): void {
  updateSlow(twin, system);
  settleLevels(twin, system);
  planFlows(twin, system);
  planReactors(twin, system);
}

/** Runs a prepared system; the clock of the twin stands at `fromS` before and after. */
export function advanceSystem(twin: Twin, system: SystemModel, fromS: number, toS: number): void {
  let leftH = (toS - fromS) / 3600;
  if (system.thermostats.length === 0) {
    step(twin, system, leftH);
    updateHarm(twin, system, leftH);
    return;
  }
  while (leftH > NO_TIME_H) {
    // Within the stretch flows may change, so that a level is near that was far when the stretch was planned.
    const mostH = Math.min(leftH, Math.max(SHORTEST_H, hoursToLevel(twin, system)));
    const hours = stepToCrossing(twin, system, mostH);
    updateHarm(twin, system, hours);
    leftH -= hours;
    if (leftH <= NO_TIME_H) break;
    twin.clocks[CLOCK_NOW] = toS - leftH * 3600;
    switchSystem(twin, system, false);
    prepare(twin, system);
  }
  twin.clocks[CLOCK_NOW] = fromS;
}

function step(twin: Twin, system: SystemModel, hours: number): void {
  stepSystem(twin, system, hours);
  updateWaters(twin, system);
}

/** Steps so many hours, or until the first own thermostat reaches its point; returns the hours. */
function stepToCrossing(twin: Twin, system: SystemModel, mostH: number): number {
  keepBefore(twin, system);
  step(twin, system, mostH);
  const hours = mostH * firstCrossing(twin, system);
  if (hours === mostH || hours <= SHORTEST_H) return mostH;
  takeBack(twin, system);
  step(twin, system, hours);
  return hours;
}

/** Share of the step at which the first own thermostat reaches its point; 1 where none does. */
function firstCrossing(twin: Twin, system: SystemModel): number {
  const before = twin.scratch.step.temperatureC;
  let first = 1;
  for (const device of system.thermostats) {
    const body = twin.model.bodyOfDevice[device];
    const local = twin.model.localOfBody[body];
    const point = thermostatPoint(twin, device);
    if (local < 0 || Number.isNaN(point)) continue;
    const start = before[local] - point;
    const end = temperatureC(twin, body) - point;
    if (start * end >= 0 || Math.abs(start) < 2 * PAST_POINT_K) continue;
    first = Math.min(first, (Math.abs(start) + PAST_POINT_K) / Math.abs(end - start));
  }
  return first;
}
