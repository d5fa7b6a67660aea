/**
 * The exchange of water between the waters of a system, as a matrix: its columns add up to nothing, so that amounts are
 * conserved. Oxygen has its own, with the gas exchange on the diagonal.
 */
import { O2, TRANSPORTED } from "./columns.ts";
import type { SystemModel } from "./model.ts";
import type { StepSpace } from "./scratch.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

/**
 * Adds what the flows move in an hour to `out`; `mass` of each water, kg, and how many hours ahead its change is to be counted:
 * a water that grows gives less of what is in it.
 */
export function addTransport(
  twin: Twin,
  system: SystemModel,
  amounts: Float64Array,
  mass: Float64Array,
  aheadH: number,
  out: Float64Array,
): void {
  const { netKgH, flows } = twin.scratch;
  const { exchange } = flows[system.index];
  const count = system.waters.length;
  for (let from = 0; from < count; from++) {
    const perKg = (1 - (aheadH * netKgH[system.waters[from]]) / mass[from]) / mass[from];
    for (let to = 0; to < count; to++) {
      const rate = exchange[to * count + from] * perKg;
      if (rate === 0) continue;
      for (let column = 0; column < TRANSPORTED; column++) {
        const moved = rate * amounts[from * TRANSPORTED + column];
        out[from * TRANSPORTED + column] -= moved;
        out[to * TRANSPORTED + column] += moved;
      }
    }
  }
}

/** I - g A of the exchange and, for oxygen, with the gas exchange on the diagonal; both eliminated in place. `g` in hours. */
export function factorExchange(twin: Twin, system: SystemModel, mass: Float64Array, g: number): void {
  const { slow, flows } = twin.scratch;
  const { lower, oxygenLower } = twin.scratch.step;
  const { exchange } = flows[system.index];
  const count = system.waters.length;
  for (let column = 0; column < count; column++) {
    let out = 0;
    for (let row = 0; row < count; row++) {
      const at = row * count + column;
      out += exchange[at];
      lower[at] = oxygenLower[at] = (-g * exchange[at]) / mass[column];
    }
    const diagonal = column * count + column;
    const gas = slow[system.waters[column] * SLOW_COLUMNS + SLOW.oxygenKgH];
    lower[diagonal] = 1 + (g * out) / mass[column];
    oxygenLower[diagonal] = lower[diagonal] + (g * gas) / mass[column];
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
export function solveColumns(step: StepSpace, count: number, x: Float64Array): void {
  const { oxygenBefore } = step;
  for (let row = 0; row < count; row++) oxygenBefore[row] = x[row * TRANSPORTED + O2];
  solveRows(step.lower, count, x, TRANSPORTED);
  solveRows(step.oxygenLower, count, oxygenBefore, 1);
  for (let row = 0; row < count; row++) x[row * TRANSPORTED + O2] = oxygenBefore[row];
}

/** Forward and back substitution of `width` right-hand sides that stand side by side in each row. */
function solveRows(matrix: Float64Array, count: number, x: Float64Array, width: number): void {
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
