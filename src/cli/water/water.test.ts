/** Asking for a water, as a program does: the published values through the same door, and what is refused. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { answer, plain } from "./answer.ts";
import { FIELDS } from "./fields.ts";
import { OUTPUTS } from "./outputs.ts";

type Said = Readonly<Record<string, unknown>>;

/** The answer as a program reads it; fails where there is none. */
function told(said: Said): Record<string, unknown> {
  const { result, problems } = answer(said);
  expect(problems, JSON.stringify(said)).toBeUndefined();
  return result ? JSON.parse(JSON.stringify(plain(result))) : {};
}

function refused(said: Said): string {
  return (answer(said).problems ?? []).join("; ");
}

function warned(said: Said): string {
  return (told(said).warnings as string[]).join("; ");
}

const reef = { temperature_c: 25, salinity: 35, alkalinity_umol_kg: 2300, dic_umol_kg: 2000 };

/** Column of the tables -> field of the command. */
const ASKED: Readonly<Record<string, string>> = {
  temperatureC: "temperature_c",
  salinity: "salinity",
  alkalinityUmolKg: "alkalinity_umol_kg",
  dicUmolKg: "dic_umol_kg",
  calciumUmolKg: "calcium_umol_kg",
  pco2Uatm: "pco2_uatm",
  phTotal: "ph_total",
  pressureAtm: "pressure_atm",
  ratio: "conductivity_ratio",
  conductivityMSCm: "conductivity_ms_cm",
};

/** Quantity of the tables -> where the answer has it. */
const TOLD: Readonly<Record<string, string>> = {
  "carbonate.pH_total": "ph_total",
  "carbonate.pH_NBS": "ph_nbs",
  "carbonate.pCO2": "pco2_uatm",
  "carbonate.omega_aragonite": "omega_aragonite",
  "carbonate.omega_calcite": "omega_calcite",
  "carbonate.HCO3": "hco3_umol_kg",
  "carbonate.CO3": "co3_umol_kg",
  "carbonate.CO2aq": "co2_umol_kg",
  "carbonate.revelle_factor": "revelle_factor",
  "carbonate_from_TA_pCO2.pH_total": "ph_total",
  "carbonate_from_TA_pCO2.DIC": "dic_umol_kg",
  "carbonate_from_TA_pCO2.omega_aragonite": "omega_aragonite",
  "carbonate_from_TA_pH.DIC": "dic_umol_kg",
  "carbonate_from_TA_pH.pCO2": "pco2_uatm",
  "constants.lnK0": "constants.k0_mol_kg_atm.ln",
  "constants.log10K1": "constants.k1_mol_kg.log10",
  "constants.log10K2": "constants.k2_mol_kg.log10",
  "constants.lnKB": "constants.kb_mol_kg.ln",
  "constants.lnKW": "constants.kw_mol2_kg2.ln",
  "constants.lnKS": "constants.ks_free_mol_kg.ln",
  "constants.lnKF_total": "constants.kf_mol_kg.ln",
  "constants.log10Ksp_aragonite": "constants.ksp_aragonite_mol2_kg2.log10",
  "constants.log10Ksp_calcite": "constants.ksp_calcite_mol2_kg2.log10",
  "constants.fugacity_factor": "constants.co2_fugacity_factor",
  "constants.total_borate": "constants.total_borate_umol_kg",
  "pH_scale.free_minus_total": "constants.ph_free_minus_total",
  "pH_scale.SWS_minus_total": "constants.ph_sws_minus_total",
  "pH_scale.NBS_minus_total": "constants.ph_nbs_minus_total",
  "co2.K0": "co2_solubility_mol_kg_atm",
  "oxygen.solubility": "oxygen_saturation_umol_kg",
  "oxygen.solubility_at_pressure": "oxygen_saturation_umol_kg",
  "oxygen.solubility_mg_per_L": "oxygen_saturation_mg_l",
  water_vapour_pressure_seawater: "vapour_pressure_atm",
  density: "density_kg_m3",
  specific_heat: "heat_capacity_j_kg_k",
  specific_gravity_25_25: "specific_gravity_25_25",
  specific_gravity_20_20: "specific_gravity_20_20",
  conductivity_ratio: "conductivity_ratio",
  conductivity_from_salinity: "conductivity_ms_cm",
  practical_salinity_from_conductivity: "salinity",
  practical_salinity_from_ratio: "salinity",
  "ammonia.pKa_total": "constants.ammonium_pka",
  "ammonia.pKa_JohanssonWedborg": "constants.ammonium_pka_johansson_wedborg",
  "ammonia.unionised_fraction": "ammonia_share",
  aragonite_rate_constant_k: "constants.aragonite_rate_constant_umol_m2_h",
  aragonite_rate_order_n: "constants.aragonite_rate_order",
};

/** Printed tables of conductivity ratios are on the temperature scale of 1968. */
const ON_OLD_SCALE = ["conductivity_ratio", "practical_salinity_from_ratio"];

/** A row as a question; what the law does not hang on is filled in, for every water has a temperature and a salinity. */
function questionOf(row: Readonly<Record<string, string>>): Said {
  const said: Record<string, unknown> = { constants: true };
  for (const [column, field] of Object.entries(ASKED)) if (row[column]) said[field] = Number(row[column]);
  if (row.borate) said.borate = row.borate;
  if (ON_OLD_SCALE.includes(row.quantity)) said.temperature_scale = "ipts-68";
  said.temperature_c ??= 25;
  if (!("conductivity_ms_cm" in said || "conductivity_ratio" in said)) said.salinity ??= 35;
  return said;
}

function at(value: unknown, path: string): unknown {
  return path
    .split(".")
    .reduce(
      (found, name) => (typeof found === "object" && found !== null ? Reflect.get(found, name) : undefined),
      value,
    );
}

function tableOf(area: string): Readonly<Record<string, string>>[] {
  const path = join(import.meta.dirname, "../../science/check-values", `${area}.csv`);
  const [head, ...lines] = readFileSync(path, "utf8").trim().split("\n");
  const columns = head.split(",");
  return lines.map((line) => {
    const cells = line.split(",");
    return Object.fromEntries(columns.map((column, place) => [column, cells[place]]));
  });
}

describe("the published values, asked of the command", () => {
  const rows = ["carbonate", "constants", "gas", "seawater", "life", "minerals"].flatMap(tableOf);
  it.each(Object.entries(TOLD))("%s", (quantity, path) => {
    const asked = rows.filter((row) => row.quantity === quantity);
    expect(asked.length).toBeGreaterThan(0);
    for (const row of asked) {
      const off = Math.abs(Number(at(told(questionOf(row)), path)) - Number(row.expected));
      expect(off, JSON.stringify(row)).toBeLessThanOrEqual(Number(row.tolerance));
    }
  });
});

describe("a water", () => {
  it("is the same whichever two of the four are given, in any unit and on any pH scale", () => {
    const first = told(reef);
    const ways = [
      ["alkalinity_dkh", "dic_umol_kg"],
      ["alkalinity_meq_l", "ph_nbs"],
      ["alkalinity_umol_kg", "pco2_uatm"],
      ["dic_umol_kg", "ph_free"],
      ["dic_umol_kg", "pco2_uatm"],
      ["pco2_uatm", "ph_sws"],
      ["alkalinity_umol_kg", "ph_total"],
    ];
    for (const pair of ways) {
      const again = told({
        temperature_c: 25,
        salinity: 35,
        ...Object.fromEntries(pair.map((name) => [name, first[name]])),
      });
      for (const [name, value] of Object.entries(first))
        if (typeof value === "number") expect(Number(again[name]) / value, `${pair} ${name}`).toBeCloseTo(1, 6);
    }
  });

  it("has the same salinity by conductivity, warm or compensated, by ratio and by specific gravity", () => {
    const { salinity: _, ...unsalted } = { ...reef, temperature_c: 28 };
    const first = told({ ...reef, temperature_c: 28 });
    for (const by of [
      { conductivity_ms_cm: first.conductivity_ms_cm },
      { conductivity_ms_cm: first.conductivity_at_25c_ms_cm, conductivity_at_c: 25 },
      { conductivity_ratio: first.conductivity_ratio },
      { specific_gravity: first.specific_gravity_25_25 },
      { specific_gravity: first.specific_gravity_20_20, specific_gravity_reference_c: 20 },
    ])
      expect(told({ ...unsalted, ...by }).salinity, JSON.stringify(by)).toBeCloseTo(35, 8);
  });

  it("of 8 dKH has 2788 umol/kg at 25 degrees C and S 35, by its own density", () => {
    expect(told({ temperature_c: 25, salinity: 35, alkalinity_dkh: 8, ph_nbs: 8.2 }).alkalinity_umol_kg).toBeCloseTo(
      (8 * 356.653) / 1.023343,
      1,
    );
  });

  it("takes the calcium of the sea where none is given, and the calcium that is given", () => {
    expect(told(reef).calcium_umol_kg).toBeCloseTo(10280, 6);
    const half = told({ ...reef, calcium_umol_kg: 5140 });
    expect(Number(half.omega_aragonite) * 2).toBeCloseTo(Number(told(reef).omega_aragonite), 9);
    expect(told({ ...reef, calcium_mg_l: half.calcium_mg_l }).calcium_umol_kg).toBeCloseTo(5140, 6);
  });

  it("with ammonia says how much of it is NH3, and counts that as alkalinity", () => {
    const soiled = told({ ...reef, total_ammonia_mg_n_l: 1 });
    expect(Number(soiled.nh3_mg_n_l)).toBeCloseTo(Number(soiled.ammonia_share), 9);
    expect(Number(soiled.nh3_umol_kg)).toBeCloseTo((1000 / 14.007 / 1.023343) * Number(soiled.ammonia_share), 6);
    expect(Number(soiled.ph_total)).toBeLessThan(Number(told(reef).ph_total));
  });

  it("without a pair is told its density and gases, and with a pH alone its ammonia, and each time what is missing", () => {
    const plainly = told({ temperature_c: 25, salinity: 35 });
    expect(plainly.density_kg_m3).toBeCloseTo(1023.343, 3);
    expect(plainly).not.toHaveProperty("ph_total");
    expect(warned({ temperature_c: 25, salinity: 35 })).toMatch(/^no carbonate system/);
    expect(told({ temperature_c: 25, salinity: 35, ph_total: 8.2 }).ammonia_share).toBeCloseTo(0.08255, 4);
    expect(warned({ temperature_c: 25, salinity: 35, ph_total: 8.2 })).toMatch(/^no carbonate system: ph_total alone/);
  });

  it("is told with every number finite, or refused with a reason, whatever is said", () => {
    const number = fc.oneof(fc.double(), fc.double({ min: -10, max: 60 }), fc.constant(null), fc.constant("8"));
    const names = fc.subarray(FIELDS.map(({ name }) => name as string));
    const question = names.chain((chosen) => fc.record(Object.fromEntries(chosen.map((name) => [name, number]))));
    const close = fc.record({
      temperature_c: fc.double({ min: -3, max: 45, noNaN: true }),
      salinity: fc.double({ min: 0, max: 60, noNaN: true }),
      alkalinity_umol_kg: fc.double({ min: -50_000, max: 50_000, noNaN: true }),
      dic_umol_kg: fc.double({ min: 0, max: 500_000, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.oneof(question, close), (said) => {
        const { result, problems } = answer(said);
        if (problems) expect(problems.join("")).not.toBe("");
        else for (const value of Object.values(result.numbers)) expect(Number.isFinite(value)).toBe(true);
      }),
      { numRuns: 5000 },
    );
  });
});

describe("a warning", () => {
  it("is never given for the water of a reef", () => {
    for (const temperature_c of [22, 26, 30])
      for (const salinity of [30, 35, 38])
        for (const alkalinity_dkh of [6, 8, 12]) {
          const said = { temperature_c, salinity, alkalinity_dkh, pco2_uatm: 450 };
          expect(warned(said), JSON.stringify(said)).toBe("");
        }
  });

  it.each([
    ["a cooked tank", { ...reef, temperature_c: 38 }, "extrapolated beyond 2 to 35 degC: all of the carbonate system"],
    ["brackish water", { ...reef, salinity: 12 }, "extrapolated beyond S 19 to 43: all of the carbonate system"],
    ["a cold sea", { ...reef, temperature_c: 3 }, "extrapolated beyond 5 to 40 degC: saturation"],
    ["caustic", { ...reef, alkalinity_umol_kg: 9000 }, "is outside 5 to 10"],
    ["acid", { ...reef, alkalinity_umol_kg: -500 }, "is outside 5 to 10"],
    ["an overdose", { ...reef, alkalinity_umol_kg: 6000, dic_umol_kg: 4000 }, "falls out by itself"],
    ["a name that nobody knows", { ...reef, salintiy: 3 }, '"salintiy" is no field'],
  ])("is given for %s", (_, said, words) => {
    expect(warned(said)).toContain(words);
  });
});

describe("a refusal", () => {
  it.each([
    ["salt below none", { ...reef, salinity: -1 }, "salinity: have -1, want a number from 0 to 60"],
    ["a stove", { ...reef, temperature_c: 46 }, "temperature_c: have 46, want a number from -5 to 45"],
    ["ice", { ...reef, temperature_c: -2 }, "temperature_c: -2 is ice; S 35 freezes at -1.92"],
    ["what is not a number", { ...reef, salinity: Number.NaN }, "salinity: have NaN"],
    ["a number in quotes", { ...reef, salinity: "35" }, 'salinity: have "35"'],
    ["no temperature", { ...reef, temperature_c: null }, "temperature_c is missing"],
    ["no salt", { ...reef, salinity: undefined }, "salinity is missing; give one of salinity, conductivity_ms_cm"],
    ["half a pair", { ...reef, dic_umol_kg: null }, "alkalinity_umol_kg alone does not fix the carbonate system"],
    ["three of four", { ...reef, ph_total: 8.2 }, "alkalinity_umol_kg, dic_umol_kg, ph_total are 3 of four"],
    ["the same thing twice", { ...reef, alkalinity_dkh: 8 }, "both say the alkalinity; give one"],
    ["pH on no scale", { ...reef, ph: 8.2 }, "ph: say on which scale"],
    ["a detail of nothing", { ...reef, conductivity_at_c: 25 }, "says nothing without conductivity_ms_cm"],
    ["an unknown borate", { ...reef, borate: "sea" }, 'borate: have "sea", want uppstrom or lee'],
    ["constants of no kind", { ...reef, constants: 3 }, "constants: have 3, want true or false"],
    ["conductivity of brine", { temperature_c: 25, conductivity_ms_cm: 150 }, "the most that can be computed is 60"],
    ["CO2 without carbon", { temperature_c: 25, salinity: 35, dic_umol_kg: 0, pco2_uatm: 400 }, "no such water"],
    ["pH without means", { temperature_c: 25, salinity: 35, alkalinity_umol_kg: 10, ph_total: 10 }, "no such water"],
    ["a sea of soda", { temperature_c: 25, salinity: 35, pco2_uatm: 1e6, ph_total: 12 }, "no such water"],
  ])("meets %s", (_, said, words) => {
    expect(refused(said)).toContain(words);
  });

  it("says all that is wrong at once", () => {
    expect(refused({ salinity: -1, alkalinity_dkh: "8" })).toBe(
      'salinity: have -1, want a number from 0 to 60; alkalinity_dkh: have "8", want a number from -130 to 130; temperature_c is missing; alkalinity_dkh alone does not fix the carbonate system; give one more of carbon, pressure of CO2, pH',
    );
  });
});

it("the page of the command names every field that it takes and every number that it tells", () => {
  const page = readFileSync(join(import.meta.dirname, "../../../docs/water.md"), "utf8");
  for (const { name } of FIELDS) expect(page).toContain(`\`${name}\``);
  for (const { field } of OUTPUTS) expect(page).toContain(`\`${field}\``);
  for (const path of Object.values(TOLD)) expect(page).toContain(`\`${path.split(".")[1] ?? path}\``);
});
