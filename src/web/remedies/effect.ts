/** What a tried change does: which verdicts move, and whether what it aimed for did. */
import type { DrillResult, Remedy } from "../../server/contract/index.ts";
import { differenceOf } from "../compare/difference.ts";
import type { Move } from "../draft/moved.ts";

export interface Effect {
  /** Verdicts that are better, and those that are worse. */
  readonly better: readonly Move[];
  readonly worse: readonly Move[];
  /** Drills that it aims at and that have been tried, and those of them that have no finding any more. */
  readonly aimed: number;
  readonly closed: number;
  /** Drills that have a finding now and had none before, or were not there. */
  readonly opened: number;
  /** Whether all drills have been tried. */
  readonly whole: boolean;
}

export function effectOf(
  remedy: Pick<Remedy, "aims">,
  before: readonly DrillResult[],
  after: readonly DrillResult[],
  whole: boolean,
): Effect {
  const { better, worse } = differenceOf(before, after, whole);
  const then = new Map(after.map((drill) => [drill.id, drill]));
  const had = new Set(before.filter(({ finding }) => finding !== null).map(({ id }) => id));
  const aimed = remedy.aims.filter((id) => had.has(id) && (whole || then.has(id)));
  return {
    better,
    worse,
    aimed: aimed.length,
    closed: aimed.filter((id) => (then.get(id)?.finding ?? null) === null).length,
    opened: after.filter(({ id, finding }) => finding !== null && !had.has(id)).length,
    whole,
  };
}
