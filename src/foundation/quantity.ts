/**
 * Quantities as people write them: `620 L`, `78 degF`, `1 h 30 min`, `-0.5 degC/h`.
 *
 * Reading gives the value in the canonical unit of its dimension and keeps the unit that was written, so that it can be
 * shown to the same person in the same unit. Nothing is guessed: a missing or a wrong unit is an answer of its own.
 */
import { didYouMean } from "./nearest.ts";
import type { Result } from "./problem.ts";
import { failure, success } from "./problem.ts";
import type { Unit } from "./unit.ts";
import type { Dimension } from "./unit-table.ts";
import { DIMENSIONS, factsOf, findUnit, unitSymbols } from "./unit-table.ts";

export interface Quantity {
  /** In the canonical unit of the dimension. */
  readonly value: number;
  readonly dimension: Dimension;
  /** Symbol of the unit in which it was written. */
  readonly unit: string;
}

/** A change per time: `0.5 degC/h`, `0.2 pH/month`. */
export interface Rate {
  /** Canonical unit of the dimension, per hour. */
  readonly perHour: number;
  readonly dimension: Dimension;
  readonly unit: string;
}

export interface Limits {
  readonly min?: number;
  readonly max?: number;
  /** True where zero itself makes no sense. */
  readonly aboveZero?: boolean;
}

const NUMBER_AND_UNIT = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)$/s;
const LONGEST_TEXT = 80;

function wanted(dimension: Dimension): string {
  const facts = factsOf(dimension);
  return `write ${facts.words} like ${facts.example} (units: ${unitSymbols(dimension).join(", ")})`;
}

function shown(text: string): string {
  return text.length > LONGEST_TEXT ? `${text.slice(0, LONGEST_TEXT)}...` : text;
}

/** The number at the start of a text and the rest of it. */
function splitNumber(text: string, dimension: Dimension): Result<{ number: number; rest: string }> {
  const trimmed = text.trim().replace(/^[−–]/, "-");
  if (trimmed === "") return failure("quantity/empty", `${factsOf(dimension).words} is missing`, wanted(dimension));
  const match = NUMBER_AND_UNIT.exec(trimmed);
  if (match === null)
    return failure("quantity/not-a-number", `'${shown(text)}' does not begin with a number`, wanted(dimension));
  if (/^,\d/.test(match[2])) {
    const fixed = trimmed.replace(",", ".");
    return failure(
      "quantity/comma",
      `'${shown(text)}' has a comma in its number, which can mean two things`,
      `write the decimal with a point ('${shown(fixed)}') and thousands without any mark`,
    );
  }
  const number = Number(match[1]);
  if (!Number.isFinite(number))
    return failure("quantity/out-of-range", `'${shown(text)}' is too large to be a number`, wanted(dimension));
  return success({ number, rest: match[2].trim() });
}

/** Other dimensions that know this unit, in words. */
function otherMeaning(unit: string, dimension: Dimension): string | null {
  for (const name of Object.keys(DIMENSIONS) as Dimension[]) {
    if (name !== dimension && findUnit(name, unit) !== null) return factsOf(name).words;
  }
  return null;
}

function unknownUnit<T>(text: string, unit: string, dimension: Dimension): Result<T> {
  const facts = factsOf(dimension);
  const other = otherMeaning(unit, dimension);
  if (other !== null) {
    return failure(
      "quantity/wrong-dimension",
      `'${shown(text)}' is ${other}, but ${facts.words} is wanted`,
      wanted(dimension),
    );
  }
  const names = facts.units.flatMap((entry: Unit) => [entry.symbol, ...(entry.also ?? [])]);
  const guess = didYouMean(unit, names);
  const hint = guess.startsWith("did you mean") ? `${guess} ${wanted(dimension)}` : wanted(dimension);
  return failure(
    "quantity/unknown-unit",
    `'${shown(unit)}' in '${shown(text)}' is not a unit of ${facts.words.replace(/^an? /, "")}`,
    hint,
  );
}

function findOrExplain(text: string, unit: string, dimension: Dimension): Result<Unit> {
  const found = findUnit(dimension, unit);
  return found === null ? unknownUnit(text, unit, dimension) : success(found);
}

function checkRange(text: string, value: number, unit: string, dimension: Dimension, limits: Limits): Result<number> {
  const facts = factsOf(dimension);
  const min = Math.max(limits.min ?? facts.min, facts.min);
  const max = Math.min(limits.max ?? facts.max, facts.max);
  const print = (bound: number): string => formatQuantity(bound, dimension, unit);
  if (value < 0 && min >= 0) {
    return failure(
      "quantity/negative",
      `'${shown(text)}' is negative, which ${facts.words} can not be here`,
      wanted(dimension),
    );
  }
  if (limits.aboveZero === true && value <= 0) {
    return failure("quantity/out-of-range", `'${shown(text)}' must be more than nothing`, wanted(dimension));
  }
  if (value < min)
    return failure(
      "quantity/out-of-range",
      `'${shown(text)}' is less than ${print(min)}, the least that makes sense here`,
      wanted(dimension),
    );
  if (value > max)
    return failure(
      "quantity/out-of-range",
      `'${shown(text)}' is more than ${print(max)}, the most that makes sense here`,
      wanted(dimension),
    );
  return success(value);
}

function toCanonical(number: number, unit: Unit): number {
  return unit.shift === undefined ? number * unit.factor : number * unit.factor + unit.shift;
}

/** `1 h 30 min`: several parts of falling size, all of the same sign. Only lengths of time are written so. */
function parseCompound(text: string): Result<Quantity> | null {
  const parts = [...text.matchAll(/(\d+(?:\.\d+)?)\s*([a-z]+)/gi)];
  const joined = parts.map((part) => part[0]).join("");
  if (parts.length < 2 || joined.replace(/\s+/g, "") !== text.replace(/\s+/g, "")) return null;
  let total = 0;
  let before = Number.POSITIVE_INFINITY;
  let last = "";
  for (const [, number, name] of parts) {
    const unit = findUnit("duration", name);
    if (unit === null || unit.factor >= before) return null;
    total += Number(number) * unit.factor;
    before = unit.factor;
    last = unit.symbol;
  }
  return success({ value: total, dimension: "duration", unit: last });
}

/** Reads a quantity of the wanted dimension. Limits are in the canonical unit. */
export function parseQuantity(text: string, dimension: Dimension, limits: Limits = {}): Result<Quantity> {
  const compound = dimension === "duration" ? parseCompound(text) : null;
  if (compound?.ok) {
    const inRange = checkRange(text, compound.value.value, compound.value.unit, dimension, limits);
    return inRange.ok ? compound : inRange;
  }
  const split = splitNumber(text, dimension);
  if (!split.ok) return split;
  const { number, rest } = split.value;
  const facts = factsOf(dimension);
  if (rest === "" && facts.bare !== true) {
    return failure("quantity/unit-missing", `'${shown(text)}' has no unit`, wanted(dimension));
  }
  const unit = rest === "" ? success(facts.units[0]) : findOrExplain(text, rest, dimension);
  if (!unit.ok) return unit;
  const value = rest === "" ? number * (facts.bareFactor ?? facts.units[0].factor) : toCanonical(number, unit.value);
  const inRange = checkRange(text, value, unit.value.symbol, dimension, limits);
  return inRange.ok ? success({ value, dimension, unit: unit.value.symbol }) : inRange;
}

/** In a rate, a change of temperature is a difference: its units have no shift. */
function rateDimension(dimension: Dimension): Dimension {
  return dimension === "temperature" ? "temperature difference" : dimension;
}

/** Reads a change per time, `0.5 degC/h` or `0.03 pH per month`; the dimension is that of the thing which changes. */
export function parseRate(text: string, dimension: Dimension): Result<Rate> {
  const changing = rateDimension(dimension);
  const example = `${factsOf(changing).example.replace(/^\S+/, "0.5")}/h`;
  const match = /^(.*?)(?:\s*\/\s*|\s+per\s+|\s+an?\s+)([a-z]+)$/is.exec(text.trim());
  const per = match === null ? null : findUnit("duration", match[2]);
  if (match === null || per === null) {
    return failure("quantity/not-a-rate", `'${shown(text)}' is not a change per time`, `write it like ${example}`);
  }
  const split = splitNumber(match[1], changing);
  if (!split.ok) return split;
  if (split.value.rest === "" && factsOf(changing).bare !== true) {
    return failure("quantity/unit-missing", `'${shown(text)}' does not say what changes`, `write it like ${example}`);
  }
  const unit =
    split.value.rest === "" ? success(factsOf(changing).units[0]) : findOrExplain(text, split.value.rest, changing);
  if (!unit.ok) return unit;
  const perHour = (split.value.number * unit.value.factor * 3600) / per.factor;
  if (Math.abs(perHour) > 1e6)
    return failure("quantity/out-of-range", `'${shown(text)}' is faster than makes sense`, `write it like ${example}`);
  return success({ perHour, dimension: changing, unit: `${unit.value.symbol}/${per.symbol}` });
}

/** At most six significant digits, without an exponent where a person would not write one. */
export function formatNumber(value: number): string {
  if (value === 0) return "0";
  const rounded = Number(value.toPrecision(6));
  const size = Math.abs(rounded);
  return size >= 1e-6 && size < 1e15 ? plainDecimal(rounded) : String(rounded);
}

function plainDecimal(value: number): string {
  const text = String(value);
  return text.includes("e") ? value.toFixed(12).replace(/0+$/, "") : text;
}

/** A canonical value printed in a unit of its dimension; an unknown unit falls back to the canonical one. */
export function formatQuantity(value: number, dimension: Dimension, unitSymbol?: string): string {
  const facts = factsOf(dimension);
  const unit = (unitSymbol === undefined ? null : findUnit(dimension, unitSymbol)) ?? facts.units[0];
  const written = formatNumber((value - (unit.shift ?? 0)) / unit.factor);
  return `${written} ${unit.symbol}`;
}

/** A quantity printed in the unit in which its owner wrote it. */
export function printQuantity(quantity: Quantity): string {
  return formatQuantity(quantity.value, quantity.dimension, quantity.unit);
}
