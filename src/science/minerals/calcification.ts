/** How fast living things lay down aragonite. Sources and certainty: docs/science.md#calcification. */
import { held } from "../held.ts";

/** Saturation state at which the factor is 1. */
const REFERENCE_OMEGA = 4;
/** Loss per unit of saturation state, 0.08 to 0.22 in the meta-analysis of Chan & Connolly 2013. */
const SLOPE_PER_OMEGA = 0.15;
/** Gains level off above a saturation state of 4 to 5 (convention). */
const MOST_FROM_OMEGA = 1.3;
/** Rate in the dark over rate in full light; median of Gattuso, Allemand & Frankignoulle 1999. */
const DARK_SHARE = 0.33;
/** Bell curve about the temperature the animals are used to (Marshall & Clode 2004 for its place; width by convention). */
const BEST_TEMPERATURE_C = 26.5;
const TEMPERATURE_WIDTH_C = 3.5;

/** The saturation factor at Omega 2, where the meta-analysis ends and the law through Omega 1 takes over. */
const AT_TWO = 1 + SLOPE_PER_OMEGA * (2 - REFERENCE_OMEGA);

/** Factor of saturation state: 1 at 4, 0 at 1 and below (Langdon & Atkinson 2005), straight between 1 and 2. */
function saturationFactor(omega: number): number {
  if (!(omega > 1)) return 0;
  if (omega < 2) return AT_TWO * (omega - 1);
  return Math.min(MOST_FROM_OMEGA, 1 + SLOPE_PER_OMEGA * (omega - REFERENCE_OMEGA));
}

/**
 * Calcification over that at saturation state 4, in full light, at 26.5 degrees C. `lightShare` is the share of light-saturated
 * photosynthesis, 0 (night) to 1. Species differ by a factor of two.
 */
export function calcificationFactor(omega: number, lightShare: number, temperatureC: number): number {
  const fromOmega = saturationFactor(omega);
  if (fromOmega === 0) return 0;
  const light = held(lightShare, 0, 1);
  const away = (temperatureC - BEST_TEMPERATURE_C) / TEMPERATURE_WIDTH_C;
  return fromOmega * (DARK_SHARE + (1 - DARK_SHARE) * light) * Math.exp(-0.5 * away * away);
}

/** Mean of the light factor over a day in which the light share has this mean: a daily demand divided by it gives the rate in full light. */
export function calcificationDayMean(meanLightShare: number): number {
  return DARK_SHARE + (1 - DARK_SHARE) * meanLightShare;
}
