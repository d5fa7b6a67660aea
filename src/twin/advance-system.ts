/** One system from one stop of the twin to the next. Its own thermostats and floats switch in between, each at its moment. */

import { CLOCK_NOW } from "./columns.ts";
import { updateHarmOfWarmth } from "./harm.ts";
import { type Steppable, stepToSwitch } from "./landing.ts";
import type { SystemModel } from "./model.ts";
import { SHORTEST_S } from "./moments.ts";
import { thermostatPoint } from "./own-switches.ts";
import { planFlows } from "./plan-flows.ts";
import { planHoldsH } from "./plan-holds.ts";
import { planReactors } from "./reactor.ts";
import { settleLevels } from "./settle-levels.ts";
import { updateHeating, updateSlow, updateWaters } from "./slow.ts";
import { PLAN, type Twin } from "./state.ts";
import { catchUp, leaveBehind } from "./step-matter.ts";
import { stepWarmth } from "./step-warmth.ts";
import { switchSystem } from "./switching.ts";
import { keepBefore, takeBack } from "./undo.ts";
import { temperatureC } from "./water-values.ts";

/** A thermostat is landed on at most so far past its point, K. */
const LANDED_K = 1e-4;
const SHORTEST_H = SHORTEST_S / 3600;
/** Less than this is no time, h. */
const NO_TIME_H = 1e-9;

/** Works out what the next step of a system needs: slow quantities, levels, flows. */
export function prepare(twin: Twin, system: SystemModel): void {
  catchUp(twin, system);
  updateSlow(twin, system);
  settleLevels(twin, system);
  planFlows(twin, system);
  planReactors(twin, system);
}

/** Brings the plan of the next step up to date; true where levels have moved and floats with them. */
export function plan(twin: Twin, system: SystemModel): boolean {
  const { plan: plans } = twin.scratch;
  const had = plans[system.index];
  if (had === PLAN.none) prepare(twin, system);
  else if (had === PLAN.butHeat) updateHeating(twin, system);
  plans[system.index] = PLAN.stands;
  leaveBehind(twin, system);
  return had === PLAN.none;
}

/** Runs a prepared system; the clock of the twin stands at `fromS` before and after. */
export function advanceSystem(twin: Twin, system: SystemModel, fromS: number, toS: number): void {
  let leftH = (toS - fromS) / 3600;
  if (system.thermostats.length === 0) {
    step(twin, system, leftH);
    twin.scratch.lagH[system.index] += leftH;
    updateHarmOfWarmth(twin, system, leftH);
    return;
  }
  while (leftH > NO_TIME_H) {
    // Within the stretch flows may change, so that a level is near that was far when the stretch was planned.
    const levelH = Math.max(SHORTEST_H, planHoldsH(twin, system));
    const mostH = Math.min(leftH, levelH);
    const hours = stepToCrossing(twin, system, mostH);
    twin.scratch.lagH[system.index] += hours;
    updateHarmOfWarmth(twin, system, hours);
    leftH -= hours;
    if (leftH <= NO_TIME_H) break;
    twin.clocks[CLOCK_NOW] = toS - leftH * 3600;
    if (hours === levelH) twin.scratch.plan[system.index] = PLAN.none;
    switchSystem(twin, system, false);
    if (plan(twin, system) && switchSystem(twin, system, false)) plan(twin, system);
  }
  twin.clocks[CLOCK_NOW] = fromS;
}

function step(twin: Twin, system: SystemModel, hours: number): void {
  twin.scratch.next.steps++;
  stepWarmth(twin, system, hours);
  updateWaters(twin, system);
}

/** Steps so many hours, or until the first own thermostat reaches its point; returns the hours. */
function stepToCrossing(twin: Twin, system: SystemModel, mostH: number): number {
  const landing = landings.get(twin) ?? new ThermostatLanding(twin);
  landings.set(twin, landing);
  return landing.from(system, mostH);
}

const landings = new WeakMap<Twin, ThermostatLanding>();

/** The own thermostats of a system, as the landing of a step wants them (landing.ts). */
class ThermostatLanding implements Steppable {
  readonly #twin: Twin;
  /** Point of each own thermostat, degrees C, and from which side it is approached; 0: it is not watched. */
  readonly #pointC: Float64Array;
  readonly #side: Float64Array;
  #system: SystemModel;

  constructor(twin: Twin) {
    const { systems } = twin.model;
    const most = Math.max(0, ...systems.map((system) => system.thermostats.length));
    this.#twin = twin;
    this.#system = systems[0];
    this.#pointC = new Float64Array(most);
    this.#side = new Float64Array(most);
  }

  from(system: SystemModel, mostH: number): number {
    this.#system = system;
    keepBefore(this.#twin, system);
    return stepToSwitch(this, this.#watch(), mostH, SHORTEST_H);
  }

  step(hours: number): void {
    step(this.#twin, this.#system, hours);
  }

  takeBack(): void {
    takeBack(this.#twin, this.#system);
    updateWaters(this.#twin, this.#system);
  }

  past(): number {
    const { thermostats } = this.#system;
    let most = Number.NEGATIVE_INFINITY;
    for (let place = 0; place < thermostats.length; place++) {
      if (this.#side[place] === 0) continue;
      const body = this.#twin.model.bodyOfDevice[thermostats[place]];
      const gapK = temperatureC(this.#twin, body) - this.#pointC[place];
      most = Math.max(most, -gapK * this.#side[place]);
    }
    return most / LANDED_K;
  }

  /** Notes what each thermostat waits for, and how far the nearest is from it: below 0. One that stands at its point waits for nothing. */
  #watch(): number {
    const { model } = this.#twin;
    const { thermostats } = this.#system;
    let nearest = Number.NEGATIVE_INFINITY;
    for (let place = 0; place < thermostats.length; place++) {
      const body = model.bodyOfDevice[thermostats[place]];
      const pointC = thermostatPoint(this.#twin, thermostats[place]);
      const gapK = temperatureC(this.#twin, body) - pointC;
      const waits = model.localOfBody[body] >= 0 && Math.abs(gapK) > LANDED_K;
      this.#pointC[place] = pointC;
      this.#side[place] = waits ? Math.sign(gapK) : 0;
      if (waits) nearest = Math.max(nearest, -Math.abs(gapK));
    }
    return nearest / LANDED_K;
  }
}
