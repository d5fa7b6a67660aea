export { calcificationDayMean, calcificationFactor } from "./calcification.ts";
export type { Compound } from "./compounds.ts";
export { alkalinityMeqPerG, calciumMgPerG, carbonMmolPerG, magnesiumMgPerG } from "./compounds.ts";
export {
  aragoniteDissolutionRate,
  aragonitePrecipitationRate,
  aragoniteRateConstant,
  aragoniteRateOrder,
  limewaterStrengthMeqPerL,
  NUCLEATION_OMEGA,
  nucleationShare,
} from "./precipitation.ts";
