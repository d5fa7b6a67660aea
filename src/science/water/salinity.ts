/**
 * Salinity as keepers measure it: by conductivity or by specific gravity.
 * Sources and certainty: docs/science.md#salinity.
 */
import { seawaterDensity } from "./seawater.ts";

/** Conductivity of standard seawater (S 35) at 15 degrees C on the 1968 scale, mS/cm (Culkin & Smith 1980). */
const STANDARD_CONDUCTIVITY = 42.914;

/** The practical salinity scale is tied to the temperature scale of 1968: 1.00024 times today's (Saunders 1990). */
export const T68_PER_T90 = 1.00024;

/** Steps enough for Newton's method on these smooth, nearly straight curves; three reach the last digit. */
const STEPS = 12;

/** Conductivity of S 35 at this temperature over that at 15 degrees C (UNESCO 1983, r_t). */
function temperatureRatio(t68C: number): number {
  return 0.6766097 + t68C * (2.00564e-2 + t68C * (1.104259e-4 + t68C * (-6.9698e-7 + t68C * 1.0031e-9)));
}

/** Practical salinity from the square root of the ratio to S 35 at the same temperature (Lewis 1980). */
function salinityOfRootRatio(x: number, t68C: number): number {
  const a = 0.008 + x * (-0.1692 + x * (25.3851 + x * (14.0941 + x * (-7.0261 + x * 2.7081))));
  const b = 0.0005 + x * (-0.0056 + x * (-0.0066 + x * (-0.0375 + x * (0.0636 - x * 0.0144))));
  return a + ((t68C - 15) / (1 + 0.0162 * (t68C - 15))) * b;
}

function salinitySlopeOfRootRatio(x: number, t68C: number): number {
  const a = -0.1692 + x * (2 * 25.3851 + x * (3 * 14.0941 + x * (4 * -7.0261 + x * 5 * 2.7081)));
  const b = -0.0056 + x * (2 * -0.0066 + x * (3 * -0.0375 + x * (4 * 0.0636 - x * 5 * 0.0144)));
  return a + ((t68C - 15) / (1 + 0.0162 * (t68C - 15))) * b;
}

/**
 * Practical salinity from the conductivity ratio C(S,t)/C(35,15), temperature on the 1968 scale.
 * PSS-78 (Lewis 1980; UNESCO 1983), 2 to 42 salinity, -2 to 35 degrees C. Below 2 it still rises with the ratio.
 */
export function salinityFromConductivityRatio(ratio: number, t68C: number): number {
  if (!(ratio > 0)) return 0;
  return Math.max(0, salinityOfRootRatio(Math.sqrt(ratio / temperatureRatio(t68C)), t68C));
}

/** The inverse of `salinityFromConductivityRatio`, by Newton's method on the square root of the ratio. */
export function conductivityRatioFromSalinity(salinity: number, t68C: number): number {
  if (!(salinity > 0)) return 0;
  let x = Math.sqrt(salinity / 35);
  for (let step = 0; step < STEPS; step++) {
    const change = (salinityOfRootRatio(x, t68C) - salinity) / salinitySlopeOfRootRatio(x, t68C);
    x = Math.max(x - change, x / 4);
    if (Math.abs(change) < 1e-14) break;
  }
  return x * x * temperatureRatio(t68C);
}

/** Practical salinity from conductivity in mS/cm at the water's temperature. */
export function salinityFromConductivity(mSPerCm: number, temperatureC: number): number {
  return salinityFromConductivityRatio(mSPerCm / STANDARD_CONDUCTIVITY, temperatureC * T68_PER_T90);
}

/** Conductivity, mS/cm, of water of this practical salinity at this temperature. */
export function conductivityFromSalinity(salinity: number, temperatureC: number): number {
  return conductivityRatioFromSalinity(salinity, temperatureC * T68_PER_T90) * STANDARD_CONDUCTIVITY;
}

/** Density against pure water, both at the reference temperature (25 or 20 degrees C on most instruments). */
export function specificGravityFromSalinity(salinity: number, referenceC: number): number {
  return seawaterDensity(referenceC, salinity) / seawaterDensity(referenceC, 0);
}

/** Practical salinity from a specific gravity; pure water and lighter give 0. Newton's method on the density equation. */
export function salinityFromSpecificGravity(specificGravity: number, referenceC: number): number {
  const wanted = specificGravity * seawaterDensity(referenceC, 0);
  let salinity = (specificGravity - 1) / 7.5e-4;
  if (!(salinity > 0)) return 0;
  for (let step = 0; step < STEPS; step++) {
    const slope =
      seawaterDensity(referenceC, salinity + 0.5) - seawaterDensity(referenceC, Math.max(0, salinity - 0.5));
    const change = (seawaterDensity(referenceC, salinity) - wanted) / (slope / (salinity >= 0.5 ? 1 : salinity + 0.5));
    salinity = Math.max(0, salinity - change);
    if (Math.abs(change) < 1e-12) break;
  }
  return salinity;
}
