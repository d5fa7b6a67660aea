/** The moments at which a drill is looked at: dense where minutes count, sparse where days do. Seconds from the fault. */
const MINUTE = 60;
/** From here on hours count, s. */
export const LATE_S = 12 * 3600;

/** [until minute, step in minutes] */
const STRIDES: readonly (readonly [number, number])[] = [
  [10, 1],
  [60, 5],
  [LATE_S / MINUTE, 10],
  [60 * 1440, 60],
];

export function drillGrid(horizonDays: number): Float64Array {
  const end = horizonDays * 1440;
  const minutes = [0];
  for (const [until, step] of STRIDES) {
    let next = minutes[minutes.length - 1] + step;
    while (next <= Math.min(until, end)) {
      minutes.push(next);
      next += step;
    }
  }
  return Float64Array.from(minutes, (minute) => minute * MINUTE);
}
