/** What is told of a water: one row a number, in the order in which it is told. */
import {
  ammoniaFraction,
  aragonitePrecipitationRate,
  type BalancedWater,
  bicarbonateFromHydrogen,
  CARBONATE,
  carbonateFromHydrogen,
  co2FromHydrogen,
  conductivityFromSalinity,
  conductivityRatioFromSalinity,
  dkhFromAlkalinityMolKg,
  freezingPoint,
  heatCapacity,
  MOLAR_MASS,
  mgPerLFromMolKg,
  omegaAragonite,
  omegaCalcite,
  oxygenSaturationAtPressure,
  pco2FromCo2,
  phFree,
  phNbs,
  phSws,
  revelleFactor,
  seawaterVapourPressure,
  specificGravityFromSalinity,
  T68_PER_T90,
} from "../../science/index.ts";
import type { Water } from "./water.ts";

export interface Output {
  readonly field: string;
  readonly words: string;
  readonly unit: string;
  /** Decimals shown to people; programs get every digit. */
  readonly decimals: number;
  /** Null where the question does not fix it. */
  readonly of: (water: Water) => number | null;
}

function output(field: string, words: string, unit: string, decimals: number, of: Output["of"]): Output {
  return { field, words, unit, decimals, of };
}

const micro = (molKg: number) => molKg * 1e6;

/** A law of the balanced water, told where a pair fixes it. */
function balanced(law: (constants: Float64Array, found: BalancedWater, water: Water) => number): Output["of"] {
  return (water) => (water.balanced === null ? null : law(water.constants, water.balanced, water));
}

/** A law of the pH, told where a pair or a pH alone fixes it. */
function withPh(law: (phTotal: number, temperatureC: number, salinity: number, water: Water) => number): Output["of"] {
  return (water) => (water.phTotal === null ? null : law(water.phTotal, water.temperatureC, water.salinity, water));
}

function withAmmonia(law: (nh3MolKg: number, water: Water) => number): Output["of"] {
  return (water) => {
    if (water.ammoniaMolKg === null || water.phTotal === null) return null;
    return law(water.ammoniaMolKg * ammoniaFraction(water.temperatureC, water.salinity, water.phTotal), water);
  };
}

const atTS = (law: (temperatureC: number, salinity: number) => number) => (water: Water) =>
  law(water.temperatureC, water.salinity);

const aragonite = balanced((k, { dicMolKg, h }, { calciumMolKg }) => omegaAragonite(k, calciumMolKg, dicMolKg, h));

const CARBONATE_OUTPUTS: readonly Output[] = [
  output("ph_total", "pH, total scale", "", 4, (water) => water.phTotal),
  output("ph_nbs", "pH, NBS scale (a probe in common buffers, within 0.02)", "", 4, withPh(phNbs)),
  output("ph_free", "pH, free scale", "", 4, withPh(phFree)),
  output("ph_sws", "pH, seawater scale", "", 4, withPh(phSws)),
  output(
    "alkalinity_umol_kg",
    "total alkalinity",
    "umol/kg",
    1,
    balanced((_, found) => micro(found.alkalinityMolKg)),
  ),
  output(
    "alkalinity_dkh",
    "the same, per litre",
    "dKH",
    3,
    balanced((_, found, water) => dkhFromAlkalinityMolKg(found.alkalinityMolKg, water.densityKgM3)),
  ),
  output(
    "alkalinity_meq_l",
    "the same, per litre",
    "meq/L",
    4,
    balanced((_, found, water) => found.alkalinityMolKg * water.densityKgM3),
  ),
  output(
    "dic_umol_kg",
    "dissolved inorganic carbon",
    "umol/kg",
    1,
    balanced((_, found) => micro(found.dicMolKg)),
  ),
  output(
    "pco2_uatm",
    "partial pressure of CO2",
    "uatm",
    1,
    balanced((k, { dicMolKg, h }) => pco2FromCo2(k, co2FromHydrogen(k, dicMolKg, h))),
  ),
  output(
    "co2_umol_kg",
    "dissolved CO2",
    "umol/kg",
    3,
    balanced((k, { dicMolKg, h }) => micro(co2FromHydrogen(k, dicMolKg, h))),
  ),
  output(
    "hco3_umol_kg",
    "bicarbonate",
    "umol/kg",
    1,
    balanced((k, { dicMolKg, h }) => micro(bicarbonateFromHydrogen(k, dicMolKg, h))),
  ),
  output(
    "co3_umol_kg",
    "carbonate",
    "umol/kg",
    2,
    balanced((k, { dicMolKg, h }) => micro(carbonateFromHydrogen(k, dicMolKg, h))),
  ),
  output(
    "calcium_umol_kg",
    "calcium",
    "umol/kg",
    1,
    balanced((_k, _found, water) => micro(water.calciumMolKg)),
  ),
  output(
    "calcium_mg_l",
    "the same, per litre",
    "mg/L",
    1,
    balanced((_k, _found, water) => mgPerLFromMolKg(water.calciumMolKg, MOLAR_MASS.calcium, water.densityKgM3)),
  ),
  output("omega_aragonite", "saturation with aragonite", "", 3, aragonite),
  output(
    "omega_calcite",
    "saturation with calcite",
    "",
    3,
    balanced((k, { dicMolKg, h }, { calciumMolKg }) => omegaCalcite(k, calciumMolKg, dicMolKg, h)),
  ),
  output(
    "revelle_factor",
    "Revelle factor",
    "",
    2,
    balanced((k, { dicMolKg, h }, { ammoniaMolKg }) => revelleFactor(k, dicMolKg, h, ammoniaMolKg ?? 0)),
  ),
  output("aragonite_rate_umol_m2_h", "growth of clean aragonite", "umol/(m2 h)", 1, (water) => {
    const omega = aragonite(water);
    return omega === null ? null : aragonitePrecipitationRate(omega, water.temperatureC);
  }),
  output(
    "ammonia_share",
    "share of ammonia that is NH3",
    "",
    4,
    withPh((ph, t, s) => ammoniaFraction(t, s, ph)),
  ),
  output("nh3_umol_kg", "un-ionised ammonia", "umol/kg", 4, withAmmonia(micro)),
  output(
    "nh3_mg_n_l",
    "the same as nitrogen, per litre",
    "mg N/L",
    4,
    withAmmonia((nh3, { densityKgM3 }) => mgPerLFromMolKg(nh3, MOLAR_MASS.nitrogen, densityKgM3)),
  ),
];

const WATER_OUTPUTS: readonly Output[] = [
  output("density_kg_m3", "density", "kg/m3", 3, (water) => water.densityKgM3),
  output("specific_gravity_25_25", "specific gravity at 25 degC over 25 degC", "", 5, ({ salinity }) =>
    specificGravityFromSalinity(salinity, 25),
  ),
  output("specific_gravity_20_20", "specific gravity at 20 degC over 20 degC", "", 5, ({ salinity }) =>
    specificGravityFromSalinity(salinity, 20),
  ),
  output("conductivity_ms_cm", "conductivity as warm as it is", "mS/cm", 3, ({ salinity, t68C }) =>
    conductivityFromSalinity(salinity, t68C / T68_PER_T90),
  ),
  output("conductivity_at_25c_ms_cm", "conductivity at 25 degC", "mS/cm", 3, ({ salinity }) =>
    conductivityFromSalinity(salinity, 25),
  ),
  output("conductivity_ratio", "conductivity over that of S 35 at 15 degC", "", 6, ({ salinity, t68C }) =>
    conductivityRatioFromSalinity(salinity, t68C),
  ),
  output("heat_capacity_j_kg_k", "specific heat", "J/(kg K)", 1, atTS(heatCapacity)),
  output("freezing_point_c", "freezing point", "degC", 3, ({ salinity }) => freezingPoint(salinity)),
  output("vapour_pressure_atm", "water vapour over it", "atm", 5, atTS(seawaterVapourPressure)),
  output(
    "oxygen_saturation_umol_kg",
    "oxygen in balance with air",
    "umol/kg",
    2,
    ({ temperatureC, salinity, pressureAtm }) => oxygenSaturationAtPressure(temperatureC, salinity, pressureAtm),
  ),
  output("oxygen_saturation_mg_l", "the same, per litre", "mg/L", 3, (water) =>
    mgPerLFromMolKg(
      oxygenSaturationAtPressure(water.temperatureC, water.salinity, water.pressureAtm) * 1e-6,
      MOLAR_MASS.oxygenGas,
      water.densityKgM3,
    ),
  ),
  output(
    "co2_solubility_mol_kg_atm",
    "solubility of CO2",
    "mol/(kg atm)",
    6,
    ({ constants }) => constants[CARBONATE.K0],
  ),
];

export const OUTPUTS: readonly Output[] = [...CARBONATE_OUTPUTS, ...WATER_OUTPUTS];
