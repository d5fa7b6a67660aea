/**
 * Terms that need the past: rates, differences, unchanged readings, silence.
 *
 * Rates, differences and unchanged readings are worked out at sampling times only, the whole multiples of five minutes
 * (or the first look after one), and stand still between them. That bounds the memory, makes them steady against noise,
 * and lets whoever drives the rules leave out the looks between: the result does not depend on them.
 */

import type { RuleTable } from "./rule-table.ts";
import { BEGAN_S, DIFFERS, LAST_SAMPLING, RATE_SAMPLES, RISING, SILENT, UNCHANGED } from "./rule-table.ts";

export const SAMPLE_EVERY_S = 300;

/** Span over which a rate is measured, s. */
export const RATE_WINDOW_S = (RATE_SAMPLES - 1) * SAMPLE_EVERY_S;

/** Fewer readings than this, or readings that span less than half the window, give no rate. */
const RATE_READINGS_LEAST = 4;

/** In every term with a state, the number that it compares stands first: rate per hour, difference, s, time of last word. */
export const SAMPLED = 0;
const RATE_COUNT = 1;
const RATE_TIMES_S = 2;
const RATE_VALUES = RATE_TIMES_S + RATE_SAMPLES;
const UNCHANGED_VALUE = 1;
const UNCHANGED_FROM_S = 2;

/** Empties what the terms remember; until the first sampling they know nothing. */
export function initTerms(table: RuleTable, state: Float64Array): void {
  for (let term = 0; term < table.slot.length; term++) {
    const slot = table.slot[term];
    if (slot < 0) continue;
    state[slot + SAMPLED] = table.operator[term] === SILENT ? state[BEGAN_S] : Number.NaN;
    if (table.operator[term] === UNCHANGED) {
      state[slot + UNCHANGED_VALUE] = Number.NaN;
      state[slot + UNCHANGED_FROM_S] = Number.NaN;
    } else if (table.operator[term] < DIFFERS) {
      state[slot + RATE_COUNT] = 0;
      state.fill(Number.NEGATIVE_INFINITY, slot + RATE_TIMES_S, slot + RATE_VALUES);
      state.fill(0, slot + RATE_VALUES, slot + RATE_VALUES + RATE_SAMPLES);
    }
  }
}

/** Brings the remembered numbers up to this look. */
export function sampleTerms(
  table: RuleTable,
  state: Float64Array,
  nowS: number,
  readings: Float64Array,
  heardAtS: Float64Array,
): void {
  const sampling = Math.floor(nowS / SAMPLE_EVERY_S);
  const isSampling = sampling !== state[LAST_SAMPLING];
  state[LAST_SAMPLING] = sampling;
  for (let term = 0; term < table.slot.length; term++) {
    const slot = table.slot[term];
    if (slot < 0) continue;
    const operator = table.operator[term];
    const sensor = table.sensor[term];
    if (operator === SILENT) state[slot + SAMPLED] = lastWordS(state, heardAtS[sensor]);
    else if (!isSampling) continue;
    else if (operator === DIFFERS)
      state[slot + SAMPLED] = Math.abs(readings[sensor] - readings[table.otherSensor[term]]);
    else if (operator === UNCHANGED) sampleUnchanged(state, slot, sampling * SAMPLE_EVERY_S, readings[sensor]);
    else if (operator >= RISING) sampleRate(state, slot, nowS, readings[sensor], heardAtS[sensor]);
  }
}

/** A sensor that has not spoken yet counts as heard when the state was begun: every start has its time of grace. */
export function lastWordS(state: Float64Array, heardAtS: number): number {
  return Number.isNaN(heardAtS) ? state[BEGAN_S] : Math.max(heardAtS, state[BEGAN_S]);
}

/** A missing reading breaks the sameness, because NaN equals nothing. */
function sampleUnchanged(state: Float64Array, slot: number, samplingS: number, reading: number): void {
  if (reading !== state[slot + UNCHANGED_VALUE]) {
    state[slot + UNCHANGED_VALUE] = reading;
    state[slot + UNCHANGED_FROM_S] = samplingS;
  }
  state[slot + SAMPLED] = Number.isNaN(reading) ? Number.NaN : samplingS - state[slot + UNCHANGED_FROM_S];
}

/** Only a new word of the sensor is a new reading: a tester that speaks twice a day must not look like a plateau and a leap. */
function sampleRate(state: Float64Array, slot: number, nowS: number, reading: number, heardAtS: number): void {
  const atS = Math.min(heardAtS, nowS);
  const count = state[slot + RATE_COUNT];
  const newestS = state[slot + RATE_TIMES_S + ((count + RATE_SAMPLES - 1) % RATE_SAMPLES)];
  if (!Number.isNaN(reading) && atS > newestS) {
    const place = count % RATE_SAMPLES;
    state[slot + RATE_TIMES_S + place] = atS;
    state[slot + RATE_VALUES + place] = reading;
    state[slot + RATE_COUNT] = count + 1;
  }
  state[slot + SAMPLED] = ratePerH(state, slot, nowS);
}

/** Slope of the least-squares line through the readings of the last half hour, per hour; NaN where there are too few. */
function ratePerH(state: Float64Array, slot: number, nowS: number): number {
  const oldestS = nowS - RATE_WINDOW_S - SAMPLE_EVERY_S;
  let count = 0;
  let sumAge = 0;
  let sumValue = 0;
  let first = Number.POSITIVE_INFINITY;
  let last = Number.NEGATIVE_INFINITY;
  for (let place = 0; place < RATE_SAMPLES; place++) {
    const atS = state[slot + RATE_TIMES_S + place];
    if (atS < oldestS) continue;
    count++;
    sumAge += atS - nowS;
    sumValue += state[slot + RATE_VALUES + place];
    first = Math.min(first, atS);
    last = Math.max(last, atS);
  }
  if (count < RATE_READINGS_LEAST || last - first < RATE_WINDOW_S / 2) return Number.NaN;
  let squares = 0;
  let products = 0;
  for (let place = 0; place < RATE_SAMPLES; place++) {
    const atS = state[slot + RATE_TIMES_S + place];
    if (atS < oldestS) continue;
    const age = atS - nowS - sumAge / count;
    squares += age * age;
    products += age * (state[slot + RATE_VALUES + place] - sumValue / count);
  }
  return (products / squares) * 3600;
}
