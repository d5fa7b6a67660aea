/**
 * An attempt: someone comes at a given moment, does the fitting thing, and we see whether the livestock is spared.
 */
import { HARM_DOSE } from "../science/index.ts";
import {
  advance,
  alkalinityDKH,
  atEase,
  fillUp,
  phTotal,
  restore,
  salinity,
  systemWaterL,
  type Twin,
  type TwinEvent,
  timeS,
  volumeL,
} from "../twin/index.ts";
import { type Course, endItself, harmDose } from "./course.ts";
import { makeBench } from "./faults/bench.ts";
import type { Setting } from "./setting.ts";

const HOUR_S = 3600;
const DAY_S = 86_400;
const STRIDE_S = 1800;
/** After so long without anything beyond what animals bear, the water has recovered. */
const EASE_H = 8;
/** An attempt is followed this long at most. */
const FOLLOW_DAYS = 5;
/** Water that is off by more than this is put right by a water change. */
const OFF = { salinity: 1.5, alkalinityDKH: 3, ph: 0.5 } as const;
/** Under this share of its described water a system is filled up with prepared water once the leak is shut. */
const LOW_SHARE = 0.93;
/** Share of the water that is changed at once, and how often it is repeated. */
const CHANGE_SHARE = 0.25;
const CHANGE_EVERY_H = 4;

export interface Attempt {
  readonly spared: boolean;
  /** Early harm in spite of the help, s; Infinity where none. */
  readonly harmEarlyS: number;
  readonly harmLikelyS: number;
  readonly endedS: number;
}

/** Someone who wants to see the whole of it: called at every multiple of `everyS`, until `untilS`. */
export interface Watcher {
  readonly everyS: number;
  readonly untilS: number;
  readonly see: (tS: number) => void;
  readonly hear: (event: TwinEvent) => void;
}

/** Minutes of hands-on work to end all faults. */
export function workMinutes(course: Course): number {
  return course.faults.reduce((sum, fault) => sum + fault.mode.end.minutes, 0);
}

/** Goes back to just before `actS`, lets the person work, and follows what comes of it. */
export function attempt(setting: Setting, course: Course, actS: number, watcher?: Watcher): Attempt {
  const { twin } = setting;
  twin.onEvent = watcher?.hear ?? null;
  let place = course.snapshots.length - 1;
  while (place > 0 && course.snapshots[place].tS > actS) place--;
  restore(twin, course.snapshots[place].state);
  advance(twin, timeS(twin));
  const doneS = actS + workMinutes(course) * 60;
  let likelyS = course.harm.likely <= actS ? course.harm.likely : Number.POSITIVE_INFINITY;
  runThrough(setting, course, doneS, false, watcher);
  if (harmDose(setting, "early") >= HARM_DOSE.harm) {
    if (harmDose(setting, "likely") >= HARM_DOSE.harm) likelyS = Math.min(likelyS, doneS);
    if (!watcher)
      return { spared: false, harmEarlyS: Math.min(course.harm.early, doneS), harmLikelyS: likelyS, endedS: doneS };
  }
  const bench = makeBench(twin);
  for (const fault of course.faults) fault.mode.end.apply(bench, fault.part);
  let easeH = 0;
  let sinceChangeH = CHANGE_EVERY_H;
  let earlyS =
    harmDose(setting, "early") >= HARM_DOSE.harm ? Math.min(course.harm.early, doneS) : Number.POSITIVE_INFINITY;
  const untilS = watcher?.untilS ?? doneS + FOLLOW_DAYS * DAY_S;
  while (timeS(twin) < untilS) {
    if (sinceChangeH >= CHANGE_EVERY_H && putRight(setting)) sinceChangeH = 0;
    const toS = timeS(twin) + STRIDE_S;
    runThrough(setting, course, toS, true, watcher);
    sinceChangeH += STRIDE_S / HOUR_S;
    if (harmDose(setting, "early") >= HARM_DOSE.harm) {
      earlyS = Math.min(earlyS, toS);
      if (harmDose(setting, "likely") >= HARM_DOSE.harm) likelyS = Math.min(likelyS, toS);
      if (!watcher) return { spared: false, harmEarlyS: earlyS, harmLikelyS: likelyS, endedS: doneS };
    }
    easeH = atEase(twin) ? easeH + STRIDE_S / HOUR_S : 0;
    if (easeH >= EASE_H && !watcher) break;
  }
  return { spared: !Number.isFinite(earlyS), harmEarlyS: earlyS, harmLikelyS: likelyS, endedS: doneS };
}

/** Advances, ending on the way what ends by itself. */
function runThrough(setting: Setting, course: Course, untilS: number, minded: boolean, watcher?: Watcher): void {
  const { twin } = setting;
  for (const fault of course.faults) {
    const endsS = (fault.mode.lastsMin ?? Number.POSITIVE_INFINITY) * 60;
    if (endsS > timeS(twin) && endsS <= untilS) {
      step(twin, endsS, watcher);
      endItself(setting, fault, minded);
    }
  }
  step(twin, untilS, watcher);
}

function step(twin: Twin, untilS: number, watcher?: Watcher): void {
  while (watcher) {
    const nextS = (Math.floor(timeS(twin) / watcher.everyS + 1e-9) + 1) * watcher.everyS;
    if (nextS > untilS + 1e-6) break;
    advance(twin, nextS);
    watcher.see(nextS);
  }
  advance(twin, untilS);
}

/** Fills up what has leaked, and changes part of the water of every system that the fault has thrown out; true where any was. */
function putRight(setting: Setting): boolean {
  let changed = false;
  for (const index of setting.systems) {
    const system = setting.model.systems[index];
    const body = system.waters[0];
    if (body === undefined) continue;
    const { holds } = setting.model.site.bodies[body];
    if (holds.kind !== "salt") continue;
    const { twin } = setting;
    const isLow =
      system.waters.reduce((sum, one) => sum + volumeL(twin, one), 0) <
      LOW_SHARE * systemWaterL(setting.model.site, system.id);
    if (isLow) fillUp(twin, system);
    const off =
      Math.abs(salinity(twin, body) - holds.salinity) > OFF.salinity ||
      Math.abs(alkalinityDKH(twin, body) - holds.alkalinityDKH) > OFF.alkalinityDKH ||
      phTotal(twin, body) > 8.1 + OFF.ph;
    if (!off) continue;
    makeBench(twin).changeWater(system.id, CHANGE_SHARE);
    changed = true;
  }
  return changed;
}

/** Moments of acting are searched to this share of the time since the fault, or this many seconds. */
const SEARCH_SHARE = 0.03;
const SEARCH_S = 60;

/** The last moment at which the fitting act still spares the livestock, s: bisection over the course's snapshots. */
export function lastUsefulS(setting: Setting, course: Course): number {
  if (!Number.isFinite(course.harm.early)) return Number.POSITIVE_INFINITY;
  let good = 0;
  let bad = course.harm.early;
  if (!attempt(setting, course, 0).spared) return 0;
  while (bad - good > Math.max(SEARCH_S, SEARCH_SHARE * bad)) {
    const middle = (good + bad) / 2;
    if (attempt(setting, course, middle).spared) good = middle;
    else bad = middle;
  }
  return good;
}
