/** Photosynthesis against light. Sources and certainty: docs/science.md#light. */

/** Light at which photosynthesis bends, umol photons m-2 s-1: between shade (100 to 250) and sun (250 to 500). */
const BEND_PAR = 200;
/** Above this light begins to hurt (600 to 1000 for acclimated corals), and by 1/e over each further 1500 (1000 to 2000). */
const INHIBITED_ABOVE_PAR = 800;
const INHIBITION_PAR = 1500;

/**
 * Gross photosynthesis over its greatest, 0 to 1, at `par` umol photons m-2 s-1: Jassby & Platt 1976, with a fall above 800
 * in the manner of Platt, Gallegos & Harrison 1980. `bendPar` is the light at which the two straight ends would meet.
 */
export function photosynthesisShare(par: number, bendPar = BEND_PAR): number {
  if (!(par > 0)) return 0;
  const rise = Math.tanh(par / bendPar);
  return par > INHIBITED_ABOVE_PAR ? rise * Math.exp((INHIBITED_ABOVE_PAR - par) / INHIBITION_PAR) : rise;
}
