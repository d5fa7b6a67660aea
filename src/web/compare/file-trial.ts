import { useEffect, useRef, useState } from "react";
import { api } from "../app/api.ts";
import { followTrial, type TrialSoFar } from "../app/follow-trial.ts";

export interface FileTrial {
  readonly trial: TrialSoFar | null;
  /** Why it could not be had. */
  readonly failure: string | null;
  stop(): void;
  again(): void;
}

/** When the last one is over: it is stopped before the next begins, lest the stop meets the wrong one. */
let ending: Promise<void> = Promise.resolve();

/** Rehearses another site file beside the open one for as long as it is looked at; null rehearses nothing. */
export function useFileTrial(file: string | null): FileTrial {
  const [found, setFound] = useState<{
    readonly file: string | null;
    readonly trial: TrialSoFar | null;
    readonly failure: string | null;
  }>({ file: null, trial: null, failure: null });
  const [attempt, setAttempt] = useState(0);
  const abort = useRef<AbortController | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new attempt begins it anew
  useEffect(() => {
    if (file === null) return;
    const mine = new AbortController();
    abort.current = mine;
    let left = false;
    setFound({ file, trial: null, failure: null });
    ending = ending
      .then(async () => {
        if (left) return;
        await followTrial(
          () => api.tryFile(file),
          (trial) => !left && setFound({ file, trial, failure: null }),
          mine.signal,
        );
      })
      .catch((error: unknown) => {
        const failure = error instanceof Error ? error.message : String(error);
        if (!left) setFound((known) => ({ ...known, failure }));
      });
    return () => {
      left = true;
      mine.abort();
    };
  }, [file, attempt]);
  const mine = found.file === file;
  return {
    trial: mine ? found.trial : null,
    failure: mine ? found.failure : null,
    stop: () => abort.current?.abort(),
    again: () => setAttempt((count) => count + 1),
  };
}
