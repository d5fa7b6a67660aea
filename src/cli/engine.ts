/** The engine that a server asks: everything on worker threads. */
import { availableParallelism } from "node:os";
import { offThread, pairCensus, type RehearsalOptions, rehearse } from "../drills/index.ts";
import type { Engine, RehearseOptions } from "../server/index.ts";

export function engineOnThreads(onProgress: (done: number, total: number) => void): Engine {
  return {
    rehearse: (site, options) => rehearse(site, rehearsalOf(options, false, onProgress)),
    rehearsePairs: async (site, options) => ({
      census: pairCensus(site),
      report: await rehearse(
        site,
        rehearsalOf(options, true, () => undefined),
      ),
    }),
    drill: (site, faultIds, circumstance, { seed, stepMin }) =>
      offThread.drill({ site, seed, faultIds, circumstance, options: { stepMin, only: [], everywhere: false } }),
    settled: (site) => offThread.settled(site),
  };
}

function rehearsalOf(
  { seed, first, onProgress: tell, signal }: RehearseOptions,
  pairs: boolean,
  onProgress: (done: number, total: number) => void,
): RehearsalOptions {
  return {
    seed,
    threads: availableParallelism(),
    pairs,
    first,
    nowS: () => performance.now() / 1000,
    signal,
    onProgress: (done, total, fresh) => {
      onProgress(done, total);
      tell({ done, total, fresh });
    },
  };
}
