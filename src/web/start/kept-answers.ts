import { type FirstSiteAnswers, parseFirstSiteAnswers } from "../../server/contract/index.ts";

/** Answers outlive the page, in this browser, until the place is kept or somebody begins anew. */
const KEY = "slackwater.start";

export interface Draft {
  readonly answers: FirstSiteAnswers;
  readonly step: number;
  /** The last step that has been reached. */
  readonly furthest: number;
}

export function keptDraft(steps: number): Draft | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? "null");
    if (typeof kept !== "object" || kept === null) return null;
    const { answers, step, furthest } = kept as Partial<Record<keyof Draft, unknown>>;
    const last = inRange(furthest, steps);
    return { answers: parseFirstSiteAnswers(answers), step: Math.min(inRange(step, steps), last), furthest: last };
  } catch {
    return null; // nothing is kept here, or by another version
  }
}

function inRange(value: unknown, steps: number): number {
  return typeof value === "number" && Number.isInteger(value) ? Math.min(Math.max(value, 0), steps - 1) : 0;
}

export function keepDraft(draft: Draft | null): void {
  try {
    if (draft === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, JSON.stringify(draft));
  } catch {
    // Then the answers last until the page is left.
  }
}
