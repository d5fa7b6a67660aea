/** What a changed site does to the verdicts of the one before. */
import type { DrillResult } from "../../src/drills/index.ts";
import type { Remedy } from "../../src/planning/index.ts";

export interface Effect {
  readonly remedy: Remedy;
  /** Ids of the drills that it aims at and that are better, or whose harm comes much later. */
  readonly asAimed: readonly string[];
  /** All drills that are better. */
  readonly better: readonly string[];
  /** Of these, those without a finding now. */
  readonly closed: readonly string[];
  /** Drills that have a finding now and had none, or a worse verdict than before. */
  readonly worse: readonly string[];
  /** Drills of the same verdict in which harm comes much later. */
  readonly later: readonly string[];
  /** Drills of the same verdict in which harm comes clearly sooner. */
  readonly sooner: readonly string[];
  /** Findings of faults that the change brought along. */
  readonly fresh: readonly string[];
}

const RANK = { unseen: 0, late: 1, "handed over": 2, handled: 3, absorbed: 4, "not simulated": 4 } as const;

/** No finding any more, no harm any more, or a better verdict. */
function isBetter(now: DrillResult, was: DrillResult): boolean {
  if (was.finding === null) return false;
  if (was.harm === null && now.harm !== null) return false;
  return now.finding === null || (was.harm !== null && now.harm === null) || RANK[now.verdict] > RANK[was.verdict];
}

/** A finding where there was none, harm where there was none, or a worse verdict on the same harm. */
function isWorse(now: DrillResult, was: DrillResult): boolean {
  if (now.finding === null || isBetter(now, was)) return false;
  return was.finding === null || (was.harm === null && now.harm !== null) || RANK[now.verdict] < RANK[was.verdict];
}

/** How many times as late harm comes, where the verdict and the finding are the same; NaN otherwise. */
function stretch(now: DrillResult, was: DrillResult): number {
  const { harm_early: then } = was.minutes;
  const { harm_early: next } = now.minutes;
  const isSame = now.verdict === was.verdict && now.finding !== null && then !== null && next !== null;
  return isSame ? next / then : Number.NaN;
}

const MUCH_LATER = 3;
const SOONER = 0.8;

export function compare(remedy: Remedy, before: readonly DrillResult[], after: readonly DrillResult[]): Effect {
  const was = new Map(before.map((drill) => [drill.id, drill]));
  const now = new Map(after.map((drill) => [drill.id, drill]));
  const better = before.filter((drill) => {
    const changed = now.get(drill.id);
    return changed === undefined ? drill.finding !== null : isBetter(changed, drill);
  });
  const stretched = (isSo: (times: number) => boolean) =>
    after.filter((drill) => isSo(stretch(drill, was.get(drill.id) ?? drill))).map(({ id }) => id);
  const later = stretched((times) => times >= MUCH_LATER);
  const moved = new Set([...better.map(({ id }) => id), ...later]);
  return {
    remedy,
    asAimed: remedy.aims.filter((id) => moved.has(id)),
    better: better.map(({ id }) => id),
    closed: better.filter(({ id }) => (now.get(id)?.finding ?? null) === null).map(({ id }) => id),
    later,
    worse: after.filter((drill) => was.has(drill.id) && isWorse(drill, was.get(drill.id) ?? drill)).map(({ id }) => id),
    sooner: stretched((times) => times < SOONER),
    fresh: after.filter((drill) => !was.has(drill.id) && drill.finding !== null).map(({ id }) => id),
  };
}
