/** Pairs put together by the parts of which they are made. Pure: drills in, cells out. */
import type { DrillResult, PairCell, PairCensus, PairDrill, PairsAnswer } from "./contract/index.ts";

/** Pairs named one by one in the answer: enough for a page to begin with. */
const WORST = 12;

/**
 * Whether harm comes before help. A part that waits unseen with nobody told is "unseen" too, but nothing is harmed by it yet: such a
 * drill does not fail.
 */
export function failsIn({ verdict, minutes }: Pick<DrillResult, "verdict" | "minutes">): boolean {
  return (verdict === "late" || verdict === "unseen") && minutes.harm_early !== null;
}

/** The pairs among the drills of a rehearsal, each held against its two faults alone. */
export function pairsOf(drills: readonly DrillResult[]): readonly PairDrill[] {
  const alone = new Map(drills.filter(({ faults }) => faults.length === 1).map((drill) => [drill.id, failsIn(drill)]));
  return drills
    .filter(({ faults }) => faults.length === 2)
    .map((drill) => {
      const { faults, circumstance } = drill;
      const parts = faults.map(({ part, mode }) => alone.get(`${part}.${mode}@${circumstance}`));
      const fails = failsIn(drill);
      return {
        id: drill.id,
        name: drill.name,
        first: faults[0].part,
        trigger: faults[1].part,
        circumstance,
        verdict: drill.verdict,
        margin_min: drill.margin_min,
        harm_early: drill.minutes.harm_early,
        finding: drill.finding,
        fails,
        only_together: onlyTogether(fails, parts),
        derived: drill.derived,
      };
    });
}

/** A pair is marked only where neither of its faults fails alone; null where that is not known. */
function onlyTogether(fails: boolean, alone: readonly (boolean | undefined)[]): boolean | null {
  if (!fails || alone.includes(true)) return false;
  return alone.includes(undefined) ? null : true;
}

/** Worst first: those that fail only together, then those that fail, each by earliest harm; then by verdict and margin. */
export function byHarm(a: PairDrill, b: PairDrill): number {
  return (
    classOf(a) - classOf(b) ||
    (a.fails && b.fails ? (a.harm_early ?? 0) - (b.harm_early ?? 0) : marginOf(a) - marginOf(b)) ||
    (a.id < b.id ? -1 : 1)
  );
}

const CALM: Readonly<Record<PairDrill["verdict"], number>> = {
  "handed over": 2,
  late: 2,
  handled: 3,
  unseen: 4,
  absorbed: 5,
  "not simulated": 6,
};

function classOf(pair: PairDrill): number {
  if (pair.only_together === true) return 0;
  return pair.fails ? 1 : CALM[pair.verdict];
}

function marginOf({ margin_min }: PairDrill): number {
  return margin_min ?? Number.MAX_VALUE;
}

/** One cell for each two parts with a pair that was tried, worst first. */
export function cellsOf(pairs: readonly PairDrill[], census: PairCensus): readonly PairCell[] {
  const counted = new Map(census.cells.map((count) => [`${count.first} ${count.trigger}`, count]));
  const groups = new Map<string, PairDrill[]>();
  for (const pair of pairs) {
    const key = `${pair.first} ${pair.trigger}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [pair]);
    else group.push(pair);
  }
  const cells = [...groups].map(([key, group]) => {
    const worst = group.reduce((one, other) => (byHarm(one, other) <= 0 ? one : other));
    const count = counted.get(key);
    const counts: Partial<Record<PairDrill["verdict"], number>> = {};
    for (const { verdict } of group) counts[verdict] = (counts[verdict] ?? 0) + 1;
    const cell: PairCell = {
      first: worst.first,
      trigger: worst.trigger,
      counts,
      fails: countOf(group, ({ fails }) => fails),
      only_together: countOf(group, ({ only_together }) => only_together === true),
      derived: countOf(group, ({ derived }) => derived !== null),
      left_out: {
        reversed: count?.reversed ?? 0,
        open: count?.open ?? 0,
        not_run: Math.max(0, (count?.planned ?? group.length) - group.length),
      },
      worst: {
        id: worst.id,
        name: worst.name,
        verdict: worst.verdict,
        margin_min: worst.margin_min,
        harm_early: worst.harm_early,
      },
    };
    return { worst, cell };
  });
  return cells.sort((a, b) => byHarm(a.worst, b.worst)).map(({ cell }) => cell);
}

/** Everything that the page of pairs begins with. */
export function pairsSummary(
  pairs: readonly PairDrill[],
  { cells: _, ...census }: PairCensus,
  cells: readonly PairCell[],
  elapsedS: number,
): PairsAnswer["pairs"] {
  const together = pairs.filter(({ only_together }) => only_together === true);
  return {
    circumstance: pairs[0]?.circumstance ?? "",
    elapsed_s: elapsedS,
    tried: pairs.length,
    fails: countOf(pairs, ({ fails }) => fails),
    only_together: together.length,
    derived: countOf(pairs, ({ derived }) => derived !== null),
    census,
    cells,
    worst: [...together].sort(byHarm).slice(0, WORST),
  };
}

function countOf<T>(all: readonly T[], is: (one: T) => boolean): number {
  return all.reduce((count, one) => count + (is(one) ? 1 : 0), 0);
}
