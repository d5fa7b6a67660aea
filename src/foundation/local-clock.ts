/**
 * A wall clock that is a value: what a clock on the wall shows so many seconds after a start, right across daylight saving.
 *
 * Zone rules are not known here. Whoever knows them (the site room) hands over a small table of offset changes.
 */
import { civilFromDays, dayOfWeekFromDays, daysFromCivil, formatLocalTime, SECONDS_PER_DAY } from "./civil-time.ts";

export interface OffsetChange {
  /** Seconds since the clock's start at which the change happens; may be negative. */
  readonly atS: number;
  /** Wall clock minus UTC from then on, s. */
  readonly offsetS: number;
}

export interface LocalClock {
  /** UTC seconds since 1970 at the start. */
  readonly startEpochS: number;
  /** Wall clock minus UTC before the first change, s. */
  readonly firstOffsetS: number;
  /** In ascending order of `atS`. */
  readonly changes: readonly OffsetChange[];
}

/** A clock in a place that never changes its offset; the start is given in local seconds (see `parseLocalTime`). */
export function fixedClock(startLocalS: number, offsetS = 0): LocalClock {
  return { startEpochS: startLocalS - offsetS, firstOffsetS: offsetS, changes: [] };
}

/** Wall clock minus UTC at `timeS` seconds after the start, s. */
export function offsetAt(clock: LocalClock, timeS: number): number {
  let offsetS = clock.firstOffsetS;
  for (const change of clock.changes) {
    if (change.atS > timeS) break;
    offsetS = change.offsetS;
  }
  return offsetS;
}

/** Local seconds shown `timeS` seconds after the start. */
export function localSecondsAt(clock: LocalClock, timeS: number): number {
  return clock.startEpochS + timeS + offsetAt(clock, timeS);
}

/** Minute of the local day, 0 up to but not including 1440, with its fraction. */
export function minuteOfDayAt(clock: LocalClock, timeS: number): number {
  const localS = localSecondsAt(clock, timeS);
  return (localS - Math.floor(localS / SECONDS_PER_DAY) * SECONDS_PER_DAY) / 60;
}

/** 0 = Monday .. 6 = Sunday. */
export function dayOfWeekAt(clock: LocalClock, timeS: number): number {
  return dayOfWeekFromDays(Math.floor(localSecondsAt(clock, timeS) / SECONDS_PER_DAY));
}

/** Days since the local 1 January 00:00, with its fraction: 0 up to 366. For seasons. */
export function dayOfYearAt(clock: LocalClock, timeS: number): number {
  const localDays = localSecondsAt(clock, timeS) / SECONDS_PER_DAY;
  return localDays - daysFromCivil(civilFromDays(Math.floor(localDays)).year, 1, 1);
}

/** What the wall clock shows, `2026-08-15T02:00`. */
export function localTimeAt(clock: LocalClock, timeS: number): string {
  return formatLocalTime(localSecondsAt(clock, timeS));
}

/**
 * All moments, in seconds since the start, at which the wall clock shows the given local seconds: one, two where the hour
 * comes twice in autumn, and the moment of the jump where it is skipped in spring.
 */
export function timesOfLocal(clock: LocalClock, localS: number): readonly number[] {
  const spans = [{ atS: Number.NEGATIVE_INFINITY, offsetS: clock.firstOffsetS }, ...clock.changes];
  const times: number[] = [];
  spans.forEach(({ atS, offsetS }, index) => {
    const timeS = localS - clock.startEpochS - offsetS;
    const endS = spans[index + 1]?.atS ?? Number.POSITIVE_INFINITY;
    if (timeS >= atS && timeS < endS) times.push(timeS);
  });
  if (times.length > 0) return times;
  // Skipped: past the end of one span, and before the beginning of the next.
  const jump = clock.changes.find((change) => localS - clock.startEpochS - change.offsetS < change.atS);
  return jump === undefined ? [] : [jump.atS];
}

/** The first of `timesOfLocal`. */
export function timeOfLocal(clock: LocalClock, localS: number): number {
  return timesOfLocal(clock, localS)[0];
}
