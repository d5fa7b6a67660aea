/**
 * Systems in one room feel one another through its air alone. While a fault leaves the air as it is in normal life, give or take
 * what no tank in it could show, those that it does not touch need not be simulated with it.
 */
import { withRoommates } from "./reach.ts";
import type { Setting } from "./setting.ts";

/** What moves the water of a neighbour by less than can be measured there: K, percent, ppm. */
const FELT = [0.3, 3, 50] as const;

/** Whether a setting leaves out systems in the rooms of those that it simulates. */
export function hasNeighbours({ model, systems }: Setting): boolean {
  return withRoommates(model, systems).length > systems.length;
}

/** Whether, at a place of the grid, neighbours would feel that the air is not as in normal life. */
export function neighboursFeel({ normal, twin }: Setting, place: number): boolean {
  const { air, airProbes } = normal;
  for (let probe = 0; probe < airProbes.length; probe++)
    if (Math.abs(airProbes[probe].read(twin) - air[place * airProbes.length + probe]) > FELT[probe % FELT.length])
      return true;
  return false;
}
