/** How much of the ammonia is in its poisonous form. Sources and certainty: docs/science.md#ammonia. */
import { ZERO_CELSIUS_K } from "../units.ts";

/**
 * pKa of ammonium on the total scale, mol per kg of seawater; -2 to 40 degrees C, 0 to 40 salinity.
 * Clegg & Whitfield 1995 equation 18, turned from molal by 1 - 0.001005 S. Beware of constants on the free scale (about
 * 0.11 higher) and of pH as displayed by a probe (about 0.13 higher): either mix-up shifts NH3 by a third.
 */
export function ammoniumPka(temperatureC: number, salinity: number): number {
  const kelvin = temperatureC + ZERO_CELSIUS_K;
  const rootK = Math.sqrt(kelvin);
  const s = Math.max(salinity, 0);
  const rootS = Math.sqrt(s);
  const molal =
    9.244605 -
    2729.33 * (1 / 298.15 - 1 / kelvin) +
    (0.04203362 - 11.24742 / kelvin) * Math.sqrt(rootS) +
    (-13.6416 + 1.176949 * rootK - 0.02860785 * kelvin + 545.4834 / kelvin) * rootS +
    (-0.1462507 + 0.0090226468 * rootK - 0.0001471361 * kelvin + 10.5425 / kelvin) * s * rootS +
    (0.004669309 - 0.0001691742 * rootK - 0.5677934 / kelvin) * s * s +
    (-2.354039e-5 + 0.009698623 / kelvin) * s * s * rootS;
  return molal - Math.log10(1 - 0.001005 * s);
}

/**
 * The same by an older fit, a second opinion that lies within 0.03: -0.467 + 0.00113 S + 2887.9/K.
 * Johansson & Wedborg 1980 as quoted by Bell et al. 2007.
 */
export function ammoniumPkaJohanssonWedborg80(temperatureC: number, salinity: number): number {
  return -0.467 + 0.00113 * salinity + 2887.9 / (temperatureC + ZERO_CELSIUS_K);
}

/** Share (0..1) of total ammonia that is NH3, at a pH on the total scale. */
export function ammoniaFraction(temperatureC: number, salinity: number, phTotal: number): number {
  return 1 / (1 + 10 ** (ammoniumPka(temperatureC, salinity) - phTotal));
}
