export { afterBatchChanges, afterSteadyExchange } from "./exchange.ts";
export {
  conductivityFromSalinity,
  conductivityRatioFromSalinity,
  salinityFromConductivity,
  salinityFromConductivityRatio,
  salinityFromSpecificGravity,
  specificGravityFromSalinity,
  T68_PER_T90,
} from "./salinity.ts";
export { freezingPoint, heatCapacity, seawaterDensity } from "./seawater.ts";
