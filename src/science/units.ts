/**
 * Conversions between the units of the trade and those of chemistry. Exact but for the molar masses.
 * Sources and certainty: docs/science.md#units.
 */

/** Kelvin at 0 degrees C, exact by definition. */
export const ZERO_CELSIUS_K = 273.15;

/** Molar gas constant, J/(mol K), exact in the SI of 2019. */
export const GAS_CONSTANT = 8.31446261815324;

/** Molar masses, g/mol (IUPAC 2021). */
export const MOLAR_MASS = {
  calcium: 40.078,
  magnesium: 24.305,
  nitrogen: 14.007,
  phosphorus: 30.974,
  oxygenGas: 31.9988,
  nitrate: 62.004,
  phosphate: 94.97,
  calciumOxide: 56.077,
  calciumCarbonate: 100.086,
} as const;

/** One degree of carbonate hardness is 10 mg of CaO in a litre, and CaO takes up two equivalents of acid. */
const DKH_MG_CAO_PER_L = 10;

/** 2 * 10 / 56.077 = 0.356653. (The trade's 2.804 dKH per meq/L is this number's inverse, rounded.) */
export const MEQ_PER_L_PER_DKH = (2 * DKH_MG_CAO_PER_L) / MOLAR_MASS.calciumOxide;

export function meqPerLFromDkh(alkalinityDkh: number): number {
  return alkalinityDkh * MEQ_PER_L_PER_DKH;
}

export function dkhFromMeqPerL(alkalinityMeqPerL: number): number {
  return alkalinityMeqPerL / MEQ_PER_L_PER_DKH;
}

/** Alkalinity in mol of charge per kg, as chemistry wants it, from dKH and the density of that water. */
export function alkalinityMolKgFromDkh(alkalinityDkh: number, densityKgM3: number): number {
  return meqPerLFromDkh(alkalinityDkh) / densityKgM3;
}

/** Alkalinity in dKH, as a kit gives it, from mol of charge per kg and the density of that water. */
export function dkhFromAlkalinityMolKg(alkalinityMolKg: number, densityKgM3: number): number {
  return dkhFromMeqPerL(alkalinityMolKg * densityKgM3);
}

/** mg/L from mol/kg, for any substance of the given molar mass (g/mol). */
export function mgPerLFromMolKg(amountMolKg: number, molarMass: number, densityKgM3: number): number {
  return amountMolKg * molarMass * densityKgM3;
}

/** mol/kg from mg/L, for any substance of the given molar mass (g/mol). */
export function molKgFromMgPerL(concentrationMgL: number, molarMass: number, densityKgM3: number): number {
  return concentrationMgL / (molarMass * densityKgM3);
}
