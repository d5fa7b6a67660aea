export {
  BORATE_LEE_10,
  BORATE_UPPSTROM_74,
  CARBONATE,
  CARBONATE_SIZE,
  carbonateConstants,
  withinCarbonateFit,
} from "./constants.ts";
export {
  hydrogenFromPhTotal,
  phFree,
  phNbs,
  phNbsOffset,
  phSws,
  phTotalFromHydrogen,
  phTotalFromNbs,
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
