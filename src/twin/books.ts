/**
 * Books of what crosses the border of the systems, kept by whoever wants to see that nothing appears and nothing vanishes
 * (test/books.ts). To a system belong all its bodies, its reservoirs and bottles too; its border lies where the water meets air,
 * floor, drain, stones, living things and hands. Nobody keeps books while a rehearsal runs.
 */
import type { SystemModel } from "./model.ts";

export type Ahead = "oxygen of the air" | "carbon dioxide of the air" | "breath" | "organic carbon used";

export interface Books {
  /** So much of a column of `columns.ts` came into a system (+) or went from it (-) at once: a meal, a spill, a refill. */
  moved(system: number, column: number, amount: number): void;
  /** Heat and masses of a system's waters at a stage of a step, by local place. What warms and flows then counts for so many hours. */
  warmth(system: SystemModel, heatJ: Float64Array, massKg: Float64Array, hours: number): void;
  /** The same for all that is dissolved: amounts, whose heat means nothing. */
  matter(system: SystemModel, amounts: Float64Array, massKg: Float64Array, hours: number): void;
  /** So much more of a crossing than the stages say, mol, since a step counts it as implicit. */
  ahead(system: SystemModel, what: Ahead, mol: number): void;
  /** Crystals that settled in a body, mol. */
  settled(body: number, mol: number): void;
  /** A step begins that may be taken back. */
  keep(): void;
  /** The step since `keep` is taken back. */
  takeBack(): void;
}
