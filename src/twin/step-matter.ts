/**
 * One step of all that is dissolved in a system's waters, from the last such step up to now: mixing by the flows, exact and
 * conserving (mixing.ts), with all reactions between its halves (rosenbrock.ts; splitting in halves: Strang 1968). The exchange matrix, the exchange of gas and the
 * fastest reactions stand for the full Jacobian. Heat and masses have gone ahead (step-warmth.ts).
 */
import { updateLight } from "./around.ts";
import type { Ahead } from "./books.ts";
import { BODY_COLUMNS, DIC, HEAT, MASS, O2, SALT, TA, TRANSPORTED } from "./columns.ts";
import { addTransport, factorExchange, factorGas, solveColumns } from "./exchange.ts";
import { beginHarm, updateHarm } from "./harm.ts";
import { type MixingRoom, makeMixingRoom, mix, mixingShares } from "./mixing.ts";
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
import {
  addSources,
  CARBON_DRAWN_PER_H,
  CARBON_GAS_PER_H,
  OXYGEN_GAS_PER_H,
  STIFF,
  solveReactions,
  stiffness,
} from "./reactions.ts";
import { GAMMA, makeStages, rosenbrockStep, type Stages, type StiffProblem } from "./rosenbrock.ts";
import { updateWaters } from "./slow.ts";
import { PLAN, type Twin } from "./state.ts";

/** Seconds in half an hour. */
const HALF_H_S = 1800;

/** Each twin has its own room to step in. */
const steps = new WeakMap<Twin, StepOfMatter>();

/** Before heat and masses of a system go on: what is dissolved stays behind from here. */
export function leaveBehind(twin: Twin, system: SystemModel): void {
  const { lagH, lagKg } = twin.scratch;
  if (lagH[system.index] > 0) return;
  for (const body of system.waters) lagKg[body] = twin.bodies[body * BODY_COLUMNS + MASS];
  beginHarm(twin, system);
}

/** Brings what is dissolved in the waters of a system up to now. */
export function catchUp(twin: Twin, system: SystemModel): void {
  const hours = twin.scratch.lagH[system.index];
  if (hours === 0) return;
  twin.scratch.lagH[system.index] = 0;
  const step = steps.get(twin) ?? new StepOfMatter(twin);
  steps.set(twin, step);
  step.take(system, hours);
  updateWaters(twin, system);
  updateHarm(twin, system, hours);
  twin.scratch.plan[system.index] = PLAN.none;
}

/** The waters of one system over one step, as the integrator wants them. */
class StepOfMatter implements StiffProblem {
  readonly #twin: Twin;
  readonly #stages: Stages;
  readonly #amounts: Float64Array;
  /** Mass of each water at the start and at the end of the step, kg. */
  readonly #mass: Float64Array;
  readonly #massEnd: Float64Array;
  /** How fast the fastest reactions of each water are, 1/h. */
  readonly #stiff: Float64Array;
  readonly #demand: Float64Array;
  /** Shares of one water in another after half a step. */
  readonly #shares: Float64Array;
  readonly #room: MixingRoom;
  /** Amounts as they mix up to the middle, and what a stage has made besides. */
  readonly #mixed: Float64Array;
  readonly #made: Float64Array;
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
    this.#shares = new Float64Array(most * most);
    this.#room = makeMixingRoom(most);
    this.#mixed = new Float64Array(most * TRANSPORTED);
    this.#made = new Float64Array(most * TRANSPORTED);
  }

  take(system: SystemModel, hours: number): void {
    const twin = this.#twin;
    const { waters } = system;
    twin.scratch.next.steps++;
    this.#system = system;
    this.#hours = hours;
    for (const around of system.around) if (around.lamps.length > 0) updateLight(twin, around, -hours * HALF_H_S);
    const size = waters.length * TRANSPORTED;
    this.#read();
    this.#mixHalf(this.#mass, this.#amounts);
    this.#mixed.set(this.#amounts);
    rosenbrockStep(this, this.#stages, this.#amounts, size, hours);
    // What the reactions made of the water is mixed already; the water itself mixes on to the end of the step.
    for (let at = 0; at < size; at++) this.#amounts[at] -= this.#mixed[at];
    this.#mixHalf(this.#massEnd, this.#mixed);
    for (let at = 0; at < size; at++) this.#amounts[at] += this.#mixed[at];
    for (let local = 0; local < waters.length; local++) this.#write(local);
  }

  /** Amounts as they were left, and masses then and now; heat has gone ahead. */
  #read(): void {
    const { bodies, scratch } = this.#twin;
    const { waters } = this.#system;
    for (let local = 0; local < waters.length; local++) {
      const body = waters[local];
      const from = body * BODY_COLUMNS;
      const to = local * TRANSPORTED;
      for (let column = 0; column < TRANSPORTED; column++) this.#amounts[to + column] = bodies[from + column];
      this.#amounts[to + HEAT] = 0;
      this.#mass[local] = scratch.lagKg[body];
      this.#massEnd[local] = bodies[from + MASS];
    }
  }

  /** Lets amounts mix for half of the step in waters of these masses: in those of the end they end as one water. */
  #mixHalf(mass: Float64Array, amounts: Float64Array): void {
    const { length } = this.#system.waters;
    mixingShares(this.#twin, this.#system, mass, this.#hours / 2, this.#shares, this.#room);
    mix(this.#shares, length, amounts, TRANSPORTED, this.#room);
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
    const { oxygenLower, carbonLower } = twin.scratch.step;
    factorGas(twin, this.#system, this.#mass, gH, this.#stiff, OXYGEN_GAS_PER_H, STIFF, oxygenLower);
    factorGas(twin, this.#system, this.#mass, gH, this.#stiff, CARBON_GAS_PER_H, STIFF, carbonLower);
  }

  solve(x: Float64Array): void {
    const { books, scratch } = this.#twin;
    const { waters } = this.#system;
    solveColumns(scratch.step, waters.length, x, this.#gH, this.#stiff, CARBON_DRAWN_PER_H, STIFF);
    for (let local = 0; local < waters.length; local++) {
      const at = local * TRANSPORTED;
      if (books !== null) this.#bookGas(x, at, STIFF * local);
      solveOxygenDemand(x, at, this.#demand, DEMANDS * local, this.#gH);
      if (books !== null) this.#bookUse(x[at + O2], DEMANDS * local);
      solveReactions(x, at, this.#stiff, STIFF * local, this.#gH);
    }
  }

  #bookUse(oxygen: number, from: number): void {
    if (!isShort(this.#demand, from)) return;
    this.#bookAhead("breath", oxygen, this.#demand[from + BREATHED_PER_H]);
    this.#bookAhead("organic carbon used", oxygen, this.#demand[from + CARBON_USED_PER_H]);
  }

  #bookGas(x: Float64Array, at: number, from: number): void {
    this.#bookAhead("oxygen of the air", x[at + O2], -this.#stiff[from + OXYGEN_GAS_PER_H]);
    this.#bookAhead("carbon dioxide of the air", x[at + DIC], -this.#stiff[from + CARBON_GAS_PER_H]);
    this.#bookAhead("carbon dioxide of the air", x[at + TA], this.#stiff[from + CARBON_DRAWN_PER_H]);
  }

  /** What the method counts ahead of a crossing of the border since it is implicit, for whoever keeps books. */
  #bookAhead(what: Ahead, amount: number, perH: number): void {
    this.#twin.books?.ahead(this.#system, what, (perH * amount * this.#gH * this.#hours) / 2);
  }

  /**
   * What reacts and is carried in, per hour, in the water as it mixes, and how that spreads. That the masses move is stiff too: what it
   * does to the spreading is counted as the method asks of a slope that hangs on time.
   */
  slope(share: 0 | 1, amounts: Float64Array, out: Float64Array): void {
    const mass = share === 0 ? this.#mass : this.#massEnd;
    this.#addLocal(amounts, mass, out);
    this.#twin.books?.matter(this.#system, amounts, mass, this.#hours / 2);
    if (share === 0) return;
    const made = this.#made;
    for (let at = 0; at < amounts.length; at++) made[at] = amounts[at] - this.#mixed[at];
    addTransport(this.#twin, this.#system, made, mass, -GAMMA * this.#hours, out, TRANSPORTED);
  }

  /** Reactions and what is carried in, per hour, without transport. */
  #addLocal(amounts: Float64Array, mass: Float64Array, out: Float64Array): void {
    const twin = this.#twin;
    const { waters, index } = this.#system;
    const { flows } = twin.scratch;
    const { carried, lostKgH } = flows[index];
    const count = waters.length;
    for (let place = 0; place < count * TRANSPORTED; place++) out[place] = carried[place];
    for (let local = 0; local < count; local++) {
      const body = waters[local];
      const at = local * TRANSPORTED;
      addSources(twin, body, amounts, at, mass[local], out);
      out[at + HEAT] = 0;
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
    for (let column = SALT; column < TRANSPORTED; column++) bodies[at + column] = this.#amounts[from + column];
    updateHydrogen(twin, body);
    precipitate(twin, body, this.#hours);
  }
}
