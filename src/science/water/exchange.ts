/** What a water change leaves behind. Mass balance of a mixed vessel; docs/science.md#water-changes. */

/** Concentration after a number of equal batch changes, each replacing `fraction` (0..1) of the water at once. */
export function afterBatchChanges(initial: number, newWater: number, fraction: number, changes: number): number {
  return newWater + (initial - newWater) * (1 - fraction) ** changes;
}

/** Concentration after exchanging water steadily; `exchangedOverVolume` is the volume exchanged over the tank's volume. */
export function afterSteadyExchange(initial: number, newWater: number, exchangedOverVolume: number): number {
  return newWater + (initial - newWater) * Math.exp(-exchangedOverVolume);
}
