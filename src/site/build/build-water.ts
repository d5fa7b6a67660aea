/** What water a body holds. */
import { parseQuantity } from "../../foundation/index.ts";
import type { WrittenWater } from "../keys/bodies.ts";
import { SALT_WATER_KEYS, SOLUTION_KEYS } from "../keys/bodies.ts";
import type { WaterKind } from "../model.ts";
import type { Written } from "../shape/fields.ts";
import type { Found } from "../shape/reader.ts";
import type { Building } from "./building.ts";
import { takerFor } from "./building.ts";

type Solution = Extract<WaterKind, { kind: "solution" }>;

function buildSalt(building: Building, id: string, line: number, written: Written<typeof SALT_WATER_KEYS>): WaterKind {
  const take = takerFor(building, id, line, SALT_WATER_KEYS, written);
  return {
    kind: "salt",
    salinity: take("salt", 35),
    temperatureC: take("temperature", 25.5),
    alkalinityDKH: take("alkalinity", 8),
    calciumMgL: take("calcium", 420),
    magnesiumMgL: take("magnesium", 1300),
    nitrateMgL: take("nitrate", 5),
    phosphateMgL: take("phosphate", 0.05),
  };
}

const USUAL_SALT: Readonly<Record<Solution["of"], Solution["salt"]>> = {
  alkalinity: "bicarbonate",
  calcium: "calcium-chloride",
  magnesium: "magnesium-chloride",
  carbon: "ethanol",
  other: "none",
};

const SALTS_THAT_FIT: Readonly<Record<Solution["of"], readonly Solution["salt"][]>> = {
  alkalinity: ["bicarbonate", "carbonate", "hydroxide"],
  calcium: ["calcium-chloride"],
  magnesium: ["magnesium-chloride"],
  carbon: ["ethanol", "none"],
  other: ["none"],
};

function strengthDimension(of: Solution["of"]): "alkalinity strength" | "ion strength" | "mass strength" {
  if (of === "alkalinity") return "alkalinity strength";
  return of === "calcium" || of === "magnesium" ? "ion strength" : "mass strength";
}

function strengthPerML(building: Building, id: string, of: Solution["of"], written: Found<string>): number {
  const result = parseQuantity(written.value, strengthDimension(of), { aboveZero: true });
  if (result.ok) return result.value.value;
  building.error(written, `${id}.holds.strength`, result.problem.code, result.problem.message, result.problem.hint);
  return 1;
}

function buildSolution(
  building: Building,
  id: string,
  line: number,
  written: Written<typeof SOLUTION_KEYS>,
): WaterKind {
  const take = takerFor(building, id, line, SOLUTION_KEYS, written);
  const of = written.solution?.value ?? "other";
  const salt = take("salt", USUAL_SALT[of]);
  if (!SALTS_THAT_FIT[of].includes(salt) && written.salt !== undefined) {
    building.error(
      written.salt,
      `${id}.holds.salt`,
      "water/salt",
      `${salt} gives no ${of}`,
      `for ${of} write one of ${SALTS_THAT_FIT[of].join(", ")}`,
    );
  }
  const usual = of === "alkalinity" ? "1 meq/mL" : of === "calcium" || of === "magnesium" ? "1 mmol/mL" : "0.3 g/mL";
  const text = take("strength", usual);
  const found = written.strength ?? { value: text, place: building.placeOf(id) };
  return { kind: "solution", of, salt, strengthPerML: strengthPerML(building, id, of, found) };
}

const USUAL_SALT_WATER: WaterKind = {
  kind: "salt",
  salinity: 35,
  temperatureC: 25.5,
  alkalinityDKH: 8,
  calciumMgL: 420,
  magnesiumMgL: 1300,
  nitrateMgL: 5,
  phosphateMgL: 0.05,
};

/** The water that a system's bodies share where they say nothing of their own. */
export interface SharedWater {
  readonly of: string;
  readonly water: WaterKind;
}

/** The water of a body. Salt water without figures is that of its system; a system without any has the usual values. */
export function buildWater(
  building: Building,
  id: string,
  line: number,
  written: WrittenWater | null,
  shared: SharedWater | null,
): WaterKind {
  if (shared !== null && shared.of === id) return shared.water;
  if (written?.kind === "salt") return buildSalt(building, id, line, written.keys);
  if (written?.kind === "solution") return buildSolution(building, id, line, written.keys);
  if (written?.kind === "fresh" || written?.kind === "limewater") return { kind: written.kind };
  if (shared !== null) {
    building.noteDefault(id, "holds", `the water of ${shared.of}`, 3, "", line);
    return shared.water;
  }
  const why = "harm by heat and cold is counted from what the animals are used to";
  building.noteDefault(id, "holds", "salt water: 35 ppt, 25.5 degC, 8 dKH", 2, why, line);
  return USUAL_SALT_WATER;
}
