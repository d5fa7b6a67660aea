/**
 * Foundation: the ground floor. Quantities as people write them, problems as values, wall clocks without a clock,
 * chance by counter. Knows units but no aquarium, has no run-time dependency, and is the same on every machine.
 */
export { civilFromDays, daysFromCivil, formatLocalTime, formatMinuteOfDay, parseLocalTime } from "./civil-time.ts";
export { firstAfter } from "./first-after.ts";
export { deepFreeze } from "./freeze.ts";
export type { LocalClock, OffsetChange } from "./local-clock.ts";
export {
  dayOfWeekAt,
  dayOfYearAt,
  fixedClock,
  localSecondsAt,
  localTimeAt,
  minuteOfDayAt,
  timeOfLocal,
} from "./local-clock.ts";
export { didYouMean, editDistance, nearest } from "./nearest.ts";
export { hash32, hashNoise, hashText, hashUniform, NOISE_BOUND } from "./noise.ts";
export type { Problem, Result } from "./problem.ts";
export { InputError, mustHave, NotFoundError, SlackwaterError, success } from "./problem.ts";
export type { Limits, Quantity, Rate } from "./quantity.ts";
export { formatNumber, formatQuantity, parseQuantity, parseRate, printQuantity } from "./quantity.ts";
export type { WrittenSalinity } from "./salinity-words.ts";
export { parseSalinity } from "./salinity-words.ts";
export type { DimensionFacts, Unit } from "./unit.ts";
export type { Dimension } from "./unit-table.ts";
export { DIMENSIONS, factsOf, findUnit } from "./unit-table.ts";
export type { WallMoment, WallWindow } from "./wall-windows.ts";
export {
  anyWindowHolds,
  formatWindow,
  nextWindowChange,
  parseMoment,
  parseWindow,
  windowHolds,
} from "./wall-windows.ts";
