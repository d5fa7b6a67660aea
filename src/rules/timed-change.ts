/**
 * Which looks may be left out: the limits that a reading would have to cross, and the next time that runs out by itself.
 *
 * Looking only (1) at the first look at or after `nextTimedChangeS`, (2) whenever a reading has moved to another side of
 * one of its limits, onto it or off it, and (3) whenever a sensor starts or stops giving a value, or speaks again after
 * silence, gives the same starts, ends and commands as looking every time.
 */

import type { RuleTable } from "./rule-table.ts";
import {
  ACTIVE,
  BETWEEN,
  FREE,
  LAST_START_S,
  LOCK,
  OUTSIDE,
  RISING,
  ruleOffset,
  SILENT,
  UNTIL_SINCE_S,
  WHEN_SINCE_S,
} from "./rule-table.ts";
import { lastWordS, SAMPLE_EVERY_S } from "./sampled-terms.ts";

/** The result is always at least this much later than now, so that whoever steps by it gets on. */
const LEAST_STEP_S = 1e-3;

/** Numbers that matter: `sensor[i]` reading crosses `value[i]`. Sorted by sensor, then value, without repeats. */
export interface RuleLimits {
  readonly sensor: Int32Array;
  readonly value: Float64Array;
}

/** Limits at which some comparison may change at once. Sampled comparisons have none: they wait for their sampling time. */
export function limitsOf(table: RuleTable): RuleLimits {
  const limits: { sensor: number; value: number }[] = [];
  for (let term = 0; term < table.operator.length; term++) {
    const operator = table.operator[term];
    if (operator >= RISING) continue;
    limits.push({ sensor: table.sensor[term], value: table.low[term] });
    if (operator === BETWEEN || operator === OUTSIDE)
      limits.push({ sensor: table.sensor[term], value: table.high[term] });
  }
  limits.sort((a, b) => a.sensor - b.sensor || a.value - b.value);
  const kept = limits.filter((limit, place) => {
    const before = limits[place - 1];
    return before === undefined || before.sensor !== limit.sensor || before.value !== limit.value;
  });
  return {
    sensor: Int32Array.from(kept, (limit) => limit.sensor),
    value: Float64Array.from(kept, (limit) => limit.value),
  };
}

/**
 * Earliest later time, s, at which something may change though no reading does; Infinity where nothing can.
 *
 * Call it after `stepRules` with the same arguments. A caller who knows that a sensor will go on speaking may give
 * Infinity as its `heardAtS` here and is then not asked to look for its silence.
 */
export function nextTimedChangeS(
  table: RuleTable,
  state: Float64Array,
  nowS: number,
  minuteOfDay: number,
  _dayOfWeek: number,
  heardAtS: Float64Array,
): number {
  let nextS = Number.POSITIVE_INFINITY;
  if (table.hasSampledTerms) nextS = (Math.floor(nowS / SAMPLE_EVERY_S) + 1) * SAMPLE_EVERY_S;
  if (table.hasHours) nextS = Math.min(nextS, nowS + secondsToNextEdge(table, minuteOfDay));
  for (let term = 0; term < table.operator.length; term++) {
    if (table.operator[term] !== SILENT) continue;
    nextS = earlierLater(nextS, lastWordS(state, heardAtS[table.sensor[term]]) + table.low[term], nowS);
  }
  for (let rule = 0; rule < table.rules.length; rule++)
    nextS = earlierLater(nextS, ruleChangeS(table, state, rule), nowS);
  return Math.max(nextS, nowS + LEAST_STEP_S);
}

/** The earlier of two times, where the second counts only if it lies ahead. NaN never does. */
function earlierLater(nextS: number, candidateS: number, nowS: number): number {
  return candidateS > nowS && candidateS < nextS ? candidateS : nextS;
}

/** When this rule would start (hold and rest both over) or end (hold of `until` or time limit over); NaN or past where not. */
function ruleChangeS(table: RuleTable, state: Float64Array, rule: number): number {
  const at = ruleOffset(rule);
  const startS = state[at + LAST_START_S];
  if (state[at + ACTIVE] === 1) {
    const limitS = startS + (table.rules[rule].atMostS ?? Number.POSITIVE_INFINITY);
    const untilS = state[at + UNTIL_SINCE_S] + table.holdS[2 * rule + 1];
    return Number.isNaN(untilS) ? limitS : Math.min(untilS, limitS);
  }
  if (state[at + LOCK] !== FREE) return Number.NaN;
  return Math.max(state[at + WHEN_SINCE_S] + table.holdS[2 * rule], startS + table.rules[rule].notOftenerS);
}

/** Next beginning or end of any hours, or the next full hour if sooner: the clocks change on full hours. */
function secondsToNextEdge(table: RuleTable, minuteOfDay: number): number {
  let edgeMin = (Math.floor(minuteOfDay / 60) + 1) * 60;
  for (let rule = 0; rule < table.rules.length; rule++) {
    const windows = table.rules[rule].only;
    for (let place = 0; place < windows.length; place++) {
      const { fromMin, toMin } = windows[place];
      if (fromMin > minuteOfDay && fromMin < edgeMin) edgeMin = fromMin;
      if (toMin > minuteOfDay && toMin < edgeMin) edgeMin = toMin;
    }
  }
  return (edgeMin - minuteOfDay) * 60;
}
