/** When each person sleeps, is away, travels and acts: the lanes of the timeline. */
import { dayOfWeekAt, minuteOfDayAt, windowHolds } from "../foundation/index.ts";
import type { Person } from "../site/index.ts";
import { workMinutes } from "./attempt.ts";
import type { Course } from "./course.ts";
import type { Help } from "./help.ts";
import type { Scene } from "./people.ts";
import { minutesAt } from "./recorder.ts";
import type { DrillReport } from "./types.ts";

type Spans = DrillReport["people"][number]["spans"];

/** Sleep is looked at this often, min. */
const STEP_MIN = 10;

export function peopleSpans(scene: Scene, help: Help, days: number, course: Course): DrillReport["people"] {
  return scene.site.people.map((person) => ({
    person: person.id,
    spans: [...restSpans(scene, person, days * 1440), ...actSpans(help, person, course)],
  }));
}

function restSpans(scene: Scene, person: Person, untilMin: number): Spans {
  const away = scene.circumstance.away.find((one) => one.person === person.id);
  if (away) return [{ from_min: 0, to_min: Math.min(untilMin, away.backAfterH * 60), what: "away" }];
  const { asleep } = person;
  if (!asleep) return [];
  const sleeps = (tS: number) => windowHolds(asleep, dayOfWeekAt(scene.clock, tS), minuteOfDayAt(scene.clock, tS));
  return spansWhere(sleeps, untilMin, "asleep");
}

function actSpans(help: Help, person: Person, course: Course): Spans {
  if (help.actor !== person.id || !Number.isFinite(help.actingS)) return [];
  const there = minutesAt(help.actingS);
  const told = help.response?.told.find((one) => one.person === person.id);
  const acting = { from_min: there, to_min: minutesAt(help.actingS + workMinutes(course) * 60), what: "acting" };
  if (!told || told.readS >= help.actingS) return [acting];
  return [{ from_min: minutesAt(told.readS), to_min: there, what: "on the way" }, acting];
}

/** Spans of minutes within which something holds. */
function spansWhere(holds: (tS: number) => boolean, untilMin: number, what: string): Spans {
  const spans: { from_min: number; to_min: number; what: string }[] = [];
  let from: number | null = null;
  for (let minute = 0; minute <= untilMin; minute += STEP_MIN) {
    const inside = holds(minute * 60);
    if (inside && from === null) from = minute;
    if (inside || from === null) continue;
    spans.push({ from_min: from, to_min: minute, what });
    from = null;
  }
  return from === null ? spans : [...spans, { from_min: from, to_min: untilMin, what }];
}
