export {
  co2FugacityFactor,
  co2Solubility,
  oxygenSaturation,
  oxygenSaturationAtPressure,
  pco2FromDryAir,
  seawaterVapourPressure,
} from "./solubility.ts";
export {
  SURFACE_COVER,
  SURFACE_TRANSFER_FACTOR,
  schmidtRatioCo2,
  surfaceTransferMPerH,
  weirTransferShare,
} from "./transfer.ts";
