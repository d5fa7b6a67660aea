/**
 * Whether the rest of a course can bring anything new: the differences to normal life stand still from one day to the next, or
 * drift so slowly that they stay far from all harm until the horizon.
 */
import { HARM_DOSE } from "../science/index.ts";
import { type AirShift, airAhead } from "./air-ahead.ts";
import type { Setting } from "./setting.ts";
import type { SignColumn } from "./sign-columns.ts";

const DAY_S = 86_400;
const FROM_DAYS = 2;
/** Part of what can be measured by which a mean difference may change in a day and still stands. */
const STANDS_SHARE = 0.15;
/** The greatest difference of a day may exceed that of the day before by this part: thermostats keep their own time. */
const MOST_SHARE = 0.5;
/** A drift is drawn on to the horizon at this many times its speed. */
const HASTE = 1.5;
/** Doses below this share of harm that do not grow count as none. */
const DOSE_SHARE = 0.05;
/** A body that has been dark for longer is on its way to harm though nothing moves. */
const LONGEST_NIGHT_H = 24;

const STILL: AirShift = { down: 0, up: 0 };

interface Day {
  readonly mean: number;
  readonly most: number;
  readonly least: number;
  readonly greatest: number;
}

export class Steadiness {
  readonly #setting: Setting;
  readonly #placeOf: ReadonlyMap<number, number>;
  readonly #doses: Float64Array;

  constructor(setting: Setting) {
    this.#setting = setting;
    this.#doses = new Float64Array(setting.grid.length);
    this.#placeOf = placesOf(setting.grid);
  }

  /** To be asked at every place of the grid in turn. */
  holds(place: number, doseEarly: number): boolean {
    const { grid, normal, twin } = this.#setting;
    this.#doses[place] = doseEarly;
    const toS = grid[place];
    if (toS % DAY_S !== 0 || toS < FROM_DAYS * DAY_S) return false;
    const dayBefore = this.#placeOf.get(toS - DAY_S);
    const twoBefore = this.#placeOf.get(toS - 2 * DAY_S);
    if (dayBefore === undefined || twoBefore === undefined) return false;
    if (doseEarly > DOSE_SHARE * HARM_DOSE.harm || doseEarly > this.#doses[dayBefore] + 1e-9) return false;
    // Where plain life itself is on its way to something, what the fault adds to it cannot be drawn on.
    if (Number.isFinite(normal.harm.early) || normal.notices.some((notice) => notice.tS > toS)) return false;
    if (twin.dark.some((hours) => hours > LONGEST_NIGHT_H)) return false;
    const daysLeft = (grid[grid.length - 1] - toS) / DAY_S;
    return normal.columns.every((column, index) => {
      const last = this.#ofDay(dayBefore, place, index);
      const drift = this.#driftAhead(column, last, this.#ofDay(twoBefore, dayBefore, index), daysLeft);
      return drift !== null && this.#meetsNothing(column, last, drift, place);
    });
  }

  /** How far a column may yet drift; null where nothing can be said of it. */
  #driftAhead(column: SignColumn, last: Day, before: Day, daysLeft: number): number | null {
    const drift = last.mean - before.mean;
    const stands =
      Math.abs(drift) <= STANDS_SHARE * column.measurable && last.most <= before.most + MOST_SHARE * column.measurable;
    if (stands) return 0;
    const ahead = HASTE * drift * daysLeft;
    const isHarmless =
      last.least + Math.min(0, ahead) > column.harmless.from && last.greatest + Math.max(0, ahead) < column.harmless.to;
    return isHarmless ? ahead : null;
  }

  /** Whether drift, and air that grows warmer or colder, leave it short of all harm and all switches that it has not met yet. */
  #meetsNothing(column: SignColumn, last: Day, drift: number, place: number): boolean {
    const { normal, grid } = this.#setting;
    const isMoved = column.room >= 0 && last.most >= column.measurable;
    const air = isMoved ? airAhead(normal, grid, column.room, place) : STILL;
    const low = last.least + Math.min(0, drift) + air.down;
    const high = last.greatest + Math.max(0, drift) + air.up;
    // What was only just touched counts as not met yet: a rule may ask that it lasts.
    const from = low < last.least ? last.least + column.measurable : last.least;
    const to = high > last.greatest ? last.greatest - column.measurable : last.greatest;
    const marks = [column.harmless.from, column.harmless.to, ...column.limits];
    return marks.every((mark) => !((mark >= low && mark < from) || (mark > to && mark <= high)));
  }

  /** Mean and greatest size of the difference in a column, and the range of its value, between two places of the grid. */
  #ofDay(from: number, to: number, index: number): Day {
    const { gaps, grid, normal } = this.#setting;
    let sum = 0;
    let most = 0;
    let least = Number.POSITIVE_INFINITY;
    let greatest = Number.NEGATIVE_INFINITY;
    for (let place = from + 1; place <= to; place++) {
      const gap = gaps[place * normal.columns.length + index];
      const value = normal.signs[place * normal.columns.length + index] + gap;
      sum += gap * (grid[place] - grid[place - 1]);
      most = Math.max(most, Math.abs(gap));
      least = Math.min(least, value);
      greatest = Math.max(greatest, value);
    }
    return { mean: sum / (grid[to] - grid[from]), most, least, greatest };
  }
}

const placesOfGrid = new WeakMap<Float64Array, ReadonlyMap<number, number>>();

/** Places of a grid by their time; the drills of a setting share its grid. */
function placesOf(grid: Float64Array): ReadonlyMap<number, number> {
  const known = placesOfGrid.get(grid) ?? new Map(Array.from(grid, (tS, place) => [tS, place]));
  placesOfGrid.set(grid, known);
  return known;
}
