/** Heat that leaves a tank dry: by radiation, by air, and through the walls. Sources and certainty: docs/science.md#heat. */

/** Radiation of a water surface near room temperature, W/(m2 K): 4 * 0.95 * Stefan-Boltzmann * (297 K)^3. */
const RADIATION_W_PER_M2K = 5.65;
/** Ratio of heat to vapour carried by the same air (Bowen 1926), kPa/K, times 1000 W per kW. */
const BOWEN_W_PER_KW = 66;

/**
 * Dry heat loss of the open surface, W/(m2 K): radiation plus air, the latter tied by Bowen's ratio to the evaporation formula,
 * so that both answer alike to wind and lid. Uncertain by a quarter.
 */
export function surfaceLossWPerM2K(airSpeedMS: number, activityFactor: number): number {
  return RADIATION_W_PER_M2K + activityFactor * (0.089 + 0.0782 * airSpeedMS) * BOWEN_W_PER_KW;
}

/** Heat conductivity of walls, W/(m K). */
export const WALL_CONDUCTIVITY = { glass: 1, acrylic: 0.19, foam: 0.035 } as const;

/** Film coefficients, W/(m2 K): moving water inside, still water inside, room air outside. */
const STIRRED_WATER = 200;
const STILL_WATER = 20;
const ROOM_AIR = 8.5;

/** Heat transmission of a wall between water and room air, W/(m2 K). */
export function wallLossWPerM2K(thicknessM: number, conductivityWPerMK: number, stirred: boolean): number {
  return 1 / (1 / (stirred ? STIRRED_WATER : STILL_WATER) + thicknessM / conductivityWPerMK + 1 / ROOM_AIR);
}
