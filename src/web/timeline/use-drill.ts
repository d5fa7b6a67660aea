import { useEffect, useState } from "react";
import type { DrillReport } from "../../server/contract/index.ts";
import { api } from "../app/api.ts";

export type Loading =
  | { readonly state: "loading" }
  | { readonly state: "here"; readonly report: DrillReport }
  | { readonly state: "failed"; readonly why: string };

/** A drill with its traces; run again by the program where it has not kept them. `edition` changes with the site. */
export function useDrill(id: string, edition: string | null): Loading {
  const key = `${id} ${edition}`;
  const [answer, setAnswer] = useState<{ readonly key: string; readonly loading: Loading }>({
    key,
    loading: { state: "loading" },
  });
  useEffect(() => {
    const stop = new AbortController();
    api.drill(id, stop.signal).then(
      (report) => setAnswer({ key, loading: { state: "here", report } }),
      (error: unknown) => {
        if (!stop.signal.aborted)
          setAnswer({ key, loading: { state: "failed", why: error instanceof Error ? error.message : String(error) } });
      },
    );
    return () => stop.abort();
  }, [id, key]);
  return answer.key === key ? answer.loading : { state: "loading" };
}
