/**
 * Rules as flat tables: made once, frozen, shared by every run.
 *
 * A term is one comparison of one sensor. A condition is a run of terms that must all hold. Condition `2 * rule` is the
 * rule's `when`, condition `2 * rule + 1` its `until` (empty where the rule has none).
 */
import { didYouMean, InputError } from "../foundation/index.ts";
import type { Comparison, ConditionSpec, RuleSpec } from "../site/index.ts";

export const BELOW = 0;
export const ABOVE = 1;
export const BETWEEN = 2;
export const OUTSIDE = 3;
export const WET = 4;
export const DRY = 5;
/** From here on a term keeps something in the state: a sampled number or the time of the last word. */
export const RISING = 6;
export const FALLING = 7;
export const DIFFERS = 8;
export const UNCHANGED = 9;
export const SILENT = 10;

/** At and above this a yes-or-no sensor says wet or present, below it dry or absent. */
export const YES_FROM = 0.5;

/** Readings that the rate of one term remembers: half an hour of samples, both ends included. */
export const RATE_SAMPLES = 7;

/** State before the rules: when the state was begun, s; number of the last sampling time. */
export const BEGAN_S = 0;
export const LAST_SAMPLING = 1;
const HEADER_SIZE = 2;

/** State of one rule, counted from `ruleOffset`. Times are s, NaN where there is none. */
export const WHEN_SINCE_S = 0;
export const UNTIL_SINCE_S = 1;
export const AWAY_SINCE_S = 2;
export const MAY_TELL = 3;
export const ACTIVE = 4;
export const LAST_START_S = 5;
export const LOCK = 6;
export const IN_HOURS = 7;
const RULE_SIZE = 8;

/** Values of `LOCK`: free; ended by its time limit; ended by `until` while `when` still held. */
export const FREE = 0;
export const LOCKED_BY_LIMIT = 1;
export const LOCKED_BY_UNTIL = 2;

/** Compiled, frozen rules of one hub or of several. Rule numbers are places in `rules`. */
export interface RuleTable {
  readonly rules: readonly RuleSpec[];
  readonly sensorIds: readonly string[];
  readonly deviceIds: readonly string[];
  /** Unit of each sensor's reading, for words only; empty text where unknown. */
  readonly units: readonly string[];
  /** First term of each condition; one more entry than conditions. */
  readonly firstTerm: Int32Array;
  /** How long each condition must hold, s. */
  readonly holdS: Float64Array;
  readonly operator: Uint8Array;
  readonly sensor: Int32Array;
  /** Second sensor of `differs`, else -1. */
  readonly otherSensor: Int32Array;
  /** Limit, lower end, rate per hour, difference or seconds. */
  readonly low: Float64Array;
  /** Upper end of `between` and `outside`. */
  readonly high: Float64Array;
  /** Place of the term's own state, -1 where it keeps none. */
  readonly slot: Int32Array;
  /** First command of each rule; one more entry than rules. */
  readonly firstCommand: Int32Array;
  readonly commandDevice: Int32Array;
  /** 0 off, 1 on. */
  readonly commandState: Int8Array;
  readonly hasSampledTerms: boolean;
  readonly hasHours: boolean;
  readonly stateSize: number;
}

export function ruleStateSize(table: RuleTable): number {
  return table.stateSize;
}

/** Place in the state of what belongs to one rule. */
export function ruleOffset(rule: number): number {
  return HEADER_SIZE + rule * RULE_SIZE;
}

/**
 * Compiles rules against the order of sensors and devices in which readings will come and commands go.
 *
 * @param units Unit of each sensor, in the same order, for `explainRule` only.
 * @throws {InputError} Where a rule names a sensor or device that is not among the given, or a condition is empty.
 */
export function compileRules(
  rules: readonly RuleSpec[],
  sensorIds: readonly string[],
  deviceIds: readonly string[],
  units: readonly string[] = [],
): RuleTable {
  const conditions = rules.flatMap((rule) => [rule.when, rule.until]);
  for (const rule of rules) for (const condition of [rule.when, rule.until]) requireTerms(rule, condition);
  const terms = rules.flatMap((rule) =>
    [...rule.when.all, ...(rule.until?.all ?? [])].map(({ sensor, is }) => ({
      sensor: placeOf(rule, "sensor", sensor, sensorIds),
      other: is.op === "differs" ? placeOf(rule, "sensor", is.from, sensorIds) : -1,
      ...numbersOf(is),
    })),
  );
  const commands = rules.flatMap((rule) =>
    rule.act.map(({ device, state }) => ({
      device: placeOf(rule, "device", device, deviceIds),
      state: state === "on" ? 1 : 0,
    })),
  );
  const slots = runningSums(terms.map((term) => slotSize(term.operator))).map((sum) => sum + ruleOffset(rules.length));
  return Object.freeze({
    rules: Object.freeze([...rules]),
    sensorIds: Object.freeze([...sensorIds]),
    deviceIds: Object.freeze([...deviceIds]),
    units: Object.freeze(sensorIds.map((_, place) => units[place] ?? "")),
    firstTerm: Int32Array.from(runningSums(conditions.map((condition) => condition?.all.length ?? 0))),
    holdS: Float64Array.from(conditions, (condition) => condition?.forS ?? 0),
    operator: Uint8Array.from(terms, (term) => term.operator),
    sensor: Int32Array.from(terms, (term) => term.sensor),
    otherSensor: Int32Array.from(terms, (term) => term.other),
    low: Float64Array.from(terms, (term) => term.low),
    high: Float64Array.from(terms, (term) => term.high),
    slot: Int32Array.from(terms, (term, place) => (slotSize(term.operator) > 0 ? slots[place] : -1)),
    firstCommand: Int32Array.from(runningSums(rules.map((rule) => rule.act.length))),
    commandDevice: Int32Array.from(commands, (command) => command.device),
    commandState: Int8Array.from(commands, (command) => command.state),
    hasSampledTerms: terms.some((term) => term.operator >= RISING && term.operator !== SILENT),
    hasHours: rules.some((rule) => rule.only.length > 0),
    stateSize: slots[terms.length],
  });
}

function requireTerms(rule: RuleSpec, condition: ConditionSpec | null): void {
  if (condition === null || condition.all.length > 0) return;
  const hint = "name a sensor and what it must show, or leave the condition out";
  throw new InputError("rules/empty-condition", `Rule '${rule.id}' has a condition that names no sensor`, hint);
}

function placeOf(rule: RuleSpec, kind: string, id: string, ids: readonly string[]): number {
  const place = ids.indexOf(id);
  if (place >= 0) return place;
  throw new InputError(
    `rules/unknown-${kind}`,
    `Rule '${rule.id}' names the ${kind} '${id}', which is not there`,
    didYouMean(id, ids),
  );
}

interface TermNumbers {
  readonly operator: number;
  readonly low: number;
  readonly high: number;
}

function numbersOf(is: Comparison): TermNumbers {
  switch (is.op) {
    case "below":
      return { operator: BELOW, low: is.value, high: is.value };
    case "above":
      return { operator: ABOVE, low: is.value, high: is.value };
    case "between":
      return { operator: BETWEEN, low: is.low, high: is.high };
    case "outside":
      return { operator: OUTSIDE, low: is.low, high: is.high };
    case "rising":
      return { operator: RISING, low: is.ratePerH, high: is.ratePerH };
    case "falling":
      return { operator: FALLING, low: is.ratePerH, high: is.ratePerH };
    case "differs":
      return { operator: DIFFERS, low: is.by, high: is.by };
    case "unchanged":
      return { operator: UNCHANGED, low: is.forS, high: is.forS };
    case "silent":
      return { operator: SILENT, low: is.forS, high: is.forS };
    case "wet":
    case "present":
      return { operator: WET, low: YES_FROM, high: YES_FROM };
    case "dry":
    case "absent":
      return { operator: DRY, low: YES_FROM, high: YES_FROM };
  }
}

/** Numbers that a term keeps: see sampled-terms.ts for what stands where. */
function slotSize(operator: number): number {
  if (operator < RISING) return 0;
  if (operator === UNCHANGED) return 3;
  return operator === RISING || operator === FALLING ? 2 + 2 * RATE_SAMPLES : 1;
}

function runningSums(counts: readonly number[]): number[] {
  const sums = [0];
  for (const count of counts) sums.push(sums[sums.length - 1] + count);
  return sums;
}
