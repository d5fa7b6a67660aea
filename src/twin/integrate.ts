/**
 * One step of one system: transport by the flows, implicit and conserving, with all reactions.
 *
 * Two-stage Rosenbrock method of second order (ROS2, Verwer et al. 1999), with the exchange matrix in place of the full
 * Jacobian: second order whatever that matrix is, L-stable in the transport, and exactly conserving since the columns of
 * the matrix add up to nothing.
 */
import { latentHeatKJPerKg } from "../science/index.ts";
import { BODY_COLUMNS, DIC, HEAT, HEAT_CAPACITY, MASS, O2, SOLID, TA, TRANSPORTED } from "./columns.ts";
import { addTransport, factorExchange, solveColumns } from "./exchange.ts";
import { bookCrystals, bookSources, bookWater } from "./ledger.ts";
import type { SystemModel } from "./model.ts";
import { precipitate } from "./precipitation.ts";
import { addSources } from "./reactions.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";
import { drawFromStores } from "./stores.ts";

/** Makes the method L-stable. */
const GAMMA = 1 - Math.SQRT1_2;

/** Advances the waters of a system by `hours` at the planned flows. */
export function stepSystem(twin: Twin, system: SystemModel, hours: number): void {
  const { step } = twin.scratch;
  const { amounts, stage, k1, k2 } = step;
  const count = system.waters.length;
  const length = count * TRANSPORTED;
  twin.scratch.next.steps++;
  begin(twin, system, hours);
  factorExchange(twin, system, GAMMA * hours);

  stageSlope(twin, system, amounts, step.mass, hours, k1);
  solveColumns(step, count, k1);
  for (let index = 0; index < length; index++) stage[index] = amounts[index] + hours * k1[index];

  stageSlope(twin, system, stage, step.massEnd, hours, k2);
  for (let index = 0; index < length; index++) k2[index] -= 2 * k1[index];
  solveColumns(step, count, k2);

  for (let local = 0; local < count; local++) finish(twin, system, local, hours);
  bookWater(twin, system, hours);
  drawFromStores(twin, system, hours);
}

/** Takes the amounts and masses as they are, and the masses as they will be. */
function begin(twin: Twin, system: SystemModel, hours: number): void {
  const { bodies, scratch } = twin;
  const { amounts, mass, massEnd } = scratch.step;
  for (let local = 0; local < system.waters.length; local++) {
    const body = system.waters[local];
    const at = body * BODY_COLUMNS;
    for (let column = 0; column < TRANSPORTED; column++) amounts[local * TRANSPORTED + column] = bodies[at + column];
    mass[local] = bodies[at + MASS];
    massEnd[local] = Math.max(1e-6, mass[local] + scratch.netKgH[body] * hours);
  }
}

/** Everything that changes the amounts of a stage, per hour, into `out`. */
function stageSlope(
  twin: Twin,
  system: SystemModel,
  amounts: Float64Array,
  mass: Float64Array,
  hours: number,
  out: Float64Array,
): void {
  localSlope(twin, system, amounts, mass, out);
  bookSources(twin, system, out, hours / 2);
  addTransport(twin, system, amounts, mass, out);
}

/** Reactions, heat and what is carried in, per hour, without transport. */
function localSlope(
  twin: Twin,
  system: SystemModel,
  amounts: Float64Array,
  mass: Float64Array,
  out: Float64Array,
): void {
  const { slow } = twin.scratch;
  const { carried, lostKgH } = twin.scratch.flows[system.index];
  const count = system.waters.length;
  for (let index = 0; index < count * TRANSPORTED; index++) out[index] = carried[index];
  for (let local = 0; local < count; local++) {
    const body = system.waters[local];
    const at = local * TRANSPORTED;
    addSources(twin, body, amounts, at, mass[local], out);
    out[at + HEAT] -= evaporationJPerH(slow, body * SLOW_COLUMNS);
    const lost = lostKgH[local] / mass[local];
    if (lost > 0) for (let column = 0; column < TRANSPORTED; column++) out[at + column] -= lost * amounts[at + column];
  }
}

/** Heat that goes with what evaporates: the latent and its own. */
function evaporationJPerH(slow: Float64Array, s: number): number {
  const temperatureC = slow[s + SLOW.temperatureC];
  return slow[s + SLOW.evaporationKgH] * (latentHeatKJPerKg(temperatureC) * 1000 + HEAT_CAPACITY * temperatureC);
}

/** Puts both stages together and lets crystals fall. */
function finish(twin: Twin, system: SystemModel, local: number, hours: number): void {
  const { bodies } = twin;
  const { amounts, k1, k2, massEnd } = twin.scratch.step;
  const body = system.waters[local];
  const at = body * BODY_COLUMNS;
  for (let column = 0; column < TRANSPORTED; column++) {
    const index = local * TRANSPORTED + column;
    bodies[at + column] = amounts[index] + hours * (1.5 * k1[index] + 0.5 * k2[index]);
  }
  if (bodies[at + O2] < 0) bodies[at + O2] = 0;
  bodies[at + MASS] = massEnd[local];
  const carbon = bodies[at + DIC];
  const charge = bodies[at + TA];
  const solid = bodies[at + SOLID];
  if (precipitate(twin, body, hours))
    bookCrystals(twin, system, carbon - bodies[at + DIC], charge - bodies[at + TA], bodies[at + SOLID] - solid);
}
