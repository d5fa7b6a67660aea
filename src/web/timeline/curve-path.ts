import type { Scale } from "../parts/scale.ts";

type Values = readonly (number | null)[];

/**
 * A curve as an SVG path. Where there are more points than pixels, each pixel column keeps its first, lowest, highest and
 * last: nothing that could be seen is lost. What is missing is a gap.
 */
export function curvePath(
  times: readonly number[],
  values: Values,
  x: Scale,
  y: (value: number) => number,
  endMin: number,
): string {
  let path = "";
  let pen = "M";
  let column = Number.NaN;
  let bucket: number[] = [];
  const flush = (): void => {
    for (const at of telling(bucket, values)) {
      path += `${pen}${x(times[at]).toFixed(1)} ${y(values[at] as number).toFixed(1)}`;
      pen = "L";
    }
    bucket = [];
  };
  for (let i = 0; i < times.length && times[i] <= endMin; i++) {
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
  return path;
}

/** Of the points in one pixel column: first, lowest, highest, last, in their order. */
function telling(bucket: readonly number[], values: Values): readonly number[] {
  if (bucket.length <= 4) return bucket;
  const value = (i: number): number => values[i] as number;
  const lowest = bucket.reduce((best, i) => (value(i) < value(best) ? i : best));
  const highest = bucket.reduce((best, i) => (value(i) > value(best) ? i : best));
  return [...new Set([bucket[0], Math.min(lowest, highest), Math.max(lowest, highest), bucket[bucket.length - 1]])];
}

/** What a sensor says holds until it says something else: a path of steps. */
export function stepPath(
  times: readonly number[],
  values: Values,
  x: Scale,
  y: (value: number) => number,
  endMin: number,
): string {
  let path = "";
  let held: number | null = null;
  for (let i = 0; i < times.length && times[i] <= endMin; i++) {
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
