import type { Remedy } from "../../planning/index.ts";
import { ContractError } from "./parse.ts";

export type { Remedy, RoughCost } from "../../planning/index.ts";

/** GET /api/remedies: changes that aim at findings of the last rehearsal of the open site. */
export interface RemediesAnswer {
  /** The version of the file that the edits are meant for, as GET /api/site gives it. */
  readonly etag: string;
  /** False until a rehearsal has come to its end: then nothing is known that could be changed. */
  readonly rehearsed: boolean;
  /** What to try first stands first. */
  readonly remedies: readonly Remedy[];
}

/** The door of the answer: every remedy has what a preview shows. */
export function parseRemediesAnswer(value: unknown): RemediesAnswer {
  const answer = record(value, "remedies answer");
  if (typeof answer.etag !== "string") fail("remedies answer.etag", answer.etag, "text");
  if (typeof answer.rehearsed !== "boolean") fail("remedies answer.rehearsed", answer.rehearsed, "true or false");
  if (!Array.isArray(answer.remedies)) return fail("remedies answer.remedies", answer.remedies, "a list");
  for (const [index, one] of answer.remedies.entries()) remedy(one, `remedies answer.remedies[${index}]`);
  return value as RemediesAnswer;
}

function remedy(value: unknown, where: string): void {
  const one = record(value, where);
  for (const key of ["id", "title", "kind", "why", "needs"])
    if (typeof one[key] !== "string") fail(`${where}.${key}`, one[key], "text");
  for (const key of ["parts", "aims", "edits"])
    if (!Array.isArray(one[key])) fail(`${where}.${key}`, one[key], "a list");
  for (const key of ["minutesOnce", "minutesPerMonth"])
    if (typeof one[key] !== "number") fail(`${where}.${key}`, one[key], "a number");
  const cost = record(one.costEUR, `${where}.costEUR`);
  if (typeof cost.words !== "string") fail(`${where}.costEUR.words`, cost.words, "text");
}

function record(value: unknown, where: string): Record<string, unknown> {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return fail(where, value, "an object");
  return value as Record<string, unknown>;
}

function fail(where: string, have: unknown, want: string): never {
  const shown = JSON.stringify(have)?.slice(0, 40) ?? "nothing";
  throw new ContractError(`Cannot read ${where}: have ${shown}, want ${want}; load the page again`);
}
