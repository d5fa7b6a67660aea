/**
 * People: who can read a message when, who comes, who is able to end what fault. Help is taken late where it is unsure.
 */
import { anyWindowHolds, dayOfWeekAt, type LocalClock, minuteOfDayAt, windowHolds } from "../foundation/index.ts";
import type { Channel, Circumstance, LadderStep, Person, Site, Skill, TimeWindow } from "../site/index.ts";

export type Urgency = "urgent" | "soon" | "note";

export interface Told {
  readonly person: string;
  readonly sentS: number;
  readonly readS: number;
  readonly channel: Channel;
}

export interface Response {
  readonly told: readonly Told[];
  /** First reading by anyone, s; Infinity: nobody within reach. */
  readonly toldS: number;
  readonly toldBy: string | null;
  /** When hands are on the fault; Infinity: never. */
  readonly actingS: number;
  readonly actor: string | null;
  readonly words: readonly { readonly tS: number; readonly person: string; readonly text: string }[];
}

/** Minutes until a message is read by someone awake with the phone about. */
const READ_MIN: Readonly<Record<Channel, number>> = { call: 3, siren: 3, push: 20, text: 20, mail: 240 };
/** A sleeper whom a call must wake, min; getting dressed and out, min. */
const WAKE_MIN = 10;
const LEAVE_MIN = 5;
const LEAVE_AT_NIGHT_MIN = 15;
/** Someone in the building needs this long to be at the tank, min. */
const WALK_MIN = 3;
const STEP_MIN = 10;
const FAR_AHEAD_MIN = 14 * 1440;

interface Scene {
  readonly site: Site;
  readonly circumstance: Circumstance;
  readonly clock: LocalClock;
  readonly unreachable: ReadonlySet<string>;
  readonly unsure: ReadonlySet<string>;
  readonly horizonS: number;
}

export type { Scene };

function inWindow(scene: Scene, windows: readonly TimeWindow[], tS: number): boolean {
  return anyWindowHolds(windows, scene.clock, tS);
}

function isAsleep(scene: Scene, person: Person, tS: number): boolean {
  if (person.asleep === null) return false;
  return windowHolds(person.asleep, dayOfWeekAt(scene.clock, tS), minuteOfDayAt(scene.clock, tS));
}

function awayOf(scene: Scene, person: Person) {
  return scene.circumstance.away.find((one) => one.person === person.id) ?? null;
}

export function isOnSite(scene: Scene, person: Person, tS: number): boolean {
  return !scene.circumstance.closed && awayOf(scene, person) === null && inWindow(scene, person.onSite, tS);
}

/** First moment from `fromS` on at which a person neither sleeps nor is busy. */
function firstFree(scene: Scene, person: Person, fromS: number): number {
  for (let min = 0; min <= FAR_AHEAD_MIN; min += STEP_MIN) {
    const tS = fromS + min * 60;
    if (!isAsleep(scene, person, tS) && !inWindow(scene, person.busy, tS)) return tS;
  }
  return Number.POSITIVE_INFINITY;
}

/** When a person reads a notice sent at `sentS`; the best of the channels that they have for this urgency. */
export function readAt(scene: Scene, person: Person, sentS: number, urgency: Urgency, siren: boolean): Told | null {
  if (scene.unreachable.has(person.id) || !Number.isFinite(sentS)) return null;
  const away = awayOf(scene, person);
  let best: Told | null = null;
  for (const channel of person.reachedBy) {
    if (channel === "siren" && (!siren || !isOnSite(scene, person, sentS))) continue;
    if (channel === "call" && urgency !== "urgent") continue;
    const delayMin = READ_MIN[channel] + (away === null ? 0 : away.repliesAfterMin);
    const wakes = channel === "call" || channel === "siren";
    const asleep = isAsleep(scene, person, sentS);
    const busy = inWindow(scene, person.busy, sentS);
    const openS = asleep && wakes && !busy ? sentS + WAKE_MIN * 60 : firstFree(scene, person, sentS);
    const readS = openS + delayMin * 60;
    if (readS <= scene.horizonS && (best === null || readS < best.readS))
      best = { person: person.id, sentS, readS, channel };
  }
  return best;
}

export function hasSkill(person: Person, needs: Skill): boolean {
  return person.can.includes("everything") || person.can.includes(needs);
}

/** When a person who knows at `knowsS` has hands on the fault; Infinity where they cannot come. */
function arrives(scene: Scene, person: Person, knowsS: number): number {
  const away = awayOf(scene, person);
  if (away !== null) return Math.max(knowsS, away.backAfterH * 3600);
  if (isOnSite(scene, person, knowsS)) return knowsS + WALK_MIN * 60;
  const leave = isAsleep(scene, person, knowsS) ? LEAVE_AT_NIGHT_MIN : LEAVE_MIN;
  return knowsS + (leave + person.travelMin) * 60;
}

/**
 * Climbs the ladder: each step is told when the one before has not taken it in time; whoever can end the fault and gets
 * there first does. A person who can only pass it on calls the keeper.
 */
export function climb(
  scene: Scene,
  sentS: number,
  urgency: Urgency,
  needs: Skill,
  siren: boolean,
  steps: readonly LadderStep[],
): Response {
  const told: Told[] = [];
  const words: Response["words"][number][] = [];
  let actingS = Number.POSITIVE_INFINITY;
  let actor: string | null = null;
  let takenS = Number.POSITIVE_INFINITY;
  let stepS = sentS;
  const knows = new Map<string, number>();
  const learn = (id: string, atS: number): void => {
    if ((knows.get(id) ?? Number.POSITIVE_INFINITY) <= atS) return;
    knows.set(id, atS);
    const person = scene.site.people.find((one) => one.id === id);
    if (!person) return;
    if (hasSkill(person, needs) && !scene.unsure.has(id)) {
      const comesS = arrives(scene, person, atS);
      if (Number.isFinite(comesS) && comesS <= scene.horizonS) {
        if (awayOf(scene, person) === null) takenS = Math.min(takenS, atS);
        if (comesS < actingS) {
          actingS = comesS;
          actor = id;
        }
        return;
      }
    }
    passOn(person, atS);
  };
  const passOn = (person: Person, atS: number): void => {
    if (!person.can.includes("call keeper") && !person.can.includes("everything")) return;
    words.push({ tS: atS, person: person.id, text: `${person.id} cannot end it alone and calls on` });
    for (const other of scene.site.people) {
      if (other.id === person.id || !hasSkill(other, needs) || knows.has(other.id)) continue;
      const read = readAt(scene, { ...other, reachedBy: ["call"] }, atS + 300, "urgent", false);
      if (read) {
        told.push(read);
        learn(other.id, read.readS);
      }
    }
  };
  for (const step of steps) {
    stepS += step.afterMin * 60;
    if (takenS <= stepS) break;
    const person = scene.site.people.find((one) => one.id === step.person);
    if (!person) continue;
    const read = readAt(scene, person, stepS, urgency, siren);
    if (!read) {
      words.push({ tS: stepS, person: step.person, text: `${step.person} does not get the message` });
      continue;
    }
    told.push(read);
    learn(read.person, read.readS);
  }
  told.sort((a, b) => a.readS - b.readS);
  const first = told[0];
  return {
    told,
    toldS: first?.readS ?? Number.POSITIVE_INFINITY,
    toldBy: first?.person ?? null,
    actingS,
    actor,
    words,
  };
}

/** Times within (fromS, toS] at which someone looks at the tanks. */
export function looksBetween(
  scene: Scene,
  fromS: number,
  toS: number,
): { readonly person: Person; readonly tS: number }[] {
  if (scene.circumstance.closed) return [];
  const found: { person: Person; tS: number }[] = [];
  for (const person of scene.site.people) {
    if (awayOf(scene, person) !== null) continue;
    for (const look of person.looks) {
      const minute = minuteOfDayAt(scene.clock, toS);
      const sinceMin = (minute - look.atMin + 1440) % 1440;
      const tS = toS - sinceMin * 60;
      if (tS > fromS && look.days.includes(dayOfWeekAt(scene.clock, tS))) found.push({ person, tS });
    }
  }
  return found.sort((a, b) => a.tS - b.tS);
}
