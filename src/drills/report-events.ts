/** What happened in a drill, as lines of its log. */
import type { TwinEvent } from "../twin/index.ts";
import { workMinutes } from "./attempt.ts";
import type { Course } from "./course.ts";
import type { Sighting } from "./course-record.ts";
import type { Fault } from "./faults/fault.ts";
import type { Help } from "./help.ts";
import type { Notice } from "./messenger.ts";
import { minutesAt } from "./recorder.ts";
import type { DrillEvent } from "./types.ts";
import { harmInWords } from "./words.ts";

type Line = Pick<DrillEvent, "kind" | "text"> & Partial<DrillEvent>;

function line(tS: number, { part = null, person = null, kind, text }: Line): DrillEvent {
  return { t_min: minutesAt(tS), kind, part, person, text };
}

export function toDrillEvent(event: TwinEvent): DrillEvent {
  const kind = event.kind === "stand-in" || event.kind === "hub" ? "device" : event.kind;
  return line(event.tS, { kind, part: event.part, text: event.text });
}

export function faultEvents(faults: readonly Fault[]): DrillEvent[] {
  return faults.map(({ part, mode }) => line(0, { kind: "fault", part, text: `${mode.name}: ${part}` }));
}

/** First sign and harm, where they came. */
export function harmEvents({ harm, harmWhat, signS, signWhat }: Course): DrillEvent[] {
  const what = harmWhat === null ? "harm" : harmInWords(harmWhat);
  const sign = line(signS, { kind: "water", part: signWhat, text: `first measurable sign: ${signWhat}` });
  const harms = (["early", "likely"] as const)
    .filter((end) => Number.isFinite(harm[end]))
    .map((end) => line(harm[end], { kind: "harm", part: harmWhat?.body ?? null, text: `${what} (${end})` }));
  return Number.isFinite(signS) ? [sign, ...harms] : harms;
}

/** Messages and people, up to the act at `actMin`. */
export function peopleEvents(course: Course, help: Help, actMin: number): DrillEvent[] {
  const { told = [], words = [] } = help.response ?? {};
  return [
    ...course.notices.filter((notice) => notice.raisedS / 60 <= actMin).map(noticeEvent),
    ...told.map(({ readS, person, channel }) =>
      line(readS, { kind: "message", person, text: `${person} reads it (${channel})` }),
    ),
    ...words.map(({ tS, person, text }) => line(tS, { kind: "person", person, text })),
    ...course.sightings.slice(0, 1).map(lookEvent),
    ...(Number.isFinite(help.actingS) && help.actor ? actEvents(course, help.actingS, help.actor) : []),
  ];
}

function noticeEvent({ from, says, rule, sentS, raisedS }: Notice): DrillEvent {
  if (!Number.isFinite(sentS))
    return line(raisedS, { kind: "message", part: rule, text: `the notice of ${rule} finds no way out` });
  const text = from === "silence watch" ? `the watch outside says: ${says}` : `the notice of ${rule} leaves the house`;
  return line(sentS, { kind: "message", part: rule, text });
}

function lookEvent({ tS, person, saw }: Sighting): DrillEvent {
  return line(tS, { kind: "look", person, text: `${person} looks in and sees: ${saw}` });
}

function actEvents(course: Course, actingS: number, person: string): DrillEvent[] {
  const acts = course.faults.map((fault) => fault.mode.end.act.replaceAll("{part}", fault.part)).join("; ");
  const { part } = course.faults[0];
  return [
    line(actingS, { kind: "person", part, person, text: `${person} is there: ${acts}` }),
    line(actingS + workMinutes(course) * 60, { kind: "end", part, person, text: "ended" }),
  ];
}
