/**
 * Usual shapes and sizes, for what a file leaves out. Starting values of the trade, to be replaced by measured ones;
 * the reference page says for each key what is assumed.
 */
import type { BodyRole } from "../model.ts";
import { rounded } from "./building.ts";

/** A 400 L display is usually about 50 cm deep, a 100 L sump 30 cm, a 60 L barrel 40 cm; depth goes with the cube root. */
const USUAL_DEPTH: Readonly<Record<BodyRole, { readonly depthM: number; readonly atL: number }>> = {
  display: { depthM: 0.5, atL: 400 },
  sump: { depthM: 0.3, atL: 100 },
  refugium: { depthM: 0.3, atL: 60 },
  frag: { depthM: 0.25, atL: 150 },
  reservoir: { depthM: 0.4, atL: 60 },
  container: { depthM: 0.2, atL: 5 },
};

export function usualDepthM(role: BodyRole, volumeL: number): number {
  const { depthM, atL } = USUAL_DEPTH[role];
  return rounded(Math.min(3, Math.max(0.05, depthM * Math.cbrt(volumeL / atL))), 3);
}

export function surfaceFrom(volumeL: number, depthM: number): number {
  return rounded(volumeL / 1000 / depthM, 4);
}

/** Water to the rim: 3 cm of freeboard on a display or refugium, 25 % in a sump, 5 % in the rest. */
export function usualBrimL(role: BodyRole, volumeL: number, surfaceM2: number): number {
  if (role === "display" || role === "refugium" || role === "frag") return rounded(volumeL + 30 * surfaceM2, 1);
  return rounded(volumeL * (role === "sump" ? 1.25 : 1.05), 2);
}

export function usualIntakeL(role: BodyRole, volumeL: number): number {
  const share = role === "sump" ? 0.25 : role === "reservoir" || role === "container" ? 0.05 : 0.1;
  return rounded(volumeL * share, 3);
}

/** Coefficients of heat transfer of 10 mm glass with stirred water, and of a bottom on foam and stand, W/(m2 K). */
const GLASS_W_M2_K = 7.5;
const BOTTOM_W_M2_K = 1.5;

/** UA of the walls of a box twice as long as wide, W/K. */
export function usualWallsWPerK(surfaceM2: number, depthM: number): number {
  const width = Math.sqrt(surfaceM2 / 2);
  return rounded(GLASS_W_M2_K * 6 * width * depthM + BOTTOM_W_M2_K * surfaceM2, 2);
}

/** A weir 40 cm wide whose teeth leave 60 % of it open; discharge coefficient 0.61 (rectangular suppressed weir). */
const WEIR_M = 0.4 * 0.6;
const DISCHARGE = 0.61;
const GRAVITY = 9.81;

/** Water standing above the weir crest, L, from Q = 2/3 Cd b sqrt(2g) h^1.5. */
export function usualWeirHeadL(flowLPerH: number, surfaceM2: number): number {
  const flowM3PerS = flowLPerH / 3.6e6;
  const headM = Math.cbrt((flowM3PerS / ((2 / 3) * DISCHARGE * WEIR_M * Math.sqrt(2 * GRAVITY))) ** 2);
  return rounded(headM * surfaceM2 * 1000, 1);
}
