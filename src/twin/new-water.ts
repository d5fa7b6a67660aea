/** A water change by hand: part of all circulating water goes, prepared salt water of the same kind and warmth comes. */

import { CARBONATE_SIZE, carbonateConstants, dicFromPco2, oxygenSaturation } from "../science/index.ts";
import {
  BODY_COLUMNS,
  CA,
  DIC,
  HEAT,
  HEAT_CAPACITY,
  LEDGER_COLUMNS,
  MASS,
  MG,
  NO3,
  O2,
  PO4,
  SALT,
  TA,
  TRANSPORTED,
} from "./columns.ts";
import { kgPerL } from "./hydraulics.ts";
import { DKH_TO_EQ_PER_L } from "./life.ts";
import type { SystemModel } from "./model.ts";
import type { Twin } from "./state.ts";

const NEW_PCO2_UATM = 450;

/** Replaces `share` (0..1) of the system's water by water as its owner keeps it. Levels stay as they are. */
export function changeWater(twin: Twin, system: SystemModel, share: number): void {
  const first = system.waters.find((body) => twin.model.site.bodies[body].holds.kind === "salt");
  if (first === undefined) return;
  const holds = twin.model.site.bodies[first].holds;
  if (holds.kind !== "salt") return;
  const eqPerKg = (holds.alkalinityDKH * DKH_TO_EQ_PER_L) / kgPerL(twin, first);
  const constants = new Float64Array(CARBONATE_SIZE);
  carbonateConstants(holds.temperatureC, holds.salinity, constants);
  const fresh = new Float64Array(TRANSPORTED);
  fresh[HEAT] = HEAT_CAPACITY * holds.temperatureC;
  fresh[SALT] = holds.salinity / 1000;
  fresh[O2] = oxygenSaturation(holds.temperatureC, holds.salinity) * 1e-6;
  fresh[TA] = eqPerKg;
  fresh[DIC] = dicFromPco2(constants, eqPerKg, NEW_PCO2_UATM);
  fresh[CA] = holds.calciumMgL / 40_078 / kgPerL(twin, first);
  fresh[MG] = holds.magnesiumMgL / 24_305 / kgPerL(twin, first);
  fresh[NO3] = holds.nitrateMgL / 62_005 / kgPerL(twin, first);
  fresh[PO4] = holds.phosphateMgL / 94_971 / kgPerL(twin, first);
  const book = system.index * LEDGER_COLUMNS;
  for (const body of system.waters) {
    const at = body * BODY_COLUMNS;
    const kg = twin.bodies[at + MASS] * share;
    for (let column = 0; column < TRANSPORTED; column++) {
      const change = kg * fresh[column] - twin.bodies[at + column] * share;
      twin.bodies[at + column] += change;
      twin.ledger[book + column] += change;
    }
  }
}
