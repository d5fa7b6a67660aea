export { evaporationKgPerM2S, latentHeatKJPerKg, saturationVapourPressureKPa } from "./evaporation.ts";
export { surfaceLossWPerM2K, WALL_CONDUCTIVITY, wallLossWPerM2K } from "./heat-loss.ts";
