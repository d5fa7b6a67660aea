import type { ProvingItem } from "../../server/contract/index.ts";
import { figure } from "../parts/format.ts";
import { papersWords } from "../words/papers.ts";

const say = papersWords.proving;
const DAY_MS = 86_400_000;
/** Days are counted up to here, then months. */
const MOST_DAYS = 60;

/** How long ago something was, in days and then in months. */
function agoWords(at: string, nowIso: string): string {
  const days = Math.floor((Date.parse(nowIso) - Date.parse(at)) / DAY_MS);
  if (days < 1) return say.today;
  if (days < 2) return say.yesterday;
  if (days <= MOST_DAYS) return say.daysAgo(figure(days));
  return monthsWords(days / 30.44);
}

function monthsWords(months: number): string {
  const whole = Math.max(1, Math.round(months));
  return say.monthsAgo(figure(whole), whole);
}

/** What is known of the age of a trial, in words: "held today", "9 months ago, by the site file", "never proved". */
export function ageWords({ last, ageMonths }: Pick<ProvingItem, "last" | "ageMonths">, nowIso: string): string {
  if (last !== null) {
    const when = agoWords(last.at, nowIso);
    return last.held ? say.held(when) : say.failed(when);
  }
  return ageMonths === null ? say.never : say.heldByFile(monthsWords(ageMonths));
}
