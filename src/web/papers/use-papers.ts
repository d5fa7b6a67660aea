import { useCallback, useEffect, useState } from "react";
import { type Papers, parsePapers, type ResultToRecord } from "../../server/contract/index.ts";
import { ask, sending } from "../app/api.ts";

/** The papers as the program last wrote them, and what can be recorded in them. */
export interface PapersDesk {
  readonly papers: Papers | null;
  readonly failure: string | null;
  readonly again: () => void;
  /** Both reject with a sentence that can be shown. */
  readonly record: (result: ResultToRecord) => Promise<void>;
  readonly takeBack: (id: string) => Promise<void>;
}

/** @param version of the site and its rehearsal: the papers are written again when it moves */
export function usePapers(version: string): PapersDesk {
  const [papers, setPapers] = useState<Papers | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const [tries, setTries] = useState(0);

  useEffect(() => {
    // `tries` and `version` are asked for only so that a change of either reads again.
    void [version, tries];
    let left = false;
    ask("/api/papers").then(
      (body) => {
        if (left) return;
        setPapers(parsePapers(body));
        setFailure(null);
      },
      (error: unknown) => {
        if (!left) setFailure(error instanceof Error ? error.message : String(error));
      },
    );
    return () => {
      left = true;
    };
  }, [version, tries]);

  const record = useCallback(async (result: ResultToRecord) => {
    setPapers(parsePapers(await ask("/api/journal", sending("POST", result))));
  }, []);
  const takeBack = useCallback(async (id: string) => {
    setPapers(parsePapers(await ask("/api/journal/take-back", sending("POST", { id }))));
  }, []);
  return { papers, failure, again: () => setTries((count) => count + 1), record, takeBack };
}
