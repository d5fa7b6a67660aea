/** Times of day and days as the screens write them. The web app's one door to the wall clock is `now`. */
import { manner } from "./manner.ts";

const NO_BREAK = "\u00a0";

/** Milliseconds since 1970. */
export function now(): number {
  return Date.now();
}

/** A moment in the zone of the site: its clock, its day, and the key by which days are told apart. */
function inZone(ms: number, zone: string | undefined): { readonly clock: string; readonly day: string } {
  const written = writerOf(zone).formatToParts(new Date(ms));
  const part = (wanted: Intl.DateTimeFormatPartTypes): string =>
    written.find(({ type }) => type === wanted)?.value ?? "";
  const date = manner().monthFirst ? `${part("month")} ${part("day")}` : `${part("day")} ${part("month")}`;
  return {
    clock: clockOfDay(Number(part("hour")) * 60 + Number(part("minute"))),
    day: `${part("weekday")} ${date}`,
  };
}

/** Making a writer costs a hundred times what writing does, and a timeline that is read writes at every move. */
const writers = new Map<string | undefined, Intl.DateTimeFormat>();

function writerOf(zone: string | undefined): Intl.DateTimeFormat {
  const known = writers.get(zone);
  if (known !== undefined) return known;
  const made = new Intl.DateTimeFormat("en-GB", {
    weekday: "short",
    day: "numeric",
    month: "short",
    hour: "2-digit",
    minute: "2-digit",
    hourCycle: "h23",
    timeZone: zone,
  });
  writers.set(zone, made);
  return made;
}

/** "06:12", or "6:12 am" where the reader's locale counts twelve hours. */
export function clockOfDay(minuteOfDay: number): string {
  const hour = Math.floor(minuteOfDay / 60) % 24;
  const minute = String(minuteOfDay % 60).padStart(2, "0");
  if (!manner().twelveHours) return `${String(hour).padStart(2, "0")}:${minute}`;
  return `${hour % 12 === 0 ? 12 : hour % 12}:${minute}${NO_BREAK}${hour < 12 ? "am" : "pm"}`;
}

/** "06:12" for a moment today, "Sat 5 Dec, 06:12" for another day. */
export function momentWords(
  iso: string,
  zone: string | undefined,
  say: { today(clock: string): string; on(day: string, clock: string): string },
): string {
  const { clock, day } = inZone(Date.parse(iso), zone);
  return day === inZone(now(), zone).day ? say.today(clock) : say.on(day, clock);
}

/** "06:12" by this browser's own clock. */
export function clockHere(ms: number): string {
  return inZone(ms, undefined).clock;
}

/**
 * The site's wall clock so many minutes after a drill's start. Summer time that begins or ends inside a drill is not
 * followed: the drill counts minutes, and its people live by the clock of its start.
 *
 * @param starts Local date and time, ISO: "2026-08-15T01:40".
 */
export function wallClock(starts: string, minutes: number): { readonly clock: string; readonly day: string } {
  return inZone(Date.parse(`${starts.slice(0, 16)}Z`) + Math.round(minutes) * 60_000, "UTC");
}

/** "Wed 25 Nov 2026", for paper that is read another year. */
export function dayWords(iso: string, zone: string): string {
  const ms = Date.parse(iso);
  const year = new Intl.DateTimeFormat("en-GB", { year: "numeric", timeZone: zone }).format(new Date(ms));
  return `${inZone(ms, zone).day} ${year}`;
}

/** The day at a place as fields of forms want it, "2026-11-25". */
export function dayIn(iso: string, zone: string): string {
  return new Intl.DateTimeFormat("en-CA", { timeZone: zone, dateStyle: "short" }).format(new Date(iso));
}
