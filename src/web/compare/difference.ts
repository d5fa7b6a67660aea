/** What tells two rehearsals apart: which verdicts are better, which worse, and how many went from each to each. */
import type { DrillResult, VerdictKind } from "../../server/contract/index.ts";
import { ordered, VERDICTS } from "../board/order.ts";
import { type Move, type Moves, movesOf } from "../draft/moved.ts";
import { partsOf } from "../parts/names.tsx";

export interface Difference {
  /** Drills with another verdict that is worse afterwards, what is worst now first. */
  readonly worse: readonly Move[];
  /** The same for those that are better, what was worst before first. */
  readonly better: readonly Move[];
  /** One of the two could not be simulated: that is neither. */
  readonly neither: readonly Move[];
  /** The same verdict with another margin, the largest losses first, then the largest gains. */
  readonly margins: readonly Move[];
  readonly come: readonly DrillResult[];
  readonly gone: readonly DrillResult[];
  /** Drills that both have. */
  readonly common: number;
  readonly flow: Flow;
}

/** How many drills went from each verdict before to each verdict after, of those that both have. */
export interface Flow {
  /** The verdicts that occur, and all five that can be reached by a drill that was simulated. */
  readonly verdicts: readonly VerdictKind[];
  /** `counts[i][j]`: from `verdicts[i]` to `verdicts[j]`. */
  readonly counts: readonly (readonly number[])[];
}

/** @param whole whether `after` has all its drills; while it is rehearsed those that are missing are not gone */
export function differenceOf(
  before: readonly DrillResult[],
  after: readonly DrillResult[],
  whole: boolean,
): Difference {
  const moves = movesOf(before, after, whole);
  const told = moves.verdicts.filter((move) => !isUntold(move));
  return {
    worse: inOrderOf(
      told.filter(({ better }) => !better),
      "after",
    ),
    better: inOrderOf(
      told.filter(({ better }) => better),
      "before",
    ),
    neither: inOrderOf(moves.verdicts.filter(isUntold), "after"),
    margins: marginsInOrder(moves),
    come: ordered(moves.come),
    gone: ordered(moves.gone),
    common: after.length - moves.come.length,
    flow: flowOf(before, after),
  };
}

function isUntold({ before, after }: Move): boolean {
  return before.verdict === "not simulated" || after.verdict === "not simulated";
}

function inOrderOf(moves: readonly Move[], side: "before" | "after"): readonly Move[] {
  const places = new Map(ordered(moves.map((move) => move[side])).map(({ id }, place) => [id, place]));
  return [...moves].sort((a, b) => (places.get(a.after.id) ?? 0) - (places.get(b.after.id) ?? 0));
}

function marginsInOrder({ margins }: Moves): readonly Move[] {
  return [...margins.filter(({ better }) => !better), ...margins.filter(({ better }) => better)];
}

export function flowOf(before: readonly DrillResult[], after: readonly DrillResult[]): Flow {
  const old = new Map(before.map(({ id, verdict }) => [id, verdict]));
  const pairs = after.flatMap(({ id, verdict }) => {
    const was = old.get(id);
    return was === undefined ? [] : [{ was, verdict }];
  });
  const untold = pairs.some(({ was, verdict }) => was === "not simulated" || verdict === "not simulated");
  const verdicts = VERDICTS.filter((verdict) => untold || verdict !== "not simulated");
  const counts = verdicts.map(() => verdicts.map(() => 0));
  for (const { was, verdict } of pairs) counts[verdicts.indexOf(was)][verdicts.indexOf(verdict)] += 1;
  return { verdicts, counts };
}

export type Way = "all" | "worse" | "better";

export interface CompareChoice {
  readonly way: Way;
  readonly part: string | null;
}

/** Moves that fit: whichever way they went where all are wanted, and that begin with the chosen part. */
export function fitting(moves: readonly Move[], { way, part }: CompareChoice): readonly Move[] {
  return moves.filter(
    ({ after, better }) =>
      (way === "all" || better === (way === "better")) && (part === null || partsOf(after).includes(part)),
  );
}

export interface PartGroup {
  readonly part: string;
  readonly moves: readonly Move[];
}

/** Together by the part that fails first; groups keep the order of their first move. */
export function byPart(moves: readonly Move[]): readonly PartGroup[] {
  const groups = new Map<string, Move[]>();
  for (const move of moves) {
    const part = partsOf(move.after)[0] ?? "";
    const group = groups.get(part);
    if (group === undefined) groups.set(part, [move]);
    else group.push(move);
  }
  return [...groups].map(([part, members]) => ({ part, moves: members }));
}

/** The parts that a list of moves is about, by name. */
export function partsIn(moves: readonly Move[]): readonly string[] {
  return [...new Set(moves.flatMap(({ after }) => partsOf(after)))].sort();
}
