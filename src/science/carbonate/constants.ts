/**
 * The equilibrium constants of the carbonate system at one temperature and salinity, all per kg of seawater and, but for
 * KS, on the total pH scale. Filled into a Float64Array, so that a simulator can keep one row a body and refresh it only
 * when the water has moved. Each constant costs one exponential: fits that were published in powers of ten have their
 * coefficients turned to natural logarithms once, when this file loads.
 * Sources and certainty: docs/science.md#carbonate-constants.
 */
import { co2FugacityFactor, co2SolubilityAt } from "../gas/solubility.ts";
import { held } from "../held.ts";
import { ammoniumPka } from "../nutrients/ammonia.ts";
import { ZERO_CELSIUS_K } from "../units.ts";
import { CARBONATE } from "./columns.ts";

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

const TEN = Math.LN10;
/** log10 of kelvin stands in Mucci's fits with this factor; of ln kelvin it is less. */
const MUCCI_LOG = 71.595;

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
  fillAcidsAndBases(kelvin, logK, s, rootS, borateAtS35, out);
  fillMinerals(kelvin, logK, s, rootS, out);
  out[CARBONATE.K0] = co2SolubilityAt(kelvin, logK, s);
  out[CARBONATE.KN] = Math.exp(-TEN * ammoniumPka(t, s));
  out[CARBONATE.FUGACITY] = co2FugacityFactor(t);
}

/**
 * The same for those who want pH from alkalinity and carbon and nothing else: K1, K2, KB, KW, KS, KF and the totals of
 * borate, sulfate and fluoride. The other columns keep what they had.
 */
export function acidBaseConstants(
  temperatureC: number,
  salinity: number,
  out: Float64Array,
  borateAtS35: number = BORATE_UPPSTROM_74,
): void {
  const kelvin = held(temperatureC, COLDEST_C, HOTTEST_C) + ZERO_CELSIUS_K;
  const s = held(salinity, 0, SALTIEST);
  fillAcidsAndBases(kelvin, Math.log(kelvin), s, Math.sqrt(s), borateAtS35, out);
}

/**
 * K1 and K2: Lueker, Dickson & Keeling 2000, 2 to 35 degrees C, 19 to 43 salinity. KB: Dickson 1990 (Deep-Sea Research
 * 37:755), 0 to 45 degrees C, 5 to 45 salinity. KW: Millero 1995 with the constant term of Dickson, Sabine & Christian 2007
 * (148.9652), which puts it on the total scale.
 */
function fillAcidsAndBases(
  kelvin: number,
  logK: number,
  s: number,
  rootS: number,
  borateAtS35: number,
  out: Float64Array,
): void {
  const inverse = 1 / kelvin;
  const bisulfate = bisulfateConstant(inverse, logK, s);
  const sulfate = SULFATE_PER_SALINITY * s;
  out[CARBONATE.K1] = Math.exp(
    TEN * 61.2172 - TEN * 3633.86 * inverse - TEN * 9.6777 * logK + s * (TEN * 0.011555 - s * (TEN * 0.0001152)),
  );
  out[CARBONATE.K2] = Math.exp(
    TEN * 3.16967 * logK - TEN * 471.78 * inverse - TEN * 25.929 + s * (TEN * 0.01781 - s * (TEN * 0.0001122)),
  );
  out[CARBONATE.KB] = Math.exp(
    (-8966.9 - 2890.53 * rootS + s * (-77.942 + 1.728 * rootS - 0.0996 * s)) * inverse +
      (148.0248 + 137.1942 * rootS + 1.62142 * s) -
      (24.4344 + 25.085 * rootS + 0.2474 * s) * logK +
      0.053105 * rootS * kelvin,
  );
  out[CARBONATE.KW] = Math.exp(
    148.9652 - 13847.26 * inverse - 23.6521 * logK + (118.67 * inverse - 5.977 + 1.0495 * logK) * rootS - 0.01615 * s,
  );
  out[CARBONATE.KS] = bisulfate;
  out[CARBONATE.KF] = fluorideConstant(inverse, rootS);
  out[CARBONATE.BT] = borateAtS35 * (1 / 35) * s;
  out[CARBONATE.ST] = sulfate;
  out[CARBONATE.FT] = FLUORIDE_PER_SALINITY * s;
  out[CARBONATE.TOTAL_PER_FREE] = 1 + sulfate / bisulfate;
}

/** Perez & Fraga 1987 in the total-scale form of Dickson, Sabine & Christian 2007; 9 to 33 degrees C, 10 to 40 salinity. */
function fluorideConstant(inverse: number, rootS: number): number {
  return Math.exp(874 * inverse - 9.68 + 0.111 * rootS);
}

/**
 * Dickson 1990 (Journal of Chemical Thermodynamics 22:113), free scale, in terms of ionic strength; 0 to 45 degrees C, 5 to
 * 45 salinity. The last factor turns it from molal.
 */
function bisulfateConstant(inverse: number, logK: number, s: number): number {
  const perMolal = 1 - 0.001005 * s;
  const ionic = (0.019924 * s) / perMolal;
  const rootI = Math.sqrt(ionic);
  const pure = -4276.1 * inverse + 141.328 - 23.093 * logK;
  const first = (-13856 * inverse + 324.57 - 47.986 * logK) * rootI;
  const second = (35474 * inverse - 771.54 + 114.723 * logK + (1776 * ionic - 2698 * rootI) * inverse) * ionic;
  return Math.exp(pure + first + second) * perMolal;
}

/** Hydrogen ion on the total scale over that on the free scale, 1 + ST/KS. */
export function totalPerFree(temperatureC: number, salinity: number): number {
  const kelvin = held(temperatureC, COLDEST_C, HOTTEST_C) + ZERO_CELSIUS_K;
  const s = held(salinity, 0, SALTIEST);
  return 1 + (SULFATE_PER_SALINITY * s) / bisulfateConstant(1 / kelvin, Math.log(kelvin), s);
}

/** Hydrogen ion on the seawater scale over that on the total scale, 1 + FT/KF with KF on the total scale. */
export function seawaterPerTotal(temperatureC: number, salinity: number): number {
  const kelvin = held(temperatureC, COLDEST_C, HOTTEST_C) + ZERO_CELSIUS_K;
  const s = held(salinity, 0, SALTIEST);
  return 1 + (FLUORIDE_PER_SALINITY * s) / fluorideConstant(1 / kelvin, Math.sqrt(s));
}

/** Mucci 1983, 5 to 40 degrees C, 5 to 44 salinity. */
function fillMinerals(kelvin: number, logK: number, s: number, rootS: number, out: Float64Array): void {
  const inverse = 1 / kelvin;
  const shared = MUCCI_LOG * logK - TEN * 0.077993 * kelvin;
  const calciteSalting = (-0.77712 + 0.0028426 * kelvin + 178.34 * inverse) * rootS + s * (0.0041249 * rootS - 0.07711);
  const aragoniteSalting =
    (-0.068393 + 0.0017276 * kelvin + 88.135 * inverse) * rootS + s * (0.0059415 * rootS - 0.10018);
  out[CARBONATE.KSP_CALCITE] = Math.exp(shared + TEN * (2839.319 * inverse - 171.9065 + calciteSalting));
  out[CARBONATE.KSP_ARAGONITE] = Math.exp(shared + TEN * (2903.293 * inverse - 171.945 + aragoniteSalting));
}
