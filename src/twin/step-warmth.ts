/**
 * One step of the heat and the mass of a system's waters. Heaters switch far more often than anything else changes, so these two go
 * on by themselves from switch to switch, and all that is dissolved follows (step-matter.ts).
 */
import { latentHeatKJPerKg } from "../science/index.ts";
import { BODY_COLUMNS, HEAT, HEAT_CAPACITY, MASS, TRANSPORTED } from "./columns.ts";
import { addTransport, factorExchange, solveExchange } from "./exchange.ts";
import { wetFloor } from "./hydraulics.ts";
import { mostWaters, type SystemModel } from "./model.ts";
import { GAMMA, makeStages, rosenbrockStep, type Stages, type StiffProblem } from "./rosenbrock.ts";
import { SLOW, SLOW_COLUMNS, type Twin, timeS } from "./state.ts";
import { drawFromStores } from "./stores.ts";

/** Least mass of a water, kg. */
const LEAST_KG = 1e-6;

/** Each twin has its own room to step in. */
const steps = new WeakMap<Twin, StepOfWarmth>();

/** Advances heat, mass, reservoirs and floors of a system by `hours` at the planned flows. */
export function stepWarmth(twin: Twin, system: SystemModel, hours: number): void {
  const step = steps.get(twin) ?? new StepOfWarmth(twin);
  steps.set(twin, step);
  step.take(system, hours);
}

class StepOfWarmth implements StiffProblem {
  readonly #twin: Twin;
  readonly #stages: Stages;
  /** Heat of each water, J. */
  readonly #heat: Float64Array;
  /** Mass of each water at the start and at the end of the step, kg. */
  readonly #mass: Float64Array;
  readonly #massEnd: Float64Array;
  #system: SystemModel;
  #hours = 0;

  constructor(twin: Twin) {
    const most = mostWaters(twin.model);
    this.#twin = twin;
    this.#system = twin.model.systems[0];
    this.#stages = makeStages(most);
    this.#heat = new Float64Array(most);
    this.#mass = new Float64Array(most);
    this.#massEnd = new Float64Array(most);
  }

  take(system: SystemModel, hours: number): void {
    const { bodies, scratch } = this.#twin;
    const { waters } = system;
    this.#system = system;
    this.#hours = hours;
    for (let local = 0; local < waters.length; local++) {
      const at = waters[local] * BODY_COLUMNS;
      this.#heat[local] = bodies[at + HEAT];
      this.#mass[local] = bodies[at + MASS];
      this.#massEnd[local] = Math.max(LEAST_KG, bodies[at + MASS] + scratch.netKgH[waters[local]] * hours);
    }
    rosenbrockStep(this, this.#stages, this.#heat, waters.length, hours);
    for (let local = 0; local < waters.length; local++) {
      const at = waters[local] * BODY_COLUMNS;
      bodies[at + HEAT] = this.#heat[local];
      bodies[at + MASS] = this.#massEnd[local];
    }
    wetFloors(this.#twin, system, hours);
    drawFromStores(this.#twin, system, hours);
  }

  factor(gH: number): void {
    factorExchange(this.#twin, this.#system, this.#mass, gH);
  }

  solve(x: Float64Array): void {
    solveExchange(this.#twin.scratch.step.lower, this.#system.waters.length, x, 1);
  }

  slope(share: 0 | 1, heat: Float64Array, out: Float64Array): void {
    const twin = this.#twin;
    const { waters, index } = this.#system;
    const { slow, flows } = twin.scratch;
    const { carried, lostKgH } = flows[index];
    const mass = share === 0 ? this.#mass : this.#massEnd;
    for (let local = 0; local < waters.length; local++) {
      const s = waters[local] * SLOW_COLUMNS;
      const temperatureC = heat[local] / (mass[local] * HEAT_CAPACITY);
      const dryW = slow[s + SLOW.lossWPerK] * (temperatureC - slow[s + SLOW.airC]);
      out[local] =
        carried[local * TRANSPORTED + HEAT] +
        3600 * (slow[s + SLOW.heatW] - dryW) -
        vapourJPerH(slow, s) -
        (lostKgH[local] / mass[local]) * heat[local];
    }
    twin.books?.warmth(this.#system, heat, mass, this.#hours / 2);
    const aheadH = GAMMA * this.#hours;
    addTransport(twin, this.#system, heat, mass, share === 0 ? aheadH : -aheadH, out, 1);
  }
}

/** What ran to the floor lies there. */
function wetFloors(twin: Twin, system: SystemModel, hours: number): void {
  const { slow, flows } = twin.scratch;
  const { floorKgH } = flows[system.index];
  for (let local = 0; local < system.waters.length; local++) {
    const body = system.waters[local];
    if (floorKgH[local] <= 0) continue;
    const litres = (floorKgH[local] * hours) / slow[body * SLOW_COLUMNS + SLOW.kgPerL];
    wetFloor(twin, body, litres, timeS(twin) + 3600 * hours);
  }
}

/** Heat that goes with what evaporates, the latent and its own. */
function vapourJPerH(slow: Float64Array, s: number): number {
  const temperatureC = slow[s + SLOW.temperatureC];
  return slow[s + SLOW.evaporationKgH] * (latentHeatKJPerKg(temperatureC) * 1000 + HEAT_CAPACITY * temperatureC);
}
