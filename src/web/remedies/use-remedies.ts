import { useEffect, useState } from "react";
import type { RehearsalReport, Remedy } from "../../server/contract/index.ts";
import { api } from "../app/api.ts";

export interface RemediesKnown {
  /** Null until they have come. */
  readonly remedies: readonly Remedy[] | null;
  readonly failure: string | null;
  again(): void;
}

/** What would change the findings of the last rehearsal; asked anew with every report. */
export function useRemedies(report: RehearsalReport | null): RemediesKnown {
  const [known, setKnown] = useState<Omit<RemediesKnown, "again">>({ remedies: null, failure: null });
  const [attempt, setAttempt] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new attempt asks anew
  useEffect(() => {
    if (report === null) return;
    let left = false;
    api.remedies().then(
      ({ remedies }) => !left && setKnown({ remedies, failure: null }),
      (error: unknown) =>
        !left && setKnown({ remedies: null, failure: error instanceof Error ? error.message : String(error) }),
    );
    return () => {
      left = true;
    };
  }, [report, attempt]);
  return { ...known, again: () => setAttempt((count) => count + 1) };
}
