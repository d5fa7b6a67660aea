/** Lime that forms without life, and dissolves. Sources and certainty: docs/science.md#precipitation. */
import { held } from "../held.ts";

/** The measurements reach from 5 to 37 degrees C; the fits are held a little beyond. */
function bounded(temperatureC: number): number {
  return held(temperatureC, 5, 40);
}

/** Rate constant of aragonite growth, umol/(m2 h). Burton & Walter 1987 in the fit of McCulloch et al. 2012. */
export function aragoniteRateConstant(temperatureC: number): number {
  const t = bounded(temperatureC);
  return 14.893 + t * (1.4697 - 0.0177 * t);
}

/** Reaction order of aragonite growth. Burton & Walter 1987 in the fit of McCulloch et al. 2012. */
export function aragoniteRateOrder(temperatureC: number): number {
  return 0.0628 * bounded(temperatureC) + 0.0985;
}

/**
 * Aragonite that grows on clean crystals in seawater, umol CaCO3 per m2 of reactive surface and hour; 0 at Omega 1 and below.
 * Fouled sand and rock reach 0.001 to 0.05 of it, fresh crystals 0.3 to 1.
 */
export function aragonitePrecipitationRate(omega: number, temperatureC: number): number {
  return omega > 1 ? aragoniteRateConstant(temperatureC) * (omega - 1) ** aragoniteRateOrder(temperatureC) : 0;
}

/**
 * Saturation states of aragonite above which crystals appear by themselves: on lime particles in the water (Moras et al. 2022)
 * and in clean water (Morse & He 1993).
 */
export const NUCLEATION_OMEGA = { particles: 7, clean: 12 } as const;

/** How readily new crystals appear, 0 up to the critical saturation state, 1 at twice it (form derived, exponent by convention). */
export function nucleationShare(omega: number, criticalOmega: number): number {
  const excess = (omega - criticalOmega) / criticalOmega;
  return excess > 0 ? excess * excess * excess * excess : 0;
}

/** Rate constant of dissolution near balance, umol/(m2 h): order of magnitude only (10 to 100). */
const DISSOLUTION_RATE = 30;

/** Aragonite that dissolves below Omega 1, umol CaCO3 per m2 and hour; order 2 near balance (Keir 1980 found more farther off). */
export function aragoniteDissolutionRate(omega: number): number {
  const lack = 1 - omega;
  return lack > 0 ? DISSOLUTION_RATE * lack * lack : 0;
}

const LIMEWATER_MEQ_PER_G = 2000 / 74.092;

/**
 * Alkalinity of saturated limewater, meq/L, 10 to 40 degrees C: a straight line through two compilations of the solubility
 * of Ca(OH)2 that differ by 5 % (1.69 g/L at 20 degrees C, 0.0125 less for each degree).
 */
export function limewaterStrengthMeqPerL(temperatureC: number): number {
  return (1.69 - 0.0125 * (temperatureC - 20)) * LIMEWATER_MEQ_PER_G;
}
