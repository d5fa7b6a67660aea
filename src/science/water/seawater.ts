/**
 * Density, heat capacity and freezing point of seawater at the pressure of one atmosphere.
 * Sources and certainty: docs/science.md#seawater.
 */

/**
 * Density, kg/m3, for 0 to 42 salinity and -2 to 40 degrees C; the fit errs by 0.004 kg/m3.
 * Millero & Poisson 1981, UNESCO 1983 equations 13 and 14. Made for the temperature scale of 1968; the newer scale
 * differs by 0.006 degrees at 26, worth 0.002 kg/m3, and is used unconverted.
 */
export function seawaterDensity(temperatureC: number, salinity: number): number {
  const t = temperatureC;
  const s = Math.max(salinity, 0);
  const pure =
    999.842594 + t * (6.793952e-2 + t * (-9.09529e-3 + t * (1.001685e-4 + t * (-1.120083e-6 + t * 6.536332e-9))));
  const linear = 0.824493 + t * (-4.0899e-3 + t * (7.6438e-5 + t * (-8.2467e-7 + t * 5.3875e-9)));
  const threeHalves = -5.72466e-3 + t * (1.0227e-4 - t * 1.6546e-6);
  return pure + s * (linear + Math.sqrt(s) * threeHalves + s * 4.8314e-4);
}

/**
 * Specific heat, J/(kg K), for 0 to 40 salinity and 0 to 35 degrees C.
 * Millero, Perron & Desnoyers 1973, UNESCO 1983 equation 26.
 */
export function heatCapacity(temperatureC: number, salinity: number): number {
  const t = temperatureC;
  const s = Math.max(salinity, 0);
  const pure = 4217.4 + t * (-3.720283 + t * (0.1412855 + t * (-2.654387e-3 + t * 2.093236e-5)));
  const linear = -7.64357 + t * (0.1072763 - t * 1.38385e-3);
  const threeHalves = 0.1770383 + t * (-4.07718e-3 + t * 5.148e-5);
  return pure + s * (linear + Math.sqrt(s) * threeHalves);
}

/** Temperature at which seawater freezes, degrees C, for 4 to 40 salinity. Millero & Leung 1976, UNESCO 1983. */
export function freezingPoint(salinity: number): number {
  const s = Math.max(salinity, 0);
  return s * (-0.0575 + 1.710523e-3 * Math.sqrt(s) - 2.154996e-4 * s);
}
