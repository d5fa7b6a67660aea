/**
 * Whether the rest of a course can bring anything new: the differences to normal life stand still from one day to the next, or
 * drift so slowly that they stay far from all harm until the horizon.
 */
import { HARM_DOSE } from "../science/index.ts";
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

interface Day {
  readonly mean: number;
  readonly most: number;
  readonly least: number;
  readonly greatest: number;
}

export class Steadiness {
  readonly #gaps: Float64Array;
  readonly #setting: Setting;
  readonly #placeOf = new Map<number, number>();
  readonly #doses: Float64Array;

  /** `gaps` are the differences to normal life, place of the grid by column, written by the course as it goes. */
  constructor(setting: Setting, gaps: Float64Array) {
    this.#setting = setting;
    this.#gaps = gaps;
    this.#doses = new Float64Array(setting.grid.length);
    for (let place = 0; place < setting.grid.length; place++) this.#placeOf.set(setting.grid[place], place);
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
    return normal.columns.every((column, index) =>
      this.#isCalm(column, this.#ofDay(dayBefore, place, index), this.#ofDay(twoBefore, dayBefore, index), daysLeft),
    );
  }

  #isCalm(column: SignColumn, last: Day, before: Day, daysLeft: number): boolean {
    const drift = last.mean - before.mean;
    const stands =
      Math.abs(drift) <= STANDS_SHARE * column.measurable && last.most <= before.most + MOST_SHARE * column.measurable;
    if (stands) return true;
    const ahead = HASTE * drift * daysLeft;
    return (
      last.least + Math.min(0, ahead) > column.harmless.from && last.greatest + Math.max(0, ahead) < column.harmless.to
    );
  }

  /** Mean and greatest size of the difference in a column, and the range of its value, between two places of the grid. */
  #ofDay(from: number, to: number, index: number): Day {
    const { grid, normal } = this.#setting;
    let sum = 0;
    let most = 0;
    let least = Number.POSITIVE_INFINITY;
    let greatest = Number.NEGATIVE_INFINITY;
    for (let place = from + 1; place <= to; place++) {
      const gap = this.#gaps[place * normal.columns.length + index];
      const value = normal.signs[place * normal.columns.length + index] + gap;
      sum += gap * (grid[place] - grid[place - 1]);
      most = Math.max(most, Math.abs(gap));
      least = Math.min(least, value);
      greatest = Math.max(greatest, value);
    }
    return { mean: sum / (grid[to] - grid[from]), most, least, greatest };
  }
}
