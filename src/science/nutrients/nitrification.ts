/** The bacteria that turn ammonia into nitrite and nitrite into nitrate. Sources and certainty: docs/science.md#nitrification. */

/** Half of the full rate at this much nitrogen, mg N/L; reef biofilms lie at the low end of 0.05 to 1. */
const HALF_AMMONIA_MG_L = 0.2;
const HALF_NITRITE_MG_L = 0.3;
/** Half of the full rate at this much oxygen, mg/L (0.3 to 1). */
const HALF_OXYGEN_MG_L = 0.5;
/** Growth of the rate per degree (1.07 to 1.10). */
const PER_DEGREE = 1.08;
const REFERENCE_C = 26;
/** No faster above this: the bacteria fail where the fit would still climb (convention). */
const FASTEST_C = 35;

function monod(amount: number, half: number): number {
  return amount > 0 ? amount / (half + amount) : 0;
}

function share(nitrogenMgL: number, halfMgL: number, oxygenMgL: number, temperatureC: number): number {
  const warm = Math.min(temperatureC, FASTEST_C) - REFERENCE_C;
  return monod(nitrogenMgL, halfMgL) * monod(oxygenMgL, HALF_OXYGEN_MG_L) * PER_DEGREE ** warm;
}

/** Rate of ammonia oxidation over its greatest at 26 degrees C with plenty of both (Monod form); total ammonia in mg N/L. */
export function nitrificationShare(tanMgL: number, oxygenMgL: number, temperatureC: number): number {
  return share(tanMgL, HALF_AMMONIA_MG_L, oxygenMgL, temperatureC);
}

/** The same for nitrite oxidation; nitrite in mg N/L. */
export function nitriteOxidationShare(nitriteMgL: number, oxygenMgL: number, temperatureC: number): number {
  return share(nitriteMgL, HALF_NITRITE_MG_L, oxygenMgL, temperatureC);
}
