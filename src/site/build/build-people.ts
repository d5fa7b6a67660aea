/** People, the ladder and the circumstances, from what was written of them. */
import { mustHave, parseWindow } from "../../foundation/index.ts";
import { AWAY_KEYS, CIRCUMSTANCE_KEYS, PERSON_KEYS } from "../keys/people.ts";
import type { WrittenSite } from "../keys/site-keys.ts";
import type { Circumstance, LadderStep, Person } from "../model.ts";
import type { WrittenPart } from "../shape/fields.ts";
import type { Building } from "./building.ts";
import { asFound, takerFor, valuesOf } from "./building.ts";

const NIGHT = mustHave(parseWindow("23:00-06:30"));
const STEP_MIN = 10;

function buildPerson(building: Building, part: WrittenPart<typeof PERSON_KEYS>, first: boolean): Person {
  const { id, written } = part;
  const take = takerFor(building, id, part.idPlace.line, PERSON_KEYS, written);
  return {
    id,
    reachedBy: valuesOf(take("reached-by", asFound(["push" as const]))),
    asleep: take("asleep", NIGHT),
    onSite: valuesOf(take("on-site", [])),
    busy: valuesOf(take("busy", [])),
    travelMin: take("travel", 30),
    can: valuesOf(take("can", asFound([first ? ("everything" as const) : ("call keeper" as const)]))),
    looks: valuesOf(take("looks", [])),
    testedMonths: take("tested", null),
  };
}

export function buildPeople(building: Building, site: WrittenSite): readonly Person[] {
  const parts = site.people?.value ?? [];
  const ladder = site.ladder?.value ?? [];
  const first = ladder[0]?.value.person ?? parts[0]?.id;
  if (parts.length === 0)
    building.noteDefault("people", "people", "nobody", 1, "with nobody described, nobody comes", 1);
  return parts.map((part) => buildPerson(building, part, part.id === first));
}

export function buildLadder(building: Building, site: WrittenSite, people: readonly Person[]): readonly LadderStep[] {
  const written = site.ladder?.value;
  if (written === undefined) {
    const steps = people.map((person, index) => ({ person: person.id, afterMin: index === 0 ? 0 : STEP_MIN }));
    if (steps.length > 1)
      building.noteDefault(
        "ladder",
        "ladder",
        steps.map((step) => step.person).join(", "),
        2,
        "each waits until the one before has not answered",
        1,
      );
    return steps;
  }
  return written.flatMap((step, index) => {
    if (!building.refers(step.value.person, step.place, ["person"], `ladder[${index + 1}]`)) return [];
    return [{ person: step.value.person, afterMin: step.value.afterMin ?? (index === 0 ? 0 : STEP_MIN) }];
  });
}

function usualCircumstances(keeper: string | null): readonly Circumstance[] {
  const away = keeper === null ? [] : [{ person: keeper, backAfterH: 336, repliesAfterMin: 240 }];
  const none = { away: [], closed: false, reservoirs: null, horizonDays: 7 };
  return [
    { id: "day", startsLocal: "2026-05-13T11:00", ...none },
    { id: "night", startsLocal: "2026-01-17T02:00", ...none },
    { id: "away", startsLocal: "2026-08-15T09:00", away, closed: false, reservoirs: 0.6, horizonDays: 14 },
  ];
}

function buildCircumstance(building: Building, part: WrittenPart<typeof CIRCUMSTANCE_KEYS>): Circumstance {
  const { id, written } = part;
  const take = takerFor(building, id, part.idPlace.line, CIRCUMSTANCE_KEYS, written);
  const horizonDays = take("horizon", 7);
  const away = (written.away?.value ?? []).flatMap((absence) => {
    const where = `${id}.away.${absence.id}`;
    if (!building.refers(absence.id, absence.idPlace, ["person"], where)) return [];
    const takeAway = takerFor(building, `${id}.${absence.id}`, absence.idPlace.line, AWAY_KEYS, absence.written);
    return [
      {
        person: absence.id,
        backAfterH: takeAway("back-after", horizonDays * 24),
        repliesAfterMin: takeAway("replies-after", 240),
      },
    ];
  });
  return {
    id,
    startsLocal: written.starts?.value ?? "2026-05-13T11:00",
    away,
    closed: take("closed", false),
    reservoirs: take("reservoirs", null),
    horizonDays,
  };
}

export function buildCircumstances(
  building: Building,
  site: WrittenSite,
  people: readonly Person[],
  ladder: readonly LadderStep[],
): readonly Circumstance[] {
  const parts = site.circumstances?.value ?? [];
  if (parts.length > 0) return parts.map((part) => buildCircumstance(building, part));
  building.noteDefault(
    "circumstances",
    "circumstances",
    "day, night, away (14 d)",
    2,
    "a fault at night or in an absence meets less help",
    1,
  );
  return usualCircumstances(ladder[0]?.person ?? people[0]?.id ?? null);
}
