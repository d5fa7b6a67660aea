/**
 * How the waters of a system mix by their flows alone, exactly: the exponential of the exchange matrix. What came into one of them
 * (a dose, a pulse of the top-off) is spread within minutes, whatever the length of a step, and every amount is kept.
 * Scaling and squaring of the series: Moler and Van Loan 2003, SIAM Review 45:3.
 */
import type { SystemModel } from "./model.ts";
import type { Twin } from "./state.ts";

/** Where the largest rate times the hours is below this the series ends within rounding. */
const SMALL = 0.25;
const TERMS = 8;

/** Room to work in. */
export interface MixingRoom {
  /** Two matrices, and one row of a product. */
  readonly term: Float64Array;
  readonly base: Float64Array;
  readonly row: Float64Array;
}

export function makeMixingRoom(waters: number): MixingRoom {
  const matrix = () => new Float64Array(waters * waters);
  return { term: matrix(), base: matrix(), row: new Float64Array(waters) };
}

/** Shares of what is in each water (column) that are in each other (row) after some hours, into `out`. Columns add up to 1. */
export function mixingShares(
  twin: Twin,
  system: SystemModel,
  mass: Float64Array,
  hours: number,
  out: Float64Array,
  room: MixingRoom,
): void {
  const { exchange } = twin.scratch.flows[system.index];
  const count = system.waters.length;
  let fastest = 0;
  for (let from = 0; from < count; from++) {
    let leaves = 0;
    for (let to = 0; to < count; to++) {
      const moved = to === from ? 0 : (exchange[to * count + from] * hours) / mass[from];
      out[to * count + from] = moved;
      leaves += moved;
    }
    out[from * count + from] = -leaves;
    fastest = Math.max(fastest, leaves);
  }
  if (count === 2) exponentialOfTwo(out);
  else if (count > 2) exponential(out, count, fastest, room);
  else out[0] = 1;
  keepAll(out, count);
}

/** Replaces a 2 x 2 matrix whose columns add up to nothing by its exponential. */
function exponentialOfTwo(matrix: Float64Array): void {
  const rate = -(matrix[0] + matrix[3]);
  const share = rate > 1e-12 ? -Math.expm1(-rate) / rate : 1;
  matrix[1] *= share;
  matrix[2] *= share;
}

/** Replaces a matrix by its exponential: by a series for a small part of it, and by squaring. */
function exponential(sum: Float64Array, count: number, fastest: number, { term, base, row }: MixingRoom): void {
  const size = count * count;
  const squarings = Math.max(0, Math.ceil(Math.log2(fastest / SMALL)));
  const small = 1 / 2 ** squarings;
  for (let at = 0; at < size; at++) {
    sum[at] *= small;
    term[at] = base[at] = sum[at];
  }
  for (let order = 2; order <= TERMS; order++) {
    multiplyInto(term, base, count, 1 / order, row);
    for (let at = 0; at < size; at++) sum[at] += term[at];
  }
  for (let at = 0; at < count; at++) sum[at * count + at] += 1;
  for (let times = 0; times < squarings; times++) {
    for (let at = 0; at < size; at++) term[at] = sum[at];
    multiplyInto(sum, term, count, 1, row);
  }
}

/** a = a b times a factor, row by row in place. */
function multiplyInto(a: Float64Array, b: Float64Array, count: number, factor: number, row: Float64Array): void {
  for (let r = 0; r < count; r++) {
    for (let c = 0; c < count; c++) {
      let sum = 0;
      for (let k = 0; k < count; k++) sum += a[r * count + k] * b[k * count + c];
      row[c] = sum * factor;
    }
    for (let c = 0; c < count; c++) a[r * count + c] = row[c];
  }
}

/** What does not leave a water stays in it, to the last digit. */
function keepAll(shares: Float64Array, count: number): void {
  for (let from = 0; from < count; from++) {
    let left = 0;
    for (let to = 0; to < count; to++) if (to !== from) left += shares[to * count + from];
    shares[from * count + from] = 1 - left;
  }
}

/** Lets amounts, `width` side by side for each water, mix by these shares. */
export function mix(
  shares: Float64Array,
  count: number,
  amounts: Float64Array,
  width: number,
  { row }: MixingRoom,
): void {
  for (let column = 0; column < width; column++) {
    for (let to = 0; to < count; to++) {
      let sum = 0;
      for (let from = 0; from < count; from++) sum += shares[to * count + from] * amounts[from * width + column];
      row[to] = sum;
    }
    for (let to = 0; to < count; to++) amounts[to * width + column] = row[to];
  }
}
