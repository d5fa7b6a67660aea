export { fishOxygenMgPerH, fishWarmthFactor, oxygenLimitation } from "./respiration.ts";
