/** Worker thread that tells one drill in full, so that a server keeps answering meanwhile. */
import { type ReportTask, tellDrill } from "./by-name.ts";
import { type SettledLife, settledLife } from "./settled.ts";
import { Stage } from "./stage.ts";
import type { DrillReport } from "./types.ts";

export default function run(task: ReportTask): DrillReport | SettledLife {
  return task.faultIds.length === 0 ? settledLife(new Stage(task.site, task.seed)) : tellDrill(task);
}
