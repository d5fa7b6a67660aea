/**
 * Where each law of water was measured. Outside, its number is an extrapolation and must be called so.
 * Sources and certainty: docs/science.md.
 */

/** Temperature in degrees C, practical salinity. */
export interface FittedRange {
  readonly law: string;
  readonly source: string;
  readonly coldestC: number;
  readonly hottestC: number;
  readonly freshest: number;
  readonly saltiest: number;
  /** What is worked out with it, in words. */
  readonly bears: string;
}

function range(
  law: string,
  source: string,
  [coldestC, hottestC]: readonly [number, number],
  [freshest, saltiest]: readonly [number, number],
  bears: string,
): FittedRange {
  return { law, source, coldestC, hottestC, freshest, saltiest, bears };
}

/** Laws that pH, carbon and saturation rest on. */
const CARBONATE_RANGES: readonly FittedRange[] = [
  range("K1 and K2", "Lueker, Dickson & Keeling 2000", [2, 35], [19, 43], "all of the carbonate system"),
  range("KB and KS", "Dickson 1990", [0, 45], [5, 45], "borate, the pH scales and alkalinity"),
  range("KF", "Perez & Fraga 1987", [9, 33], [10, 40], "the seawater and NBS scales, by about 0.001"),
  range("K0", "Weiss 1974", [-1, 40], [0, 40], "the pressure of CO2"),
  range("Ksp", "Mucci 1983", [5, 40], [5, 44], "saturation with aragonite and calcite"),
  range("fH", "Takahashi et al. 1982", [0, 40], [20, 40], "pH on the NBS scale"),
];

/** Laws of the water as such. */
const WATER_RANGES: readonly FittedRange[] = [
  range("density", "Millero & Poisson 1981", [-2, 40], [0, 42], "amounts per litre and specific gravity"),
  range("specific heat", "Millero, Perron & Desnoyers 1973", [0, 35], [0, 40], "specific heat"),
  range("practical salinity", "Lewis 1980", [-2, 35], [2, 42], "conductivity and salinity from it"),
  range("oxygen solubility", "Garcia & Gordon 1992", [0, 40], [0, 42], "oxygen saturation"),
  range("vapour pressure", "Weiss & Price 1980", [0, 40], [0, 40], "vapour and oxygen under other pressures"),
  range("pKa of ammonium", "Clegg & Whitfield 1995", [-2, 40], [0, 40], "the share of un-ionised ammonia"),
];

/** The laws of water that this temperature and salinity lie outside of; those of the carbonate system only where asked. */
export function lawsOutside(temperatureC: number, salinity: number, withCarbonate: boolean): FittedRange[] {
  const laws = withCarbonate ? [...CARBONATE_RANGES, ...WATER_RANGES] : WATER_RANGES;
  return laws.filter((law) => !isTemperatureWithin(law, temperatureC) || !isSalinityWithin(law, salinity));
}

export function isTemperatureWithin(law: FittedRange, temperatureC: number): boolean {
  return temperatureC >= law.coldestC && temperatureC <= law.hottestC;
}

export function isSalinityWithin(law: FittedRange, salinity: number): boolean {
  return salinity >= law.freshest && salinity <= law.saltiest;
}
