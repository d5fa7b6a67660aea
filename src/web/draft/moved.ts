/** What a change does to the verdicts: which move, which way, and which drills come or go. */
import type { DrillResult, VerdictKind } from "../../server/contract/index.ts";

export interface Move {
  readonly before: DrillResult;
  readonly after: DrillResult;
  /** True where it is better afterwards: another verdict, or the same with more margin. */
  readonly better: boolean;
}

export interface Moves {
  /** Drills whose verdict is another, those that move furthest first. */
  readonly verdicts: readonly Move[];
  /** Drills of the same verdict whose margin is another by more than a minute. */
  readonly margins: readonly Move[];
  /** Drills that there were not before: of new parts. */
  readonly come: readonly DrillResult[];
  /** Drills that there are no more: of parts that are gone. */
  readonly gone: readonly DrillResult[];
  readonly same: number;
}

/** From best to worst. A drill that was not simulated tells nothing, and moves neither way. */
const RANK: Readonly<Record<VerdictKind, number>> = {
  absorbed: 0,
  handled: 1,
  "handed over": 2,
  "not simulated": 2,
  late: 3,
  unseen: 4,
};
/** Margins are found by search to about a minute. */
const MARGIN_NOISE_MIN = 1;

/** @param whole whether `after` has all its drills; while it is being rehearsed those that are missing are not yet gone */
export function movesOf(before: readonly DrillResult[], after: readonly DrillResult[], whole: boolean): Moves {
  const old = new Map(before.map((drill) => [drill.id, drill]));
  const ids = new Set(after.map(({ id }) => id));
  const verdicts: Move[] = [];
  const margins: Move[] = [];
  const come: DrillResult[] = [];
  let same = 0;
  for (const drill of after) {
    const was = old.get(drill.id);
    if (was === undefined) come.push(drill);
    else if (was.verdict !== drill.verdict)
      verdicts.push({ before: was, after: drill, better: RANK[drill.verdict] < RANK[was.verdict] });
    else {
      const gained = (drill.margin_min ?? 0) - (was.margin_min ?? 0);
      const both = drill.margin_min !== null && was.margin_min !== null;
      if (both && Math.abs(gained) > MARGIN_NOISE_MIN) margins.push({ before: was, after: drill, better: gained > 0 });
      else same += 1;
    }
  }
  return {
    verdicts: verdicts.sort((a, b) => distance(b) - distance(a) || (a.after.id < b.after.id ? -1 : 1)),
    margins: margins.sort((a, b) => Math.abs(gain(b)) - Math.abs(gain(a)) || (a.after.id < b.after.id ? -1 : 1)),
    come,
    gone: whole ? before.filter(({ id }) => !ids.has(id)) : [],
    same,
  };
}

function distance({ before, after }: Move): number {
  return Math.abs(RANK[before.verdict] - RANK[after.verdict]);
}

/** Minutes of margin won. */
export function gain({ before, after }: Move): number {
  return (after.margin_min ?? 0) - (before.margin_min ?? 0);
}
