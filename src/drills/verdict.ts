/** What is to be said of a drill. docs/how/drills.md, steps 5 and 6. */
import { workMinutes } from "./attempt.ts";
import type { Attempts } from "./attempts.ts";
import { type Course, triggerOf } from "./course.ts";
import { leversPulled } from "./faults/bench.ts";
import { type Fault, faultId } from "./faults/fault.ts";
import { findingOf, helpOf } from "./findings.ts";
import type { Help } from "./help.ts";
import type { Setting } from "./setting.ts";
import { trialMonths } from "./trial.ts";
import type { DrillMinutes, DrillResult, VerdictKind } from "./types.ts";

/** Levers whose pulling kills a stand-in, a sensor or a way for messages without moving any water. */
const DEADENING = new Set([
  "sensor:silent",
  "sensor:frozen",
  "sensor:fixed",
  "sensor:dry",
  "hub:muted",
  "hub:hung",
  "hub:dead",
  "hub:blank",
  "link:down",
  "system:serviceDown",
  "system:silenceWatchDead",
  "battery:noTakeover",
  "battery:capacity",
  "rule:off",
  "device:spareFloat",
  "device:cutOut",
  "device:runLimit",
  "flow:checkValve",
  "flow:siphonBreak",
  "flow:spareDrain",
  "device:noRestart",
]);

/** True where the fault takes away something that the site relies on when something else fails. */
function deadens(setting: Setting, fault: Fault): boolean {
  if (fault.mode.onset === "latent" && fault.mode.group !== "livestock") return true;
  return leversPulled(setting.model, fault).some(([, lever]) => DEADENING.has(`${fault.mode.of}:${lever}`));
}

/** To a tenth of a minute; null where it does not happen. */
function minutes(seconds: number): number | null {
  return Number.isFinite(seconds) ? Math.round(seconds / 6) / 10 : null;
}

/** Judges a course and the help that came, and says it in the words of the contract. */
export function verdictOf(setting: Setting, course: Course, help: Help, attempts: Attempts): DrillResult {
  const { verdict, lastUsefulS, spared, trial } = weigh(setting, course, help, attempts);
  const { faults } = course;
  const horizonS = setting.grid[setting.grid.length - 1];
  const base: Omit<DrillResult, "finding" | "would_help"> = {
    id: `${faults.map(faultId).join("+")}@${setting.circumstance.id}`,
    faults: faults.map((fault) => ({ part: fault.part, mode: fault.mode.mode })),
    circumstance: setting.circumstance.id,
    verdict,
    minutes: minutesOf(course, help),
    margin_min: lastUsefulS === null ? null : minutes(lastUsefulS - Math.min(help.actingS, horizonS)),
    floor_l: Math.round(10 * course.floorL) / 10,
    name: faults.map((fault) => fault.mode.name).join(", then: "),
    system: systemName(setting, triggerOf(course)),
    onset: faults[0].mode.onset,
    harm: course.harmWhat === null ? null : `${course.harmWhat.group}, ${course.harmWhat.stressor}`,
    told_by:
      help.toldBy === null && trial !== null && verdict === "handed over" ? `trial every ${trial} months` : help.toldBy,
    found_by_chance: help.byChance,
    last_useful: lastUsefulS === null ? null : minutes(lastUsefulS),
    ended: help.actingS <= horizonS ? minutes(help.actingS + workMinutes(course) * 60) : null,
    flips_in_band: flips(course, help, spared),
    derived: null,
  };
  return { ...base, finding: findingOf(setting, course, help, base), would_help: helpOf(setting, course, help, base) };
}

interface Judgement {
  readonly verdict: VerdictKind;
  /** Last moment at which the fitting act spares the livestock, s; null where no harm comes. */
  readonly lastUsefulS: number | null;
  readonly spared: boolean;
  /** Months between trials that would find the fault. */
  readonly trial: number | null;
}

function weigh(setting: Setting, course: Course, help: Help, attempts: Attempts): Judgement {
  const trial = triedEvery(setting, course);
  if (!Number.isFinite(course.harm.early))
    return { verdict: withoutHarm(setting, course, help, trial), lastUsefulS: null, spared: false, trial };
  const workS = workMinutes(course) * 60;
  const usefulS = attempts.lastUsefulS(workS);
  const comes = help.actingS <= setting.grid[setting.grid.length - 1];
  const spared = comes && (help.actingS <= usefulS || attempts.isSpared(help.actingS + workS));
  return {
    verdict: spared ? "handed over" : Number.isFinite(help.sentS) && help.sentS <= course.harm.late ? "late" : "unseen",
    lastUsefulS: Math.max(usefulS, spared ? help.actingS : 0),
    spared,
    trial,
  };
}

function withoutHarm(setting: Setting, course: Course, help: Help, trial: number | null): VerdictKind {
  if (course.acted.length > 0) return "handled";
  if (!deadens(setting, triggerOf(course))) return "absorbed";
  const isFound = Number.isFinite(help.toldS) || help.byChance || trial !== null;
  return isFound ? "handed over" : "unseen";
}

function minutesOf({ signS, harm }: Course, { sentS, toldS, actingS }: Help): DrillMinutes {
  return {
    sign: minutes(signS),
    noticed: minutes(sentS),
    told: minutes(toldS),
    acting: minutes(actingS),
    harm_early: minutes(harm.early),
    harm_likely: minutes(harm.likely),
    harm_late: minutes(harm.late),
  };
}

/** A dead part that somebody tries at least every quarter is found, if late. */
function triedEvery(setting: Setting, course: Course): number | null {
  return trialMonths(setting.model.site, triggerOf(course));
}

/** True where the verdict would be another at the far end of the band. */
function flips(course: Course, help: Help, spared: boolean): boolean {
  if (spared || !Number.isFinite(course.harm.early)) return false;
  return !Number.isFinite(course.harm.late) || help.actingS < course.harm.late;
}

function systemName(setting: Setting, fault: Fault): string | null {
  const { site } = setting.model;
  const part =
    site.devices.find((one) => one.id === fault.part) ??
    site.bodies.find((one) => one.id === fault.part) ??
    site.flows.find((one) => one.id === fault.part);
  if (part) return part.system;
  const sensor = site.sensors.find((one) => one.id === fault.part);
  if (!sensor) return null;
  return (
    site.bodies.find((body) => body.id === sensor.at)?.system ??
    site.devices.find((device) => device.id === sensor.at)?.system ??
    null
  );
}
