/** Water that runs by its own weight. Sources and certainty: docs/science.md#hydraulics. */

const GRAVITY = 9.80665;
const L_PER_H_PER_M3_PER_S = 3.6e6;
/** Share of the ideal flow that passes a sharp edge or a fitted pipe (0.60 to 0.62). */
const DISCHARGE = 0.6;
const WEIR_L_PER_H = (2 / 3) * DISCHARGE * Math.sqrt(2 * GRAVITY) * L_PER_H_PER_M3_PER_S;

/** Flow over a smooth straight weir, L/h, with the water standing `headM` above its edge. Teeth halve the width. */
export function weirFlowLPerH(widthM: number, headM: number): number {
  return headM > 0 ? WEIR_L_PER_H * widthM * headM * Math.sqrt(headM) : 0;
}

/** Head over a weir, m, that carries this flow: the inverse of `weirFlowLPerH`. */
export function weirHeadM(widthM: number, flowLPerH: number): number {
  return flowLPerH > 0 ? Math.cbrt((flowLPerH / (WEIR_L_PER_H * widthM)) ** 2) : 0;
}

/** Flow through a hole, L/h, under a head of water (Torricelli's law with contraction). */
export function orificeFlowLPerH(areaMm2: number, headM: number): number {
  return headM > 0 ? DISCHARGE * areaMm2 * 1e-6 * Math.sqrt(2 * GRAVITY * headM) * L_PER_H_PER_M3_PER_S : 0;
}

/** Flow of a full siphon or drain pipe with its fittings, L/h; drawing air along it carries only 15 to 25 % of this. */
export function siphonFlowLPerH(diameterMm: number, headM: number): number {
  return orificeFlowLPerH((Math.PI / 4) * diameterMm * diameterMm, headM);
}
