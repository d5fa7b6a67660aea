/** The glass electrode. Sources and certainty: docs/science.md#probes. */
import { GAS_CONSTANT, ZERO_CELSIUS_K } from "../units.ts";

/** C/mol, exact in the SI of 2019. */
const FARADAY = 96485.33212331;

/** Ideal slope, mV per pH unit (Nernst equation): 59.16 at 25 degrees C. A worn probe gives less than 90 % of it. */
export function nernstSlopeMv(temperatureC: number): number {
  return (1000 * Math.LN10 * GAS_CONSTANT * (temperatureC + ZERO_CELSIUS_K)) / FARADAY;
}
