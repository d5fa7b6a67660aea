/** A cost against what makes it grow, and how it grows, in numbers and in words. */

/** What it cost, at some amount of what makes it grow. */
export interface Point {
  readonly amount: number;
  readonly cost: number;
}

export interface Curve {
  readonly name: string;
  /** Ascending, and more than one. */
  readonly points: readonly Point[];
}

/** One plot: what belongs on the same axes. */
export interface Growth {
  /** Name of the picture's file, without its ending. */
  readonly file: string;
  readonly title: string;
  /** What the amount counts, in the plural, e.g. "days". */
  readonly amounts: string;
  readonly costUnit: keyof typeof MS;
  /** What the cost is of, e.g. "a simulated day". */
  readonly costOf: string;
  /** How many runs each point is the best of. */
  readonly runs: number;
  readonly curves: readonly Curve[];
}

/** Milliseconds in a unit. */
const MS = { ms: 1, s: 1000 };
/** Powers so near to 1 are called in proportion: runs differ by some hundredths, and ten drills are not quite like two hundred. */
const IN_PROPORTION = 0.1;

/** Slope of the straight line that fits best (least squares): what each further piece costs. */
export function slope(points: readonly Point[]): number {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const meanAmount = mean(points.map(({ amount }) => amount));
  const meanCost = mean(points.map(({ cost }) => cost));
  const together = points.reduce((sum, { amount, cost }) => sum + (amount - meanAmount) * (cost - meanCost), 0);
  return together / points.reduce((sum, { amount }) => sum + (amount - meanAmount) ** 2, 0);
}

/** The power with which the cost grows: the slope on paper that is logarithmic both ways. */
export function power(points: readonly Point[]): number {
  return slope(points.map(({ amount, cost }) => ({ amount: Math.log(amount), cost: Math.log(cost) })));
}

export function largest({ points }: Curve): Point {
  return points[points.length - 1];
}

/** What it would cost if it grew in proportion, by the straight line from nothing through the largest point. */
export function inProportion(curve: Curve, amount: number): number {
  const { amount: most, cost } = largest(curve);
  return (cost * amount) / most;
}

/** A number with three digits that count, never written with a power of ten. */
export function written(value: number): string {
  return String(Number(value.toPrecision(3)));
}

/** What a curve shows, in one sentence. */
export function inWords(growth: Growth, curve: Curve): string {
  const { amounts, costOf, costUnit } = growth;
  const first = curve.points[0];
  const last = largest(curve);
  const costs = `${written(first.cost)} to ${written(last.cost)} ${costUnit} ${costOf}`;
  const range = `${written(first.amount)} to ${written(last.amount)} ${amounts}`;
  return `${capital(curve.name)} costs ${costs} for ${range}: it grows ${pace(growth, curve)}.`;
}

/** How it grows; where not in proportion, also how much dearer the largest is, and whether the power is still the same there. */
function pace({ amounts, costUnit }: Growth, curve: Curve): string {
  const { points } = curve;
  const grows = power(points);
  const withPower = `with the power ${grows.toFixed(2)} of the ${amounts}`;
  if (Math.abs(grows - 1) <= IN_PROPORTION)
    return `in proportion (${withPower}), by ${written(slope(points) * MS[costUnit])} ms for each`;
  const times = (of: (point: Point) => number) => `${written(of(largest(curve)) / of(points[0]))} times`;
  return (
    `${grows > 1 ? "faster" : "slower"} than in proportion, ${withPower} (${power(points.slice(-2)).toFixed(2)} between the two largest), ` +
    `and ${times(({ amount }) => amount)} the ${amounts} cost ${times(({ cost }) => cost)} as much`
  );
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
