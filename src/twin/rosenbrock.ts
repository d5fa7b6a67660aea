/**
 * One step of a stiff system, whatever its states mean: the integrator of the twin.
 *
 * Two-stage Rosenbrock method of second order (ROS2, Verwer et al. 1999), with any matrix A in place of the full Jacobian:
 * second order whatever A is, L-stable in what A holds. Sums that A and the slope keep are kept to rounding.
 */

/** What is to be integrated. Hours throughout. */
export interface StiffProblem {
  /** Change of all states per hour, at the start (0) or at the end (1) of the step that is being taken, into `out`. */
  slope(share: 0 | 1, y: Float64Array, out: Float64Array): void;
  /** Gets I - g A ready, A being the stiff part of the slope at the start of the step, which was asked for just before. */
  factor(gH: number): void;
  /** Solves (I - g A) x = right-hand side, in place. */
  solve(x: Float64Array): void;
}

/** Room for the stages of problems of up to so many states. */
export interface Stages {
  readonly stage: Float64Array;
  readonly k1: Float64Array;
  readonly k2: Float64Array;
}

export function makeStages(size: number): Stages {
  return { stage: new Float64Array(size), k1: new Float64Array(size), k2: new Float64Array(size) };
}

/** Makes the method L-stable; g is this share of the step. */
export const GAMMA = 1 - Math.SQRT1_2;

/** Advances the first `size` states of `y` by `hours`, in place. */
export function rosenbrockStep(
  problem: StiffProblem,
  { stage, k1, k2 }: Stages,
  y: Float64Array,
  size: number,
  hours: number,
): void {
  problem.slope(0, y, k1);
  problem.factor(GAMMA * hours);
  problem.solve(k1);
  for (let at = 0; at < size; at++) stage[at] = y[at] + hours * k1[at];
  problem.slope(1, stage, k2);
  for (let at = 0; at < size; at++) k2[at] -= 2 * k1[at];
  problem.solve(k2);
  for (let at = 0; at < size; at++) y[at] += hours * (1.5 * k1[at] + 0.5 * k2[at]);
}
