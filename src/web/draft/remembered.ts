/** Keeps a draft in this browser, so that a page that is closed or a machine that fails takes nothing with it. */
import type { History } from "./history.ts";

interface Kept {
  readonly history: History;
  /** The file's text that the changes were made on. */
  readonly fileText: string;
}

const keyOf = (file: string): string => `slackwater.draft.${file}`;

export function remember({ file, history, fileText }: Kept & { readonly file: string }): void {
  const changed = history.steps[history.at].text !== fileText;
  if (!changed) {
    forget(file);
    return;
  }
  try {
    localStorage.setItem(keyOf(file), JSON.stringify({ history, fileText } satisfies Kept));
  } catch {
    // A browser that keeps nothing, or no more: the draft then lasts until the page is left.
  }
}

function forget(file: string): void {
  try {
    localStorage.removeItem(keyOf(file));
  } catch {
    // Nothing was kept.
  }
}

/** What was kept for a file; null where nothing was, or nothing that can be understood. */
export function remembered(file: string): Kept | null {
  try {
    const kept = JSON.parse(localStorage.getItem(keyOf(file)) ?? "null") as Kept | null;
    const { history, fileText } = kept ?? {};
    const sound =
      typeof fileText === "string" &&
      Array.isArray(history?.steps) &&
      history.steps.every(({ label, text }) => typeof label === "string" && typeof text === "string") &&
      history.steps[history.at] !== undefined;
    return sound ? kept : null;
  } catch {
    return null;
  }
}
