/**
 * The rehearsal: all drills of a site on worker threads. The result does not depend on their number: every drill is made
 * from the site, the seed and its own faults alone, and results stand in the order of the plan.
 */
import { Piscina } from "piscina";
import type { Site } from "../site/index.ts";
import { compile } from "../twin/index.ts";
import { ENGINE } from "./engine.ts";
import { planPairs, planSingles } from "./plan.ts";
import type { DrillResult, PlainHarm, RehearsalReport } from "./types.ts";

export interface RehearsalOptions {
  readonly seed: number;
  readonly threads: number;
  readonly pairs: boolean;
  /** Seconds by a clock that never goes back; for the elapsed time only. */
  readonly nowS: () => number;
  readonly onProgress?: (done: number, total: number, fresh: readonly DrillResult[]) => void;
  /** Stops it; what is done is kept. */
  readonly signal?: AbortSignal;
}

/** Asks a worker for the harm of plain life in place of drills. */
const PLAIN_LIFE: readonly number[] = [];
/** Drills a batch: enough work to be worth a message, small enough to stop soon. */
const BATCH = 12;

export async function rehearse(site: Site, options: RehearsalOptions): Promise<RehearsalReport> {
  const startedS = options.nowS();
  const model = compile(site);
  const plan = options.pairs ? [...planSingles(model), ...planPairs(model).drills] : planSingles(model);
  const results = new Array<DrillResult | undefined>(plan.length);
  const pool = new Piscina({
    filename: new URL("./worker.ts", import.meta.url).href,
    minThreads: options.threads,
    maxThreads: options.threads,
    workerData: { site, seed: options.seed, pairs: options.pairs },
  });
  let done = 0;
  let plainHarms: readonly PlainHarm[] = [];
  try {
    const plain = pool.run(PLAIN_LIFE, options.signal ? { signal: options.signal } : {}) as Promise<
      readonly PlainHarm[]
    >;
    // Where the drills stop first, nobody asks for this any more.
    plain.catch(() => undefined);
    await Promise.all(
      batches(plan.map((drill) => `${drill.circumstance.id}:${drill.systems.join()}`)).map(async (places) => {
        if (options.signal?.aborted) return;
        const fresh = (await pool.run(places, options.signal ? { signal: options.signal } : {})) as DrillResult[];
        places.forEach((place, index) => {
          results[place] = fresh[index];
        });
        done += places.length;
        options.onProgress?.(done, plan.length, fresh);
      }),
    );
    if (!options.signal?.aborted) plainHarms = await plain;
  } catch (problem) {
    if (!options.signal?.aborted) throw problem;
  } finally {
    await pool.destroy();
  }
  const drills = results.filter((one) => one !== undefined);
  return {
    site: site.name,
    engine: ENGINE,
    seed: options.seed,
    threads: options.threads,
    elapsed_s: Math.round((options.nowS() - startedS) * 1000) / 1000,
    drills,
    summary: summarise(drills),
    plain_life: plainHarms,
    complete: drills.length === plan.length,
    not_run: plan.length - drills.length,
  };
}

/** Places grouped so that those of one setting stay together. */
function batches(keys: readonly string[]): number[][] {
  const byKey = new Map<string, number[]>();
  keys.forEach((key, place) => {
    byKey.set(key, [...(byKey.get(key) ?? []), place]);
  });
  return [...byKey.values()].flatMap((places) =>
    Array.from({ length: Math.ceil(places.length / BATCH) }, (_, index) =>
      places.slice(index * BATCH, (index + 1) * BATCH),
    ),
  );
}

function summarise(drills: readonly DrillResult[]): RehearsalReport["summary"] {
  const count = (verdict: DrillResult["verdict"]) => drills.filter((drill) => drill.verdict === verdict).length;
  return {
    absorbed: count("absorbed"),
    handled: count("handled"),
    "handed over": count("handed over"),
    late: count("late"),
    unseen: count("unseen"),
  };
}
