/**
 * What can be measured: where such a sensor sits, in which unit it speaks, what a rule may ask of it, and how good the
 * usual types are. Noise, lag and drift are practice values for probes in use, not of a data sheet.
 */
import type { Dimension } from "../../foundation/index.ts";
import type { Quantity, Sensor } from "../model.ts";

export interface SensorType {
  readonly name: string;
  readonly noise: number;
  readonly resolution: number;
  readonly lagS: number;
  readonly driftPerMonth: number;
}

export interface Measure {
  readonly words: string;
  /** Dimension of its readings; null for a contact. */
  readonly dimension: Dimension | null;
  readonly sits: readonly Sensor["atKind"][];
  /** number: compares with values; contact: wet or dry; presence: present or absent. */
  readonly says: "number" | "contact" | "presence";
  /** In what the table's figures are: the unit itself, millimetres of level, or shares of the full flow or power. */
  readonly scale: "unit" | "millimetre" | "share";
  /** The most usual first. */
  readonly types: readonly SensorType[];
}

function type(name: string, noise: number, resolution: number, lagS: number, driftPerMonth: number): SensorType {
  return { name, noise, resolution, lagS, driftPerMonth };
}

export const MEASURES: Readonly<Record<Quantity, Measure>> = {
  temperature: {
    words: "water temperature",
    dimension: "temperature",
    sits: ["body"],
    says: "number",
    scale: "unit",
    types: [
      type("thermistor", 0.03, 0.1, 30, 0.005),
      type("digital", 0.02, 0.0625, 20, 0.003),
      type("platinum", 0.01, 0.01, 30, 0.002),
    ],
  },
  ph: {
    words: "pH",
    dimension: "ph",
    sits: ["body"],
    says: "number",
    scale: "unit",
    types: [type("glass", 0.01, 0.01, 30, 0.04)],
  },
  salinity: {
    words: "salinity",
    dimension: "salinity units",
    sits: ["body"],
    says: "number",
    scale: "unit",
    types: [type("conductivity", 0.08, 0.1, 15, -0.7)],
  },
  oxygen: {
    words: "oxygen",
    dimension: "oxygen",
    sits: ["body"],
    says: "number",
    scale: "unit",
    types: [type("optical", 0.05, 0.01, 45, -0.13), type("galvanic", 0.1, 0.1, 60, -0.3)],
  },
  alkalinity: {
    words: "alkalinity",
    dimension: "alkalinity",
    sits: ["body"],
    says: "number",
    scale: "unit",
    types: [type("titrator", 0.1, 0.05, 0, 0.05), type("photometer", 0.15, 0.1, 0, 0.05)],
  },
  orp: {
    words: "redox potential",
    dimension: "potential",
    sits: ["body"],
    says: "number",
    scale: "unit",
    types: [type("platinum", 3, 1, 600, -30)],
  },
  level: {
    words: "level, as the volume of water in the body",
    dimension: "volume",
    sits: ["body"],
    says: "number",
    scale: "millimetre",
    types: [type("pressure", 1, 1, 5, 1), type("ultrasonic", 3, 1, 5, 0)],
  },
  float: {
    words: "a float",
    dimension: null,
    sits: ["body"],
    says: "contact",
    scale: "unit",
    types: [type("mechanical", 0, 0, 3, 0), type("optical", 0, 0, 2, 0), type("capacitive", 0, 0, 2, 0)],
  },
  flow: {
    words: "flow through a device",
    dimension: "flow",
    sits: ["device"],
    says: "number",
    scale: "share",
    types: [type("turbine", 0.03, 0.01, 1, -0.01), type("ultrasonic", 0.02, 0.01, 2, 0)],
  },
  power: {
    words: "power that a device or circuit draws",
    dimension: "power",
    sits: ["device", "circuit"],
    says: "number",
    scale: "share",
    types: [type("meter", 0.01, 0.005, 5, 0)],
  },
  leak: {
    words: "water where none should be",
    dimension: null,
    sits: ["room", "body"],
    says: "contact",
    scale: "unit",
    types: [type("spot", 0, 0, 5, 0), type("rope", 0, 0, 10, 0)],
  },
  mains: {
    words: "whether a circuit has power",
    dimension: null,
    sits: ["circuit"],
    says: "presence",
    scale: "unit",
    types: [type("relay", 0, 0, 1, 0)],
  },
  "air-temperature": {
    words: "air temperature",
    dimension: "temperature",
    sits: ["room"],
    says: "number",
    scale: "unit",
    types: [type("digital", 0.1, 0.1, 300, 0), type("thermistor", 0.1, 0.1, 300, 0)],
  },
  "air-co2": {
    words: "carbon dioxide in the air",
    dimension: "air co2",
    sits: ["room"],
    says: "number",
    scale: "unit",
    types: [type("infrared", 20, 10, 60, 10)],
  },
  light: {
    words: "light in the water",
    dimension: "light",
    sits: ["body"],
    says: "number",
    scale: "unit",
    types: [type("quantum", 2, 1, 1, -2)],
  },
};

/** The dimension in which differences, noise and rates of a measure are written. */
export function differenceDimension(dimension: Dimension): Dimension {
  return dimension === "temperature" ? "temperature difference" : dimension;
}
