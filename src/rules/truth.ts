/** Whether a comparison or a condition holds: yes, no, or not known because a reading is missing. */

import type { RuleTable } from "./rule-table.ts";
import {
  ABOVE,
  BELOW,
  BETWEEN,
  DIFFERS,
  DRY,
  FALLING,
  OUTSIDE,
  RISING,
  SILENT,
  UNCHANGED,
  WET,
  YES_FROM,
} from "./rule-table.ts";
import { SAMPLED } from "./sampled-terms.ts";

export const NO = 0;
export const YES = 1;
/** Never counts as satisfied, and never as "has stopped" either. */
export const UNKNOWN = -1;

/** Whether one comparison holds. `readings[i]` is NaN where sensor i gives no value. */
export function termTruth(
  table: RuleTable,
  state: Float64Array,
  term: number,
  nowS: number,
  readings: Float64Array,
): number {
  const operator = table.operator[term];
  const low = table.low[term];
  if (operator === SILENT) return nowS >= state[table.slot[term] + SAMPLED] + low ? YES : NO;
  const reading = readings[table.sensor[term]];
  if (Number.isNaN(reading)) return UNKNOWN;
  if (operator >= RISING) return sampledTruth(table, state, term, readings);
  return holds(operator, reading, low, table.high[term]) ? YES : NO;
}

function holds(operator: number, reading: number, low: number, high: number): boolean {
  switch (operator) {
    case BELOW:
      return reading < low;
    case ABOVE:
      return reading > low;
    case BETWEEN:
      return reading >= low && reading <= high;
    case OUTSIDE:
      return reading < low || reading > high;
    case WET:
      return reading >= YES_FROM;
    case DRY:
      return reading < YES_FROM;
    default:
      return false;
  }
}

function sampledTruth(table: RuleTable, state: Float64Array, term: number, readings: Float64Array): number {
  const operator = table.operator[term];
  const sampled = state[table.slot[term] + SAMPLED];
  if (Number.isNaN(sampled)) return UNKNOWN;
  if (operator === DIFFERS && Number.isNaN(readings[table.otherSensor[term]])) return UNKNOWN;
  if (operator === UNCHANGED) return sampled >= table.low[term] ? YES : NO;
  const size = operator === FALLING ? -sampled : sampled;
  return size > table.low[term] ? YES : NO;
}

/** One comparison that fails makes the condition fail, even while another is not known. */
export function conditionTruth(
  table: RuleTable,
  state: Float64Array,
  condition: number,
  nowS: number,
  readings: Float64Array,
): number {
  let truth = YES;
  for (let term = table.firstTerm[condition]; term < table.firstTerm[condition + 1]; term++) {
    const one = termTruth(table, state, term, nowS, readings);
    if (one === NO) return NO;
    if (one === UNKNOWN) truth = UNKNOWN;
  }
  return truth;
}
