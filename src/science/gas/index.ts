export {
  co2FugacityFactor,
  co2Solubility,
  oxygenSaturation,
  oxygenSaturationAtPressure,
  pco2FromDryAir,
  seawaterVapourPressure,
} from "./solubility.ts";
export {
  schmidtRatioCo2,
  surfaceTransferMPerH,
  weirTransferShare,
} from "./transfer.ts";
