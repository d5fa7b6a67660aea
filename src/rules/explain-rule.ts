/** Why a rule did or did not fire, in words for a person. */
import type { Comparison, ConditionSpec, RuleSpec } from "../site/index.ts";
import { conditionWords, hoursWords } from "./describe-rule.ts";
import type { RuleTable } from "./rule-table.ts";
import {
  ACTIVE,
  FREE,
  IN_HOURS,
  LAST_START_S,
  LOCK,
  LOCKED_BY_LIMIT,
  ruleOffset,
  UNTIL_SINCE_S,
  WHEN_SINCE_S,
} from "./rule-table.ts";
import { comparisonWords, spanWords, withUnit } from "./rule-words.ts";
import { RATE_WINDOW_S, SAMPLED } from "./sampled-terms.ts";
import { termTruth, UNKNOWN, YES } from "./truth.ts";

/**
 * One sentence about a rule after a look, e.g. "did not fire: display-temp read 25.9 degC, needs above 27.2 degC for 10 min".
 *
 * @param readings The readings of that look.
 * @param nowS     The time of that look, s.
 */
export function explainRule(
  table: RuleTable,
  state: Float64Array,
  rule: number,
  readings: Float64Array,
  nowS: number,
): string {
  const spec = table.rules[rule];
  const at = ruleOffset(rule);
  const whenS = nowS - state[at + WHEN_SINCE_S];
  if (state[at + ACTIVE] === 1) return explainActive(table, state, rule, readings, nowS);
  if (state[at + LOCK] === LOCKED_BY_LIMIT) {
    return `did not fire again: it reached its limit of ${spanWords(spec.atMostS ?? 0)} and waits until its condition has been away once`;
  }
  if (state[at + LOCK] !== FREE && spec.until !== null) {
    return `did not fire again: what ends it still holds (${conditionWords(spec.until, unitOf(table))})`;
  }
  const lacking = lacks(table, state, rule, readings, nowS);
  if (lacking.length > 0) return `did not fire: ${lacking.join("; ")}${holdWords(spec.when)}`;
  if (!(whenS >= spec.when.forS)) {
    const what = conditionWords({ ...spec.when, forS: 0 }, unitOf(table));
    return `did not fire yet: its condition (${what}) has held for ${spanWords(whenS || 0)}, needs ${spanWords(spec.when.forS)}`;
  }
  if (state[at + IN_HOURS] === 0)
    return `did not fire: its condition holds, but it works only in these hours: ${hoursWords(spec)}`;
  const restedS = nowS - state[at + LAST_START_S];
  return `did not fire: its condition holds, but it fired ${spanWords(restedS)} ago and does so at most once in ${spanWords(spec.notOftenerS)}`;
}

function explainActive(
  table: RuleTable,
  state: Float64Array,
  rule: number,
  readings: Float64Array,
  nowS: number,
): string {
  const spec = table.rules[rule];
  const at = ruleOffset(rule);
  const first = firstTermOf(table, rule);
  const seen = spec.when.all.map(
    (term, place) => `${term.sensor} ${readWords(table, state, first + place, term.is, readings, nowS)}`,
  );
  const sinceS = nowS - state[at + LAST_START_S];
  const begun = sinceS < 1 ? "fired now" : `fired ${spanWords(sinceS)} ago and is active`;
  return `${begun}: ${seen.join("; ")}; ${endWords(table, state, spec, at, nowS)}${overruledWords(table, state, rule)}`;
}

function endWords(table: RuleTable, state: Float64Array, spec: RuleSpec, at: number, nowS: number): string {
  const limit = spec.atMostS === null ? "" : `, and after ${spanWords(spec.atMostS)} at most`;
  if (spec.until === null) return `ends as soon as its condition no longer holds${limit}`;
  const heldS = nowS - state[at + UNTIL_SINCE_S];
  const held = Number.isNaN(heldS) ? "" : ` (so for ${spanWords(heldS)} by now)`;
  return `ends when ${conditionWords(spec.until, unitOf(table))}${held}${limit}`;
}

/** Off beats on: names the rule that wins over this one. */
function overruledWords(table: RuleTable, state: Float64Array, rule: number): string {
  const wantedOn = table.rules[rule].act.filter((act) => act.state === "on");
  for (const { device } of wantedOn) {
    const stronger = table.rules.find(
      (other, place) =>
        state[ruleOffset(place) + ACTIVE] === 1 &&
        other.act.some((act) => act.device === device && act.state === "off"),
    );
    if (stronger !== undefined) return `; ${device} stays off, because ${stronger.id} wants it off and off beats on`;
  }
  return "";
}

/** The comparisons that do not hold: what was read and what is needed. */
function lacks(table: RuleTable, state: Float64Array, rule: number, readings: Float64Array, nowS: number): string[] {
  const first = firstTermOf(table, rule);
  return table.rules[rule].when.all.flatMap(({ sensor, is }, place) => {
    const truth = termTruth(table, state, first + place, nowS, readings);
    if (truth === YES) return [];
    const needs = `needs ${comparisonWords(is, unitOf(table)(sensor))}`;
    if (truth === UNKNOWN) return [`${missingWords(table, first + place, sensor, is, readings)}, ${needs}`];
    return [`${sensor} ${readWords(table, state, first + place, is, readings, nowS)}, ${needs}`];
  });
}

function missingWords(table: RuleTable, term: number, sensor: string, is: Comparison, readings: Float64Array): string {
  if (Number.isNaN(readings[table.sensor[term]])) return `${sensor} gives no reading`;
  if (is.op === "rising" || is.op === "falling")
    return `${sensor} has too few readings in ${spanWords(RATE_WINDOW_S)} for a rate`;
  if (is.op === "differs") return `${sensor} or ${is.from} gave no reading`;
  return `${sensor} has only just begun to give readings`;
}

/** What the rule saw of one sensor, as a verb phrase. */
function readWords(
  table: RuleTable,
  state: Float64Array,
  term: number,
  is: Comparison,
  readings: Float64Array,
  nowS: number,
): string {
  const unit = table.units[table.sensor[term]];
  const reading = readings[table.sensor[term]];
  const sampled = table.slot[term] < 0 ? Number.NaN : state[table.slot[term] + SAMPLED];
  switch (is.op) {
    case "rising":
    case "falling":
      return `${sampled < 0 ? "fell" : "rose"} by ${withUnit(rounded(Math.abs(sampled)), unit)} an hour`;
    case "differs":
      return `was ${withUnit(rounded(sampled), unit)} away from ${is.from}`;
    case "unchanged":
      return `was unchanged for ${spanWords(sampled)}`;
    case "silent":
      return nowS > sampled ? `has not been heard for ${spanWords(nowS - sampled)}` : "was heard just now";
    case "wet":
    case "dry":
      return `was ${reading >= table.low[term] ? "wet" : "dry"}`;
    case "present":
    case "absent":
      return `was ${reading >= table.low[term] ? "present" : "absent"}`;
    default:
      return `read ${withUnit(rounded(reading), unit)}`;
  }
}

function firstTermOf(table: RuleTable, rule: number): number {
  return table.firstTerm[2 * rule];
}

function holdWords(condition: ConditionSpec): string {
  if (condition.forS === 0) return "";
  return `${condition.all.length > 1 ? ", all together" : ""} for ${spanWords(condition.forS)}`;
}

function unitOf(table: RuleTable): (sensor: string) => string {
  return (sensor) => table.units[table.sensorIds.indexOf(sensor)] ?? "";
}

/** Readings carry noise: five digits say enough. */
function rounded(value: number): number {
  return Number(value.toPrecision(5));
}
