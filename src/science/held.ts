/**
 * `value` held between `low` and `high`. What is not a number counts as `low`, so that a loop downstream always ends; a
 * simulator that could make one must look for it itself.
 */
export function held(value: number, low: number, high: number): number {
  if (!(value > low)) return low;
  return Math.min(value, high);
}
