export { alkalinityBuffer, carbonCharge, revelleFactor } from "./buffer.ts";
export { CARBONATE, CARBONATE_SIZE } from "./columns.ts";
export {
  acidBaseConstants,
  BORATE_LEE_10,
  BORATE_UPPSTROM_74,
  carbonateConstants,
  withinCarbonateFit,
} from "./constants.ts";
export { type BalancedWater, balancedWater, type CarbonatePair } from "./pairs.ts";
export {
  hydrogenFromPhTotal,
  phFree,
  phNbs,
  phNbsOffset,
  phSws,
  phTotalFromFree,
  phTotalFromHydrogen,
  phTotalFromNbs,
  phTotalFromSws,
} from "./ph-scales.ts";
export { solveHydrogen, solveHydrogenFromPco2 } from "./solver.ts";
export {
  alkalinityFromHydrogen,
  bicarbonateFromHydrogen,
  carbonateFromHydrogen,
  co2FromHydrogen,
  co2FromPco2,
  dicFromHydrogen,
  dicFromPco2,
  omegaAragonite,
  omegaCalcite,
  pco2FromCo2,
} from "./species.ts";
