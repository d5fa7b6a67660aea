/**
 * The rehearsal: all drills of a site on worker threads. The result does not depend on their number: every drill is made
 * from the site, the seed and its own faults alone, and results stand in the order of the plan.
 */
import { Piscina } from "piscina";
import type { Site } from "../site/index.ts";
import { compile } from "../twin/index.ts";
import { ENGINE } from "./engine.ts";
import { faultId } from "./faults/index.ts";
import { type PlannedDrill, planOf } from "./plan.ts";
import type { DrillResult, PlainHarm, RehearsalReport } from "./types.ts";

export interface RehearsalOptions {
  readonly seed: number;
  readonly threads: number;
  readonly pairs: boolean;
  /** Parts whose drills are run before all others; the report is the same, only what is known first is not. */
  readonly first?: readonly string[];
  /** Seconds by a clock that never goes back; for the elapsed time only. */
  readonly nowS: () => number;
  readonly onProgress?: (done: number, total: number, fresh: readonly DrillResult[]) => void;
  /** Stops it; what is done is kept. */
  readonly signal?: AbortSignal;
}

/** Asks a worker for the harm of plain life in place of drills. */
const PLAIN_LIFE: readonly number[] = [];
/** Room for what a thread makes and forgets: snapshots are forgotten after each drill, and with more room pile up before anyone looks. */
const YOUNG_MB = 16;
/** Far more than a thread needs; but a heap that may grow without bound is let grow fourfold before anyone looks, and this one twofold. */
const OLD_MB = 1024;
/** Drills a batch: enough work to be worth a message, small enough to stop soon. */
const BATCH = 12;

export async function rehearse(site: Site, options: RehearsalOptions): Promise<RehearsalReport> {
  const startedS = options.nowS();
  const plan = planOf(compile(site), options.pairs);
  const { results, plainHarms } = await onThreads(site, plan, options);
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

interface Done {
  /** In the order of the plan; undefined where it was stopped before. */
  readonly results: readonly (DrillResult | undefined)[];
  readonly plainHarms: readonly PlainHarm[];
}

async function onThreads(site: Site, plan: readonly PlannedDrill[], options: RehearsalOptions): Promise<Done> {
  const { seed, pairs, threads, signal } = options;
  const pool = new Piscina({
    filename: new URL("./worker.ts", import.meta.url).href,
    minThreads: threads,
    maxThreads: threads,
    workerData: { site, seed, pairs },
    resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MB, maxOldGenerationSizeMb: OLD_MB },
  });
  const ask = (places: readonly number[]) => pool.run(places, signal ? { signal } : {});
  const results = new Array<DrillResult | undefined>(plan.length);
  let plainHarms: readonly PlainHarm[] = [];
  try {
    const plain: Promise<readonly PlainHarm[]> = ask(PLAIN_LIFE);
    // Where the drills stop first, nobody asks for this any more.
    plain.catch(() => undefined);
    await runBatches(plan, ask, results, options);
    if (!signal?.aborted) plainHarms = await plain;
  } catch (problem) {
    if (!signal?.aborted) throw problem;
  } finally {
    await pool.destroy();
  }
  return { results, plainHarms };
}

/** Sends all batches to the threads and writes what comes back to its place. */
async function runBatches(
  plan: readonly PlannedDrill[],
  ask: (places: readonly number[]) => Promise<readonly DrillResult[]>,
  results: (DrillResult | undefined)[],
  { signal, onProgress, first = [] }: RehearsalOptions,
): Promise<void> {
  let done = 0;
  const run = async (places: readonly number[]) => {
    if (signal?.aborted) return;
    const fresh = await ask(places);
    for (const [index, place] of places.entries()) results[place] = fresh[index];
    done += places.length;
    onProgress?.(done, plan.length, fresh);
  };
  await Promise.all(ahead(batches(plan), plan, first).map(run));
}

/** Places in such an order that those of one setting stay together; a trigger and all its pairs are one batch. */
function batches(plan: readonly PlannedDrill[]): number[][] {
  const byTrigger = grouped(plan.keys(), (place) => {
    const { circumstance, faults } = plan[place];
    return `${circumstance.id}:${faults.slice(-1).map(faultId).join()}`;
  });
  const bySetting = grouped(byTrigger, ([first]) => `${plan[first].circumstance.id}:${plan[first].systems.join()}`);
  return bySetting.flatMap(inBatches);
}

/** Batches that hold a drill of one of these parts before all others. */
function ahead(all: readonly number[][], plan: readonly PlannedDrill[], parts: readonly string[]): readonly number[][] {
  if (parts.length === 0) return all;
  const wanted = new Set(parts);
  const isWanted = (batch: readonly number[]): boolean =>
    batch.some((place) => plan[place].faults.some(({ part }) => wanted.has(part)));
  return [...all.filter(isWanted), ...all.filter((batch) => !isWanted(batch))];
}

/** What has the same key, together, in the order in which the keys come. */
function grouped<T>(all: Iterable<T>, keyOf: (one: T) => string): T[][] {
  const byKey = new Map<string, T[]>();
  for (const one of all) {
    const group = byKey.get(keyOf(one));
    if (group) group.push(one);
    else byKey.set(keyOf(one), [one]);
  }
  return [...byKey.values()];
}

/** Groups joined to batches. */
function inBatches(groups: readonly number[][]): number[][] {
  const batches: number[][] = [];
  let batch: number[] = [];
  for (const group of groups) {
    batch.push(...group);
    if (batch.length < BATCH) continue;
    batches.push(batch);
    batch = [];
  }
  return batch.length > 0 ? [...batches, batch] : batches;
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
