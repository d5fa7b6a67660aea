/**
 * One drill: a fault (or two) from a given moment in given circumstances, first with rules but nobody, then with the
 * people, and what is to be said of it.
 */
import type { Circumstance } from "../site/index.ts";
import { hasNeighbours } from "./air-shift.ts";
import { Attempts } from "./attempts.ts";
import { type Course, giveBack, runCourse } from "./course.ts";
import { leversPulled } from "./faults/bench.ts";
import type { Fault } from "./faults/fault.ts";
import { type Help, helpFor } from "./help.ts";
import type { Scene } from "./people.ts";
import { reachOf, withRoommates } from "./reach.ts";
import type { Setting } from "./setting.ts";
import type { Stage } from "./stage.ts";
import type { DrillResult } from "./types.ts";
import { verdictOf } from "./verdict.ts";

export interface Judged {
  readonly result: DrillResult;
  readonly course: Course;
  readonly help: Help;
  readonly scene: Scene;
  readonly attempts: Attempts;
}

export function sceneOf(setting: Setting, faults: readonly Fault[]): Scene {
  const { site } = setting.model;
  const named = (mode: (fault: Fault) => boolean) =>
    new Set(faults.filter((fault) => fault.mode.of === "person" && mode(fault)).map((fault) => fault.part));
  return {
    site,
    circumstance: setting.circumstance,
    clock: setting.clock,
    unreachable: named((fault) => sets(setting, fault, "unreachable")),
    unsure: named((fault) => sets(setting, fault, "unsure")),
    horizonS: setting.grid[setting.grid.length - 1],
  };
}

/** Whether a fault pulls a lever of this name on its own part. */
function sets(setting: Setting, fault: Fault, lever: string): boolean {
  return leversPulled(setting.model, fault).some(([, name]) => name === lever);
}

export function judge(setting: Setting, faults: readonly Fault[]): Judged {
  return judgeRun(setting, faults, true);
}

/** Faults as they were judged, and in which setting. */
export interface InReach extends Judged {
  readonly setting: Setting;
}

/** Judges faults in the systems that they reach, and where others would feel the air that they warm or wet, with those. */
export function judgeInReach(
  stage: Stage,
  faults: readonly Fault[],
  circumstance: Circumstance,
  days = circumstance.horizonDays,
): InReach {
  const near = stage.setting(circumstance, reachOf(stage.model, faults), days);
  const scene = sceneOf(near, faults);
  const course = runCourse(near, faults, scene, { early: true, untilFelt: hasNeighbours(near) });
  if (!course.isFelt) return { setting: near, ...judgeCourse(near, course, scene, new Attempts(near, course)) };
  giveBack(near, course);
  const wide = stage.setting(circumstance, withRoommates(stage.model, near.systems), days);
  return { setting: wide, ...judge(wide, faults) };
}

/** The same, with a course that does not stop early: what everything else is held against. */
export function judgeToHorizon(setting: Setting, faults: readonly Fault[]): Judged {
  return judgeRun(setting, faults, false);
}

function judgeRun(setting: Setting, faults: readonly Fault[], early: boolean): Judged {
  const scene = sceneOf(setting, faults);
  const course = runCourse(setting, faults, scene, { early });
  return judgeCourse(setting, course, scene, new Attempts(setting, course));
}

/** Who helps in a course, and what is to be said of it. */
export function judgeCourse(setting: Setting, course: Course, scene: Scene, attempts: Attempts): Judged {
  const help = helpFor(course, scene);
  return { result: verdictOf(setting, course, help, attempts), course, help, scene, attempts };
}
