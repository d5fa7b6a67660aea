/**
 * Dates of the proleptic Gregorian calendar as plain numbers, without any clock and without time zones.
 *
 * A "local second" is the number of seconds that a wall clock has shown since its 1970-01-01T00:00.
 */

import type { Result } from "./problem.ts";
import { failure, success } from "./problem.ts";

export const SECONDS_PER_DAY = 86400;
export const MINUTES_PER_DAY = 1440;

export interface CivilDate {
  readonly year: number;
  /** 1..12 */
  readonly month: number;
  /** 1..31 */
  readonly day: number;
}

/** Remainder that is never negative. */
export function positiveRemainder(value: number, divisor: number): number {
  const remainder = value % divisor;
  return remainder < 0 ? remainder + divisor : remainder;
}

/** Days from 1970-01-01 to the date (Howard Hinnant, "chrono-compatible low-level date algorithms", 2013). */
export function daysFromCivil(year: number, month: number, day: number): number {
  const shifted = month <= 2 ? year - 1 : year;
  const era = Math.floor(shifted / 400);
  const yearOfEra = shifted - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146097 + dayOfEra - 719468;
}

/** The date that lies so many days after 1970-01-01 (same source). */
export function civilFromDays(days: number): CivilDate {
  const shifted = days + 719468;
  const era = Math.floor(shifted / 146097);
  const dayOfEra = shifted - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthIndex = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * monthIndex + 2) / 5) + 1;
  const month = monthIndex < 10 ? monthIndex + 3 : monthIndex - 9;
  return { year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0), month, day };
}

/** 0 = Monday .. 6 = Sunday; 1970-01-01 was a Thursday. */
export function dayOfWeekFromDays(days: number): number {
  return positiveRemainder(days + 3, 7);
}

const LOCAL_TIME = /^(\d{4})-(\d{2})-(\d{2})[T ](\d{2}):(\d{2})(?::(\d{2}))?$/;

/** Local seconds of `2026-08-15T02:00`, with seconds optional and no zone. Years 1970 to 2199. */
export function parseLocalTime(text: string): Result<number> {
  const wrong = (why: string): Result<number> =>
    failure(
      "time/not-a-local-time",
      `'${text}' is not a local date and time: ${why}`,
      "write it like 2026-08-15T02:00",
    );
  const match = LOCAL_TIME.exec(text.trim());
  if (match === null) return wrong("the form is not year-month-dayThour:minute");
  const [year, month, day, hour, minute, second] = match.slice(1).map((part) => Number(part ?? 0));
  if (year < 1970 || year > 2199) return wrong("the year lies outside 1970 to 2199");
  const days = daysFromCivil(year, month, day);
  const back = civilFromDays(days);
  if (back.year !== year || back.month !== month || back.day !== day) return wrong("there is no such day");
  if (hour > 23 || minute > 59 || second > 59) return wrong("there is no such time of day");
  return success(days * SECONDS_PER_DAY + hour * 3600 + minute * 60 + second);
}

function twoDigits(value: number): string {
  return String(value).padStart(2, "0");
}

/** `2026-08-15T02:00` from local seconds; seconds are dropped. */
export function formatLocalTime(localSeconds: number): string {
  const days = Math.floor(localSeconds / SECONDS_PER_DAY);
  const { year, month, day } = civilFromDays(days);
  return `${year}-${twoDigits(month)}-${twoDigits(day)}T${formatMinuteOfDay((localSeconds - days * SECONDS_PER_DAY) / 60)}`;
}

/** `07:05` from a minute of the day; 1440 prints as `24:00`. */
export function formatMinuteOfDay(minute: number): string {
  const whole = Math.floor(minute);
  return `${twoDigits(Math.floor(whole / 60))}:${twoDigits(whole % 60)}`;
}
