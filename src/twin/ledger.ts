/** Keeps the books of a system: what crossed the border of its waters, so that a test can see that nothing vanishes. */
import { CA, DIC, LEDGER_COLUMNS, LEDGER_WATER, SOLID, TA, TRANSPORTED } from "./columns.ts";
import { wetFloor } from "./hydraulics.ts";
import type { SystemModel } from "./model.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

/** What the sources of a stage brought or took: half of each stage, as the method weighs them. */
export function bookSources(twin: Twin, system: SystemModel, source: Float64Array, hours: number): void {
  const { ledger } = twin;
  const book = system.index * LEDGER_COLUMNS;
  for (let local = 0; local < system.waters.length; local++)
    for (let column = 0; column < TRANSPORTED; column++)
      ledger[book + column] += hours * source[local * TRANSPORTED + column];
}

/** Water that came, went and evaporated; what ran to the floor lies there. */
export function bookWater(twin: Twin, system: SystemModel, hours: number): void {
  const { scratch, ledger } = twin;
  const { floorKgH } = scratch.flows[system.index];
  const book = system.index * LEDGER_COLUMNS + LEDGER_WATER;
  for (let local = 0; local < system.waters.length; local++) {
    const body = system.waters[local];
    ledger[book] += scratch.netKgH[body] * hours;
    if (floorKgH[local] <= 0) continue;
    wetFloor(twin, body, (floorKgH[local] * hours) / scratch.slow[body * SLOW_COLUMNS + SLOW.kgPerL]);
  }
}

/** Crystals that formed took calcium and carbon one to one and charge, and some settled, mol. */
export function bookCrystals(twin: Twin, system: SystemModel, carbon: number, charge: number, solid: number): void {
  const { ledger } = twin;
  const book = system.index * LEDGER_COLUMNS;
  ledger[book + DIC] -= carbon;
  ledger[book + TA] -= charge;
  ledger[book + CA] -= carbon;
  ledger[book + SOLID] += solid;
}
