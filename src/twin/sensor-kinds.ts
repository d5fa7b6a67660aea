/** What is true of every sensor of a kind, whatever its make. */
import type { Sensor } from "../site/index.ts";

type Quantity = Sensor["measures"];

export function isYesOrNo(quantity: Quantity): boolean {
  return quantity === "float" || quantity === "leak" || quantity === "mains";
}

/**
 * Least speed, in units per hour, at which a quantity is taken to be able to move before the next look. Those that jump (0)
 * are watched by events.
 */
export const SPEED_PER_H: Readonly<Record<Quantity, number>> = {
  temperature: 0.6,
  ph: 0.15,
  salinity: 0.3,
  oxygen: 0.6,
  alkalinity: 0.4,
  orp: 30,
  level: 5,
  float: 0,
  flow: 0,
  power: 0,
  leak: 0,
  mains: 0,
  "air-temperature": 2,
  "air-co2": 400,
  light: 400,
};

/** What a probe shows that hangs in the air, where that is not the air itself (docs/science.md#probes). */
export const DRY_VALUE: Readonly<Partial<Record<Quantity, number>>> = {
  ph: 9.3,
  salinity: 0,
  oxygen: 8.3,
  float: 0,
  level: 0,
  orp: 200,
};
