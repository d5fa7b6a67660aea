/** Prepared salt water by hand: in place of part of the water, or for what has leaked away. */

import { CARBONATE_SIZE, carbonateConstants, dicFromPco2, oxygenSaturation } from "../science/index.ts";
import {
  BODY_COLUMNS,
  CA,
  DIC,
  HEAT,
  HEAT_CAPACITY,
  MASS,
  MG,
  NO3,
  O2,
  PO4,
  SALT,
  TA,
  TRANSPORTED,
} from "./columns.ts";
import { kgPerL, volumeL } from "./hydraulics.ts";
import { DKH_TO_EQ_PER_L } from "./life.ts";
import type { SystemModel } from "./model.ts";
import type { Twin } from "./state.ts";

const NEW_PCO2_UATM = 450;

/** A kilogram of prepared water as the owner keeps it, by transported column; null where nothing salt is described. */
function preparedWater(twin: Twin, system: SystemModel): Float64Array | null {
  const first = system.waters.find((body) => twin.model.site.bodies[body].holds.kind === "salt");
  if (first === undefined) return null;
  const { holds } = twin.model.site.bodies[first];
  if (holds.kind !== "salt") return null;
  const density = kgPerL(twin, first);
  const eqPerKg = (holds.alkalinityDKH * DKH_TO_EQ_PER_L) / density;
  const constants = new Float64Array(CARBONATE_SIZE);
  carbonateConstants(holds.temperatureC, holds.salinity, constants);
  const fresh = new Float64Array(TRANSPORTED);
  fresh[HEAT] = HEAT_CAPACITY * holds.temperatureC;
  fresh[SALT] = holds.salinity / 1000;
  fresh[O2] = oxygenSaturation(holds.temperatureC, holds.salinity) * 1e-6;
  fresh[TA] = eqPerKg;
  fresh[DIC] = dicFromPco2(constants, eqPerKg, NEW_PCO2_UATM);
  fresh[CA] = holds.calciumMgL / 40_078 / density;
  fresh[MG] = holds.magnesiumMgL / 24_305 / density;
  fresh[NO3] = holds.nitrateMgL / 62_005 / density;
  fresh[PO4] = holds.phosphateMgL / 94_971 / density;
  return fresh;
}

/** Replaces `share` (0..1) of the system's water by prepared water. Levels stay as they are. */
export function changeWater(twin: Twin, system: SystemModel, share: number): void {
  const fresh = preparedWater(twin, system);
  if (fresh === null) return;
  for (const body of system.waters) {
    const at = body * BODY_COLUMNS;
    const kg = twin.bodies[at + MASS] * share;
    for (let column = 0; column < TRANSPORTED; column++) {
      const change = kg * fresh[column] - twin.bodies[at + column] * share;
      twin.bodies[at + column] += change;
      twin.books?.moved(system.index, column, change);
    }
  }
}

/** Fills every body of a system with prepared water up to what its description says, after a leak. */
export function fillUp(twin: Twin, system: SystemModel): void {
  const fresh = preparedWater(twin, system);
  if (fresh === null) return;
  for (const body of system.waters) {
    const kg = (twin.model.site.bodies[body].volumeL - volumeL(twin, body)) * kgPerL(twin, body);
    if (kg <= 0) continue;
    const at = body * BODY_COLUMNS;
    for (let column = 0; column < TRANSPORTED; column++) {
      twin.bodies[at + column] += kg * fresh[column];
      twin.books?.moved(system.index, column, kg * fresh[column]);
    }
    twin.bodies[at + MASS] += kg;
    twin.books?.moved(system.index, MASS, kg);
  }
}
