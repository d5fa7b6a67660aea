/**
 * Units of water, light and air, by dimension, canonical unit first: value = written number * factor + shift.
 *
 * Molar masses by IUPAC 2021: CaO 56.077, CaCO3 100.086, Ca 40.078, Mg 24.305, NO3 62.004, PO4 94.970, O2 31.998 g/mol.
 */
import type { DimensionFacts } from "./unit.ts";
import { DAY, per } from "./unit.ts";

/** 1 degree of alkalinity is 10 mg/L of CaO, that is 10 / (56.077 / 2) meq/L. */
const DKH_PER_MEQ_L = 56.077 / 2 / 10;
const CACO3_MG_PER_MEQ = 100.086 / 2;
/** Sea water at S 35 and 25 degC, kg/L (EOS-80): turns per-kilogram figures of laboratories into per-litre ones. */
const SEA_WATER_KG_PER_L = 1.0233;

export const WATER_DIMENSIONS = {
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
