import { manner } from "./manner.ts";

/** How a value in the unit of the engine stands on the screen of this reader. */
export interface Shown {
  readonly unit: string;
  readonly toShown: (value: number) => number;
  readonly toEngine: (shown: number) => number;
  /** What a difference of one makes. */
  readonly factor: number;
}

interface Conversion {
  readonly unit: string;
  readonly factor: number;
  readonly offset?: number;
}

const L_PER_GALLON = 3.785411784;
const G_PER_OUNCE = 28.349523125;
const CM_PER_INCH = 2.54;
const M_PER_FOOT = 0.3048;
const CELSIUS = { factor: 1.8, offset: 32 };

/** Exact by definition (NIST SP 811). What the trade counts in metric everywhere stays: mL of a dose, mg/L, dKH, ppm, W. */
const US: Readonly<Record<string, Conversion>> = {
  "\u00b0C": { unit: "\u00b0F", ...CELSIUS },
  degC: { unit: "\u00b0F", ...CELSIUS },
  K: { unit: "\u00b0F", factor: 1.8 },
  L: { unit: "gal", factor: 1 / L_PER_GALLON },
  "L/h": { unit: "gal/h", factor: 1 / L_PER_GALLON },
  "L/min": { unit: "gal/min", factor: 1 / L_PER_GALLON },
  "L a day": { unit: "gal a day", factor: 1 / L_PER_GALLON },
  g: { unit: "oz", factor: 1 / G_PER_OUNCE },
  "g a day": { unit: "oz a day", factor: 1 / G_PER_OUNCE },
  kg: { unit: "lb", factor: 1000 / (16 * G_PER_OUNCE) },
  mm: { unit: "in", factor: 0.1 / CM_PER_INCH },
  cm: { unit: "in", factor: 1 / CM_PER_INCH },
  m: { unit: "ft", factor: 1 / M_PER_FOOT },
  "m\u00b2": { unit: "ft\u00b2", factor: 1 / M_PER_FOOT ** 2 },
  m2: { unit: "ft\u00b2", factor: 1 / M_PER_FOOT ** 2 },
  "m\u00b3": { unit: "ft\u00b3", factor: 1 / M_PER_FOOT ** 3 },
  m3: { unit: "ft\u00b3", factor: 1 / M_PER_FOOT ** 3 },
};

/** How screens write a unit that texts write otherwise. */
const WRITTEN: Readonly<Record<string, string>> = { degC: "\u00b0C", m2: "m\u00b2", m3: "m\u00b3" };

/** Units whose values in written sentences are turned into the reader's. */
export const TURNED_UNITS: readonly string[] = Object.keys(US);

export function shown(unit: string): Shown {
  const turned = manner().units === "us" ? US[unit] : undefined;
  if (turned === undefined)
    return { unit: WRITTEN[unit] ?? unit, toShown: (value) => value, toEngine: (value) => value, factor: 1 };
  const { factor, offset = 0 } = turned;
  return {
    unit: turned.unit,
    factor,
    toShown: (value) => value * factor + offset,
    toEngine: (value) => (value - offset) / factor,
  };
}

/**
 * Digits after the point for a value that deserved so many before it was turned: one more where the new unit is larger and
 * the value small. Where digits change, both grids of rounding meet, so that a larger value never looks smaller.
 */
export function digitsShown(value: number, factor: number, digits: number): number {
  if (factor >= 0.5) return digits;
  if (Math.abs(value) < 1 && factor < 0.1) return digits + 2;
  return Math.abs(value) < 20 ? digits + 1 : digits;
}
