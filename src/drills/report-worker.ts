/** Worker thread that tells one drill in full, so that a server keeps answering meanwhile. */
import { NotFoundError } from "../foundation/index.ts";
import { type ReportTask, tellDrill } from "./by-name.ts";
import { type SettledLife, settledLife } from "./settled.ts";
import { Stage } from "./stage.ts";
import type { DrillReport } from "./types.ts";

/** A part, fault or circumstance that the site does not have. */
export interface NotFound {
  readonly notFound: { readonly code: string; readonly message: string; readonly hint: string };
}

export default function run(task: ReportTask): DrillReport | SettledLife | NotFound {
  if (task.faultIds.length === 0) return settledLife(new Stage(task.site, task.seed));
  try {
    return tellDrill(task);
  } catch (error) {
    if (!(error instanceof NotFoundError)) throw error;
    return { notFound: { code: error.code, message: error.message, hint: error.hint } };
  }
}
