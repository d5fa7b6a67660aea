/**
 * The exchange of water between the waters of a system, as a matrix: its columns add up to nothing, so that amounts are
 * conserved. Oxygen and carbon have their own, with the exchange of gas on the diagonal.
 */
import { DIC, O2, TA, TRANSPORTED } from "./columns.ts";
import type { SystemModel } from "./model.ts";
import type { StepSpace } from "./scratch.ts";
import type { Twin } from "./state.ts";

/**
 * Adds what the flows move in an hour to `out`; `mass` of each water, kg, and how many hours ahead its change is to be counted:
 * a water that grows gives less of what is in it. `width` columns stand side by side for each water.
 */
export function addTransport(
  twin: Twin,
  system: SystemModel,
  amounts: Float64Array,
  mass: Float64Array,
  aheadH: number,
  out: Float64Array,
  width: number,
): void {
  const { netKgH, flows } = twin.scratch;
  const { exchange } = flows[system.index];
  const count = system.waters.length;
  for (let from = 0; from < count; from++) {
    const perKg = (1 - (aheadH * netKgH[system.waters[from]]) / mass[from]) / mass[from];
    for (let to = 0; to < count; to++) {
      const rate = exchange[to * count + from] * perKg;
      if (rate === 0) continue;
      for (let column = 0; column < width; column++) {
        const moved = rate * amounts[from * width + column];
        out[from * width + column] -= moved;
        out[to * width + column] += moved;
      }
    }
  }
}

/** I - g A of the exchange, eliminated in place. `g` in hours. */
export function factorExchange(twin: Twin, system: SystemModel, mass: Float64Array, g: number): void {
  const { lower } = twin.scratch.step;
  fillExchange(twin, system, mass, g, lower);
  eliminate(lower, system.waters.length);
}

/**
 * The same for a gas, whose exchange with the air goes on the diagonal, into `matrix`: every `stride`th of `perH` from `from` on is
 * how fast a little more of it would leave a water, 1/h.
 */
export function factorGas(
  twin: Twin,
  system: SystemModel,
  mass: Float64Array,
  g: number,
  perH: Float64Array,
  from: number,
  stride: number,
  matrix: Float64Array,
): void {
  const count = system.waters.length;
  fillExchange(twin, system, mass, g, matrix);
  for (let local = 0; local < count; local++) matrix[local * count + local] += g * perH[from + local * stride];
  eliminate(matrix, count);
}

function fillExchange(twin: Twin, system: SystemModel, mass: Float64Array, g: number, matrix: Float64Array): void {
  const { exchange } = twin.scratch.flows[system.index];
  const count = system.waters.length;
  for (let column = 0; column < count; column++) {
    let out = 0;
    for (let row = 0; row < count; row++) {
      const at = row * count + column;
      out += exchange[at];
      matrix[at] = (-g * exchange[at]) / mass[column];
    }
    matrix[column * count + column] = 1 + (g * out) / mass[column];
  }
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

/**
 * Solves for all columns at once, then for the gases with their own matrices. How much carbon leaves hangs on the alkalinity too:
 * `drawnPerH`, every `stride`th from `from` on, is how much more of it a little more alkalinity draws in, 1/h.
 */
export function solveColumns(
  step: StepSpace,
  count: number,
  x: Float64Array,
  g: number,
  drawnPerH: Float64Array,
  from: number,
  stride: number,
): void {
  const { oxygen, carbon } = step;
  for (let row = 0; row < count; row++) {
    oxygen[row] = x[row * TRANSPORTED + O2];
    carbon[row] = x[row * TRANSPORTED + DIC];
  }
  solveExchange(step.lower, count, x, TRANSPORTED);
  for (let row = 0; row < count; row++) carbon[row] += g * drawnPerH[from + row * stride] * x[row * TRANSPORTED + TA];
  solveExchange(step.oxygenLower, count, oxygen, 1);
  solveExchange(step.carbonLower, count, carbon, 1);
  for (let row = 0; row < count; row++) {
    x[row * TRANSPORTED + O2] = oxygen[row];
    x[row * TRANSPORTED + DIC] = carbon[row];
  }
}

/** Forward and back substitution of `width` right-hand sides that stand side by side in each row. */
export function solveExchange(matrix: Float64Array, count: number, x: Float64Array, width: number): void {
  for (let row = 1; row < count; row++)
    for (let left = 0; left < row; left++) subtractRow(x, row, left, matrix[row * count + left], width);
  for (let row = count - 1; row >= 0; row--) {
    for (let right = row + 1; right < count; right++) subtractRow(x, row, right, matrix[row * count + right], width);
    const diagonal = matrix[row * count + row];
    for (let at = row * width; at < (row + 1) * width; at++) x[at] /= diagonal;
  }
}

function subtractRow(x: Float64Array, row: number, other: number, share: number, width: number): void {
  if (share === 0) return;
  for (let column = 0; column < width; column++) x[row * width + column] -= share * x[other * width + column];
}
