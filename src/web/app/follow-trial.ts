import type { DrillResult, TrialAnswer } from "../../server/contract/index.ts";
import { api } from "./api.ts";

/** Another version of the site as far as it has been rehearsed. */
export interface TrialSoFar {
  readonly answer: TrialAnswer;
  /** All drills so far. */
  readonly drills: readonly DrillResult[];
}

const ASK_EVERY_MS = 350;

/**
 * Follows a trial to its end and tells of it on the way.
 *
 * @param signal stops it at the program too; what it has found stays told.
 */
export async function followTrial(
  begin: () => Promise<TrialAnswer>,
  tell: (soFar: TrialSoFar) => void,
  signal: AbortSignal,
): Promise<void> {
  let answer = await begin();
  let drills: readonly DrillResult[] = [];
  for (;;) {
    drills = answer.report?.drills ?? [...drills.slice(0, answer.from), ...answer.drills];
    if (signal.aborted) {
      if (answer.state === "at work") await api.stopTrial(answer.id);
      tell({ answer: answer.state === "at work" ? { ...answer, state: "stopped" } : answer, drills });
      return;
    }
    tell({ answer, drills });
    if (answer.state !== "at work") return;
    await pause(signal);
    if (!signal.aborted) answer = await api.trial(answer.id, drills.length);
  }
}

function pause(signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const done = (): void => {
      clearTimeout(timer);
      signal.removeEventListener("abort", done);
      resolve();
    };
    const timer = setTimeout(done, ASK_EVERY_MS);
    signal.addEventListener("abort", done, { once: true });
  });
}
