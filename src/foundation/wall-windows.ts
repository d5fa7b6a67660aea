/**
 * Windows of local time: `10:00-20:00`, `weekdays 07:00-16:00`, `Mon Wed 18:00-19:00`, `weekends`.
 *
 * A window that ends before it begins runs past midnight and belongs to the day on which it begins.
 */
import { formatMinuteOfDay, MINUTES_PER_DAY, SECONDS_PER_DAY } from "./civil-time.ts";
import type { LocalClock } from "./local-clock.ts";
import { dayOfWeekAt, localSecondsAt, minuteOfDayAt, timesOfLocal } from "./local-clock.ts";
import { didYouMean } from "./nearest.ts";
import type { Result } from "./problem.ts";
import { failure, success } from "./problem.ts";

export interface WallWindow {
  /** 0 = Monday .. 6 = Sunday, ascending, at least one. */
  readonly days: readonly number[];
  /** Minute of the day at which it begins, 0..1439. */
  readonly fromMin: number;
  /** Minute of the day at which it ends, 1..1440; at or below `fromMin` it ends on the next day. */
  readonly toMin: number;
}

/** A moment that comes back on some days of the week: `weekdays 08:15`. */
export interface WallMoment {
  readonly days: readonly number[];
  readonly atMin: number;
}

const DAY_NAMES = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
const LONG_NAMES = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
const EVERY_DAY = [0, 1, 2, 3, 4, 5, 6];
const GROUPS: Readonly<Record<string, readonly number[]>> = {
  daily: EVERY_DAY,
  everyday: EVERY_DAY,
  always: EVERY_DAY,
  weekdays: [0, 1, 2, 3, 4],
  weekends: [5, 6],
};
const WINDOW_EXAMPLE = "write it like 10:00-20:00, weekdays 07:00-16:00, Mon Wed 18:00-19:00 or weekends";

function dayNumber(word: string): number {
  const lower = word.toLowerCase();
  return LONG_NAMES.findIndex((name) => lower.length >= 3 && (name === lower || name.slice(0, 3) === lower));
}

function daysOfWord(word: string): readonly number[] | null {
  const group = Object.hasOwn(GROUPS, word.toLowerCase()) ? GROUPS[word.toLowerCase()] : undefined;
  if (group !== undefined) return group;
  const [first, last, ...rest] = word.split("-");
  const from = dayNumber(first);
  if (from < 0 || rest.length > 0) return null;
  if (last === undefined) return [from];
  const to = dayNumber(last);
  if (to < 0) return null;
  const count = ((to - from + 7) % 7) + 1;
  return Array.from({ length: count }, (_, index) => (from + index) % 7);
}

function parseDays(words: readonly string[], written: string): Result<readonly number[]> {
  if (words.length === 0) return success(EVERY_DAY);
  const days = new Set<number>();
  for (const word of words) {
    const found = daysOfWord(word);
    if (found === null) {
      const known = [...Object.keys(GROUPS), ...DAY_NAMES];
      return failure("window/unknown-day", `'${word}' in '${written}' is not a day`, didYouMean(word, known));
    }
    for (const day of found) days.add(day);
  }
  return success([...days].sort((a, b) => a - b));
}

const CLOCK_TIME = /^(\d{1,2}):(\d{2})$/;

/** Minute of the day of `07:05`; `24:00` is allowed as an end. */
export function parseClockTime(text: string): Result<number> {
  const match = CLOCK_TIME.exec(text);
  const minute = match === null ? Number.NaN : Number(match[1]) * 60 + Number(match[2]);
  if (match === null || Number(match[2]) > 59 || minute > MINUTES_PER_DAY) {
    return failure(
      "window/not-a-time",
      `'${text}' is not a time of day`,
      "write hours and minutes like 07:30, from 00:00 to 24:00",
    );
  }
  return success(minute);
}

function words(text: string): string[] {
  return text
    .replace(/\s*[-–]\s*/g, "-")
    .split(/[\s,]+/)
    .filter((word) => word !== "" && word.toLowerCase() !== "and");
}

/** One window from text; days left out mean every day, hours left out mean the whole day. */
export function parseWindow(text: string): Result<WallWindow> {
  const parts = words(text);
  if (parts.length === 0) return failure("window/empty", "a time window is empty", WINDOW_EXAMPLE);
  const last = parts[parts.length - 1];
  const hasHours = /^\d/.test(last);
  const days = parseDays(hasHours ? parts.slice(0, -1) : parts, text);
  if (!days.ok) return days;
  if (!hasHours) return success({ days: days.value, fromMin: 0, toMin: MINUTES_PER_DAY });
  const ends = last.split("-");
  if (ends.length !== 2) return failure("window/no-end", `'${text}' has no beginning and end`, WINDOW_EXAMPLE);
  const from = parseClockTime(ends[0]);
  if (!from.ok) return from;
  const to = parseClockTime(ends[1]);
  if (!to.ok) return to;
  if (from.value === MINUTES_PER_DAY)
    return failure("window/not-a-time", `'${text}' begins at 24:00`, "begin it at 00:00 of the next day");
  if (from.value === to.value)
    return failure("window/empty", `'${text}' begins and ends at the same time`, WINDOW_EXAMPLE);
  return success({ days: days.value, fromMin: from.value, toMin: to.value === 0 ? MINUTES_PER_DAY : to.value });
}

/** One returning moment from text, `weekdays 08:15` or `21:30`. */
export function parseMoment(text: string): Result<WallMoment> {
  const parts = words(text);
  const last = parts[parts.length - 1] ?? "";
  const minute = parseClockTime(last);
  if (!minute.ok) {
    return failure(
      "window/not-a-time",
      `'${text}' has no time of day`,
      "write it like 08:15, weekdays 08:15 or Sat Sun 10:00",
    );
  }
  const days = parseDays(parts.slice(0, -1), text);
  if (!days.ok) return days;
  return success({ days: days.value, atMin: minute.value % MINUTES_PER_DAY });
}

function formatDays(days: readonly number[]): string {
  const key = days.join();
  if (key === EVERY_DAY.join()) return "";
  for (const name of ["weekdays", "weekends"]) if (GROUPS[name].join() === key) return name;
  return days.map((day) => DAY_NAMES[day]).join(" ");
}

/** The window as a person would write it; `parseWindow` reads it back to the same value. */
export function formatWindow(window: WallWindow): string {
  const wholeDay = window.fromMin === 0 && window.toMin === MINUTES_PER_DAY;
  const days = formatDays(window.days);
  if (wholeDay) return days === "" ? "daily" : days;
  return `${days} ${formatMinuteOfDay(window.fromMin)}-${formatMinuteOfDay(window.toMin)}`.trim();
}

/** True where the local day and minute lie in the window: its beginning is inside, its end is outside. */
export function windowHolds(window: WallWindow, dayOfWeek: number, minuteOfDay: number): boolean {
  const { days, fromMin, toMin } = window;
  if (toMin > fromMin) return minuteOfDay >= fromMin && minuteOfDay < toMin && days.includes(dayOfWeek);
  if (minuteOfDay >= fromMin) return days.includes(dayOfWeek);
  return minuteOfDay < toMin && days.includes((dayOfWeek + 6) % 7);
}

/** True where any of the windows holds `timeS` seconds after the clock's start. No window at all holds never. */
export function anyWindowHolds(windows: readonly WallWindow[], clock: LocalClock, timeS: number): boolean {
  if (windows.length === 0) return false;
  const day = dayOfWeekAt(clock, timeS);
  const minute = minuteOfDayAt(clock, timeS);
  return windows.some((window) => windowHolds(window, day, minute));
}

/**
 * Seconds since the clock's start of the next moment after `timeS` at which `anyWindowHolds` changes, or Infinity where
 * it never does. Looks ahead eight days, which is past every weekly pattern, and over the clock's offset changes.
 */
export function nextWindowChange(windows: readonly WallWindow[], clock: LocalClock, timeS: number): number {
  const now = anyWindowHolds(windows, clock, timeS);
  const candidates = clock.changes.map((change) => change.atS);
  const today = Math.floor(localSecondsAt(clock, timeS) / SECONDS_PER_DAY);
  for (const window of windows) {
    for (let day = today - 1; day <= today + 8; day++) {
      candidates.push(...timesOfLocal(clock, day * SECONDS_PER_DAY + window.fromMin * 60));
      const endDay = window.toMin > window.fromMin ? day : day + 1;
      candidates.push(...timesOfLocal(clock, endDay * SECONDS_PER_DAY + window.toMin * 60));
    }
  }
  let next = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    if (candidate > timeS && candidate < next && anyWindowHolds(windows, clock, candidate) !== now) next = candidate;
  }
  return next;
}
