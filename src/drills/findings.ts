/**
 * Findings: every verdict that is not good enough, as one plain sentence with its figures, and what would change it.
 */
import { type Course, triggerOf } from "./course.ts";
import type { Fault } from "./faults/fault.ts";
import type { Help } from "./help.ts";
import type { Setting } from "./setting.ts";
import type { DrillResult } from "./types.ts";
import { duration, harmInWords } from "./words.ts";

type Base = Omit<DrillResult, "finding" | "would_help">;

/** One sentence, or null where the verdict is good enough. */
export function findingOf(setting: Setting, course: Course, help: Help, base: Base): string | null {
  const what = course.faults.map((fault) => `${fault.mode.name} (${fault.part})`).join(", then ");
  const opening = `${what}, ${whenWords(setting.circumstance.id)}`;
  switch (base.verdict) {
    case "unseen":
      return `${opening}: ${unseenWords(course, base)}`;
    case "late":
      return `${opening}: ${lateWords(course, help, base)}`;
    case "handled":
      return Number.isFinite(help.toldS)
        ? null
        : `${opening}: ${course.acted[0]?.text ?? "a stand-in steps in"} and nobody is told: the next fault meets no backup.`;
    case "handed over":
      return base.found_by_chance
        ? `${opening}: no message leads anyone to it: ${help.actor} only finds it by looking after ${duration(base.minutes.acting ?? 0)}.`
        : null;
    default:
      return null;
  }
}

const WHEN: Readonly<Record<string, string>> = { day: "by day", night: "at night", away: "while away" };

function whenWords(circumstance: string): string {
  return WHEN[circumstance] ?? `in ${circumstance}`;
}

function unseenWords(course: Course, base: Base): string {
  if (course.harmWhat === null) {
    return triggerOf(course).mode.onset === "latent"
      ? "nothing shows it, and nobody tries it: it will be missing on the day it is needed."
      : "nothing says so: whatever relies on it is blind.";
  }
  const early = duration(base.minutes.harm_early ?? 0);
  const found =
    base.minutes.acting === null
      ? "nobody comes within the time rehearsed"
      : `it is found only by looking, after ${duration(base.minutes.acting)}`;
  return `${harmInWords(course.harmWhat)} from ${early} on (likely ${likely(base)}); nothing had told anyone, and ${found}.`;
}

function likely(base: Base): string {
  return base.minutes.harm_likely === null ? "later than rehearsed" : duration(base.minutes.harm_likely);
}

function lateWords(course: Course, help: Help, base: Base): string {
  const harm = course.harmWhat === null ? "harm comes" : harmInWords(course.harmWhat);
  const early = duration(base.minutes.harm_early ?? 0);
  const sent =
    base.minutes.noticed === null
      ? "the notice finds no way out"
      : `the notice leaves after ${duration(base.minutes.noticed)}`;
  const read =
    base.minutes.told === null
      ? "nobody reads it in time"
      : `${help.toldBy} reads it after ${duration(base.minutes.told)}`;
  const acts =
    base.minutes.acting === null
      ? "nobody who can end it comes"
      : `${help.actor} has hands on it after ${duration(base.minutes.acting)}`;
  const margin =
    base.last_useful === null
      ? ""
      : `; ${base.last_useful <= 0 ? "no help could have come in time" : `help was useful until ${duration(base.last_useful)}`}`;
  return `${harm} from ${early} on (likely ${likely(base)}): ${sent}, ${read}, ${acts}${margin}.`;
}

/** What would change the verdict: the fault's own remedies, then what this course lacked. */
export function helpOf(setting: Setting, course: Course, help: Help, base: Base): readonly string[] {
  if (base.verdict === "absorbed" || (base.verdict === "handed over" && !base.found_by_chance)) return [];
  const own = course.faults.flatMap((fault) => fault.mode.helps.map((words) => words.replaceAll("{part}", fault.part)));
  const lacks: string[] = [];
  if (course.notices.length === 0 && base.verdict === "unseen" && course.harmWhat !== null)
    lacks.push(watchWords(course));
  if (course.notices.some((notice) => !Number.isFinite(notice.sentS)))
    lacks.push("a way for notices that does not hang on the same power: router and hub on a battery, or a mobile link");
  if (course.notices.length > 0 && setting.model.site.silenceWatch === null && !Number.isFinite(help.sentS))
    lacks.push("a watch outside the house that tells someone when the hub falls silent");
  if (Number.isFinite(help.sentS) && !Number.isFinite(help.toldS))
    lacks.push("someone on the ladder who can be called at this hour");
  if (Number.isFinite(help.toldS) && !Number.isFinite(help.actingS)) lacks.push(comeWords(triggerOf(course)));
  if (base.verdict === "handled" && !Number.isFinite(help.toldS)) lacks.push("a notice on what stepped in");
  return [...new Set([...lacks, ...own])].slice(0, 5);
}

function comeWords({ part, mode }: Fault): string {
  return `someone who can come and ${mode.end.act.replaceAll("{part}", part)}`;
}

const WATCH_FOR: Readonly<Record<string, string>> = {
  heat: "an independent temperature sensor with a limit of its own",
  cold: "an independent temperature sensor with a limit of its own",
  hypoxia: "a notice when a pump draws no power or moves no water",
  "low-salinity": "a salinity probe, or a limit on how long the top-off may run",
  "high-salinity": "a low-level notice on the top-off reservoir",
  "high-ph": "a pH limit that stops dosing and tells someone",
  "low-ph": "a pH limit that shuts the gas and tells someone",
  ammonia: "a notice on oxygen or redox",
  emersion: "a level sensor with a notice",
  "water on the floor": "a leak sensor with a notice",
  darkness: "a light sensor with a notice",
};

function watchWords(course: Course): string {
  return WATCH_FOR[course.harmWhat?.stressor ?? ""] ?? "a sensor that sees it, with a notice";
}
