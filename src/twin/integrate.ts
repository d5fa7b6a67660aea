/**
 * One step of one system: transport by the flows, implicit and conserving, with all reactions.
 *
 * Two-stage Rosenbrock method of second order (ROS2, Verwer et al. 1999), with the exchange matrix in place of the full
 * Jacobian: second order whatever that matrix is, L-stable in the transport, and exactly conserving since the columns of
 * the matrix add up to nothing. Oxygen has its own matrix with the gas exchange on the diagonal.
 */

import { latentHeatKJPerKg } from "../science/index.ts";
import {
  BODY_COLUMNS,
  CA,
  DIC,
  HEAT,
  HEAT_CAPACITY,
  LEDGER_COLUMNS,
  LEDGER_WATER,
  MASS,
  O2,
  SOLID,
  TA,
  TRANSPORTED,
} from "./columns.ts";
import { wetFloor } from "./hydraulics.ts";
import type { SystemModel } from "./model.ts";
import { addSources, precipitate } from "./reactions.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

const GAMMA = 1 - Math.SQRT1_2;

/** Advances the waters of a system by `hours` at the planned flows. `saved` receives the amounts before, for going back. */
export function stepSystem(twin: Twin, system: SystemModel, hours: number): void {
  const { scratch, bodies } = twin;
  const { amounts, stage, k1, k2, source, mass, massEnd } = scratch;
  const count = system.waters.length;
  scratch.next.steps++;
  for (let local = 0; local < count; local++) {
    const at = system.waters[local] * BODY_COLUMNS;
    for (let column = 0; column < TRANSPORTED; column++) amounts[local * TRANSPORTED + column] = bodies[at + column];
    mass[local] = bodies[at + MASS];
    massEnd[local] = Math.max(1e-6, mass[local] + scratch.netKgH[system.waters[local]] * hours);
  }
  factorExchange(twin, system, GAMMA * hours);

  derivative(twin, system, amounts, mass, source);
  bookSources(twin, system, source, hours / 2);
  transport(twin, system, amounts, mass, source);
  k1.set(source);
  solveColumns(scratch, count, k1);
  for (let index = 0; index < count * TRANSPORTED; index++) stage[index] = amounts[index] + hours * k1[index];

  derivative(twin, system, stage, massEnd, source);
  bookSources(twin, system, source, hours / 2);
  transport(twin, system, stage, massEnd, source);
  for (let index = 0; index < count * TRANSPORTED; index++) k2[index] = source[index] - 2 * k1[index];
  solveColumns(scratch, count, k2);

  for (let local = 0; local < count; local++) {
    const body = system.waters[local];
    const at = body * BODY_COLUMNS;
    for (let column = 0; column < TRANSPORTED; column++) {
      const index = local * TRANSPORTED + column;
      bodies[at + column] = amounts[index] + hours * (1.5 * k1[index] + 0.5 * k2[index]);
    }
    if (bodies[at + O2] < 0) bodies[at + O2] = 0;
    bodies[at + MASS] = massEnd[local];
    settleCrystals(twin, system, body, hours);
  }
  bookWater(twin, system, hours);
}

/** Reactions, heat and what is carried in, per hour, without transport. */
function derivative(
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
    const s = body * SLOW_COLUMNS;
    const evaporated = slow[s + SLOW.evaporationKgH];
    if (evaporated !== 0) {
      const temperatureC = slow[s + SLOW.temperatureC];
      out[at + HEAT] -= evaporated * (latentHeatKJPerKg(temperatureC) * 1000 + HEAT_CAPACITY * temperatureC);
    }
    const lost = lostKgH[local] / mass[local];
    if (lost > 0) for (let column = 0; column < TRANSPORTED; column++) out[at + column] -= lost * amounts[at + column];
  }
}

/** Adds the exchange between the waters of a system. */
function transport(
  twin: Twin,
  system: SystemModel,
  amounts: Float64Array,
  mass: Float64Array,
  out: Float64Array,
): void {
  const { exchange } = twin.scratch.flows[system.index];
  const count = system.waters.length;
  for (let to = 0; to < count; to++) {
    for (let from = 0; from < count; from++) {
      const rate = exchange[to * count + from] / mass[from];
      if (rate === 0) continue;
      for (let column = 0; column < TRANSPORTED; column++) {
        const moved = rate * amounts[from * TRANSPORTED + column];
        out[from * TRANSPORTED + column] -= moved;
        out[to * TRANSPORTED + column] += moved;
      }
    }
  }
}

/** I - g A of the exchange and, for oxygen, with the gas exchange on the diagonal; both eliminated in place. */
function factorExchange(twin: Twin, system: SystemModel, g: number): void {
  const { lower, oxygenLower, mass, slow, flows } = twin.scratch;
  const { exchange } = flows[system.index];
  const count = system.waters.length;
  for (let column = 0; column < count; column++) {
    let out = 0;
    for (let row = 0; row < count; row++) {
      out += exchange[row * count + column];
      lower[row * count + column] = oxygenLower[row * count + column] =
        (-g * exchange[row * count + column]) / mass[column];
    }
    const diagonal = column * count + column;
    lower[diagonal] = 1 + (g * out) / mass[column];
    oxygenLower[diagonal] =
      lower[diagonal] + (g * slow[system.waters[column] * SLOW_COLUMNS + SLOW.oxygenKgH]) / mass[column];
  }
  eliminate(lower, count);
  eliminate(oxygenLower, count);
}

/** Gauss elimination without pivots of a diagonally dominant matrix; the factors stay in place. */
function eliminate(matrix: Float64Array, count: number): void {
  for (let pivot = 0; pivot < count; pivot++) {
    for (let row = pivot + 1; row < count; row++) {
      const share = matrix[row * count + pivot] / matrix[pivot * count + pivot];
      matrix[row * count + pivot] = share;
      for (let column = pivot + 1; column < count; column++)
        matrix[row * count + column] -= share * matrix[pivot * count + column];
    }
  }
}

/** Solves for all columns at once, then for oxygen with its own matrix. */
function solveColumns(scratch: Twin["scratch"], count: number, x: Float64Array): void {
  const { oxygenBefore } = scratch;
  for (let row = 0; row < count; row++) oxygenBefore[row] = x[row * TRANSPORTED + O2];
  solveRows(scratch.lower, count, x, TRANSPORTED);
  solveRows(scratch.oxygenLower, count, oxygenBefore, 1);
  for (let row = 0; row < count; row++) x[row * TRANSPORTED + O2] = oxygenBefore[row];
}

/** Forward and back substitution of `width` right-hand sides that stand side by side in each row. */
function solveRows(matrix: Float64Array, count: number, x: Float64Array, width: number): void {
  for (let row = 1; row < count; row++) {
    for (let left = 0; left < row; left++) {
      const share = matrix[row * count + left];
      if (share === 0) continue;
      for (let column = 0; column < width; column++) x[row * width + column] -= share * x[left * width + column];
    }
  }
  for (let row = count - 1; row >= 0; row--) {
    for (let right = row + 1; right < count; right++) {
      const share = matrix[row * count + right];
      if (share === 0) continue;
      for (let column = 0; column < width; column++) x[row * width + column] -= share * x[right * width + column];
    }
    const diagonal = matrix[row * count + row];
    for (let column = 0; column < width; column++) x[row * width + column] /= diagonal;
  }
}

/** Writes what crossed the border of the circulation into the ledger: half of each stage, as the method weighs them. */
function bookSources(twin: Twin, system: SystemModel, source: Float64Array, hours: number): void {
  const book = system.index * LEDGER_COLUMNS;
  for (let local = 0; local < system.waters.length; local++) {
    for (let column = 0; column < TRANSPORTED; column++)
      twin.ledger[book + column] += hours * source[local * TRANSPORTED + column];
  }
}

function settleCrystals(twin: Twin, system: SystemModel, body: number, hours: number): void {
  const { bodies, ledger } = twin;
  const at = body * BODY_COLUMNS;
  const carbonBefore = bodies[at + DIC];
  const chargeBefore = bodies[at + TA];
  const solidBefore = bodies[at + SOLID];
  const settled = precipitate(twin, body, hours);
  if (settled === 0 && bodies[at + DIC] === carbonBefore) return;
  const book = system.index * LEDGER_COLUMNS;
  const made = carbonBefore - bodies[at + DIC];
  ledger[book + DIC] -= made;
  ledger[book + TA] -= chargeBefore - bodies[at + TA];
  ledger[book + CA] -= made;
  ledger[book + SOLID] += bodies[at + SOLID] - solidBefore;
}

/** Water that came, went and evaporated; stores that were drawn from; water on the floor. */
function bookWater(twin: Twin, system: SystemModel, hours: number): void {
  const { scratch, ledger, model } = twin;
  const book = system.index * LEDGER_COLUMNS + LEDGER_WATER;
  for (let local = 0; local < system.waters.length; local++) {
    const body = system.waters[local];
    ledger[book] += scratch.netKgH[body] * hours;
    const floor = scratch.flows[system.index].floorKgH[local];
    if (floor > 0) {
      const density = scratch.slow[body * SLOW_COLUMNS + SLOW.kgPerL];
      wetFloor(twin, model.roomIndex.get(model.site.bodies[body].room)!, (floor * hours) / density);
    }
  }
  drawFromStores(twin, system, hours);
}

/**
 * Each carry takes its share of what its store held before the step: what a body of water gets was planned from that, and what
 * goes into another store is set aside until every store has given.
 */
function drawFromStores(twin: Twin, system: SystemModel, hours: number): void {
  const { scratch, bodies, model } = twin;
  const { poured, given } = scratch;
  given.fill(0);
  for (const { device, from, to } of system.carries) {
    const kg = from < 0 ? 0 : scratch.deviceFlow[device] * scratch.slow[from * SLOW_COLUMNS + SLOW.kgPerL] * hours;
    if (kg === 0) continue;
    const share = kg / Math.max(bodies[from * BODY_COLUMNS + MASS], 1e-9);
    given[from] += share;
    if (model.localOfBody[to] >= 0) continue;
    for (let column = 0; column < TRANSPORTED; column++)
      poured[to * TRANSPORTED + column] += bodies[from * BODY_COLUMNS + column] * share;
  }
  for (const store of system.stores) {
    const at = store * BODY_COLUMNS;
    const left = Math.max(0, 1 - given[store]);
    for (let column = 0; column < TRANSPORTED; column++) {
      bodies[at + column] = bodies[at + column] * left + poured[store * TRANSPORTED + column];
      poured[store * TRANSPORTED + column] = 0;
    }
    bodies[at + MASS] = Math.max(1e-6, bodies[at + MASS] + scratch.netKgH[store] * hours);
  }
}
