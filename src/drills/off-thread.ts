/** One drill or the settled life, worked out on a thread of its own. */
import { Piscina } from "piscina";
import { NotFoundError } from "../foundation/index.ts";
import type { Site } from "../site/index.ts";
import type { ReportTask } from "./by-name.ts";
import type { NotFound } from "./report-worker.ts";
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

/** Asks the thread; a name that does not exist comes back as a value, since errors lose their class on the way. */
async function drill(task: ReportTask): Promise<DrillReport> {
  const answer = (await threads().run(task)) as DrillReport | NotFound;
  if ("notFound" in answer)
    throw new NotFoundError(answer.notFound.code, answer.notFound.message, answer.notFound.hint);
  return answer;
}

export const offThread = {
  drill,
  settled: (site: Site): Promise<SettledLife> =>
    threads().run({
      site,
      seed: 1,
      faultIds: [],
      circumstance: "",
      options: { stepMin: 1, only: [], everywhere: false },
    } satisfies ReportTask) as Promise<SettledLife>,
};
