/**
 * All attempts at one course. Until the work is done everything goes on as it would alone, so what comes of an attempt hangs on
 * the moment at which the work is done, and not on how long it took; each such moment is tried once.
 */
import { sparedIfDoneAt } from "./attempt.ts";
import type { Course } from "./course.ts";
import type { Setting } from "./setting.ts";

/** Moments are searched to this share of the time since the fault, or this many seconds. */
const SEARCH_SHARE = 0.03;
const SEARCH_S = 60;

export class Attempts {
  readonly #setting: Setting;
  readonly #course: Course;
  readonly #tried = new Map<number, boolean>();
  #lastDoneS: number | null = null;

  constructor(setting: Setting, course: Course) {
    this.#setting = setting;
    this.#course = course;
  }

  /** Whether the livestock is spared where the work is done at `doneS`. */
  isSpared(doneS: number): boolean {
    const known = this.#tried.get(doneS);
    if (known !== undefined) return known;
    const spared = sparedIfDoneAt(this.#setting, this.#course, doneS);
    this.#tried.set(doneS, spared);
    return spared;
  }

  /** The last moment at which work that takes so long may begin and still spare the livestock, s; 0 where none does. */
  lastUsefulS(workS: number): number {
    if (!Number.isFinite(this.#course.harm.early)) return Number.POSITIVE_INFINITY;
    this.#lastDoneS ??= this.#search();
    return Math.max(0, this.#lastDoneS - workS);
  }

  /** By bisection: what is done at once is taken to help, what is done at early harm not. */
  #search(): number {
    let good = 0;
    let bad = this.#course.harm.early;
    while (bad - good > Math.max(SEARCH_S, SEARCH_SHARE * bad)) {
      const middle = (good + bad) / 2;
      if (this.isSpared(middle)) good = middle;
      else bad = middle;
    }
    return good;
  }
}
