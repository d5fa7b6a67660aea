/** Oxygen that animals use. Sources and certainty: docs/science.md#respiration. */
import { MOLAR_MASS, ZERO_CELSIUS_K } from "../units.ts";

/**
 * Resting oxygen uptake, mg/h, of `fishCount` fish of `massG` grams each. Clarke & Johnston 1999 across 69 species of bony
 * fish: ln R = 15.7 - 5020/T for 50 g in mmol/h, with mass to the power 0.80. Small reef fish measure 20 to 40 % lower;
 * ordinary life takes 1.3 to 1.7 times as much, a meal 1.5 to 2.5, fright 3 to 5.
 */
export function fishOxygenMgPerH(massG: number, temperatureC: number, fishCount = 1): number {
  if (!(massG > 0)) return 0;
  const restingMmol = Math.exp(15.7 - 5020 / (temperatureC + ZERO_CELSIUS_K)) * (massG / 50) ** 0.8;
  return restingMmol * MOLAR_MASS.oxygenGas * fishCount;
}

/** Factor on uptake when one tank's water warms or cools: Q10 2.4 within a species (Clarke & Johnston 1999), 1 at 26 degrees C. */
export function fishWarmthFactor(temperatureC: number): number {
  return 2.4 ** ((temperatureC - 26) / 10);
}

/**
 * Share (0..1) of its uptake that an animal keeps as oxygen falls: all above its critical level, then in proportion.
 * Reef fish 0.9 to 2.3 mg/L (Nilsson & Ostlund-Nilsson 2004), a branching coral 3.7.
 */
export function oxygenLimitation(oxygenMgL: number, criticalMgL: number): number {
  if (!(oxygenMgL > 0)) return 0;
  return oxygenMgL < criticalMgL ? oxygenMgL / criticalMgL : 1;
}
