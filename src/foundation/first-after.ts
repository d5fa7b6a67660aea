/** Place of the first of ascending numbers that is greater than a number; their count where none is. By halving. */
export function firstAfter(ascending: ArrayLike<number>, value: number): number {
  let low = 0;
  let high = ascending.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (ascending[middle] > value) high = middle;
    else low = middle + 1;
  }
  return low;
}
