export { afterBatchChanges, afterSteadyExchange } from "./exchange.ts";
export {
  conductivityFromSalinity,
  conductivityRatioFromSalinity,
  salinityFromConductivity,
  salinityFromConductivityRatio,
  salinityFromSpecificGravity,
  specificGravityFromSalinity,
} from "./salinity.ts";
export { freezingPoint, heatCapacity, seawaterDensity } from "./seawater.ts";
