import type { Scale } from "../parts/scale.ts";

type Values = readonly (number | null)[];

/**
 * A curve as an SVG path. Where there are more points than pixels, each pixel column keeps its first, lowest, highest and
 * last, or one point where it is level: nothing that could be seen is lost. What is missing is a gap.
 */
export function curvePath(
  times: readonly number[],
  values: Values,
  x: Scale,
  y: (value: number) => number,
  endMin: number,
  fromMin = 0,
): string {
  let path = "";
  let pen = "M";
  let column = Number.NaN;
  let bucket: number[] = [];
  const put = (min: number, value: number): void => {
    path += `${pen}${x(min).toFixed(1)} ${y(value).toFixed(1)}`;
    pen = "L";
  };
  const height = (at: number): number => y(values[at] as number);
  const flush = (): void => {
    for (const at of telling(bucket, height)) put(times[at], values[at] as number);
    bucket = [];
  };
  const first = firstFrom(times, fromMin);
  const before = between(times, values, first, fromMin);
  if (before !== null) put(fromMin, before);
  let i = first;
  for (; i < times.length && times[i] <= endMin; i++) {
    if (!isNumber(values[i])) {
      flush();
      pen = "M";
      continue;
    }
    const here = Math.floor(x(times[i]));
    if (here !== column) flush();
    column = here;
    bucket.push(i);
  }
  flush();
  const after = between(times, values, i, endMin);
  if (after !== null) put(endMin, after);
  return path;
}

/** Place of the first moment that is not before the given one. */
function firstFrom(times: readonly number[], min: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] < min) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** A curve at the edge of a window, between the point before `next` and that one; null where it lies on a point or in a gap. */
function between(times: readonly number[], values: Values, next: number, min: number): number | null {
  if (next < 1 || next >= times.length || times[next] === min) return null;
  const [from, to] = [values[next - 1], values[next]];
  if (!isNumber(from) || !isNumber(to)) return null;
  return from + ((to - from) * (min - times[next - 1])) / (times[next] - times[next - 1]);
}

/** What a curve is at a moment, straight between its points; null in a gap. */
export function valueAt(times: readonly number[], values: Values, min: number): number | null {
  const next = firstFrom(times, min);
  if (next < times.length && times[next] === min) return isNumber(values[next]) ? values[next] : null;
  return between(times, values, next, min);
}

/** What a sensor says at a moment: its last word. */
export function heldAt(times: readonly number[], values: Values, min: number): number | null {
  const next = firstFrom(times, min);
  const value = values[times[next] === min ? next : next - 1];
  return isNumber(value) ? value : null;
}

/** Heights that differ by less, px, are drawn as one. */
const SAME_PX = 0.5;

/** Of the points in one pixel column: first, lowest, highest, last, in their order; where all are at one height, the first. */
function telling(bucket: readonly number[], height: (at: number) => number): readonly number[] {
  if (bucket.length < 2) return bucket;
  let lowest = bucket[0];
  let highest = bucket[0];
  for (const at of bucket) {
    if (height(at) < height(lowest)) lowest = at;
    if (height(at) > height(highest)) highest = at;
  }
  if (height(highest) - height(lowest) < SAME_PX) return [bucket[0]];
  if (bucket.length <= 4) return bucket;
  return [...new Set([bucket[0], Math.min(lowest, highest), Math.max(lowest, highest), bucket[bucket.length - 1]])];
}

/** What a sensor says holds until it says something else: a path of steps. */
export function stepPath(
  times: readonly number[],
  values: Values,
  x: Scale,
  y: (value: number) => number,
  endMin: number,
  fromMin = 0,
): string {
  let path = "";
  let held: number | null = null;
  const first = firstFrom(times, fromMin);
  for (let i = first > 0 && times[first] !== fromMin ? first - 1 : first; i < times.length && times[i] <= endMin; i++) {
    const value = values[i];
    const at = x(times[i]).toFixed(1);
    if (!isNumber(value)) {
      if (held !== null) path += `H${at}`;
      held = null;
    } else if (held === null) {
      path += `M${at} ${y(value).toFixed(1)}`;
      held = value;
    } else if (value !== held) {
      path += `H${at}V${y(value).toFixed(1)}`;
      held = value;
    }
  }
  return held === null ? path : `${path}H${x(Math.min(endMin, times[times.length - 1])).toFixed(1)}`;
}

export function isNumber(value: number | null | undefined): value is number {
  return value !== null && value !== undefined && Number.isFinite(value);
}
