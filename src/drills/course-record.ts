/** What is noted on the way of a course. */
import type { TwinEvent } from "../twin/index.ts";
import type { Fault } from "./faults/fault.ts";
import { HarmWatch } from "./harm-watch.ts";
import { Messenger } from "./messenger.ts";
import { looksBetween, type Scene } from "./people.ts";
import type { Setting } from "./setting.ts";
import { readSigns, type Signs, whatIsSeen } from "./signs.ts";

const HOUR_S = 3600;
/** Snapshots are kept at every look up to the first time, then every so often up to the second, then rarely, s. */
const DENSE_S = 600;
const SEVERAL_S = 2 * HOUR_S;
const SEVERAL_EVERY_S = 1200;
const RARELY_EVERY_S = 3 * HOUR_S;
/** So many sightings are enough. */
const MOST_SIGHTINGS = 8;

/** Someone sees something at a look. */
export interface Sighting {
  readonly person: string;
  readonly tS: number;
  readonly saw: string;
}

/** A rule that acted though it rests in normal life, or a stand-in that stepped in. */
export interface Acted {
  readonly part: string;
  readonly tS: number;
  readonly text: string;
}

export interface Kept {
  readonly tS: number;
  readonly state: Float64Array;
}

export class CourseRecord {
  readonly setting: Setting;
  readonly faults: readonly Fault[];
  readonly scene: Scene;
  readonly messenger: Messenger;
  readonly harm: HarmWatch;
  readonly acted: Acted[] = [];
  readonly sightings: Sighting[] = [];
  readonly snapshots: Kept[] = [];
  /** First measurable sign, s; Infinity: none so far. */
  signS = Number.POSITIVE_INFINITY;
  signWhat: string | null = null;
  /** Last moment at which someone at the glass would have seen something, s. */
  lastVisibleS = Number.NEGATIVE_INFINITY;

  constructor(setting: Setting, faults: readonly Fault[], scene: Scene) {
    this.setting = setting;
    this.faults = faults;
    this.scene = scene;
    this.messenger = new Messenger(setting.twin);
    this.harm = new HarmWatch(setting);
  }

  /** Notices and acts that are not routine. */
  hear(event: TwinEvent): void {
    const { routine, standIns } = this.setting.normal;
    const usual = event.kind === "stand-in" ? standIns : routine;
    if (usual.has(event.part)) return;
    if (event.kind === "notice") this.messenger.raise(event.part, event.text, event.tS);
    else if (event.kind === "stand-in" || (event.kind === "rule" && this.#acts(event.part)))
      this.acted.push({ part: event.part, tS: event.tS, text: event.text });
  }

  #acts(rule: string): boolean {
    return this.setting.model.site.rules.some((one) => one.id === rule && one.act.length > 0);
  }

  /** Looks at the twin at a place of the grid, after the stretch since the place before. */
  look(place: number): void {
    const fromS = this.setting.grid[place - 1];
    const toS = this.setting.grid[place];
    this.harm.look(fromS, toS);
    const signs = readSigns(this.setting, place);
    if (signs.measurable !== null && !Number.isFinite(this.signS)) {
      this.signS = toS;
      this.signWhat = signs.measurable;
    }
    if (whatIsSeen(this.faults, signs.visible, toS, this.harm.doses.likely) !== null) this.lastVisibleS = toS;
    this.#lookIn(signs, fromS, toS);
    if (isMark(toS)) this.keep(toS);
  }

  #lookIn(signs: Signs, fromS: number, toS: number): void {
    for (const look of looksBetween(this.scene, fromS, toS)) {
      const saw = whatIsSeen(this.faults, signs.visible, look.tS, this.harm.doses.likely);
      if (saw !== null && !this.isSeenEnough)
        this.sightings.push({ person: look.person.id, tS: Math.max(look.tS, fromS), saw });
    }
  }

  /** Further sightings would lead to nothing new. */
  get isSeenEnough(): boolean {
    return this.sightings.length >= MOST_SIGHTINGS;
  }

  keep(tS: number): void {
    const { shelf, twin } = this.setting;
    const state = shelf.pop() ?? new Float64Array(twin.state.length);
    state.set(twin.state);
    this.snapshots.push({ tS, state });
  }
}

function isMark(tS: number): boolean {
  return tS <= DENSE_S || tS % (tS <= SEVERAL_S ? SEVERAL_EVERY_S : RARELY_EVERY_S) === 0;
}
