export {
  DOSE_SPREAD,
  effectShare,
  HARM_DOSE,
  HARM_FACTOR,
  harmRatePerH,
  REPAIR_HOURS,
  t50Hours,
} from "./dose.ts";
export type { Group, Stressor } from "./groups.ts";
export { GROUPS, groupIndex, STRESSOR_MEASURE, STRESSORS, stressorIndex } from "./groups.ts";
export type { Tolerance } from "./tolerances.ts";
export { tolerances } from "./tolerances.ts";
