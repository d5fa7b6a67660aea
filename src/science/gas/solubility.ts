/**
 * How much oxygen and carbon dioxide water holds in balance with air.
 * Sources and certainty: docs/science.md#gas-solubility.
 */
import { held } from "../held.ts";
import { ZERO_CELSIUS_K } from "../units.ts";

/** The fits diverge outside the liquid range; a stuck heater must not make them do so. */
const COLDEST_C = -5;
const HOTTEST_C = 60;
const BAR_PER_ATM = 1.01325;
/** Gas constant, cm3 bar/(mol K). */
const GAS_CONSTANT_CM3_BAR = 83.14462618;
const LOG_HUNDRED = Math.log(100);

function bounded(temperatureC: number): number {
  return held(temperatureC, COLDEST_C, HOTTEST_C);
}

/** Water vapour pressure over seawater, atm, 0 to 40 degrees C. Weiss & Price 1980 equation 10. */
export function seawaterVapourPressure(temperatureC: number, salinity: number): number {
  const kelvin = bounded(temperatureC) + ZERO_CELSIUS_K;
  return Math.exp(24.4543 - 6745.09 / kelvin - 4.8489 * Math.log(kelvin / 100) - 5.44e-4 * salinity);
}

/**
 * Oxygen in balance with water-saturated air at one atmosphere, umol/kg; 0 to 40 degrees C, 0 to 42 salinity.
 * Garcia & Gordon 1992 equation 8 with the Benson & Krause coefficients (A0 = 5.80871; some printings carry the A0 of
 * another fit, 5.80818).
 */
export function oxygenSaturation(temperatureC: number, salinity: number): number {
  const t = bounded(temperatureC);
  const s = Math.max(salinity, 0);
  const x = Math.log((298.15 - t) / (ZERO_CELSIUS_K + t));
  const fresh = 5.80871 + x * (3.20291 + x * (4.17887 + x * (5.10006 + x * (-9.86643e-2 + x * 3.80369))));
  const salting = -7.01577e-3 + x * (-7.70028e-3 + x * (-1.13864e-2 - x * 9.51519e-3));
  return Math.exp(fresh + s * (salting - s * 2.75915e-7));
}

/** The same under another air pressure, atm: the dry share of the pressure is what dissolves. */
export function oxygenSaturationAtPressure(temperatureC: number, salinity: number, pressureAtm: number): number {
  const vapour = seawaterVapourPressure(temperatureC, salinity);
  return (oxygenSaturation(temperatureC, salinity) * (pressureAtm - vapour)) / (1 - vapour);
}

/** Solubility of carbon dioxide, K0, mol/(kg atm); -1 to 40 degrees C, 0 to 40 salinity. Weiss 1974 equation 12. */
export function co2Solubility(temperatureC: number, salinity: number): number {
  const kelvin = bounded(temperatureC) + ZERO_CELSIUS_K;
  return co2SolubilityAt(kelvin, Math.log(kelvin), salinity);
}

/** The same for a caller that has kelvin and its natural logarithm at hand. */
export function co2SolubilityAt(kelvin: number, logK: number, salinity: number): number {
  const k = kelvin / 100;
  const salting = 0.023517 + k * (-0.023656 + k * 0.0047036);
  return Math.exp(-60.2409 - 23.3585 * LOG_HUNDRED + 93.4517 / k + 23.3585 * logK + salinity * salting);
}

/**
 * Fugacity of carbon dioxide in air over its partial pressure (about 0.997), at an air pressure in atm. Weiss 1974, whose
 * virial form holds from -8 to 40 degrees C; the temperature is held to -5..60.
 */
export function co2FugacityFactor(temperatureC: number, pressureAtm = 1): number {
  const kelvin = bounded(temperatureC) + ZERO_CELSIUS_K;
  const virial = -1636.75 + kelvin * (12.0408 + kelvin * (-0.0327957 + kelvin * 3.16528e-5));
  const cross = 57.7 - 0.118 * kelvin;
  return Math.exp(((virial + 2 * cross) * pressureAtm * BAR_PER_ATM) / (GAS_CONSTANT_CM3_BAR * kelvin));
}

/** Partial pressure of carbon dioxide over the water, uatm, from its mole fraction in dry room air, ppm. */
export function pco2FromDryAir(dryPpm: number, temperatureC: number, salinity: number): number {
  return dryPpm * (1 - seawaterVapourPressure(temperatureC, salinity));
}
