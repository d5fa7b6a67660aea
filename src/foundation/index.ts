/**
 * Foundation: the ground floor. Quantities as people write them, problems as values, wall clocks without a clock,
 * chance by counter. Knows nothing of aquariums, has no run-time dependency, and is the same on every machine.
 */
export {
  civilFromDays,
  dayOfWeekFromDays,
  daysFromCivil,
  formatLocalTime,
  formatMinuteOfDay,
  MINUTES_PER_DAY,
  parseLocalTime,
  SECONDS_PER_DAY,
} from "./civil-time.ts";
export { deepFreeze } from "./freeze.ts";
export type { LocalClock, OffsetChange } from "./local-clock.ts";
export {
  dayOfWeekAt,
  dayOfYearAt,
  fixedClock,
  localSecondsAt,
  localTimeAt,
  minuteOfDayAt,
  offsetAt,
  timeOfLocal,
} from "./local-clock.ts";
export { didYouMean, editDistance, nearest } from "./nearest.ts";
export { hash32, hashNoise, hashText, hashUniform, NOISE_BOUND } from "./noise.ts";
export type { Problem, Result } from "./problem.ts";
export { DefectError, failure, InputError, mustHave, NotFoundError, SlackwaterError, success } from "./problem.ts";
export type { Limits, Quantity, Rate } from "./quantity.ts";
export { formatNumber, formatQuantity, parseQuantity, parseRate, printQuantity } from "./quantity.ts";
export type { WrittenSalinity } from "./salinity-words.ts";
export { parseSalinity } from "./salinity-words.ts";
export type { Dimension, DimensionFacts, Unit } from "./unit-table.ts";
export { DIMENSIONS, factsOf, findUnit, unitSymbols } from "./unit-table.ts";
export type { WallMoment, WallWindow } from "./wall-windows.ts";
export {
  anyWindowHolds,
  formatWindow,
  nextWindowChange,
  parseClockTime,
  parseMoment,
  parseWindow,
  windowHolds,
} from "./wall-windows.ts";
