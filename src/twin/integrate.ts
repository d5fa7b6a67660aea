/**
 * One step of one system: transport by the flows, implicit and conserving, with all reactions (rosenbrock.ts). The exchange
 * matrix stands for the full Jacobian; its columns add up to nothing, so amounts are conserved to rounding.
 */
import { latentHeatKJPerKg } from "../science/index.ts";
import { updateLight } from "./around.ts";
import type { Ahead } from "./books.ts";
import { BODY_COLUMNS, DIC, HEAT, HEAT_CAPACITY, MASS, O2, TRANSPORTED } from "./columns.ts";
import { addTransport, factorExchange, solveColumns } from "./exchange.ts";
import { wetFloor } from "./hydraulics.ts";
import { mostWaters, type SystemModel } from "./model.ts";
import {
  BREATHED_PER_H,
  CARBON_USED_PER_H,
  DEMANDS,
  isShort,
  oxygenDemand,
  solveOxygenDemand,
} from "./oxygen-demand.ts";
import { precipitate, updateHydrogen } from "./precipitation.ts";
import { addSources, CARBON_GAS_PER_H, STIFF, solveReactions, stiffness } from "./reactions.ts";
import { GAMMA, makeStages, rosenbrockStep, type Stages, type StiffProblem } from "./rosenbrock.ts";
import { SLOW, SLOW_COLUMNS, type Twin, timeS } from "./state.ts";
import { drawFromStores } from "./stores.ts";

/** Seconds in half an hour. */
const HALF_H_S = 1800;

/** Each twin has its own room to step in. */
const steps = new WeakMap<Twin, StepOfSystem>();

/** Advances the waters of a system by `hours` at the planned flows. */
export function stepSystem(twin: Twin, system: SystemModel, hours: number): void {
  const step = steps.get(twin) ?? new StepOfSystem(twin);
  steps.set(twin, step);
  step.take(system, hours);
}

/** The waters of one system over one step, as the integrator wants them. */
class StepOfSystem implements StiffProblem {
  readonly #twin: Twin;
  readonly #stages: Stages;
  readonly #amounts: Float64Array;
  /** Mass of each water at the start and at the end of the step, kg. */
  readonly #mass: Float64Array;
  readonly #massEnd: Float64Array;
  /** How fast the fastest reactions of each water are, 1/h. */
  readonly #stiff: Float64Array;
  readonly #demand: Float64Array;
  #system: SystemModel;
  #hours = 0;
  #gH = 0;

  constructor(twin: Twin) {
    const most = mostWaters(twin.model);
    this.#twin = twin;
    this.#system = twin.model.systems[0];
    this.#stages = makeStages(most * TRANSPORTED);
    this.#amounts = new Float64Array(most * TRANSPORTED);
    this.#mass = new Float64Array(most);
    this.#massEnd = new Float64Array(most);
    this.#stiff = new Float64Array(STIFF * most);
    this.#demand = new Float64Array(DEMANDS * most);
  }

  take(system: SystemModel, hours: number): void {
    const twin = this.#twin;
    const { waters } = system;
    twin.scratch.next.steps++;
    this.#system = system;
    this.#hours = hours;
    for (const around of system.around) if (around.lamps.length > 0) updateLight(twin, around, hours * HALF_H_S);
    this.#read();
    rosenbrockStep(this, this.#stages, this.#amounts, waters.length * TRANSPORTED, hours);
    for (let local = 0; local < waters.length; local++) this.#write(local);
    wetFloors(twin, system, hours);
    drawFromStores(twin, system, hours);
  }

  /** Amounts and masses as they are, and the masses as they will be. */
  #read(): void {
    const { bodies, scratch } = this.#twin;
    const { waters } = this.#system;
    for (let local = 0; local < waters.length; local++) {
      const body = waters[local];
      const from = body * BODY_COLUMNS;
      const to = local * TRANSPORTED;
      for (let column = 0; column < TRANSPORTED; column++) this.#amounts[to + column] = bodies[from + column];
      this.#mass[local] = bodies[from + MASS];
      this.#massEnd[local] = Math.max(1e-6, this.#mass[local] + scratch.netKgH[body] * this.#hours);
    }
  }

  factor(gH: number): void {
    const twin = this.#twin;
    const { waters } = this.#system;
    this.#gH = gH;
    factorExchange(twin, this.#system, this.#mass, gH);
    for (let local = 0; local < waters.length; local++) {
      const at = local * TRANSPORTED;
      stiffness(twin, waters[local], this.#amounts, at, this.#mass[local], this.#stiff, STIFF * local);
      oxygenDemand(twin, waters[local], this.#amounts, at, this.#mass[local], this.#demand, DEMANDS * local);
    }
  }

  solve(x: Float64Array): void {
    const { books, scratch } = this.#twin;
    const { waters } = this.#system;
    solveColumns(scratch.step, waters.length, x);
    for (let local = 0; local < waters.length; local++) {
      const at = local * TRANSPORTED;
      if (books !== null) this.#bookAhead("oxygen of the air", x[at + O2], -this.#oxygenGasPerH(local));
      solveOxygenDemand(x, at, this.#demand, DEMANDS * local, this.#gH);
      if (books !== null) this.#bookUse(x[at + O2], DEMANDS * local);
      solveReactions(x, at, this.#stiff, STIFF * local, this.#gH);
      if (books !== null)
        this.#bookAhead("carbon dioxide of the air", x[at + DIC], -this.#stiff[STIFF * local + CARBON_GAS_PER_H]);
    }
  }

  #bookUse(oxygen: number, from: number): void {
    if (!isShort(this.#demand, from)) return;
    this.#bookAhead("breath", oxygen, this.#demand[from + BREATHED_PER_H]);
    this.#bookAhead("organic carbon used", oxygen, this.#demand[from + CARBON_USED_PER_H]);
  }

  #oxygenGasPerH(local: number): number {
    const body = this.#system.waters[local];
    return this.#twin.scratch.slow[body * SLOW_COLUMNS + SLOW.oxygenKgH] / this.#mass[local];
  }

  /** What the method counts ahead of a crossing of the border since it is implicit, for whoever keeps books. */
  #bookAhead(what: Ahead, amount: number, perH: number): void {
    this.#twin.books?.ahead(this.#system, what, (perH * amount * this.#gH * this.#hours) / 2);
  }

  /**
   * Everything that changes the amounts, per hour. That the masses move is stiff too: what it does to the transport within the
   * step is counted as the method asks of a slope that hangs on time.
   */
  slope(share: 0 | 1, amounts: Float64Array, out: Float64Array): void {
    const mass = share === 0 ? this.#mass : this.#massEnd;
    this.#addLocal(amounts, mass, out);
    this.#twin.books?.stage(this.#system, amounts, mass, this.#hours / 2);
    const aheadH = GAMMA * this.#hours;
    addTransport(this.#twin, this.#system, amounts, mass, share === 0 ? aheadH : -aheadH, out);
  }

  /** Reactions, heat and what is carried in, per hour, without transport. */
  #addLocal(amounts: Float64Array, mass: Float64Array, out: Float64Array): void {
    const twin = this.#twin;
    const { waters, index } = this.#system;
    const { slow, flows } = twin.scratch;
    const { carried, lostKgH } = flows[index];
    const count = waters.length;
    for (let place = 0; place < count * TRANSPORTED; place++) out[place] = carried[place];
    for (let local = 0; local < count; local++) {
      const body = waters[local];
      const at = local * TRANSPORTED;
      addSources(twin, body, amounts, at, mass[local], out);
      out[at + HEAT] -= evaporationJPerH(slow, body * SLOW_COLUMNS);
      const lost = lostKgH[local] / mass[local];
      if (lost > 0)
        for (let column = 0; column < TRANSPORTED; column++) out[at + column] -= lost * amounts[at + column];
    }
  }

  /** Writes one water back and lets crystals fall. */
  #write(local: number): void {
    const twin = this.#twin;
    const { bodies } = twin;
    const body = this.#system.waters[local];
    const at = body * BODY_COLUMNS;
    const from = local * TRANSPORTED;
    for (let column = 0; column < TRANSPORTED; column++) bodies[at + column] = this.#amounts[from + column];
    bodies[at + MASS] = this.#massEnd[local];
    updateHydrogen(twin, body);
    precipitate(twin, body, this.#hours);
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

/** Heat that goes with what evaporates: the latent and its own. */
function evaporationJPerH(slow: Float64Array, s: number): number {
  const temperatureC = slow[s + SLOW.temperatureC];
  return slow[s + SLOW.evaporationKgH] * (latentHeatKJPerKg(temperatureC) * 1000 + HEAT_CAPACITY * temperatureC);
}
