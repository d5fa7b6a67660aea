/** The wall clock of a site: the one place that knows the rules of time zones. */
import { Temporal } from "temporal-polyfill";
import type { LocalClock, OffsetChange } from "../foundation/index.ts";
import { mustHave, nearest, parseLocalTime } from "../foundation/index.ts";
import type { Circumstance, Site } from "./model.ts";

const SECONDS_PER_DAY = 86400;
/** Drills begin with a settling time before the fault; the clock is right this long before its start. */
const DAYS_BEFORE = 60;
const DAYS_AFTER = 60;
const NANOSECONDS = 1_000_000_000;

/** Null where the zone is known, else the nearest known name or an empty text. */
export function zoneProblem(zone: string): string | null {
  try {
    Temporal.PlainDateTime.from("2026-01-01T00:00").toZonedDateTime(zone);
    return null;
  } catch (error) {
    if (error instanceof RangeError) return nearest(zone, Intl.supportedValuesOf("timeZone")) ?? "";
    throw error;
  }
}

function offsetS(moment: Temporal.ZonedDateTime): number {
  return moment.offsetNanoseconds / NANOSECONDS;
}

/** A clock that starts at a local time in a zone and is right for so many days before and after. */
export function clockIn(zone: string, startsLocal: string, horizonDays: number): LocalClock {
  // Checks the form with our own words before the library sees it.
  mustHave(parseLocalTime(startsLocal));
  const start = Temporal.PlainDateTime.from(startsLocal).toZonedDateTime(zone);
  const startEpochS = start.epochMilliseconds / 1000;
  const from = start.subtract({ seconds: DAYS_BEFORE * SECONDS_PER_DAY });
  const endS = (horizonDays + DAYS_AFTER) * SECONDS_PER_DAY;
  const changes: OffsetChange[] = [];
  let moment = from.getTimeZoneTransition("next");
  while (moment !== null && moment.epochMilliseconds / 1000 - startEpochS <= endS) {
    changes.push({ atS: moment.epochMilliseconds / 1000 - startEpochS, offsetS: offsetS(moment) });
    moment = moment.getTimeZoneTransition("next");
  }
  return { startEpochS, firstOffsetS: offsetS(from), changes };
}

/** The wall clock of a site in a circumstance; second 0 is the circumstance's start. */
export function clockFor(site: Site, circumstance: Circumstance): LocalClock {
  return clockIn(site.zone, circumstance.startsLocal, circumstance.horizonDays);
}
