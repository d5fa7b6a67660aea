/**
 * The setting of a drill: a site in one circumstance, settled in its normal life, with the course that this life would
 * take if nothing failed. Made once and shared by all drills of that circumstance.
 */
import type { LocalClock } from "../foundation/index.ts";
import type { Circumstance } from "../site/index.ts";
import type { Model, Twin } from "../twin/index.ts";
import { drillGrid } from "./grid.ts";
import { liveNormally, type NormalCourse } from "./normal-course.ts";
import { makeTwin } from "./settle.ts";
import { signColumns } from "./sign-columns.ts";

export interface Setting {
  readonly model: Model;
  readonly circumstance: Circumstance;
  readonly clock: LocalClock;
  readonly seed: number;
  readonly grid: Float64Array;
  readonly twin: Twin;
  /** State at the moment of the fault. */
  readonly start: Float64Array;
  readonly normal: NormalCourse;
  /** Systems that this setting simulates. */
  readonly systems: readonly number[];
}

/** Where a setting comes from. */
export interface Scenery {
  readonly model: Model;
  readonly circumstance: Circumstance;
  readonly seed: number;
  readonly start: Float64Array;
}

/** Lives through the horizon without a fault, from the settled state `start` on. */
export function makeSetting(scenery: Scenery, systems: readonly number[], horizonDays: number): Setting {
  const { model, circumstance, seed, start } = scenery;
  const grid = drillGrid(horizonDays);
  const twin = makeTwin(model, circumstance, seed, horizonDays);
  for (const { index } of model.systems) twin.active[index] = systems.includes(index) ? 1 : 0;
  const normal = liveNormally(twin, start, grid, signColumns(model, systems));
  return { ...scenery, clock: twin.clock, grid, twin, normal, systems };
}
