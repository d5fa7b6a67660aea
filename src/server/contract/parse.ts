import type {
  DrillReport,
  EditAnswer,
  FieldsAnswer,
  KeepConflict,
  Problem,
  RehearsalAnswer,
  SiteAnswer,
  TrialAnswer,
} from "./types.ts";

/**
 * The doors of the web app: each takes what came over the wire and gives it back typed, or says what is missing.
 *
 * They look at the shape that every view relies on, not at each of some hundred thousand numbers of a trace: the server of
 * the same version made it, and a door that reads every figure again would cost more than the figures.
 */
export function parseSiteAnswer(value: unknown): SiteAnswer {
  const answer = object(value, "site answer");
  text(answer, "file", "site answer");
  list(answer, "errors", "site answer");
  list(answer, "others", "site answer");
  list(answer, "defaults", "site answer");
  text(answer, "etag", "site answer");
  if (answer.site !== null) site(answer.site, "site answer.site");
  return value as SiteAnswer;
}

export function parseEditAnswer(value: unknown): EditAnswer {
  const answer = object(value, "edit answer");
  text(answer, "text", "edit answer");
  list(answer, "errors", "edit answer");
  list(answer, "defaults", "edit answer");
  if (answer.site !== null) site(answer.site, "edit answer.site");
  return value as EditAnswer;
}

export function parseKeepConflict(value: unknown): KeepConflict {
  parseProblem(value);
  parseSiteAnswer(object(value, "conflict").current);
  return value as KeepConflict;
}

export function parseTrialAnswer(value: unknown): TrialAnswer {
  const answer = object(value, "trial answer");
  text(answer, "id", "trial answer");
  for (const key of ["done", "total", "from"]) number(answer, key, "trial answer");
  list(answer, "errors", "trial answer");
  list(answer, "drills", "trial answer");
  if (answer.site !== null) site(answer.site, "trial answer.site");
  return value as TrialAnswer;
}

export function parseFieldsAnswer(value: unknown): FieldsAnswer {
  const answer = object(value, "fields answer");
  for (const key of ["site", "body", "device", "sensor", "rule", "person"]) list(answer, key, "fields answer");
  return value as FieldsAnswer;
}

export function parseRehearsalAnswer(value: unknown): RehearsalAnswer {
  const answer = object(value, "rehearsal answer");
  const states = ["none", "at work", "done", "stopped", "failed"];
  if (!states.includes(answer.state as string))
    fail("rehearsal answer.state", answer.state, `one of ${states.join(", ")}`);
  for (const key of ["version", "done", "total", "from"]) number(answer, key, "rehearsal answer");
  list(answer, "partial", "rehearsal answer");
  if (answer.report !== null)
    list(object(answer.report, "rehearsal answer.report"), "drills", "rehearsal answer.report");
  return value as RehearsalAnswer;
}

export function parseDrillReport(value: unknown): DrillReport {
  const report = object(value, "drill report");
  for (const key of ["id", "name", "verdict", "starts"]) text(report, key, "drill report");
  for (const key of ["faults", "events", "people", "thresholds", "later", "would_help"])
    list(report, key, "drill report");
  object(report.minutes, "drill report.minutes");
  trace(report.trace, "drill report.trace");
  trace(object(report.unattended, "drill report.unattended").trace, "drill report.unattended.trace");
  return value as DrillReport;
}

export function parseProblem(value: unknown): Problem {
  const problem = object(value, "problem");
  text(problem, "title", "problem");
  text(problem, "detail", "problem");
  number(problem, "status", "problem");
  return value as Problem;
}

/** The server has words that this page does not know, or the other way round: usually an old page in a new program. */
export class ContractError extends Error {
  override readonly name = "ContractError";
}

const SITE_LISTS = [
  "rooms",
  "circuits",
  "batteries",
  "links",
  "hubs",
  "systems",
  "bodies",
  "flows",
  "devices",
  "sensors",
  "rules",
  "people",
  "ladder",
  "circumstances",
];

function site(value: unknown, where: string): void {
  const site = object(value, where);
  text(site, "name", where);
  for (const key of SITE_LISTS) list(site, key, where);
}

function trace(value: unknown, where: string): void {
  const trace = object(value, where);
  list(trace, "t_min", where);
  object(trace.truth, `${where}.truth`);
  object(trace.sensed, `${where}.sensed`);
}

export function object(value: unknown, where: string): Record<string, unknown> {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return fail(where, value, "an object");
  return value as Record<string, unknown>;
}

export function text(holder: Record<string, unknown>, key: string, where: string): void {
  if (typeof holder[key] !== "string") fail(`${where}.${key}`, holder[key], "text");
}

function number(holder: Record<string, unknown>, key: string, where: string): void {
  if (typeof holder[key] !== "number") fail(`${where}.${key}`, holder[key], "a number");
}

export function list(holder: Record<string, unknown>, key: string, where: string): void {
  if (!Array.isArray(holder[key])) fail(`${where}.${key}`, holder[key], "a list");
}

function fail(where: string, have: unknown, want: string): never {
  const shown = JSON.stringify(have)?.slice(0, 40) ?? "nothing";
  throw new ContractError(`Cannot read ${where}: have ${shown}, want ${want}; load the page again`);
}
