import { useCallback, useEffect, useState } from "react";
import type { PairCellAnswer, PairsAnswer } from "../../server/contract/index.ts";
import { api } from "../app/api.ts";

/** Time between two questions while a rehearsal is at work, ms. */
const ASK_EVERY_MS = 500;

interface Pairs {
  readonly answer: PairsAnswer | null;
  readonly failure: string | null;
  start(): void;
  stop(): void;
}

/** What the program knows of the pairs, asked again while it is at work. `edition` changes with the site. */
export function usePairs(edition: string | null): Pairs {
  const [answer, setAnswer] = useState<PairsAnswer | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const ask = useCallback(async (question: () => Promise<PairsAnswer>): Promise<void> => {
    try {
      setAnswer(await question());
      setFailure(null);
    } catch (error) {
      setFailure(wordsOf(error));
    }
  }, []);
  useEffect(() => {
    if (edition !== null) void ask(api.pairs);
  }, [ask, edition]);
  const isAtWork = answer?.state === "at work";
  useEffect(() => {
    if (!isAtWork) return;
    const timer = setInterval(() => void ask(api.pairs), ASK_EVERY_MS);
    return () => clearInterval(timer);
  }, [ask, isAtWork]);
  return {
    answer,
    failure,
    start: () => void ask(api.startPairs),
    stop: () => void ask(api.stopPairs),
  };
}

export type CellLoading =
  | { readonly state: "loading" }
  | { readonly state: "here"; readonly cell: PairCellAnswer }
  | { readonly state: "failed"; readonly why: string };

/** The drills of one field of the matrix. */
export function usePairCell(first: string, trigger: string): CellLoading {
  const key = `${first} ${trigger}`;
  const [known, setKnown] = useState<{ readonly key: string; readonly loading: CellLoading }>({
    key,
    loading: { state: "loading" },
  });
  useEffect(() => {
    const stop = new AbortController();
    api.pairCell(first, trigger, stop.signal).then(
      (cell) => setKnown({ key, loading: { state: "here", cell } }),
      (error: unknown) => {
        if (!stop.signal.aborted) setKnown({ key, loading: { state: "failed", why: wordsOf(error) } });
      },
    );
    return () => stop.abort();
  }, [first, trigger, key]);
  return known.key === key ? known.loading : { state: "loading" };
}

function wordsOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
