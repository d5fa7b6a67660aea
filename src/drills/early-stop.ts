/** When a course may stop before its horizon, because nothing more can be learned from it. docs/how/drills.md. */
import type { CourseRecord } from "./course-record.ts";
import { type Ending, endingsOf } from "./endings.ts";
import { leversPulled, stirs } from "./faults/bench.ts";
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

export class EarlyStop {
  readonly #record: CourseRecord;
  readonly #steadiness: Steadiness;
  readonly #endings: readonly Ending[];
  readonly #nobodyLooks: boolean;
  readonly #creeps: boolean;
  /** The faults pull nothing that moves water or power. */
  readonly #isIdle: boolean;

  constructor(record: CourseRecord) {
    const { setting, faults, scene } = record;
    this.#record = record;
    this.#steadiness = new Steadiness(setting, record.gaps);
    this.#endings = endingsOf(faults);
    this.#nobodyLooks = setting.circumstance.closed || scene.site.people.every((person) => person.looks.length === 0);
    this.#creeps = faults.some((fault) => fault.mode.onset === "creeping");
    const pulled = faults.flatMap((fault) => leversPulled(setting.model, fault));
    this.#isIdle = !this.#creeps && pulled.every(([part, lever]) => !stirs(setting.model, part, lever));
  }

  /** To be asked at every place of the grid in turn. */
  isDue(place: number): boolean {
    const toS = this.#record.setting.grid[place];
    const isSteady = this.#steadiness.holds(place, this.#record.harm.doses.early);
    return this.#harmIsKnown(toS) || (isSteady && this.#nothingIsNew(toS)) || this.#nothingMoved(toS);
  }

  /** Late harm is done, and whoever could learn of it had the time to. */
  #harmIsKnown(toS: number): boolean {
    const { sightings, messenger, harm } = this.#record;
    const learned = sightings.length > 0 || messenger.notices.some((notice) => Number.isFinite(notice.sentS));
    const goesOnS = learned ? LEARNED_S : this.#nobodyLooks ? NOBODY_LOOKS_S : SOMEBODY_MAY_LOOK_S;
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
    const told = messenger.notices.every((notice) => Number.isFinite(notice.sentS));
    return told && this.#haveEnded(toS - DAY_S) && isAsNormal(setting, toS / DAY_S);
  }

  /** What ends by itself has done so before. */
  #haveEnded(beforeS: number): boolean {
    return this.#endings.every((ending) => ending.tS < beforeS);
  }
}

function isAsNormal(setting: Setting, day: number): boolean {
  const normal = setting.normal.days[day];
  if (!normal) return false;
  const { layout } = setting.model;
  for (let at = layout.bodies; at < layout.sensors; at++)
    if (!Object.is(setting.twin.state[at], normal[at])) return false;
  return true;
}
