/**
 * Units of everyday things, by dimension, canonical unit first: value = written number * factor + shift.
 *
 * Sources: the inch, pound and US gallon by the international yard and pound agreement of 1959 and US 231 in3; the
 * imperial gallon by the UK Weights and Measures Act 1985. A month is a twelfth of a year, a year 365.25 days.
 */
import type { DimensionFacts } from "./unit.ts";
import { DAY, HOUR, MINUTE, per } from "./unit.ts";

const US_GALLON_L = 3.785411784;
const IMPERIAL_GALLON_L = 4.54609;
const HOURS_PER_MONTH = 730.5;

const LITRE = ["L", "liter", "liters", "litre", "litres"];
const MILLILITRE = ["mL", "milliliter", "milliliters", "millilitre", "millilitres"];
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

export const GENERAL_DIMENSIONS = {
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
  share: {
    words: "a share",
    example: "60 %",
    min: 0,
    max: 1,
    bare: true,
    units: [{ symbol: "%", factor: 0.01, also: ["percent", "per cent"] }],
    bareFactor: 1,
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
} as const satisfies Readonly<Record<string, DimensionFacts>>;
