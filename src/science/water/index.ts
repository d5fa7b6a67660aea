export { afterBatchChanges, afterSteadyExchange } from "./exchange.ts";
export {
  conductivityFromSalinity,
  conductivityRatioFromSalinity,
  salinityFromConductivity,
  salinityFromConductivityRatio,
  salinityFromSpecificGravity,
  specificGravityFromSalinity,
} from "./salinity.ts";
export { heatCapacity, seawaterDensity } from "./seawater.ts";
