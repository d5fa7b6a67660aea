/** Drills asked for by name, as people and programs do. */
import { NotFoundError } from "../foundation/index.ts";
import type { Circumstance, Site } from "../site/index.ts";
import { type Fault, findFault } from "./faults/index.ts";
import { type ReportOptions, reportDrill } from "./report.ts";
import { Stage } from "./stage.ts";
import type { DrillReport } from "./types.ts";

export interface ReportTask {
  readonly site: Site;
  readonly seed: number;
  /** `part.mode` each; none: only the settled life is wanted. */
  readonly faultIds: readonly string[];
  readonly circumstance: string;
  readonly options: ReportOptions;
}

/** Faults of a site by id; throws NotFoundError with a hint. */
function faultsById(site: Site, ids: readonly string[]): readonly Fault[] {
  return ids.map((id) => {
    const found = findFault(site, id);
    if ("error" in found) throw new NotFoundError("drill/unknown-fault", found.error, found.hint);
    return found;
  });
}

export function circumstanceNamed(site: Site, id: string): Circumstance {
  const found = site.circumstances.find((one) => one.id === id);
  if (!found) {
    const known = site.circumstances.map((one) => one.id).join(", ");
    throw new NotFoundError(
      "drill/unknown-circumstance",
      `No circumstance is called '${id}'`,
      `this site has ${known}`,
    );
  }
  return found;
}

/** Runs the drill of a task and tells all of it. */
export function tellDrill(task: ReportTask): DrillReport {
  const faults = faultsById(task.site, task.faultIds);
  return reportDrill(
    new Stage(task.site, task.seed),
    faults,
    circumstanceNamed(task.site, task.circumstance),
    task.options,
  );
}
