/** Evaporation from an open tank. Sources and certainty: docs/science.md#evaporation. */

/** Seawater's vapour pressure over pure water's, at S 35 (Raoult's law). */
const SALT_LOWERS_VAPOUR = 0.98;

/** Vapour pressure of pure water, kPa, 0 to 60 degrees C. Buck 1996. */
export function saturationVapourPressureKPa(temperatureC: number): number {
  return 0.61121 * Math.exp(((18.678 - temperatureC / 234.5) * temperatureC) / (257.14 + temperatureC));
}

/** Heat that evaporation takes, kJ/kg, 0 to 60 degrees C (straight line through the steam tables). */
export function latentHeatKJPerKg(temperatureC: number): number {
  return 2500.8 - 2.36 * temperatureC;
}

/**
 * Evaporation, kg per m2 of open water and second; negative where the air is so warm and wet that it condenses.
 *
 * Pool formula of the ASHRAE handbook (HVAC Applications, natatoriums), after Carrier 1918. `relativeHumidity` 0..1,
 * `airSpeedMS` over the surface, `activityFactor`: 0.5 quiet open tank (0.3 to 0.7), 1 vigorous surface, skimmer or weir,
 * 0.05 to 0.15 under a lid; mesh multiplies by 0.8 to 0.9. Uncertain by a factor of 1.5.
 */
export function evaporationKgPerM2S(
  waterC: number,
  airC: number,
  relativeHumidity: number,
  airSpeedMS: number,
  activityFactor: number,
): number {
  const drive =
    SALT_LOWERS_VAPOUR * saturationVapourPressureKPa(waterC) - relativeHumidity * saturationVapourPressureKPa(airC);
  return (activityFactor * (0.089 + 0.0782 * airSpeedMS) * drive) / latentHeatKJPerKg(waterC);
}
