/** Fourteen days of the two vessels by the twin's integrator, and how far they end from the reference. */
import { readFileSync } from "node:fs";
import { type Steppable, stepToSwitch } from "../../src/twin/landing.ts";
import { makeStages, rosenbrockStep } from "../../src/twin/rosenbrock.ts";
import { CHEM, HEAT_D, HEAT_S, SALT, SIZE, TwoVessels, VOL_D, VOL_S } from "./two-vessels.ts";

export interface Reference {
  readonly states: readonly string[];
  readonly scale: readonly number[];
  readonly variantA: readonly { readonly t: number; readonly y: readonly number[] }[];
  readonly variantB: readonly { readonly t: number; readonly y: readonly number[] }[];
  readonly heaterTimesA: readonly number[];
  readonly counts: { readonly heater: number; readonly topUp: number; readonly fan: number };
}

export function reference(): Reference {
  return JSON.parse(readFileSync(new URL("./reference.json", import.meta.url), "utf8"));
}

export interface Pace {
  /** Longest step, h. */
  readonly mostH: number;
  /** First step after a switching, h. */
  readonly firstH: number;
  /** Steps grow to this multiple of the time since. */
  readonly growth: number;
}

export interface Outcome {
  readonly days: readonly Float64Array[];
  readonly heaterTimes: readonly number[];
  readonly counts: { heater: number; topUp: number; fan: number };
  readonly slopes: number;
  readonly steps: number;
}

const END_H = 336;
const SAME_H = 1e-9;
const LEAST_H = 1e-7;
/** A switch is landed on within these. */
const TOLERANCE_K = 1e-6;
const TOLERANCE_L = 1e-6;

/** Times at which something switches by the clock, or the day's values are noted, ascending. */
function timedEdges(dosesApart: boolean): Float64Array {
  const edges = [216, 218];
  for (let day = 0; day < 14; day++) edges.push(24 * day + 10, 24 * day + 22, 24 * day + 24);
  if (dosesApart) for (let hour = 0; hour < END_H; hour++) edges.push(hour + 0.5, hour + 0.5 + 1 / 60);
  return Float64Array.from([...new Set(edges)].sort((a, b) => a - b));
}

class Run implements Steppable {
  readonly vessels = new TwoVessels();
  readonly days: Float64Array[] = [];
  readonly heaterTimes: number[] = [];
  readonly counts = { heater: 0, topUp: 0, fan: 0 };
  steps = 0;
  tH = 0;
  readonly #stages = makeStages(SIZE);
  readonly #kept = new Float64Array(SIZE);

  keep(): void {
    this.#kept.set(this.vessels.y);
  }

  step(hours: number): void {
    this.steps++;
    this.vessels.lookAround(this.tH, hours);
    rosenbrockStep(this.vessels, this.#stages, this.vessels.y, SIZE, hours);
  }

  takeBack(): void {
    this.vessels.y.set(this.#kept);
  }

  past(): number {
    const { y, switches } = this.vessels;
    const sumpC = y[HEAT_S] / y[VOL_S];
    const displayC = y[HEAT_D] / y[VOL_D];
    const heat = switches.heater > 0 ? sumpC - 25.7 : 25.3 - sumpC;
    const fan = switches.fan > 0 ? 25.9 - displayC : displayC - 26.2;
    const fill = switches.topUp > 0 ? y[VOL_S] - 39.5 : 38 - y[VOL_S];
    return Math.max(heat / TOLERANCE_K, fan / TOLERANCE_K, fill / TOLERANCE_L);
  }

  /** True where anything switched. */
  switchNow(): boolean {
    const { y, switches } = this.vessels;
    const sumpC = y[HEAT_S] / y[VOL_S];
    const displayC = y[HEAT_D] / y[VOL_D];
    const was = switches.heater + 2 * switches.fan + 4 * switches.topUp;
    if (switches.heater > 0 ? sumpC >= 25.7 : sumpC <= 25.3) {
      switches.heater = 1 - switches.heater;
      this.heaterTimes.push(this.tH);
      this.counts.heater++;
    }
    if (switches.fan > 0 ? displayC <= 25.9 : displayC >= 26.2) {
      switches.fan = 1 - switches.fan;
      this.counts.fan++;
    }
    if (switches.topUp > 0 ? y[VOL_S] >= 39.5 : y[VOL_S] <= 38) {
      switches.topUp = 1 - switches.topUp;
      this.counts.topUp++;
    }
    return was !== switches.heater + 2 * switches.fan + 4 * switches.topUp;
  }

  noteDay(): void {
    const { y } = this.vessels;
    const volume = y[VOL_D] + y[VOL_S];
    const chemistry = Array.from(y.subarray(CHEM), (one) => one / volume);
    this.days.push(
      Float64Array.of(y[HEAT_D] / y[VOL_D], y[HEAT_S] / y[VOL_S], y[VOL_D], y[VOL_S], y[SALT], ...chemistry),
    );
  }
}

/** Runs variant A (a dose of a minute every hour) or B (the same, evenly). */
export function runTwoVessels(variant: "A" | "B", pace: Pace): Outcome {
  const run = new Run();
  const { switches } = run.vessels;
  const edges = timedEdges(variant === "A");
  if (variant === "B") switches.dose = 150 / 60;
  let changedH = 0;
  for (const edge of edges) {
    while (run.tH < edge - SAME_H) {
      run.vessels.settle(run.tH);
      const wantedH = Math.min(pace.mostH, Math.max(pace.firstH, pace.growth * (run.tH - changedH)));
      const leftH = edge - run.tH;
      // What is left is shared out, so that no sliver of a step remains.
      const hours = leftH <= wantedH ? leftH : Math.min(wantedH, leftH / 2);
      run.keep();
      const took = stepToSwitch(run, run.past(), hours, LEAST_H);
      run.tH = took === leftH ? edge : run.tH + took;
      if (run.switchNow()) changedH = run.tH;
    }
    run.tH = edge;
    const hour = edge % 24;
    if (hour === 0) run.noteDay();
    if (hour === 10) switches.lamp = 1;
    if (hour === 22) switches.lamp = 0;
    if (edge === 216 || edge === 218) {
      switches.pump = edge === 218 ? 1 : 0;
      changedH = edge;
    }
    if (variant === "A" && edge % 1 !== 0) switches.dose = edge % 1 === 0.5 ? 150 : 0;
  }
  return {
    days: run.days,
    heaterTimes: run.heaterTimes,
    counts: run.counts,
    slopes: run.vessels.slopes,
    steps: run.steps,
  };
}

/** Largest distance from the reference in units of the scale: over all states, and over those that do not hang on the phase. */
export function scores(
  variant: "A" | "B",
  days: readonly Float64Array[],
): { readonly all: number; readonly chemistry: number } {
  const { variantA, variantB, scale } = reference();
  const rows = variant === "A" ? variantA : variantB;
  let all = 0;
  let chemistry = 0;
  for (const [day, { y }] of rows.entries())
    for (const [state, wanted] of y.entries()) {
      const off = Math.abs(days[day][state] - wanted) / scale[state];
      all = Math.max(all, off);
      if (state > 3) chemistry = Math.max(chemistry, off);
    }
  return { all, chemistry };
}
