/**
 * Every unit that a person may write, by dimension, with exact factors to the canonical unit.
 *
 * value in canonical unit = written number * factor + shift. Sources: the inch, pound and US gallon by the international
 * yard and pound agreement of 1959 and US 231 in3; the imperial gallon by the UK Weights and Measures Act 1985;
 * molar masses by IUPAC 2021 (CaO 56.077, CaCO3 100.086, Ca 40.078, Mg 24.305, NO3 62.004, PO4 94.970 g/mol).
 * A month is a twelfth of a year, a year 365.25 days.
 */

export interface Unit {
  /** As it is printed and normally written. */
  readonly symbol: string;
  readonly factor: number;
  readonly shift?: number;
  /** Other ways of writing it; compared without regard to case. */
  readonly also?: readonly string[];
}

export interface DimensionFacts {
  /** In words, for messages: "a volume". */
  readonly words: string;
  readonly example: string;
  /** Canonical unit first. */
  readonly units: readonly Unit[];
  /** Least and greatest canonical value that can be meant at all. */
  readonly min: number;
  readonly max: number;
  /** True where a number without a unit can mean one thing only. */
  readonly bare?: boolean;
  /** Canonical value = written number where no unit is written; otherwise as the canonical unit. */
  readonly bareFactor?: number;
}

const US_GALLON_L = 3.785411784;
const IMPERIAL_GALLON_L = 4.54609;
/** 1 degree of alkalinity is 10 mg/L of CaO, that is 10 / (56.077 / 2) meq/L. */
const DKH_PER_MEQ_L = 56.077 / 2 / 10;
const CACO3_MG_PER_MEQ = 100.086 / 2;
/** Sea water at S 35 and 25 degC, kg/L (EOS-80): turns per-kilogram figures of laboratories into per-litre ones. */
const SEA_WATER_KG_PER_L = 1.0233;
const HOURS_PER_MONTH = 730.5;

const US_GALLON = ["gallon", "gallons", "gals", "us gal", "gal us", "us gallon", "us gallons"];
const IMPERIAL_GALLON = [
  "gal uk",
  "uk gal",
  "imperial gal",
  "imperial gallon",
  "imperial gallons",
  "imp gallon",
  "imp gallons",
];

/** `L/h`, `l per h`, `L/hour` ...: the ways of writing one unit per another. */
function per(tops: readonly string[], bottoms: readonly string[]): string[] {
  return tops.flatMap((top) =>
    bottoms.flatMap((bottom) => [`${top}/${bottom}`, `${top} per ${bottom}`, `${top} a ${bottom}`]),
  );
}

const LITRE = ["L", "liter", "liters", "litre", "litres"];
const MILLILITRE = ["mL", "milliliter", "milliliters", "millilitre", "millilitres"];
const HOUR = ["h", "hr", "hour"];
const DAY = ["d", "day"];
const MINUTE = ["min", "minute"];

export const DIMENSIONS = {
  volume: {
    words: "a volume",
    example: "620 L",
    min: 0,
    max: 1e8,
    units: [
      { symbol: "L", factor: 1, also: ["ltr", "dm3", ...LITRE] },
      { symbol: "mL", factor: 0.001, also: MILLILITRE },
      { symbol: "m3", factor: 1000, also: ["m^3", "cubic m", "cubic metres", "cubic meters"] },
      { symbol: "gal", factor: US_GALLON_L, also: US_GALLON },
      { symbol: "imp gal", factor: IMPERIAL_GALLON_L, also: IMPERIAL_GALLON },
      { symbol: "ft3", factor: 28.316846592, also: ["ft^3", "cubic feet", "cu ft"] },
    ],
  },
  temperature: {
    words: "a temperature",
    example: "25.5 degC",
    min: -40,
    max: 120,
    units: [
      { symbol: "degC", factor: 1, also: ["c", "deg c", "celsius"] },
      { symbol: "degF", factor: 5 / 9, shift: -160 / 9, also: ["f", "deg f", "fahrenheit"] },
    ],
  },
  "temperature difference": {
    words: "a difference of temperature",
    example: "0.5 K",
    min: -100,
    max: 100,
    units: [
      { symbol: "K", factor: 1, also: ["degC", "c", "deg c", "kelvin"] },
      { symbol: "degF", factor: 5 / 9, also: ["f", "deg f"] },
    ],
  },
  power: {
    words: "an electrical power",
    example: "300 W",
    min: -1e6,
    max: 1e6,
    units: [
      { symbol: "W", factor: 1, also: ["watt", "watts"] },
      { symbol: "kW", factor: 1000 },
    ],
  },
  energy: {
    words: "an energy",
    example: "600 Wh",
    min: 0,
    max: 1e8,
    units: [
      { symbol: "Wh", factor: 1, also: ["w h"] },
      { symbol: "kWh", factor: 1000, also: ["kw h"] },
    ],
  },
  current: {
    words: "an electrical current",
    example: "16 A",
    min: 0,
    max: 10000,
    units: [
      { symbol: "A", factor: 1, also: ["amp", "amps", "ampere"] },
      { symbol: "mA", factor: 0.001, also: ["milliamp", "milliamps"] },
    ],
  },
  voltage: {
    words: "a mains voltage",
    example: "230 V",
    min: 0,
    max: 1000,
    units: [{ symbol: "V", factor: 1, also: ["volt", "volts"] }],
  },
  flow: {
    words: "a flow",
    example: "3000 L/h",
    min: 0,
    max: 1e7,
    units: [
      { symbol: "L/h", factor: 1, also: ["lph", ...per(LITRE, HOUR)] },
      { symbol: "L/min", factor: 60, also: ["lpm", ...per(LITRE, MINUTE)] },
      { symbol: "L/s", factor: 3600, also: per(LITRE, ["s", "second"]) },
      { symbol: "L/d", factor: 1 / 24, also: per(LITRE, DAY) },
      { symbol: "mL/h", factor: 0.001, also: per(MILLILITRE, HOUR) },
      { symbol: "mL/min", factor: 0.06, also: per(MILLILITRE, MINUTE) },
      { symbol: "mL/d", factor: 1 / 24000, also: per(MILLILITRE, DAY) },
      { symbol: "m3/h", factor: 1000, also: per(["m3", "m^3"], HOUR) },
      { symbol: "gal/h", factor: US_GALLON_L, also: ["gph", ...per(["gal", ...US_GALLON], HOUR)] },
      { symbol: "gal/d", factor: US_GALLON_L / 24, also: ["gpd", ...per(["gal", ...US_GALLON], DAY)] },
      { symbol: "gal/min", factor: US_GALLON_L * 60, also: ["gpm", ...per(["gal", ...US_GALLON], MINUTE)] },
      { symbol: "imp gal/h", factor: IMPERIAL_GALLON_L, also: per(["imp gal", ...IMPERIAL_GALLON], HOUR) },
    ],
  },
  mass: {
    words: "a mass",
    example: "380 g",
    min: 0,
    max: 1e9,
    units: [
      { symbol: "g", factor: 1, also: ["gram", "grams", "gramme", "grammes"] },
      { symbol: "kg", factor: 1000, also: ["kilo", "kilos", "kilogram", "kilograms"] },
      { symbol: "mg", factor: 0.001 },
      { symbol: "lb", factor: 453.59237, also: ["lbs", "pound", "pounds"] },
      { symbol: "oz", factor: 28.349523125, also: ["ounce", "ounces"] },
    ],
  },
  "mass per day": {
    words: "a mass per day",
    example: "2 g/d",
    min: 0,
    max: 1e7,
    units: [
      { symbol: "g/d", factor: 1, also: per(["g", "gram", "grams"], DAY) },
      { symbol: "mg/d", factor: 0.001, also: per(["mg"], DAY) },
      { symbol: "kg/d", factor: 1000, also: per(["kg"], DAY) },
    ],
  },
  alkalinity: {
    words: "an alkalinity",
    example: "8.2 dKH",
    min: 0,
    max: 5000,
    units: [
      { symbol: "dKH", factor: 1, also: ["degkh", "deg kh", "kh"] },
      { symbol: "meq/L", factor: DKH_PER_MEQ_L, also: ["mval/l", "mmol/L"] },
      {
        symbol: "ppm CaCO3",
        factor: DKH_PER_MEQ_L / CACO3_MG_PER_MEQ,
        also: ["mg/L CaCO3", "ppm as CaCO3", "mg/L as CaCO3"],
      },
      { symbol: "umol/kg", factor: (DKH_PER_MEQ_L * SEA_WATER_KG_PER_L) / 1000, also: ["ueq/kg"] },
      { symbol: "mmol/kg", factor: DKH_PER_MEQ_L * SEA_WATER_KG_PER_L, also: ["meq/kg"] },
    ],
  },
  "alkalinity per day": {
    words: "a use of alkalinity per day",
    example: "0.9 dKH/d",
    min: 0,
    max: 100,
    units: [
      { symbol: "dKH/d", factor: 1, also: per(["dKH"], DAY) },
      { symbol: "meq/L/d", factor: DKH_PER_MEQ_L, also: per(["meq/L", "mmol/L"], DAY) },
    ],
  },
  calcium: {
    words: "a calcium concentration",
    example: "420 mg/L",
    min: 0,
    max: 1e6,
    units: [
      { symbol: "mg/L", factor: 1, also: ["ppm"] },
      { symbol: "mmol/L", factor: 40.078 },
      { symbol: "mmol/kg", factor: 40.078 * SEA_WATER_KG_PER_L },
    ],
  },
  magnesium: {
    words: "a magnesium concentration",
    example: "1320 mg/L",
    min: 0,
    max: 1e6,
    units: [
      { symbol: "mg/L", factor: 1, also: ["ppm"] },
      { symbol: "mmol/L", factor: 24.305 },
      { symbol: "mmol/kg", factor: 24.305 * SEA_WATER_KG_PER_L },
    ],
  },
  nitrate: {
    words: "a nitrate concentration (as NO3)",
    example: "8 mg/L",
    min: 0,
    max: 1e5,
    units: [
      { symbol: "mg/L", factor: 1, also: ["ppm", "mg/L NO3", "ppm NO3"] },
      { symbol: "mg/L N", factor: 62.004 / 14.007, also: ["ppm N", "mg/L NO3-N"] },
      { symbol: "umol/L", factor: 0.062004 },
      { symbol: "umol/kg", factor: 0.062004 * SEA_WATER_KG_PER_L },
    ],
  },
  phosphate: {
    words: "a phosphate concentration (as PO4)",
    example: "0.06 mg/L",
    min: 0,
    max: 1e4,
    units: [
      { symbol: "mg/L", factor: 1, also: ["ppm", "mg/L PO4", "ppm PO4"] },
      { symbol: "ug/L", factor: 0.001, also: ["ppb", "ppb PO4"] },
      { symbol: "mg/L P", factor: 94.97 / 30.974, also: ["ppm P"] },
      { symbol: "ug/L P", factor: 0.09497 / 30.974, also: ["ppb P"] },
      { symbol: "umol/L", factor: 0.09497 },
      { symbol: "umol/kg", factor: 0.09497 * SEA_WATER_KG_PER_L },
    ],
  },
  oxygen: {
    words: "an oxygen concentration",
    example: "6.2 mg/L",
    min: 0,
    max: 60,
    units: [
      { symbol: "mg/L", factor: 1, also: ["ppm"] },
      { symbol: "mmol/L", factor: 31.998 },
      { symbol: "umol/L", factor: 0.031998 },
      { symbol: "umol/kg", factor: 0.031998 * SEA_WATER_KG_PER_L },
    ],
  },
  duration: {
    words: "a length of time",
    example: "10 min",
    min: 0,
    max: 1e10,
    units: [
      { symbol: "s", factor: 1, also: ["sec", "secs", "second", "seconds"] },
      { symbol: "min", factor: 60, also: ["mins", "minute", "minutes"] },
      { symbol: "h", factor: 3600, also: ["hr", "hrs", "hour", "hours"] },
      { symbol: "d", factor: 86400, also: ["day", "days"] },
      { symbol: "weeks", factor: 604800, also: ["week", "wk", "wks"] },
      { symbol: "months", factor: HOURS_PER_MONTH * 3600, also: ["month", "mo"] },
      { symbol: "years", factor: 31557600, also: ["year", "yr", "yrs"] },
    ],
  },
  length: {
    words: "a length",
    example: "55 cm",
    min: 0,
    max: 1000,
    units: [
      { symbol: "m", factor: 1, also: ["metre", "metres", "meter", "meters"] },
      { symbol: "cm", factor: 0.01 },
      { symbol: "mm", factor: 0.001 },
      { symbol: "in", factor: 0.0254, also: ["inch", "inches", '"'] },
      { symbol: "ft", factor: 0.3048, also: ["foot", "feet"] },
    ],
  },
  area: {
    words: "an area",
    example: "0.72 m2",
    min: 0,
    max: 1e6,
    units: [
      { symbol: "m2", factor: 1, also: ["m^2", "sq m", "square metres", "square meters"] },
      { symbol: "cm2", factor: 0.0001, also: ["cm^2"] },
      { symbol: "ft2", factor: 0.09290304, also: ["ft^2", "sq ft", "square feet"] },
      { symbol: "in2", factor: 0.00064516, also: ["in^2", "sq in"] },
    ],
  },
  light: {
    words: "a light level at the corals",
    example: "180 PAR",
    min: 0,
    max: 5000,
    units: [{ symbol: "PAR", factor: 1, also: ["umol/m2/s", "umol m-2 s-1", "umol/m^2/s"] }],
  },
  illuminance: {
    words: "an illuminance",
    example: "8000 lx",
    min: 0,
    max: 1e6,
    units: [{ symbol: "lx", factor: 1, also: ["lux"] }],
  },
  share: {
    words: "a share",
    example: "60 %",
    min: 0,
    max: 1,
    bare: true,
    units: [{ symbol: "%", factor: 0.01, also: ["percent", "per cent"] }],
    bareFactor: 1,
  },
  ph: {
    words: "a pH",
    example: "8.1 pH",
    min: 0,
    max: 14,
    bare: true,
    units: [{ symbol: "pH", factor: 1 }],
  },
  potential: {
    words: "an electrode potential",
    example: "350 mV",
    min: -2000,
    max: 2000,
    units: [
      { symbol: "mV", factor: 1, also: ["millivolt", "millivolts"] },
      { symbol: "V", factor: 1000 },
    ],
  },
  "air co2": {
    words: "a share of carbon dioxide in air",
    example: "900 ppm",
    min: 0,
    max: 1e6,
    units: [
      { symbol: "ppm", factor: 1, also: ["ppm CO2"] },
      { symbol: "uatm", factor: 1 },
    ],
  },
  "salinity units": {
    words: "a practical salinity",
    example: "35 ppt",
    min: 0,
    max: 60,
    units: [{ symbol: "ppt", factor: 1, also: ["psu", "g/kg", "pss"] }],
  },
  conductivity: {
    words: "a conductivity",
    example: "53.1 mS/cm",
    min: 0,
    max: 200,
    units: [
      { symbol: "mS/cm", factor: 1 },
      { symbol: "uS/cm", factor: 0.001 },
      { symbol: "S/m", factor: 10 },
    ],
  },
  "specific gravity": {
    words: "a specific gravity",
    example: "1.0264 SG",
    min: 0.9,
    max: 1.2,
    units: [{ symbol: "SG", factor: 1, also: ["sg", "d"] }],
  },
  "heat conductance": {
    words: "a heat loss per degree",
    example: "16 W/K",
    min: 0,
    max: 1e5,
    units: [{ symbol: "W/K", factor: 1, also: ["w/degC", "w per k"] }],
  },
  "times per hour": {
    words: "so many times an hour",
    example: "0.5 /h",
    min: 0,
    max: 1000,
    units: [
      { symbol: "/h", factor: 1, also: ["per h", "per hour", "an hour", "a hour", "times an hour", "1/h"] },
      { symbol: "/d", factor: 1 / 24, also: ["per d", "per day", "a day", "times a day", "1/d"] },
    ],
  },
  "times per day": {
    words: "so many times a day",
    example: "12 /d",
    min: 0,
    max: 1440,
    units: [
      { symbol: "/d", factor: 1, also: ["per d", "per day", "a day", "times a day", "1/d"] },
      { symbol: "/h", factor: 24, also: ["per h", "per hour", "an hour", "times an hour", "1/h"] },
    ],
  },
  "alkalinity strength": {
    words: "a strength of alkalinity",
    example: "1.0 meq/mL",
    min: 0,
    max: 40,
    units: [
      { symbol: "meq/mL", factor: 1, also: ["eq/L"] },
      { symbol: "meq/L", factor: 0.001 },
      { symbol: "dKH L/mL", factor: 1 / DKH_PER_MEQ_L, also: ["dkh*l/ml"] },
    ],
  },
  "ion strength": {
    words: "a strength of calcium or magnesium",
    example: "0.9 mmol/mL",
    min: 0,
    max: 20,
    units: [{ symbol: "mmol/mL", factor: 1, also: ["mol/L"] }],
  },
  "mass strength": {
    words: "a mass in each millilitre",
    example: "0.3 g/mL",
    min: 0,
    max: 10,
    units: [
      { symbol: "g/mL", factor: 1, also: ["kg/L"] },
      { symbol: "g/L", factor: 0.001, also: ["mg/mL"] },
    ],
  },
} as const satisfies Readonly<Record<string, DimensionFacts>>;

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
