import { useSyncExternalStore } from "react";

/**
 * The manner of the reader: units at a switch, marks of numbers and the order of dates by the browser's locale.
 *
 * The page's words stay English, so months and weekdays do too; only their order follows the locale. The clock has 24 hours,
 * as in the site file, except where the locale counts twelve: someone who reads "17:20" as a sum should not do so at night.
 * British English, which the page is written in, parts thousands by a thin space as the standard of units asks; every other
 * locale gets its own mark.
 *
 * What is formatted while rendering follows by itself, since the whole app renders again when the switch is pressed. What is
 * kept over renders (`memo`, `useMemo`) takes the answer of `useManner` into what it is kept by.
 */
export interface Manner {
  readonly units: UnitSystem;
  readonly locale: string;
  readonly decimal: string;
  readonly monthFirst: boolean;
  readonly twelveHours: boolean;
}

export type UnitSystem = "metric" | "us";

const KEY = "slackwater.units";
const HOUSE_LOCALE = "en-GB";
const THIN = "\u2009";
/** Regions that measure as the United States do (CLDR, "measurement system US"), and its territories. */
const US_REGIONS = new Set(["US", "LR", "MM", "PR", "GU", "VI", "AS", "MP", "UM"]);

let current: Manner = mannerOf(HOUSE_LOCALE, "metric");
const listeners = new Set<() => void>();

export function manner(): Manner {
  return current;
}

/** Renders again whenever the manner changes. */
export function useManner(): Manner {
  return useSyncExternalStore((listener) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  }, manner);
}

export function setManner(next: Manner): void {
  current = next;
  for (const listener of listeners) listener();
}

/** What a locale writes like; units as asked for, or as its region measures. */
export function mannerOf(locale: string, units: UnitSystem = unitsOf(locale)): Manner {
  const parts = new Intl.NumberFormat(locale, { numberingSystem: "latn" }).formatToParts(1.5);
  const date = new Intl.DateTimeFormat(locale, { day: "numeric", month: "short" })
    .formatToParts(new Date(0))
    .map(({ type }) => type);
  const { hourCycle } = new Intl.DateTimeFormat(locale, { hour: "numeric" }).resolvedOptions();
  return {
    units,
    locale,
    decimal: parts.find(({ type }) => type === "decimal")?.value ?? ".",
    monthFirst: date.indexOf("month") < date.indexOf("day"),
    twelveHours: hourCycle === "h12" || hourCycle === "h11",
  };
}

function unitsOf(locale: string): UnitSystem {
  return US_REGIONS.has(new Intl.Locale(locale).maximize().region ?? "") ? "us" : "metric";
}

/** The digits of a whole number with the locale's thousands mark; a space among them is a thin one. */
export function groupThousands(whole: number, { locale }: Manner): string {
  return new Intl.NumberFormat(locale, { numberingSystem: "latn", maximumFractionDigits: 0 })
    .formatToParts(whole)
    .map(({ type, value }) => (type === "group" && (locale === HOUSE_LOCALE || /\s/.test(value)) ? THIN : value))
    .join("");
}

/** Takes the browser's locale, and the units that were chosen here before. Call before the first paint. */
export function takeMannerOfBrowser(): void {
  const chosen = storage()?.getItem(KEY);
  const { language } = navigator;
  setManner(chosen === "metric" || chosen === "us" ? mannerOf(language, chosen) : mannerOf(language));
}

export function switchUnits(): void {
  const units = current.units === "us" ? "metric" : "us";
  storage()?.setItem(KEY, units);
  setManner({ ...current, units });
}

/** Null where the browser keeps nothing for this page: the switch then lasts until the page is left. */
function storage(): Storage | null {
  try {
    return localStorage;
  } catch {
    return null;
  }
}
