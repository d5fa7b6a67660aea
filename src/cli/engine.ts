/** The engine that a server asks: everything on worker threads. */
import { availableParallelism } from "node:os";
import { offThread, rehearse } from "../drills/index.ts";
import type { Engine } from "../server/index.ts";

export function engineOnThreads(onProgress: (done: number, total: number) => void): Engine {
  return {
    rehearse: (site, { seed, first, onProgress: tell, signal }) =>
      rehearse(site, {
        seed,
        threads: availableParallelism(),
        pairs: false,
        first,
        nowS: () => performance.now() / 1000,
        signal,
        onProgress: (done, total, fresh) => {
          onProgress(done, total);
          tell({ done, total, fresh });
        },
      }),
    drill: (site, faultIds, circumstance, { seed, stepMin }) =>
      offThread.drill({ site, seed, faultIds, circumstance, options: { stepMin, only: [], everywhere: false } }),
    settled: (site) => offThread.settled(site),
  };
}
