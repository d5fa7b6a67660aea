/**
 * An attempt: someone comes at a given moment, does the fitting thing, and we see whether the livestock is spared.
 */
import { addAsked, advance, atEase, forgetAsked, restore, timeS } from "../twin/index.ts";
import type { Course } from "./course.ts";
import { makeBench, stir } from "./faults/bench.ts";
import { LATE_S } from "./grid.ts";
import { isHarmedNow } from "./harm-watch.ts";
import { putRight } from "./put-right.ts";
import { runOn, type Watcher } from "./run-on.ts";
import type { Setting } from "./setting.ts";

export type { Watcher } from "./run-on.ts";

const HOUR_S = 3600;
const DAY_S = 86_400;
/** The helped water is looked at this often, s; where hours count, at the full hour. */
const STRIDE_S = 1200;
const LATE_STRIDE_S = 3600;
/** After so long without anything beyond what animals bear, the water has recovered. */
const EASE_S = 8 * HOUR_S;
/** An attempt is followed this long at most. */
const FOLLOW_DAYS = 5;
/** Water that is off is changed again after this time. */
const CHANGE_EVERY_S = 4 * HOUR_S;

export interface Attempt {
  readonly spared: boolean;
  /** Early and likely harm in spite of the help, s; Infinity where none. */
  readonly harmEarlyS: number;
  readonly harmLikelyS: number;
}

/** Minutes of hands-on work to end all faults. */
export function workMinutes(course: Course): number {
  return course.faults.reduce((sum, fault) => sum + fault.mode.end.minutes, 0);
}

/** Someone has hands on it at `actS` and works; one who watches sees it all from there on. */
export function attempt(setting: Setting, course: Course, actS: number, watcher: Watcher): Attempt {
  goBack(setting, course, actS);
  setting.twin.onEvent = watcher.hear;
  return finish(setting, course, actS + workMinutes(course) * 60, watcher);
}

/** Whether the livestock is spared where the fitting act is done at `doneS`; until then all goes on as in the course. */
export function sparedIfDoneAt(setting: Setting, course: Course, doneS: number): boolean {
  goBack(setting, course, doneS);
  setting.twin.onEvent = null;
  return finish(setting, course, doneS, null).spared;
}

/** Runs on until the work is done, ends the faults, and follows what comes of it. */
function finish(setting: Setting, course: Course, doneS: number, watcher: Watcher | null): Attempt {
  const { twin } = setting;
  const seen = new HarmSeen(setting, course.harm.likely <= doneS ? course.harm.likely : Number.POSITIVE_INFINITY);
  runOn(setting, course.faults, doneS, false, watcher);
  addAsked(twin, course.asked);
  seen.look(Math.min(doneS, course.harm.early), doneS);
  if (watcher || !seen.isHarmed) {
    const bench = makeBench(twin);
    for (const fault of course.faults) fault.mode.end.apply(bench, fault.part);
    stir(twin);
    follow(setting, course, seen, watcher?.untilS ?? doneS + FOLLOW_DAYS * DAY_S, watcher);
  }
  return { spared: !seen.isHarmed, harmEarlyS: seen.earlyS, harmLikelyS: seen.likelyS };
}

/** To the last snapshot at or before a moment. */
function goBack(setting: Setting, course: Course, toS: number): void {
  let place = course.snapshots.length - 1;
  while (place > 0 && course.snapshots[place].tS > toS) place--;
  restore(setting.twin, course.snapshots[place].state);
  forgetAsked(setting.twin);
  advance(setting.twin, timeS(setting.twin));
}

/** First harm that was seen at the looks of an attempt. */
class HarmSeen {
  earlyS = Number.POSITIVE_INFINITY;
  likelyS: number;
  readonly #setting: Setting;

  constructor(setting: Setting, likelyS: number) {
    this.#setting = setting;
    this.likelyS = likelyS;
  }

  get isHarmed(): boolean {
    return Number.isFinite(this.earlyS);
  }

  /** If there is harm now, it came at these times at the latest, s. */
  look(earlyS: number, likelyS: number): void {
    if (!isHarmedNow(this.#setting, "early")) return;
    this.earlyS = Math.min(this.earlyS, earlyS);
    if (isHarmedNow(this.#setting, "likely")) this.likelyS = Math.min(this.likelyS, likelyS);
  }
}

/** The next moment at which the helped water is looked at, s. */
function nextLookS(nowS: number): number {
  return nowS < LATE_S ? nowS + STRIDE_S : (Math.floor(nowS / LATE_STRIDE_S) + 1) * LATE_STRIDE_S;
}

/** Nurses the water until it has recovered, or harm comes; one who watches wants to see it to the end. */
function follow(setting: Setting, course: Course, seen: HarmSeen, untilS: number, watcher: Watcher | null): void {
  const { twin } = setting;
  let calmSinceS = timeS(twin);
  let changedS = Number.NEGATIVE_INFINITY;
  while (timeS(twin) < untilS) {
    if (timeS(twin) >= changedS + CHANGE_EVERY_S && putRight(setting)) changedS = timeS(twin);
    const toS = nextLookS(timeS(twin));
    runOn(setting, course.faults, toS, true, watcher);
    seen.look(toS, toS);
    if (!atEase(twin)) calmSinceS = toS;
    if (!watcher && (seen.isHarmed || toS >= calmSinceS + EASE_S)) return;
  }
}
