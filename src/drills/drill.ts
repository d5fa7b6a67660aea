/**
 * One drill: a fault (or two) from a given moment in given circumstances, first with rules but nobody, then with the
 * people, and what is to be said of it.
 */

import type { Skill } from "../site/index.ts";
import { attempt, lastUsefulS, workMinutes } from "./attempt.ts";
import { type Course, runCourse } from "./course.ts";
import { leversPulled } from "./faults/bench.ts";
import { type Fault, faultId } from "./faults/fault.ts";
import { findingOf, helpOf } from "./findings.ts";
import type { Notice } from "./messenger.ts";
import { climb, hasSkill, type Response, type Scene } from "./people.ts";
import type { Setting } from "./setting.ts";
import { trialMonths } from "./trial.ts";
import type { DrillResult, VerdictKind } from "./types.ts";

export interface Help {
  readonly sentS: number;
  readonly toldS: number;
  readonly toldBy: string | null;
  readonly actingS: number;
  readonly actor: string | null;
  /** True where it was found by looking, before any message led to it. */
  readonly byChance: boolean;
  readonly saw: string | null;
  readonly response: Response | null;
}

export interface Judged {
  readonly result: DrillResult;
  readonly course: Course;
  readonly help: Help;
  readonly scene: Scene;
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
export function deadens(setting: Setting, fault: Fault): boolean {
  if (fault.mode.onset === "latent" && fault.mode.group !== "livestock") return true;
  return leversPulled(setting.model, fault).some(([, lever]) => DEADENING.has(`${fault.mode.of}:${lever}`));
}

export function runDrill(setting: Setting, faults: readonly Fault[]): DrillResult {
  return judge(setting, faults).result;
}

export function judge(setting: Setting, faults: readonly Fault[]): Judged {
  const scene = sceneOf(setting, faults);
  const course = runCourse(setting, faults, scene, { early: true });
  const help = helpFor(course, scene);
  return { result: verdictOf(setting, course, help), course, help, scene };
}

/** Earliest hands on the fault: by a message, or by someone who happens to look. */
export function helpFor(course: Course, scene: Scene): Help {
  const needs = hardestSkill(course);
  let best: Help = {
    sentS: Number.POSITIVE_INFINITY,
    toldS: Number.POSITIVE_INFINITY,
    toldBy: null,
    actingS: Number.POSITIVE_INFINITY,
    actor: null,
    byChance: false,
    saw: null,
    response: null,
  };
  for (const notice of course.notices) {
    const responses = [
      ...(Number.isFinite(notice.sentS) ? [byMessage(scene, notice, needs)] : []),
      ...(Number.isFinite(notice.sirenS) ? byEar(scene, notice, needs) : []),
    ];
    for (const { sentS, response } of responses) best = sooner(best, sentS, response);
  }
  for (const look of course.sightings) {
    const found = byLooking(scene, look.person, look.tS, needs);
    if (found.actingS < best.actingS)
      best = { ...best, actingS: found.actingS, actor: found.actor, byChance: true, saw: look.saw, response: found };
  }
  return best;
}

interface Reached {
  readonly sentS: number;
  readonly response: Response;
}

/** A notice that left the house climbs the ladder; one of the watch outside tells those it knows. */
function byMessage(scene: Scene, notice: Notice, needs: Skill): Reached {
  const { ladder, silenceWatch } = scene.site;
  const steps =
    notice.from === "hub" || silenceWatch === null
      ? ladder
      : silenceWatch.tells.map((person) => ({ person, afterMin: 0 }));
  return { sentS: notice.sentS, response: climb(scene, notice.sentS, notice.urgency, needs, false, steps) };
}

/** The hub's own siren needs no way out: whoever is in the building and listens hears it. It counts only if somebody does. */
function byEar(scene: Scene, notice: Notice, needs: Skill): Reached[] {
  const people = scene.site.people.filter((person) => person.reachedBy.includes("siren"));
  const listening = people.map((person) => ({ ...person, reachedBy: ["siren"] as const }));
  const others = scene.site.people.filter((person) => !people.includes(person));
  const inside: Scene = { ...scene, site: { ...scene.site, people: [...listening, ...others] } };
  const steps = listening.map(({ id }) => ({ person: id, afterMin: 0 }));
  const response = climb(inside, notice.sirenS, notice.urgency, needs, true, steps);
  return response.told.length === 0 ? [] : [{ sentS: notice.sirenS, response }];
}

/** The better of the help so far and a further response. */
function sooner(best: Help, sentS: number, response: Response): Help {
  const toldFirst = response.toldS < best.toldS;
  const actsFirst = response.actingS < best.actingS;
  return {
    ...best,
    sentS: Math.min(best.sentS, sentS),
    toldS: toldFirst ? response.toldS : best.toldS,
    toldBy: toldFirst ? response.toldBy : best.toldBy,
    actingS: actsFirst ? response.actingS : best.actingS,
    actor: actsFirst ? response.actor : best.actor,
    response: actsFirst ? response : (best.response ?? response),
  };
}

function byLooking(scene: Scene, finder: string, tS: number, needs: Skill): Response {
  const person = scene.site.people.find((one) => one.id === finder)!;
  if (hasSkill(person, needs) && !scene.unsure.has(finder)) {
    return { told: [], toldS: Number.POSITIVE_INFINITY, toldBy: null, actingS: tS + 120, actor: finder, words: [] };
  }
  const others = scene.site.people
    .filter((one) => one.id !== finder && hasSkill(one, needs))
    .map((one) => ({ person: one.id, afterMin: 5 }));
  if (!person.can.includes("call keeper")) return climb(scene, Number.POSITIVE_INFINITY, "urgent", needs, false, []);
  return climb(scene, tS, "urgent", needs, false, others);
}

/** What it takes to end all faults; "everything" where they need different skills. */
function hardestSkill(course: Course): Skill {
  const needs = new Set(course.faults.map((fault) => fault.mode.end.needs));
  return needs.size === 1 ? [...needs][0] : ("everything" as const);
}

const minutes = (seconds: number): number | null => (Number.isFinite(seconds) ? Math.round(seconds / 6) / 10 : null);

function verdictOf(setting: Setting, course: Course, help: Help): DrillResult {
  const horizonS = setting.grid[setting.grid.length - 1];
  const harmed = Number.isFinite(course.harm.early);
  const usefulS = harmed ? lastUsefulS(setting, course) : Number.POSITIVE_INFINITY;
  const trial = triedEvery(setting, course);
  const comes = help.actingS <= horizonS;
  const spared = harmed && comes && (help.actingS <= usefulS || attempt(setting, course, help.actingS).spared);
  const verdict = judgeKind(setting, course, help, spared, trial);
  const lastUseful = harmed ? Math.max(usefulS, spared ? help.actingS : 0) : null;
  const first = course.faults[0];
  const base: Omit<DrillResult, "finding" | "would_help"> = {
    id: `${course.faults.map(faultId).join("+")}@${setting.circumstance.id}`,
    faults: course.faults.map((fault) => ({ part: fault.part, mode: fault.mode.mode })),
    circumstance: setting.circumstance.id,
    verdict,
    minutes: {
      sign: minutes(course.signS),
      noticed: minutes(help.sentS),
      told: minutes(help.toldS),
      acting: minutes(help.actingS),
      harm_early: minutes(course.harm.early),
      harm_likely: minutes(course.harm.likely),
      harm_late: minutes(course.harm.late),
    },
    margin_min: lastUseful === null ? null : minutes(lastUseful - Math.min(help.actingS, horizonS)),
    floor_l: Math.round(10 * course.floorL) / 10,
    name: course.faults.map((fault) => fault.mode.name).join(", then: "),
    system: systemName(setting, first),
    onset: first.mode.onset,
    harm: course.harmWhat === null ? null : `${course.harmWhat.group}, ${course.harmWhat.stressor}`,
    told_by:
      help.toldBy === null && trial !== null && verdict === "handed over" ? `trial every ${trial} months` : help.toldBy,
    found_by_chance: help.byChance,
    last_useful: lastUseful === null ? null : minutes(lastUseful),
    ended: comes ? minutes(help.actingS + workMinutes(course) * 60) : null,
    flips_in_band: flips(course, help, spared),
    derived: null,
  };
  return { ...base, finding: findingOf(setting, course, help, base), would_help: helpOf(setting, course, help, base) };
}

/** A dead part that somebody tries at least every quarter is found, if late. */
function triedEvery(setting: Setting, course: Course): number | null {
  return course.faults.length === 1 ? trialMonths(setting.model.site, course.faults[0]) : null;
}

function judgeKind(setting: Setting, course: Course, help: Help, spared: boolean, trial: number | null): VerdictKind {
  const told = Number.isFinite(help.toldS);
  if (!Number.isFinite(course.harm.early)) {
    if (course.acted.length > 0) return "handled";
    if (course.faults.length === 1 && deadens(setting, course.faults[0]))
      return told || help.byChance || trial !== null ? "handed over" : "unseen";
    return "absorbed";
  }
  if (spared) return "handed over";
  const noticed = Number.isFinite(help.sentS) && help.sentS <= course.harm.late;
  return noticed ? "late" : "unseen";
}

/** True where the verdict would be another at the far end of the band. */
function flips(course: Course, help: Help, spared: boolean): boolean {
  if (!Number.isFinite(course.harm.early)) return false;
  if (spared) return false;
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
