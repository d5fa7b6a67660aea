import type { DrillResult } from "../../server/contract/index.ts";

/** What is not good enough about one fault, in whatever circumstances. */
export interface Finding {
  readonly key: string;
  /** The sentence of its worst drill. */
  readonly text: string;
  /** Its drills that are not good enough, worst first. */
  readonly drills: readonly DrillResult[];
}

/**
 * Drills of the same fault are one finding, at the place of the worst of them: what mends it by night mends it by day.
 *
 * @param drills In board order, which the findings keep.
 */
export function findingsOf(drills: readonly DrillResult[]): readonly Finding[] {
  const byFault = new Map<string, DrillResult[]>();
  for (const drill of drills) {
    if (drill.finding === null) continue;
    const key = drill.faults.map(({ part, mode }) => `${part}.${mode}`).join("+");
    const known = byFault.get(key);
    if (known === undefined) byFault.set(key, [drill]);
    else known.push(drill);
  }
  return [...byFault].map(([key, group]) => ({ key, text: group[0].finding ?? "", drills: group }));
}
