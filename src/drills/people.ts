/**
 * People: who can read a message when, who comes, who is able to end what fault. Help is taken late where it is unsure.
 */
import { anyWindowHolds, dayOfWeekAt, type LocalClock, minuteOfDayAt, windowHolds } from "../foundation/index.ts";
import type { Channel, Circumstance, Person, Site, Skill, TimeWindow } from "../site/index.ts";

export type Urgency = "urgent" | "soon" | "note";

export interface Told {
  readonly person: string;
  readonly sentS: number;
  readonly readS: number;
  readonly channel: Channel;
}

/** Minutes until a message is read by someone awake with the phone about. */
export const READ_MIN: Readonly<Record<Channel, number>> = { call: 3, siren: 3, push: 20, text: 20, mail: 240 };
/** A sleeper whom a call must wake, min; getting dressed and out, min. */
const WAKE_MIN = 10;
const LEAVE_MIN = 5;
const LEAVE_AT_NIGHT_MIN = 15;
/** Someone in the building needs this long to be at the tank, min. */
const WALK_MIN = 3;
const STEP_MIN = 10;
const FAR_AHEAD_MIN = 14 * 1440;

/** People in a drill: who they are, what the clock shows, and what faults have done to them. */
export interface Scene {
  readonly site: Site;
  readonly circumstance: Circumstance;
  readonly clock: LocalClock;
  readonly unreachable: ReadonlySet<string>;
  readonly unsure: ReadonlySet<string>;
  readonly horizonS: number;
}

function inWindow(scene: Scene, windows: readonly TimeWindow[], tS: number): boolean {
  return anyWindowHolds(windows, scene.clock, tS);
}

function isAsleep(scene: Scene, person: Person, tS: number): boolean {
  if (person.asleep === null) return false;
  return windowHolds(person.asleep, dayOfWeekAt(scene.clock, tS), minuteOfDayAt(scene.clock, tS));
}

export function awayOf(scene: Scene, person: Person) {
  return scene.circumstance.away.find((one) => one.person === person.id) ?? null;
}

function isOnSite(scene: Scene, person: Person, tS: number): boolean {
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
export function arrives(scene: Scene, person: Person, knowsS: number): number {
  const away = awayOf(scene, person);
  if (away !== null) return Math.max(knowsS, away.backAfterH * 3600);
  if (isOnSite(scene, person, knowsS)) return knowsS + WALK_MIN * 60;
  const leave = isAsleep(scene, person, knowsS) ? LEAVE_AT_NIGHT_MIN : LEAVE_MIN;
  return knowsS + (leave + person.travelMin) * 60;
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
