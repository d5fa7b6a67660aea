/**
 * The course of a fault with rules but nobody: run once, kept in snapshots, so that every "what if someone came then" can
 * start near its moment.
 */
import { firstAfter } from "../foundation/index.ts";
import { advance, forgetAsked, type HarmWhat, leversAsked, restore, type TwinEvent, timeS } from "../twin/index.ts";
import { neighboursFeel } from "./air-shift.ts";
import { type Acted, CourseRecord, type Kept, type Sighting } from "./course-record.ts";
import { EarlyStop } from "./early-stop.ts";
import { type Ending, endItself, endingsOf } from "./endings.ts";
import { makeBench } from "./faults/bench.ts";
import type { Fault } from "./faults/fault.ts";
import { type HarmTimes, spilledL } from "./harm-watch.ts";
import type { Notice } from "./messenger.ts";
import type { Scene } from "./people.ts";
import type { Setting } from "./setting.ts";

export interface Course {
  readonly faults: readonly Fault[];
  readonly snapshots: readonly Kept[];
  readonly harm: Readonly<HarmTimes>;
  readonly harmWhat: HarmWhat | null;
  /** First measurable sign, s; Infinity: none. */
  readonly signS: number;
  readonly signWhat: string | null;
  readonly notices: readonly Notice[];
  readonly acted: readonly Acted[];
  readonly sightings: readonly Sighting[];
  /** Water that the fault brought to the floor, L. */
  readonly floorL: number;
  /** Systems that were not simulated would have felt the air, or what they give it might move the time of the harm. */
  readonly isFelt: boolean;
  /** Marks of the resting levers that were asked for, in the course and in attempts before the act. */
  readonly asked: Uint8Array;
}

/** The fault that happens; one before it is latent, and was there already. */
export function triggerOf({ faults }: Course): Fault {
  return faults[faults.length - 1];
}

export interface CourseLimits {
  /** Stop as soon as nothing more can be learned. */
  readonly early: boolean;
  readonly onEvent?: (event: TwinEvent) => void;
  /** Called at every moment of the drill's grid, and of `between`, s. */
  readonly onGrid?: (tS: number) => void;
  /** Stop as soon as systems that are not simulated would feel the air. */
  readonly untilFelt?: boolean;
  /** Further moments to stop at, ascending, s. */
  readonly between?: Float64Array;
}

export function runCourse(setting: Setting, faults: readonly Fault[], scene: Scene, limits: CourseLimits): Course {
  const { twin, grid } = setting;
  const record = new CourseRecord(setting, faults, scene);
  const stop = limits.early ? new EarlyStop(record) : null;
  begin(record, limits);
  let isFelt = false;
  const endings = endingsOf(faults);
  for (let place = 1; place < grid.length; place++) {
    liveTo(setting, endings, limits, grid[place - 1], grid[place]);
    record.messenger.deliver(grid[place]);
    limits.onGrid?.(grid[place]);
    record.look(place);
    isFelt = limits.untilFelt === true && neighboursFeel(setting, place);
    if (isFelt || stop?.isDue(place)) break;
  }
  twin.onEvent = null;
  return {
    faults,
    snapshots: record.snapshots,
    harm: record.harm.times,
    harmWhat: record.harm.what,
    signS: record.signS,
    signWhat: record.signWhat,
    notices: record.messenger.notices,
    acted: record.acted,
    sightings: record.sightings,
    floorL: spilledL(setting),
    isFelt: isFelt || (limits.untilFelt === true && record.harm.hangsOnTrifles),
    asked: leversAsked(twin),
  };
}

/** Nobody will start again from the snapshots of this course: the next may write over them. */
export function giveBack({ shelf }: Setting, { snapshots }: Course): void {
  for (const { state } of snapshots) shelf.push(state);
}

/** Goes back to the settled site and lets the faults happen. */
function begin(record: CourseRecord, limits: CourseLimits): void {
  const { twin, start } = record.setting;
  restore(twin, start);
  forgetAsked(twin);
  advance(twin, 0);
  twin.onEvent = (event) => {
    limits.onEvent?.(event);
    record.hear(event);
  };
  const bench = makeBench(twin);
  for (const fault of record.faults) fault.mode.inject(bench, fault.part);
  record.keep(0);
  limits.onGrid?.(0);
  record.messenger.deliver(0);
}

/** Runs the twin to the next place of the grid, ending on the way what ends by itself. */
function liveTo(setting: Setting, endings: readonly Ending[], limits: CourseLimits, fromS: number, toS: number): void {
  for (const ending of endings.filter((one) => one.tS > fromS && one.tS <= toS)) {
    stopBetween(setting, limits, ending.tS);
    advance(setting.twin, ending.tS);
    endItself(setting, ending.fault, false);
  }
  stopBetween(setting, limits, toS);
  advance(setting.twin, toS);
}

/** Stops at the further moments that lie before `toS`. */
function stopBetween(setting: Setting, { between, onGrid }: CourseLimits, toS: number): void {
  if (!between) return;
  for (let place = firstAfter(between, timeS(setting.twin)); between[place] < toS; place++) {
    advance(setting.twin, between[place]);
    onGrid?.(between[place]);
  }
}
