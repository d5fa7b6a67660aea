/** Every unit that a person may write, found by its name within a dimension. */
import { GENERAL_DIMENSIONS } from "./general-units.ts";
import type { DimensionFacts, Unit } from "./unit.ts";
import { WATER_DIMENSIONS } from "./water-units.ts";

export const DIMENSIONS = { ...GENERAL_DIMENSIONS, ...WATER_DIMENSIONS };

export type Dimension = keyof typeof DIMENSIONS;

/** The table entry, seen as what all entries have in common. */
export function factsOf(dimension: Dimension): DimensionFacts {
  return DIMENSIONS[dimension];
}

/** A written unit in the form in which units are compared: no case, one space, plain letters for signs. */
export function plainUnit(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[µμ]/g, "u")
    .replace(/°\s*/g, "deg")
    .replace(/²/g, "2")
    .replace(/³/g, "3")
    .replace(/⁻¹/g, "-1")
    .replace(/\s*\/\s*/g, "/")
    .replace(/\s+/g, " ");
}

/** The unit that a text names within a dimension, or null. */
export function findUnit(dimension: Dimension, text: string): Unit | null {
  const wanted = plainUnit(text);
  const matches = (unit: Unit): boolean =>
    plainUnit(unit.symbol) === wanted || (unit.also ?? []).some((name) => plainUnit(name) === wanted);
  return factsOf(dimension).units.find(matches) ?? null;
}

/** Symbols of a dimension's units, canonical first. */
export function unitSymbols(dimension: Dimension): readonly string[] {
  return factsOf(dimension).units.map((unit) => unit.symbol);
}
