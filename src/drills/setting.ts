/**
 * The setting of a drill: a site in one circumstance, settled in its normal life, with the course that this life would
 * take if nothing failed. Made once and shared by all drills of that circumstance.
 */
import type { LocalClock } from "../foundation/index.ts";
import type { Circumstance } from "../site/index.ts";
import type { Model, Twin } from "../twin/index.ts";
import { drillGrid } from "./grid.ts";
import { liveNormally, type NormalCourse, type NormalLife, normalCourseOf } from "./normal-course.ts";
import { makeTwin } from "./settle.ts";

/** Where a setting comes from. */
export interface Scenery {
  readonly model: Model;
  readonly circumstance: Circumstance;
  readonly seed: number;
  /** State at the moment of the fault. */
  readonly start: Float64Array;
  /** Room for snapshots of the site, given back by courses that nobody needs any more. */
  readonly shelf: Float64Array[];
}

export interface Setting extends Scenery {
  readonly clock: LocalClock;
  readonly grid: Float64Array;
  readonly twin: Twin;
  readonly normal: NormalCourse;
  /** Systems that this setting simulates. */
  readonly systems: readonly number[];
  /** Room for a course to note its differences to normal life, place of the grid by column; each course writes it anew as it goes. */
  readonly gaps: Float64Array;
}

/** The whole site in its normal life over a horizon: what the settings of all its parts share. */
export interface Whole {
  readonly grid: Float64Array;
  readonly life: NormalLife;
}

/** Lives through the horizon without a fault, from the settled state `start` on. */
export function liveWhole({ model, circumstance, seed, start }: Scenery, horizonDays: number): Whole {
  const grid = drillGrid(horizonDays);
  return { grid, life: liveNormally(makeTwin(model, circumstance, seed, horizonDays), start, grid) };
}

/** Simulates some systems only; the others give to the rooms what they give in normal life. */
export function makeSetting(
  scenery: Scenery,
  { grid, life }: Whole,
  systems: readonly number[],
  horizonDays: number,
): Setting {
  const { model, circumstance, seed } = scenery;
  const twin = makeTwin(model, circumstance, seed, horizonDays);
  for (const { index } of model.systems) twin.active[index] = systems.includes(index) ? 1 : 0;
  twin.elsewhere = life.gains;
  const normal = normalCourseOf(life, model, systems, grid.length);
  const gaps = new Float64Array(normal.signs.length);
  return { ...scenery, clock: twin.clock, grid, twin, normal, systems, gaps };
}
