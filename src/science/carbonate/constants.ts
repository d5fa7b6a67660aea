/**
 * The equilibrium constants of the carbonate system at one temperature and salinity, all per kg of seawater and, but for
 * KS, on the total pH scale. Filled into a Float64Array, so that a simulator can keep one row a body and refresh it only
 * when the water has moved. Sources and certainty: docs/science.md#carbonate-constants.
 */
import { co2FugacityFactor, co2Solubility } from "../gas/solubility.ts";
import { held } from "../held.ts";
import { ammoniumPka } from "../nutrients/ammonia.ts";
import { ZERO_CELSIUS_K } from "../units.ts";

/** Columns of the array of constants. Amounts in mol/kg. */
export const CARBONATE = {
  /** Solubility of CO2, mol/(kg atm). Weiss 1974. */
  K0: 0,
  /** First and second dissociation of carbonic acid. Lueker, Dickson & Keeling 2000. */
  K1: 1,
  K2: 2,
  /** Boric acid. Dickson 1990. */
  KB: 3,
  /** Water. Millero 1995 in the total-scale form of Dickson, Sabine & Christian 2007. */
  KW: 4,
  /** Bisulfate, on the free scale. Dickson 1990. */
  KS: 5,
  /** Hydrogen fluoride. Perez & Fraga 1987. */
  KF: 6,
  /** Ammonium. Clegg & Whitfield 1995. */
  KN: 7,
  /** Total borate, sulfate, fluoride. */
  BT: 8,
  ST: 9,
  FT: 10,
  /** Hydrogen ion on the total scale over free hydrogen ion: 1 + ST/KS. */
  TOTAL_PER_FREE: 11,
  /** Solubility products, (mol/kg)2. Mucci 1983. */
  KSP_ARAGONITE: 12,
  KSP_CALCITE: 13,
  /** Fugacity over partial pressure of CO2 in air. Weiss 1974. */
  FUGACITY: 14,
} as const;

/** Length of the array of constants. */
export const CARBONATE_SIZE = 15;

const CHLORINITY_PER_SALINITY = 1 / 1.80655;

/** Total borate of natural seawater at S 35, mol/kg: 0.000232 g B per kg and unit of chlorinity (Uppstrom 1974). */
export const BORATE_UPPSTROM_74 = (0.000232 / 10.811) * 35 * CHLORINITY_PER_SALINITY;
/** The same by Lee et al. 2010, 4 % more. */
export const BORATE_LEE_10 = (0.0002414 / 10.811) * 35 * CHLORINITY_PER_SALINITY;
/** Morris & Riley 1966. */
const SULFATE_PER_SALINITY = (0.14 / 96.062) * CHLORINITY_PER_SALINITY;
/** Riley 1965. */
const FLUORIDE_PER_SALINITY = (0.000067 / 18.998) * CHLORINITY_PER_SALINITY;

/** Beyond these the fits mean nothing; a cooked or dried-up tank is computed at the limit. */
const COLDEST_C = -5;
const HOTTEST_C = 60;
const SALTIEST = 60;

/** True where K1 and K2 are used inside the range they were fitted to (2 to 35 degrees C, 19 to 43 salinity). */
export function withinCarbonateFit(temperatureC: number, salinity: number): boolean {
  return temperatureC >= 2 && temperatureC <= 35 && salinity >= 19 && salinity <= 43;
}

/**
 * Fills `out` (at least CARBONATE_SIZE long) for this temperature (degrees C, held to -5..60) and practical salinity (held
 * to 0..60). `borateAtS35` is the total borate of the salt mix at S 35, mol/kg. Allocates nothing.
 */
export function carbonateConstants(
  temperatureC: number,
  salinity: number,
  out: Float64Array,
  borateAtS35: number = BORATE_UPPSTROM_74,
): void {
  const t = held(temperatureC, COLDEST_C, HOTTEST_C);
  const s = held(salinity, 0, SALTIEST);
  const kelvin = t + ZERO_CELSIUS_K;
  const logK = Math.log(kelvin);
  const rootS = Math.sqrt(s);
  const bisulfate = bisulfateConstant(kelvin, logK, s);
  const sulfate = SULFATE_PER_SALINITY * s;
  out[CARBONATE.K0] = co2Solubility(t, s);
  out[CARBONATE.K1] = 10 ** -(3633.86 / kelvin - 61.2172 + 9.6777 * logK - 0.011555 * s + 0.0001152 * s * s);
  out[CARBONATE.K2] = 10 ** -(471.78 / kelvin + 25.929 - 3.16967 * logK - 0.01781 * s + 0.0001122 * s * s);
  out[CARBONATE.KB] = boricAcidConstant(kelvin, logK, s, rootS);
  out[CARBONATE.KW] = waterConstant(kelvin, logK, s, rootS);
  out[CARBONATE.KS] = bisulfate;
  out[CARBONATE.KF] = fluorideConstant(kelvin, rootS);
  out[CARBONATE.KN] = 10 ** -ammoniumPka(t, s);
  out[CARBONATE.BT] = (borateAtS35 / 35) * s;
  out[CARBONATE.ST] = sulfate;
  out[CARBONATE.FT] = FLUORIDE_PER_SALINITY * s;
  out[CARBONATE.TOTAL_PER_FREE] = 1 + sulfate / bisulfate;
  out[CARBONATE.KSP_ARAGONITE] = aragoniteProduct(kelvin, logK, s, rootS);
  out[CARBONATE.KSP_CALCITE] = calciteProduct(kelvin, logK, s, rootS);
  out[CARBONATE.FUGACITY] = co2FugacityFactor(t);
}

/** Dickson 1990 (Deep-Sea Research 37:755), 0 to 45 degrees C, 5 to 45 salinity. */
function boricAcidConstant(kelvin: number, logK: number, s: number, rootS: number): number {
  const energy = -8966.9 - 2890.53 * rootS - 77.942 * s + 1.728 * s * rootS - 0.0996 * s * s;
  const entropy = 148.0248 + 137.1942 * rootS + 1.62142 * s;
  const capacity = 24.4344 + 25.085 * rootS + 0.2474 * s;
  return Math.exp(energy / kelvin + entropy - capacity * logK + 0.053105 * rootS * kelvin);
}

/** Millero 1995 with the constant term of Dickson, Sabine & Christian 2007 (148.9652), which puts it on the total scale. */
function waterConstant(kelvin: number, logK: number, s: number, rootS: number): number {
  const salting = (118.67 / kelvin - 5.977 + 1.0495 * logK) * rootS - 0.01615 * s;
  return Math.exp(148.9652 - 13847.26 / kelvin - 23.6521 * logK + salting);
}

/** Perez & Fraga 1987 in the total-scale form of Dickson, Sabine & Christian 2007; 9 to 33 degrees C, 10 to 40 salinity. */
function fluorideConstant(kelvin: number, rootS: number): number {
  return Math.exp(874 / kelvin - 9.68 + 0.111 * rootS);
}

/** Dickson 1990 (Journal of Chemical Thermodynamics 22:113), free scale, in terms of ionic strength. */
function bisulfateConstant(kelvin: number, logK: number, s: number): number {
  const ionic = (19.924 * s) / (1000 - 1.005 * s);
  const rootI = Math.sqrt(ionic);
  const pure = -4276.1 / kelvin + 141.328 - 23.093 * logK;
  const first = (-13856 / kelvin + 324.57 - 47.986 * logK) * rootI + (35474 / kelvin - 771.54 + 114.723 * logK) * ionic;
  const second = (-2698 / kelvin) * ionic * rootI + (1776 / kelvin) * ionic * ionic;
  return Math.exp(pure + first + second + Math.log(1 - 0.001005 * s));
}

/** Hydrogen ion on the total scale over that on the free scale, 1 + ST/KS. */
export function totalPerFree(temperatureC: number, salinity: number): number {
  const kelvin = held(temperatureC, COLDEST_C, HOTTEST_C) + ZERO_CELSIUS_K;
  const s = held(salinity, 0, SALTIEST);
  return 1 + (SULFATE_PER_SALINITY * s) / bisulfateConstant(kelvin, Math.log(kelvin), s);
}

/** Hydrogen ion on the seawater scale over that on the total scale, 1 + FT/KF with KF on the total scale. */
export function seawaterPerTotal(temperatureC: number, salinity: number): number {
  const kelvin = held(temperatureC, COLDEST_C, HOTTEST_C) + ZERO_CELSIUS_K;
  const s = held(salinity, 0, SALTIEST);
  return 1 + (FLUORIDE_PER_SALINITY * s) / fluorideConstant(kelvin, Math.sqrt(s));
}

function calciteProduct(kelvin: number, logK: number, s: number, rootS: number): number {
  const pure = -171.9065 - 0.077993 * kelvin + 2839.319 / kelvin + 71.595 * (logK / Math.LN10);
  const salting = (-0.77712 + 0.0028426 * kelvin + 178.34 / kelvin) * rootS - 0.07711 * s + 0.0041249 * s * rootS;
  return 10 ** (pure + salting);
}

function aragoniteProduct(kelvin: number, logK: number, s: number, rootS: number): number {
  const pure = -171.945 - 0.077993 * kelvin + 2903.293 / kelvin + 71.595 * (logK / Math.LN10);
  const salting = (-0.068393 + 0.0017276 * kelvin + 88.135 / kelvin) * rootS - 0.10018 * s + 0.0059415 * s * rootS;
  return 10 ** (pure + salting);
}
