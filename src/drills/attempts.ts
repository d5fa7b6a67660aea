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
/** Shares of the time to early harm that are tried first: for most faults it is enough to be just in time. */
const FIRST_SHARES = [1 - SEARCH_SHARE, 0.9, 0.7] as const;

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

  /**
   * From early harm backwards, then by halving: what is done at early harm is taken not to help. Where nothing helps that is done in the
   * first minute, nothing does.
   */
  #search(): number {
    const { early } = this.#course.harm;
    let good = 0;
    let bad = early;
    for (const share of FIRST_SHARES) {
      if (good > 0 || bad <= SEARCH_S) break;
      if (this.isSpared(share * early)) good = share * early;
      else bad = share * early;
    }
    if (good === 0 && !this.isSpared(Math.min(SEARCH_S, bad))) return 0;
    good = Math.max(good, Math.min(SEARCH_S, bad));
    while (bad - good > Math.max(SEARCH_S, SEARCH_SHARE * bad)) {
      const middle = (good + bad) / 2;
      if (this.isSpared(middle)) good = middle;
      else bad = middle;
    }
    return good;
  }
}
