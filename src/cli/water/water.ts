/** The water that a question means: its salinity, density, constants, and what its carbon is in balance with. */
import {
  type BalancedWater,
  BORATE_LEE_10,
  BORATE_UPPSTROM_74,
  balancedWater,
  CARBONATE,
  CARBONATE_SIZE,
  type CarbonatePair,
  carbonateConstants,
  co2FugacityFactor,
  freezingPoint,
  MOLAR_MASS,
  meqPerLFromDkh,
  molKgFromMgPerL,
  phTotalFromFree,
  phTotalFromHydrogen,
  phTotalFromNbs,
  phTotalFromSws,
  salinityFromConductivity,
  salinityFromConductivityRatio,
  salinityFromSpecificGravity,
  seawaterDensity,
  T68_PER_T90,
} from "../../science/index.ts";
import type { FieldName } from "./fields.ts";
import { type Outcome, type Question, wayOf } from "./question.ts";

export interface Water {
  readonly temperatureC: number;
  readonly salinity: number;
  readonly pressureAtm: number;
  readonly densityKgM3: number;
  /** Temperature on the scale of 1968, on which conductivity is defined. */
  readonly t68C: number;
  readonly constants: Float64Array;
  readonly calciumMolKg: number;
  /** Total ammonia, mol/kg; null if nobody said. */
  readonly ammoniaMolKg: number | null;
  /** pH on the total scale, given or found; null if nothing fixes it. */
  readonly phTotal: number | null;
  /** Null where no pair was given. */
  readonly balanced: BalancedWater | null;
}

/** Calcium of the sea, mol/kg at S 35 (Millero et al. 2008), and in proportion to salinity. */
const SEA_CALCIUM_AT_S35 = 0.01028;
/** More salt, alkalinity and carbon than the laws take; docs/science.md#carbonate-solver. */
const SALTIEST = 60;
const MOST_ALKALINITY = 0.05;
const MOST_CARBON = 0.5;

/** The usual value of a field that need not be given. */
const USUAL = { specific_gravity_reference_c: 25, pressure_atm: 1 } as const;

/** Builds the water, or says why there is none such. */
export function waterOf(question: Question): Outcome<Water> {
  const { given } = question;
  const temperatureC = given.get("temperature_c") ?? Number.NaN;
  const salinity = salinityOf(question);
  if (!(salinity <= SALTIEST))
    return {
      problems: [`this reading would be S ${salinity.toFixed(1)}; the most that can be computed is ${SALTIEST}`],
    };
  const freezesC = freezingPoint(salinity);
  if (temperatureC < freezesC)
    return {
      problems: [`temperature_c: ${temperatureC} is ice; S ${rounded(salinity)} freezes at ${freezesC.toFixed(2)}`],
    };
  const pressureAtm = given.get("pressure_atm") ?? USUAL.pressure_atm;
  const densityKgM3 = seawaterDensity(temperatureC, salinity);
  const ammoniaMolKg = ammoniaOf(given, densityKgM3);
  const constants = new Float64Array(CARBONATE_SIZE);
  const borate = question.borate === "lee" ? BORATE_LEE_10 : BORATE_UPPSTROM_74;
  carbonateConstants(temperatureC, salinity, constants, borate);
  constants[CARBONATE.FUGACITY] = co2FugacityFactor(temperatureC, pressureAtm);
  const phGiven = phTotalOf(given, temperatureC, salinity);
  const pair = pairOf(given, densityKgM3, phGiven);
  const balanced = pair === null ? null : balancedWater(constants, pair, ammoniaMolKg ?? 0);
  const problem = pair === null ? null : noSuchWater(pair, balanced);
  if (problem !== null) return { problems: [problem] };
  return {
    result: {
      temperatureC,
      salinity,
      pressureAtm,
      densityKgM3,
      t68C: onScaleOf68(temperatureC, question),
      constants,
      calciumMolKg: calciumOf(given, salinity, densityKgM3),
      ammoniaMolKg,
      phTotal: balanced ? phTotalFromHydrogen(balanced.h) : phGiven,
      balanced,
    },
  };
}

function rounded(value: number): string {
  return String(Number(value.toFixed(3)));
}

function onScaleOf68(temperatureC: number, { temperatureScale }: Question): number {
  return temperatureScale === "ipts-68" ? temperatureC : temperatureC * T68_PER_T90;
}

function salinityOf(question: Question): number {
  const { given } = question;
  const name = wayOf(given, "salinity") ?? "salinity";
  const value = given.get(name) ?? Number.NaN;
  if (name === "specific_gravity")
    return salinityFromSpecificGravity(
      value,
      given.get("specific_gravity_reference_c") ?? USUAL.specific_gravity_reference_c,
    );
  const statedForC = given.get("conductivity_at_c") ?? given.get("temperature_c") ?? Number.NaN;
  const t68C = onScaleOf68(statedForC, question);
  if (name === "conductivity_ms_cm") return salinityFromConductivity(value, t68C / T68_PER_T90);
  return name === "conductivity_ratio" ? salinityFromConductivityRatio(value, t68C) : value;
}

type Given = ReadonlyMap<FieldName, number>;

function ammoniaOf(given: Given, densityKgM3: number): number | null {
  const perKg = given.get("total_ammonia_umol_kg");
  if (perKg !== undefined) return perKg * 1e-6;
  const perL = given.get("total_ammonia_mg_n_l");
  return perL === undefined ? null : molKgFromMgPerL(perL, MOLAR_MASS.nitrogen, densityKgM3);
}

function calciumOf(given: Given, salinity: number, densityKgM3: number): number {
  const perKg = given.get("calcium_umol_kg");
  if (perKg !== undefined) return perKg * 1e-6;
  const perL = given.get("calcium_mg_l");
  return perL === undefined
    ? (SEA_CALCIUM_AT_S35 / 35) * salinity
    : molKgFromMgPerL(perL, MOLAR_MASS.calcium, densityKgM3);
}

function phTotalOf(given: Given, temperatureC: number, salinity: number): number | null {
  const name = wayOf(given, "pH");
  const ph = name === undefined ? undefined : given.get(name);
  if (ph === undefined) return null;
  if (name === "ph_nbs") return phTotalFromNbs(ph, temperatureC, salinity);
  if (name === "ph_free") return phTotalFromFree(ph, temperatureC, salinity);
  return name === "ph_sws" ? phTotalFromSws(ph, temperatureC, salinity) : ph;
}

function alkalinityOf(given: Given, densityKgM3: number): number | undefined {
  const name = wayOf(given, "alkalinity");
  const value = name === undefined ? undefined : given.get(name);
  if (value === undefined) return undefined;
  if (name === "alkalinity_umol_kg") return value * 1e-6;
  return (name === "alkalinity_dkh" ? meqPerLFromDkh(value) : value) / densityKgM3;
}

/** Null where fewer than two of the four are known; the question has seen to it that there are no more. */
function pairOf(given: Given, densityKgM3: number, phTotal: number | null): CarbonatePair | null {
  const alkalinityMolKg = alkalinityOf(given, densityKgM3);
  const dicUmolKg = given.get("dic_umol_kg");
  const pco2Uatm = given.get("pco2_uatm");
  if (alkalinityMolKg !== undefined) {
    if (dicUmolKg !== undefined) return { alkalinityMolKg, dicMolKg: dicUmolKg * 1e-6 };
    if (pco2Uatm !== undefined) return { alkalinityMolKg, pco2Uatm };
    return phTotal === null ? null : { alkalinityMolKg, phTotal };
  }
  if (dicUmolKg !== undefined) {
    const dicMolKg = dicUmolKg * 1e-6;
    if (pco2Uatm !== undefined) return { dicMolKg, pco2Uatm };
    return phTotal === null ? null : { dicMolKg, phTotal };
  }
  return pco2Uatm === undefined || phTotal === null ? null : { pco2Uatm, phTotal };
}

function noSuchWater(pair: CarbonatePair, balanced: BalancedWater | null): string | null {
  if (balanced === null)
    return "pco2Uatm" in pair
      ? "no such water: this pressure of CO2 and this carbon cannot be together, for CO2 must be some of the carbon and not all"
      : "no such water: at this pH the rest of the water alone has more alkalinity than that, and no carbon can lower it";
  const { alkalinityMolKg, dicMolKg } = balanced;
  if (Math.abs(alkalinityMolKg) <= MOST_ALKALINITY && dicMolKg <= MOST_CARBON) return null;
  return `no such water: it would need ${(alkalinityMolKg * 1e6).toPrecision(3)} umol/kg of alkalinity and ${(dicMolKg * 1e6).toPrecision(3)} of carbon, and ${MOST_ALKALINITY * 1e6} and ${MOST_CARBON * 1e6} are the most that can be computed`;
}
