/** The proving list: every trial with its last result and its age, what is due first. */
import type { Site } from "../../site/index.ts";
import { ageOf, type JournalLine, lastResults } from "./journal.ts";
import { provingTrials } from "./trials/proving-trials.ts";
import type { ProvingItem, ProvingList } from "./types.ts";

/**
 * @param site   As its file says, without the journal.
 * @param unread Lines of the journal that could not be read, in words.
 */
export function provingList(
  site: Site,
  lines: readonly JournalLine[],
  unread: readonly string[],
  nowMs: number,
): ProvingList {
  const last = lastResults(lines);
  const items = provingTrials(site).map((trial): ProvingItem => {
    const result = last.get(trial.id);
    const ageMonths = ageOf(site, trial, result, nowMs);
    return {
      ...trial,
      last: result ?? null,
      ageMonths,
      ageFrom: ageMonths === null ? null : result === undefined ? "file" : "journal",
      due: ageMonths === null || ageMonths >= trial.everyMonths,
    };
  });
  const known = new Set(items.map(({ id }) => id));
  return {
    items: items.toSorted((a, b) => overdue(b) - overdue(a)),
    unread,
    orphans: [...last.keys()].filter((trial) => !known.has(trial)).length,
    people: site.people.map(({ id }) => id),
  };
}

/** What did not hold comes first, then what was never proved, then the oldest for its span. */
function overdue({ last, ageMonths, everyMonths }: ProvingItem): number {
  if (last !== null && !last.held) return Number.MAX_VALUE;
  return ageMonths === null ? Number.MAX_SAFE_INTEGER : ageMonths / everyMonths;
}
