/** Lands a step on the moment at which something switches, so that switchings keep their phase whatever the length of steps. */

/** Something that can be stepped, taken back, and asked whether a switch has been passed. */
export interface Steppable {
  /** Steps so many hours on from where it was last kept. */
  step(hours: number): void;
  /** Puts it back to where it was last kept. */
  takeBack(): void;
  /**
   * How far the foremost switch is past its point, in tolerances: below 0 none has been reached, from 0 to 1 it is landed on.
   * Continuous in time.
   */
  past(): number;
}

/** Tries before the last one is taken as it is. */
const TRIES = 8;
/** Where in the tolerance a try aims. */
const AIM = 0.5;

/**
 * Steps `mostH` hours, or until the first switch is reached, and returns the hours. `before` is how far the foremost switch is
 * past its point now (not above 0). Steps shorter than `leastH` are not sought. False position with the Illinois weights: the
 * bracket is always kept.
 */
export function stepToSwitch(one: Steppable, before: number, mostH: number, leastH: number): number {
  one.step(mostH);
  let hours = mostH;
  let past = one.past();
  if (past <= 1 || mostH <= leastH) return mostH;
  let lowH = 0;
  let lowPast = Number.isFinite(before) ? Math.min(before, 0) : -past;
  let highH = mostH;
  let highPast = past;
  let side = 0;
  for (let tried = 0; tried < TRIES && (past < 0 || past > 1) && hours > leastH; tried++) {
    hours = Math.max(leastH, lowH + ((highH - lowH) * (AIM - lowPast)) / (highPast - lowPast));
    one.takeBack();
    one.step(hours);
    past = one.past();
    if (past > 1) {
      highH = hours;
      highPast = past;
      if (side === 1) lowPast /= 2;
      side = 1;
    } else {
      lowH = hours;
      lowPast = past;
      if (side === -1) highPast = 1 + (highPast - 1) / 2;
      side = -1;
    }
  }
  return hours;
}
