/** Times of day and days as the screens write them. The web app's one door to the wall clock is `now`. */

/** Milliseconds since 1970. */
export function now(): number {
  return Date.now();
}

/** A moment in the zone of the site: its clock, its day, and the key by which days are told apart. */
function inZone(ms: number, zone: string | undefined): { readonly clock: string; readonly day: string } {
  const date = new Date(ms);
  const { clock, day } = writersOf(zone);
  return { clock: clock.format(date), day: day.format(date).replace(",", "") };
}

/** Making a writer costs a hundred times what writing does, and a timeline that is read writes at every move. */
const writers = new Map<
  string | undefined,
  { readonly clock: Intl.DateTimeFormat; readonly day: Intl.DateTimeFormat }
>();

function writersOf(zone: string | undefined) {
  const known = writers.get(zone);
  if (known !== undefined) return known;
  const made = {
    clock: new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit", hourCycle: "h23", timeZone: zone }),
    day: new Intl.DateTimeFormat("en-GB", { weekday: "short", day: "numeric", month: "short", timeZone: zone }),
  };
  writers.set(zone, made);
  return made;
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
  return new Intl.DateTimeFormat("en-GB", {
    weekday: "short",
    day: "numeric",
    month: "short",
    year: "numeric",
    timeZone: zone,
  })
    .format(new Date(iso))
    .replace(",", "");
}

/** The day at a place as fields of forms want it, "2026-11-25". */
export function dayIn(iso: string, zone: string): string {
  return new Intl.DateTimeFormat("en-CA", { timeZone: zone, dateStyle: "short" }).format(new Date(iso));
}
