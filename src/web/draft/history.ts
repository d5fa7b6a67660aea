/** The steps by which a person has changed the text of a site, to walk back and forth on. */
import type { SiteEdit } from "../../server/contract/index.ts";

export interface Step {
  /** What was done, in words: "reef-heater-1: power 200 W". */
  readonly label: string;
  /** What was changed; null where the text came from the file and nobody here made it. */
  readonly edits: readonly SiteEdit[] | null;
  /** The whole text after it. */
  readonly text: string;
}

/** Steps in the order in which they were made; `at` is the one that stands. The first is the file as it was found. */
export interface History {
  readonly steps: readonly Step[];
  readonly at: number;
}

/** More steps than this are not walked back. */
const MOST_STEPS = 100;
/** Characters of all texts together that are kept. */
const MOST_CHARACTERS = 4_000_000;

export function begun(text: string, label: string): History {
  return { steps: [{ label, edits: null, text }], at: 0 };
}

export function textOf({ steps, at }: History): string {
  return steps[at].text;
}

/** With one more step; those that were undone give way to it. */
export function extended({ steps, at }: History, step: Step): History {
  const all = [...steps.slice(0, at + 1), step];
  let size = 0;
  let first = all.length;
  while (first > 0 && all.length - first < MOST_STEPS && size + all[first - 1].text.length <= MOST_CHARACTERS) {
    first -= 1;
    size += all[first].text.length;
  }
  const kept = all.slice(Math.min(first, all.length - 1));
  return { steps: kept, at: kept.length - 1 };
}

export function moved(history: History, by: -1 | 1): History {
  const at = Math.min(history.steps.length - 1, Math.max(0, history.at + by));
  return { ...history, at };
}

/**
 * The steps that lead from the text of the file to the one that stands; null where they do not: the file's text is none of
 * them, or was walked back from.
 */
export function stepsSince({ steps, at }: History, fileText: string): readonly Step[] | null {
  for (let from = at; from >= 0; from--) {
    if (steps[from].text === fileText) return steps.slice(from + 1, at + 1);
  }
  return null;
}
