/** When a course may stop before its horizon, because nothing more can be learned from it. docs/how/drills.md. */

import { BODY_COLUMNS, DEVICE_COLUMNS } from "../twin/index.ts";
import { airAhead } from "./air-ahead.ts";
import type { CourseRecord } from "./course-record.ts";
import { type Ending, endingsOf } from "./endings.ts";
import { leversPulled, stirs } from "./faults/bench.ts";
import type { FaultGroup } from "./faults/fault.ts";
import { awayOf, type Scene } from "./people.ts";
import { restThroughout } from "./resting.ts";
import type { Setting } from "./setting.ts";
import { Steadiness } from "./steadiness.ts";

const DAY_S = 86_400;
const HOUR_S = 3600;
/** How long a course goes on after late harm: once somebody has learned of it, where nobody looks in, and else, s. */
const LEARNED_S = 6 * HOUR_S;
const NOBODY_LOOKS_S = DAY_S;
const SOMEBODY_MAY_LOOK_S = 3 * DAY_S;
/** A fault that moves something may take so long to show, s. */
const LATENCY_S = 2 * DAY_S;
/** What did not show in air like this may show in air that is so much warmer or colder, K. */
const AIR_STAYS_K = 0.5;
/** Faults whose effect may wait for such air: what heats, cools, measures, decides and feeds. The others act in any air. */
const OF_WARMTH: ReadonlySet<FaultGroup> = new Set(["heat", "sensing", "power", "network", "people", "environment"]);

export class EarlyStop {
  readonly #record: CourseRecord;
  readonly #steadiness: Steadiness;
  readonly #endings: readonly Ending[];
  readonly #creeps: boolean;
  /** The faults pull nothing that moves water or power. */
  readonly #isIdle: boolean;
  /** The course is normal life. */
  readonly #rests: boolean;
  readonly #hangsOnAir: boolean;
  readonly #lookers: readonly string[];

  constructor(record: CourseRecord) {
    const { setting, faults, scene } = record;
    this.#record = record;
    this.#steadiness = new Steadiness(setting);
    this.#endings = endingsOf(faults);
    this.#lookers = lookersOf(scene);
    this.#creeps = faults.some((fault) => fault.mode.onset === "creeping");
    this.#hangsOnAir = faults.some((fault) => OF_WARMTH.has(fault.mode.group));
    const pulled = faults.flatMap((fault) => leversPulled(setting.model, fault));
    this.#rests = restThroughout(setting, faults);
    this.#isIdle = !this.#creeps && pulled.every(([part, lever]) => !stirs(setting.model, part, lever));
  }

  /** To be asked at every place of the grid in turn. */
  isDue(place: number): boolean {
    const toS = this.#record.setting.grid[place];
    const isSteady = this.#steadiness.holds(place, this.#record.harm.doses.early);
    if (this.#rests || this.#harmIsKnown(toS)) return true;
    return ((isSteady && this.#nothingIsNew(toS)) || this.#nothingMoved(toS)) && !this.#willShow(place);
  }

  /** Late harm is done, and whoever could learn of it had the time to. */
  #harmIsKnown(toS: number): boolean {
    const { sightings, messenger, harm } = this.#record;
    const learned = sightings.length > 0 || messenger.notices.some((notice) => Number.isFinite(notice.sentS));
    const goesOnS = learned ? LEARNED_S : this.#lookers.length === 0 ? NOBODY_LOOKS_S : SOMEBODY_MAY_LOOK_S;
    return this.#haveEnded(toS - LEARNED_S) && toS >= harm.times.late + goesOnS;
  }

  /** It has shown, does no harm, and for a day nobody was told and nothing stepped in. */
  #nothingIsNew(toS: number): boolean {
    const { signS, messenger, acted, harm } = this.#record;
    if (!Number.isFinite(signS) || Number.isFinite(harm.times.early) || this.#creeps) return false;
    const told = messenger.notices.every((one) => one.raisedS < toS - DAY_S && Number.isFinite(one.sentS));
    return told && this.#haveEnded(toS - DAY_S) && acted.every((one) => one.tS < toS - DAY_S);
  }

  /** On a whole day, water and devices are bit for bit where normal life has them. */
  #nothingMoved(toS: number): boolean {
    const { signS, messenger, setting } = this.#record;
    if (toS % DAY_S !== 0 || Number.isFinite(signS) || !(this.#isIdle || toS >= LATENCY_S)) return false;
    if (!this.#isIdle && this.#creeps) return false;
    const told = messenger.notices.every((notice) => Number.isFinite(notice.sentS));
    return told && this.#haveEnded(toS - DAY_S) && isAsNormal(setting, toS / DAY_S);
  }

  /** It may yet show in other air, or to someone who has not looked in so far. */
  #willShow(place: number): boolean {
    const { setting } = this.#record;
    return (this.#hangsOnAir && !airStays(setting, place)) || this.#willBeSeen(setting.grid[place]);
  }

  /** There is something to see, and someone who will yet look in. */
  #willBeSeen(toS: number): boolean {
    const { lastVisibleS, sightings, isSeenEnough } = this.#record;
    if (isSeenEnough || lastVisibleS <= toS - DAY_S) return false;
    return this.#lookers.some((id) => sightings.every((sighting) => sighting.person !== id));
  }

  /** What ends by itself has done so before. */
  #haveEnded(beforeS: number): boolean {
    return this.#endings.every((ending) => ending.tS < beforeS);
  }
}

/** Who looks in now and then. */
function lookersOf(scene: Scene): string[] {
  if (scene.circumstance.closed) return [];
  return scene.site.people
    .filter((person) => person.looks.length > 0 && awayOf(scene, person) === null)
    .map((person) => person.id);
}

/** The air of the rooms goes on as it was on the last day. */
function airStays({ model, systems, normal, grid }: Setting, place: number): boolean {
  const rooms = new Set(systems.flatMap((index) => model.systems[index].waters.map((body) => model.roomOfBody[body])));
  return [...rooms].every((room) => {
    const { down, up } = airAhead(normal, grid, room, place);
    return down >= -AIR_STAYS_K && up <= AIR_STAYS_K;
  });
}

function isAsNormal({ normal, model, systems, twin }: Setting, day: number): boolean {
  const state = normal.days[day];
  if (!state) return false;
  const { layout } = model;
  const isSame = (from: number, count: number) => {
    for (let at = from; at < from + count; at++) if (!Object.is(twin.state[at], state[at])) return false;
    return true;
  };
  return (
    isSame(layout.rooms, layout.devices - layout.rooms) &&
    systems.every(
      (index) =>
        model.systems[index].bodies.every((body) => isSame(layout.bodies + body * BODY_COLUMNS, BODY_COLUMNS)) &&
        model.systems[index].devices.every((one) => isSame(layout.devices + one * DEVICE_COLUMNS, DEVICE_COLUMNS)),
    )
  );
}
