/**
 * What a rule may ask of a sensor, from words: `below 25.2 degC`, `between 8 and 8.4 pH`, `rising 0.5 degC/h`,
 * `differs from sump-temp by 0.6 K`, `unchanged for 6 h`, `silent for 5 min`, `wet`, `absent`.
 */

import type { Dimension, Problem, Result } from "../../foundation/index.ts";
import {
  didYouMean,
  factsOf,
  formatNumber,
  formatQuantity,
  nearest,
  parseQuantity,
  parseRate,
  success,
} from "../../foundation/index.ts";
import { practicalSalinity } from "../keys/bodies.ts";
import type { Comparison, Sensor } from "../model.ts";
import { differenceDimension, MEASURES } from "./measures.ts";

export interface ComparisonScope {
  readonly sensor: Sensor;
  /** Full volume of the body of a level sensor, L, for levels in percent; null otherwise. */
  readonly fullL: number | null;
  readonly sensors: readonly Sensor[];
}

const WORDS = [
  "below",
  "above",
  "between",
  "outside",
  "rising",
  "falling",
  "differs",
  "unchanged",
  "silent",
  "wet",
  "dry",
  "present",
  "absent",
] as const;

function fail<T>(code: string, message: string, hint: string): Result<T> {
  return { ok: false, problem: { code, message, hint } };
}

function exampleFor(sensor: Sensor): string {
  const { says, dimension } = MEASURES[sensor.measures];
  if (says === "contact") return "wet or dry";
  if (says === "presence") return "present or absent";
  return `below ${factsOf(dimension ?? "share").example}`;
}

/** A threshold in the sensor's own unit. */
function readValue(text: string, scope: ComparisonScope): Result<number> {
  const { sensor, fullL } = scope;
  const { dimension, words } = MEASURES[sensor.measures];
  if (sensor.measures === "salinity") return practicalSalinity(text);
  if (sensor.measures === "level" && fullL !== null && /%\s*$/.test(text)) {
    const share = parseQuantity(text, "share");
    return share.ok ? success(share.value.value * fullL) : share;
  }
  const result = parseQuantity(text, dimension ?? "share");
  if (result.ok) return success(result.value.value);
  const problem: Problem = result.problem;
  const wrong =
    problem.code === "quantity/wrong-dimension"
      ? `${sensor.id} measures ${words}: ${problem.message}`
      : problem.message;
  return fail(problem.code, wrong, problem.hint);
}

function readRange(op: "between" | "outside", rest: string, scope: ComparisonScope): Result<Comparison> {
  const ends = rest.split(/\s+(?:and|to)\s+|\s*\.\.\s*/i);
  if (ends.length !== 2)
    return fail("rule/range", `'${op} ${rest}' does not have two ends`, `write it like ${op} 24 degC and 27 degC`);
  const high = readValue(ends[1], scope);
  if (!high.ok) return high;
  // "between 24 and 27 degC": the unit of the second end serves both.
  const unit = /^[-+\d.\s]+$/.test(ends[0]) ? ends[1].replace(/^[-+\d.\s]+/, "") : "";
  const low = readValue(`${ends[0]} ${unit}`.trim(), scope);
  if (!low.ok) return low;
  if (low.value >= high.value)
    return fail("rule/range", `'${op} ${rest}' begins at or above its end`, "write the lower end first");
  return success({ op, low: low.value, high: high.value });
}

function readRate(op: "rising" | "falling", rest: string, scope: ComparisonScope): Result<Comparison> {
  const text = rest.replace(/^(?:faster\s+than|by|more\s+than)\s+/i, "");
  const dimension: Dimension = MEASURES[scope.sensor.measures].dimension ?? "share";
  const rate = parseRate(text, differenceDimension(dimension));
  if (!rate.ok) return rate;
  if (rate.value.perHour <= 0)
    return fail(
      "rule/rate",
      `'${op} ${rest}' has no positive rate`,
      `write how fast it is ${op}, like ${op} 0.5 degC/h`,
    );
  return success({ op, ratePerH: rate.value.perHour });
}

function readDifference(rest: string, scope: ComparisonScope): Result<Comparison> {
  const match = /^from\s+(\S+)\s+by\s+(?:more\s+than\s+)?(.+)$/i.exec(rest);
  if (match === null)
    return fail(
      "rule/difference",
      `'differs ${rest}' does not say from what and by how much`,
      "write it like differs from sump-temp by 0.6 K",
    );
  const other = scope.sensors.find((sensor) => sensor.id === match[1]);
  if (other === undefined) {
    const names = scope.sensors
      .filter((sensor) => sensor.measures === scope.sensor.measures)
      .map((sensor) => sensor.id);
    return fail("name/unknown", `no sensor is called '${match[1]}'`, didYouMean(match[1], names));
  }
  if (other.id === scope.sensor.id)
    return fail(
      "rule/difference",
      `${other.id} can not differ from itself`,
      "name another sensor of the same quantity",
    );
  if (other.measures !== scope.sensor.measures) {
    return fail(
      "rule/difference",
      `${scope.sensor.id} measures ${MEASURES[scope.sensor.measures].words}, ${other.id} ${MEASURES[other.measures].words}`,
      "compare sensors of the same quantity",
    );
  }
  if (other.hub !== scope.sensor.hub)
    return fail("rule/other-hub", `${other.id} is read by another hub`, "compare sensors of the same hub");
  const dimension: Dimension = MEASURES[other.measures].dimension ?? "share";
  const by = parseQuantity(match[2], differenceDimension(dimension), { aboveZero: true });
  return by.ok ? success({ op: "differs", from: other.id, by: by.value.value }) : by;
}

function readStillness(op: "unchanged" | "silent", rest: string): Result<Comparison> {
  const duration = parseQuantity(rest.replace(/^for\s+/i, ""), "duration", { min: 1 });
  if (!duration.ok) return fail(duration.problem.code, duration.problem.message, `write it like ${op} for 30 min`);
  return success({ op, forS: duration.value.value });
}

const ALIASES: Readonly<Record<string, string>> = {
  under: "below",
  less: "below",
  over: "above",
  more: "above",
  within: "between",
};

/** One comparison for one sensor, or what is wrong with it. */
export function parseComparison(text: string, scope: ComparisonScope): Result<Comparison> {
  const [first, ...more] = text.trim().split(/\s+/);
  const said = first.toLowerCase();
  const word = WORDS.find((entry) => entry === (Object.hasOwn(ALIASES, said) ? ALIASES[said] : said));
  const rest = more.join(" ").replace(/^than\s+/i, "");
  if (word === undefined)
    return fail(
      "rule/comparison",
      `'${text}' is not a comparison`,
      nearest(first, WORDS) === null ? `begin it with one of ${WORDS.join(", ")}` : didYouMean(first, WORDS),
    );
  const { says, words } = MEASURES[scope.sensor.measures];
  const contact = word === "wet" || word === "dry";
  const presence = word === "present" || word === "absent";
  const fits =
    word === "silent" || (says === "contact" ? contact : says === "presence" ? presence : !contact && !presence);
  if (!fits)
    return fail(
      "rule/comparison",
      `${scope.sensor.id} measures ${words}, which can not be '${word}'`,
      `write ${exampleFor(scope.sensor)}`,
    );
  if (rest === "" && !contact && !presence)
    return fail(
      "rule/comparison",
      `'${text}' says nothing after '${first}'`,
      `write it like ${exampleFor(scope.sensor)}`,
    );
  if (rest !== "" && (contact || presence))
    return fail("rule/comparison", `'${word}' takes nothing after it`, `write ${exampleFor(scope.sensor)}`);
  switch (word) {
    case "below":
    case "above": {
      const value = readValue(rest, scope);
      return value.ok ? success({ op: word, value: value.value }) : value;
    }
    case "between":
    case "outside":
      return readRange(word, rest, scope);
    case "rising":
    case "falling":
      return readRate(word, rest, scope);
    case "differs":
      return readDifference(rest, scope);
    case "unchanged":
    case "silent":
      return readStillness(word, rest);
    default:
      return success({ op: word });
  }
}

/** A comparison as a person would write it. */
export function formatComparison(is: Comparison, sensor: Sensor): string {
  const dimension = MEASURES[sensor.measures].dimension ?? "share";
  const difference = differenceDimension(dimension);
  switch (is.op) {
    case "below":
    case "above":
      return `${is.op} ${formatQuantity(is.value, dimension)}`;
    case "between":
    case "outside":
      return `${is.op} ${formatNumber(is.low)} and ${formatQuantity(is.high, dimension)}`;
    case "rising":
    case "falling":
      return `${is.op} ${formatQuantity(is.ratePerH, difference)}/h`;
    case "differs":
      return `differs from ${is.from} by ${formatQuantity(is.by, difference)}`;
    case "unchanged":
    case "silent":
      return `${is.op} for ${formatDuration(is.forS)}`;
    default:
      return is.op;
  }
}

/** A length of time in the largest unit that keeps it a whole number. */
export function formatDuration(seconds: number): string {
  for (const [unit, size] of [
    ["d", 86400],
    ["h", 3600],
    ["min", 60],
  ] as const) {
    if (seconds >= size && seconds % size === 0) return `${seconds / size} ${unit}`;
  }
  return `${formatNumber(seconds)} s`;
}
