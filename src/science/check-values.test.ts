/**
 * Every published or independently computed value that we hold, each within its own tolerance. The tables lie in
 * check-values/, one row a value with its source; docs/science.md says which source stands for what.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import * as science from "./index.ts";
import { BORATE_LEE_10, BORATE_UPPSTROM_74, CARBONATE, CARBONATE_SIZE, type Compound } from "./index.ts";

type Row = Readonly<Record<string, string>>;

const folder = join(import.meta.dirname, "check-values");

function table(name: string): Row[] {
  const [head, ...lines] = readFileSync(join(folder, `${name}.csv`), "utf8")
    .trim()
    .split("\n");
  const columns = head.split(",");
  return lines.map((line) => {
    const cells = line.split(",");
    return Object.fromEntries(columns.map((column, index) => [column, cells[index]]));
  });
}

/** A number of the row; a row that lacks it is a mistake in the table. */
function given(row: Row, column: string): number {
  const value = row[column] ? Number(row[column]) : Number.NaN;
  expect(value, `${column} of ${row.quantity}`).not.toBeNaN();
  return value;
}

function constantsOf(row: Row): Float64Array {
  const constants = new Float64Array(CARBONATE_SIZE);
  const borate = row.borate === "lee-10" ? BORATE_LEE_10 : BORATE_UPPSTROM_74;
  science.carbonateConstants(given(row, "temperatureC"), given(row, "salinity"), constants, borate);
  return constants;
}

const constant = (column: number) => (row: Row) => constantsOf(row)[column];

interface Water {
  readonly constants: Float64Array;
  readonly dic: number;
  readonly h: number;
  readonly calcium: number;
}

type WaterLaw = (water: Water, row: Row) => number;

const fromDic = (law: WaterLaw) => (row: Row) => {
  const constants = constantsOf(row);
  const dic = given(row, "dicUmolKg") * 1e-6;
  const h = science.solveHydrogen(constants, given(row, "alkalinityUmolKg") * 1e-6, dic, 0);
  return law({ constants, dic, h, calcium: given(row, "calciumUmolKg") * 1e-6 }, row);
};

const fromPco2 = (law: WaterLaw) => (row: Row) => {
  const constants = constantsOf(row);
  const alkalinity = given(row, "alkalinityUmolKg") * 1e-6;
  const dic = science.dicFromPco2(constants, alkalinity, given(row, "pco2Uatm"));
  const h = science.solveHydrogenFromPco2(constants, alkalinity, given(row, "pco2Uatm"));
  return law({ constants, dic, h, calcium: given(row, "calciumUmolKg") * 1e-6 }, row);
};

const fromPh = (law: WaterLaw) => (row: Row) => {
  const constants = constantsOf(row);
  const h = science.hydrogenFromPhTotal(given(row, "phTotal"));
  const dic = science.dicFromHydrogen(constants, given(row, "alkalinityUmolKg") * 1e-6, h);
  return law({ constants, dic, h, calcium: 0 }, row);
};

const ph: WaterLaw = ({ h }) => science.phTotalFromHydrogen(h);
const pco2: WaterLaw = ({ constants, dic, h }) =>
  science.pco2FromCo2(constants, science.co2FromHydrogen(constants, dic, h));
const dicUmol: WaterLaw = ({ dic }) => dic * 1e6;
const aragonite: WaterLaw = ({ constants, calcium, dic, h }) => science.omegaAragonite(constants, calcium, dic, h);

const atTS = (law: (temperatureC: number, salinity: number) => number) => (row: Row) =>
  law(given(row, "temperatureC"), given(row, "salinity"));
const atT = (law: (temperatureC: number) => number) => (row: Row) => law(given(row, "temperatureC"));
const perGram = (law: (compound: Compound, purity: number) => number) => (row: Row) =>
  law(row.compound as Compound, given(row, "purity"));
const oxygen = (row: Row) =>
  science.oxygenSaturationAtPressure(given(row, "temperatureC"), given(row, "salinity"), given(row, "pressureAtm"));

function evaporationPerHour(row: Row): number {
  expect(row.salinityFactor).toBe("0.98");
  const air = [given(row, "airC"), given(row, "relativeHumidity"), given(row, "airSpeedMS")] as const;
  return science.evaporationKgPerM2S(given(row, "waterC"), ...air, given(row, "activityFactor")) * 3600;
}

const LAWS: Readonly<Record<string, (row: Row) => number>> = {
  "carbonate.pH_total": fromDic(ph),
  "carbonate.pH_NBS": fromDic((water, row) =>
    science.phNbs(ph(water, row), given(row, "temperatureC"), given(row, "salinity")),
  ),
  "carbonate.pCO2": fromDic(pco2),
  "carbonate.omega_aragonite": fromDic(aragonite),
  "carbonate.omega_calcite": fromDic(({ constants, calcium, dic, h }) =>
    science.omegaCalcite(constants, calcium, dic, h),
  ),
  "carbonate.HCO3": fromDic(({ constants, dic, h }) => science.bicarbonateFromHydrogen(constants, dic, h) * 1e6),
  "carbonate.CO3": fromDic(({ constants, dic, h }) => science.carbonateFromHydrogen(constants, dic, h) * 1e6),
  "carbonate.CO2aq": fromDic(({ constants, dic, h }) => science.co2FromHydrogen(constants, dic, h) * 1e6),
  "carbonate.revelle_factor": (row) => {
    const constants = constantsOf(row);
    const dic = given(row, "dicUmolKg") * 1e-6;
    const h = science.solveHydrogen(constants, given(row, "alkalinityUmolKg") * 1e-6, dic, 0);
    return science.revelleFactor(constants, dic, h);
  },
  "carbonate_from_TA_pCO2.pH_total": fromPco2(ph),
  "carbonate_from_TA_pCO2.DIC": fromPco2(dicUmol),
  "carbonate_from_TA_pCO2.omega_aragonite": fromPco2(aragonite),
  "carbonate_from_TA_pH.DIC": fromPh(dicUmol),
  "carbonate_from_TA_pH.pCO2": fromPh(pco2),
  "constants.lnK0": atTS((t, s) => Math.log(science.co2Solubility(t, s))),
  "constants.log10K1": (row) => Math.log10(constant(CARBONATE.K1)(row)),
  "constants.log10K2": (row) => Math.log10(constant(CARBONATE.K2)(row)),
  "constants.lnKB": (row) => Math.log(constant(CARBONATE.KB)(row)),
  "constants.lnKW": (row) => Math.log(constant(CARBONATE.KW)(row)),
  "constants.lnKS": (row) => Math.log(constant(CARBONATE.KS)(row)),
  "constants.lnKF_total": (row) => Math.log(constant(CARBONATE.KF)(row)),
  "constants.log10Ksp_aragonite": (row) => Math.log10(constant(CARBONATE.KSP_ARAGONITE)(row)),
  "constants.log10Ksp_calcite": (row) => Math.log10(constant(CARBONATE.KSP_CALCITE)(row)),
  "constants.fugacity_factor": atT(science.co2FugacityFactor),
  "constants.total_borate": (row) => constantsOf({ ...row, temperatureC: "25" })[CARBONATE.BT] * 1e6,
  "pH_scale.free_minus_total": atTS((t, s) => science.phFree(0, t, s)),
  "pH_scale.SWS_minus_total": atTS((t, s) => science.phSws(0, t, s)),
  "pH_scale.NBS_minus_total": atTS(science.phNbsOffset),
  "co2.K0": atTS(science.co2Solubility),
  "oxygen.solubility": oxygen,
  "oxygen.solubility_at_pressure": oxygen,
  "oxygen.solubility_mg_per_L": (row) => {
    const density = science.seawaterDensity(given(row, "temperatureC"), given(row, "salinity"));
    return science.mgPerLFromMolKg(oxygen(row) * 1e-6, science.MOLAR_MASS.oxygenGas, density);
  },
  water_vapour_pressure_seawater: atTS(science.seawaterVapourPressure),
  density: atTS(science.seawaterDensity),
  specific_heat: atTS(science.heatCapacity),
  specific_gravity_25_25: (row) => science.specificGravityFromSalinity(given(row, "salinity"), 25),
  specific_gravity_20_20: (row) => science.specificGravityFromSalinity(given(row, "salinity"), 20),
  conductivity_ratio: (row) =>
    science.conductivityRatioFromSalinity(given(row, "salinity"), given(row, "temperatureC")),
  conductivity_from_salinity: (row) =>
    science.conductivityFromSalinity(given(row, "salinity"), given(row, "temperatureC")),
  practical_salinity_from_conductivity: (row) =>
    science.salinityFromConductivity(given(row, "conductivityMSCm"), given(row, "temperatureC")),
  practical_salinity_from_ratio: (row) =>
    science.salinityFromConductivityRatio(given(row, "ratio"), given(row, "temperatureC")),
  "ammonia.pKa_total": atTS(science.ammoniumPka),
  "ammonia.pKa_JohanssonWedborg": atTS(science.ammoniumPkaJohanssonWedborg80),
  "ammonia.unionised_fraction": (row) =>
    science.ammoniaFraction(given(row, "temperatureC"), given(row, "salinity"), given(row, "phTotal")),
  "fish.resting_oxygen_uptake": (row) => science.fishOxygenMgPerH(given(row, "massG"), given(row, "temperatureC")),
  aragonite_rate_constant_k: atT(science.aragoniteRateConstant),
  aragonite_rate_order_n: atT(science.aragoniteRateOrder),
  aragonite_rate: (row) => science.aragonitePrecipitationRate(given(row, "omega"), given(row, "temperatureC")),
  "dosing.alkalinity_per_gram": perGram(science.alkalinityMeqPerG),
  "dosing.calcium_per_gram_per_litre": perGram(science.calciumMgPerG),
  "dosing.magnesium_per_gram_per_litre": perGram(science.magnesiumMgPerG),
  "convert.meq_per_L_to_dKH": (row) => science.dkhFromMeqPerL(given(row, "alkalinityMeqL")),
  evaporation_flux: evaporationPerHour,
  saturation_vapour_pressure: atT(science.saturationVapourPressureKPa),
  nernst_slope: atT(science.nernstSlopeMv),
  "water_change.batch": (row) =>
    science.afterBatchChanges(
      given(row, "initial"),
      given(row, "newWater"),
      given(row, "fraction"),
      given(row, "changes"),
    ),
  "water_change.continuous": (row) =>
    science.afterSteadyExchange(given(row, "initial"), given(row, "newWater"), given(row, "exchangedOverVolume")),
};

const AREAS = ["carbonate", "constants", "gas", "seawater", "life", "minerals", "house"];
const sources = new Set(table("sources").map((row) => row.source));

describe.each(AREAS)("check values of %s", (area) => {
  const rows = table(area);
  const quantities = [...new Set(rows.map((row) => row.quantity))];

  it("name a source each", () => {
    expect(rows.filter((row) => !sources.has(row.source))).toEqual([]);
  });

  it.each(quantities)("%s lies within the tolerance of every value", (quantity) => {
    for (const row of rows.filter((one) => one.quantity === quantity)) {
      const off = Math.abs(LAWS[quantity](row) - given(row, "expected"));
      expect(off, JSON.stringify(row)).toBeLessThanOrEqual(given(row, "tolerance"));
    }
  });
});
