/** Who gets hands on a fault first: by a message, by the siren, or by looking in. */
import type { Skill } from "../site/index.ts";
import type { Course } from "./course.ts";
import { climb, NOBODY, type Response } from "./ladder.ts";
import type { Notice } from "./messenger.ts";
import { hasSkill, type Scene } from "./people.ts";

/** From seeing it to having hands on it, s. */
const SEEN_S = 120;
/** Between one call and the next, min. */
const CALL_MIN = 5;

/** Times in s from the fault; Infinity where it does not happen. */
export interface Help {
  readonly sentS: number;
  readonly toldS: number;
  readonly toldBy: string | null;
  readonly actingS: number;
  readonly actor: string | null;
  /** True where it was found by looking, before any message led to it. */
  readonly byChance: boolean;
  readonly response: Response | null;
}

const NO_HELP: Help = {
  sentS: Number.POSITIVE_INFINITY,
  toldS: Number.POSITIVE_INFINITY,
  toldBy: null,
  actingS: Number.POSITIVE_INFINITY,
  actor: null,
  byChance: false,
  response: null,
};

/** Earliest hands on the fault: by a message, or by someone who happens to look. */
export function helpFor(course: Course, scene: Scene): Help {
  const needs = hardestSkill(course);
  let best = NO_HELP;
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
      best = { ...best, actingS: found.actingS, actor: found.actor, byChance: true, response: found };
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
  const { sentS, urgency } = notice;
  return { sentS, response: climb(scene, { sentS, urgency, needs, siren: false, steps }) };
}

/** The hub's own siren needs no way out: whoever is in the building and listens hears it. It counts only if somebody does. */
function byEar(scene: Scene, notice: Notice, needs: Skill): Reached[] {
  const people = scene.site.people.filter((person) => person.reachedBy.includes("siren"));
  const listening = people.map((person) => ({ ...person, reachedBy: ["siren"] as const }));
  const others = scene.site.people.filter((person) => !people.includes(person));
  const inside: Scene = { ...scene, site: { ...scene.site, people: [...listening, ...others] } };
  const steps = listening.map(({ id }) => ({ person: id, afterMin: 0 }));
  const { sirenS: sentS, urgency } = notice;
  const response = climb(inside, { sentS, urgency, needs, siren: true, steps });
  return response.told.length === 0 ? [] : [{ sentS, response }];
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

/** Someone who looks in and can end it does so; else they call the others, if they do that at all. */
function byLooking(scene: Scene, finder: string, tS: number, needs: Skill): Response {
  const person = scene.site.people.find((one) => one.id === finder);
  if (person && hasSkill(person, needs) && !scene.unsure.has(finder))
    return { ...NOBODY, actingS: tS + SEEN_S, actor: finder };
  if (!person?.can.includes("call keeper")) return NOBODY;
  const others = scene.site.people.filter((one) => one.id !== finder && hasSkill(one, needs));
  const steps = others.map((one) => ({ person: one.id, afterMin: CALL_MIN }));
  return climb(scene, { sentS: tS, urgency: "urgent", needs, siren: false, steps });
}

/** What it takes to end all faults; "everything" where they need different skills. */
function hardestSkill(course: Course): Skill {
  const needs = new Set(course.faults.map((fault) => fault.mode.end.needs));
  return needs.size === 1 ? [...needs][0] : ("everything" as const);
}
