/** What the view of pairs and the server say to each other. */
import type { PairCensus } from "../../drills/index.ts";
import { ContractError } from "./parse.ts";
import type { RehearsalState, VerdictKind } from "./types.ts";

export type { PairCensus } from "../../drills/index.ts";

/** One pair: a fault that was there unseen, then another. */
export interface PairDrill {
  /** Of its drill: `part.mode+part.mode@circumstance`. */
  readonly id: string;
  readonly name: string;
  readonly first: string;
  readonly trigger: string;
  readonly circumstance: string;
  readonly verdict: VerdictKind;
  readonly margin_min: number | null;
  readonly harm_early: number | null;
  readonly finding: string | null;
  /** Harm comes before help: the pair fails. */
  readonly fails: boolean;
  /** The pair fails though neither fault does alone; null where a fault alone has not been tried. */
  readonly only_together: boolean | null;
  /** Why it needed no run of its own; null where it was run. */
  readonly derived: string | null;
}

/** All pairs of one part that failed unseen, then another. */
export interface PairCell {
  readonly first: string;
  readonly trigger: string;
  readonly counts: Partial<Readonly<Record<VerdictKind, number>>>;
  readonly fails: number;
  readonly only_together: number;
  readonly derived: number;
  /** Left out: drilled the other way round, or neither waits unseen. */
  readonly left_out: { readonly reversed: number; readonly open: number; readonly not_run: number };
  /** The worst pair: one that fails only together, else one that fails, else the least margin. */
  readonly worst: Pick<PairDrill, "id" | "name" | "verdict" | "margin_min" | "harm_early">;
}

/** GET /api/pairs. */
export interface PairsAnswer {
  readonly state: RehearsalState;
  readonly done: number;
  readonly total: number;
  readonly secondsLeft: number | null;
  readonly problem: string | null;
  /** Null until a run has ended or was stopped. */
  readonly pairs: {
    readonly circumstance: string;
    readonly elapsed_s: number;
    readonly tried: number;
    readonly fails: number;
    readonly only_together: number;
    readonly derived: number;
    readonly census: Omit<PairCensus, "cells">;
    /** Cells with a pair that was tried; those that fail only together first, then those that fail, each by earliest harm. */
    readonly cells: readonly PairCell[];
    /** The worst pairs that fail only together. */
    readonly worst: readonly PairDrill[];
  } | null;
}

/** GET /api/pairs/cell?first=&trigger=: worst first. */
export interface PairCellAnswer {
  readonly first: string;
  readonly trigger: string;
  readonly drills: readonly PairDrill[];
}

export function parsePairsAnswer(value: unknown): PairsAnswer {
  const answer = objectOf(value, "pairs answer");
  if (typeof answer.state !== "string") fail("pairs answer.state", "text");
  for (const key of ["done", "total"]) if (typeof answer[key] !== "number") fail(`pairs answer.${key}`, "a number");
  if (answer.pairs !== null) {
    const pairs = objectOf(answer.pairs, "pairs answer.pairs");
    for (const key of ["cells", "worst"]) if (!Array.isArray(pairs[key])) fail(`pairs answer.pairs.${key}`, "a list");
    objectOf(pairs.census, "pairs answer.pairs.census");
  }
  return value as PairsAnswer;
}

export function parsePairCellAnswer(value: unknown): PairCellAnswer {
  const answer = objectOf(value, "answer for a pair of parts");
  if (!Array.isArray(answer.drills)) fail("answer for a pair of parts.drills", "a list");
  return value as PairCellAnswer;
}

function objectOf(value: unknown, where: string): Record<string, unknown> {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return fail(where, "an object");
  return value as Record<string, unknown>;
}

function fail(where: string, want: string): never {
  throw new ContractError(`Cannot read ${where}: want ${want}; load the page again`);
}
