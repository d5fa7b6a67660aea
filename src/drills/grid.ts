/** The moments at which a drill is looked at: dense where minutes count, sparse where days do. Seconds from the fault. */
const MINUTE = 60;

/** [until minute, step in minutes] */
const STRIDES: readonly (readonly [number, number])[] = [
  [10, 1],
  [60, 5],
  [720, 10],
  [60 * 1440, 20],
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
