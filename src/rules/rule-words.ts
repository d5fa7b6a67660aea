/** Words for comparisons and spans of time, shared by `describeRule` and `explainRule`. */
import { formatNumber } from "../foundation/index.ts";
import type { Comparison } from "../site/index.ts";

/** A span of time: `45 s`, `10 min`, `1 h 30 min`. Whole seconds; the two largest parts. */
export function spanWords(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  const [size, name, partSize, partName] = whole < 3600 ? [60, "min", 1, "s"] : [3600, "h", 60, "min"];
  const part = Math.floor((whole % size) / partSize);
  const largest = `${Math.floor(whole / size)} ${name}`;
  return part === 0 ? largest : `${largest} ${part} ${partName}`;
}

export function withUnit(value: number, unit: string): string {
  return `${formatNumber(value)}${unit === "" ? "" : ` ${unit}`}`;
}

/** What a comparison asks for: `above 27.2 degC`, `silent for 10 min`, `wet`. */
export function comparisonWords(is: Comparison, unit: string): string {
  switch (is.op) {
    case "below":
    case "above":
      return `${is.op} ${withUnit(is.value, unit)}`;
    case "between":
      return `between ${formatNumber(is.low)} and ${withUnit(is.high, unit)}`;
    case "outside":
      return `outside ${formatNumber(is.low)} to ${withUnit(is.high, unit)}`;
    case "rising":
    case "falling":
      return `${is.op} by more than ${withUnit(is.ratePerH, unit)} an hour`;
    case "differs":
      return `more than ${withUnit(is.by, unit)} away from ${is.from}`;
    case "unchanged":
    case "silent":
      return `${is.op} for ${spanWords(is.forS)}`;
    default:
      return is.op;
  }
}

/** `a`, `a and b`, `a, b and c`. */
export function listWords(items: readonly string[]): string {
  if (items.length < 2) return items.join("");
  return `${items.slice(0, -1).join(", ")} and ${items[items.length - 1]}`;
}
