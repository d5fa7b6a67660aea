/** One drill or the settled life, worked out on a thread of its own. */
import { Piscina } from "piscina";
import type { Site } from "../site/index.ts";
import type { ReportTask } from "./by-name.ts";
import type { SettledLife } from "./settled.ts";
import type { DrillReport } from "./types.ts";

/** Milliseconds after which an idle thread goes. */
const IDLE_MS = 30_000;
let pool: Piscina | null = null;

function threads(): Piscina {
  pool ??= new Piscina({
    filename: new URL("./report-worker.ts", import.meta.url).href,
    minThreads: 0,
    maxThreads: 1,
    idleTimeout: IDLE_MS,
  });
  return pool;
}

export const offThread = {
  drill: (task: ReportTask): Promise<DrillReport> => threads().run(task) as Promise<DrillReport>,
  settled: (site: Site): Promise<SettledLife> =>
    threads().run({
      site,
      seed: 1,
      faultIds: [],
      circumstance: "",
      options: { stepMin: 1, only: [] },
    } satisfies ReportTask) as Promise<SettledLife>,
};
