/** What a sensor would show at coming ticks if the water went straight on. */
import { hashNoise, NOISE_BOUND } from "../foundation/index.ts";
import { SENSOR_COLUMNS, SENSOR_HEARD, SENSOR_LAGGED, SENSOR_SLOPE } from "./columns.ts";
import { AT } from "./levers.ts";
import { DAYS_PER_MONTH, rounded, SECONDS_PER_DAY } from "./sensing.ts";
import type { Twin } from "./state.ts";

/** With a little for rounding itself. */
const HALF_DIGIT = 0.501;
/** The speed of late may double before the next look. */
const HASTE = 2;

/** The straight line on which a sensor goes on, with all that its reading needs; made once for many ticks. */
export class Outlook {
  lagged = 0;
  slopePerS = 0;
  heardS = 0;
  offset = 0;
  leverOffset = 0;
  driftPerDay = 0;
  noise = 0;
  resolution = 0;
  /** Least speed that is taken to be possible, per s; 0 for what jumps or keeps still. */
  leastPerS = 0;
  seed = 0;
  stream = 0;

  /** Takes the line of a sensor from its last two looks. */
  take(twin: Twin, sensor: number): void {
    const { levers, sensors } = twin;
    const spec = twin.model.site.sensors[sensor];
    const base = twin.model.levers.base.sensor[sensor];
    const at = sensor * SENSOR_COLUMNS;
    this.lagged = sensors[at + SENSOR_LAGGED];
    this.slopePerS = sensors[at + SENSOR_SLOPE];
    this.heardS = sensors[at + SENSOR_HEARD];
    this.offset = spec.offset;
    this.leverOffset = levers[base + AT.sensor.offset];
    this.driftPerDay = spec.driftPerMonth / DAYS_PER_MONTH + levers[base + AT.sensor.offsetPerDay];
    this.noise = spec.noise * levers[base + AT.sensor.noiseFactor];
    this.resolution = spec.resolution;
    this.leastPerS = keepsStill(twin, sensor) ? 0 : twin.model.sensing.leastSpeedPerH[sensor] / 3600;
    this.seed = twin.seed;
    this.stream = twin.scratch.sensorStream[sensor];
  }

  /** Without noise, so many seconds after the last word. */
  shown(aheadS: number): number {
    const drift = this.driftPerDay * ((this.heardS + aheadS) / SECONDS_PER_DAY);
    return this.lagged + this.slopePerS * aheadS + this.offset + this.leverOffset + drift;
  }

  /** The reading at a coming tick. */
  reading(tick: number, aheadS: number): number {
    return rounded(this.shown(aheadS) + this.noise * hashNoise(this.seed, this.stream, tick), this.resolution);
  }

  /** No reading lies farther than this from what would be shown without noise: rounding moves it by half a digit. */
  get reach(): number {
    return NOISE_BOUND * this.noise + HALF_DIGIT * this.resolution;
  }

  /**
   * How far, at least, a reading stays from a limit over the next `spanS`, given its speed of late and its noise; at or below 0
   * it may cross. Quantities that jump are watched by events, not by this.
   */
  distanceTo(limit: number, spanS: number): number {
    if (this.leastPerS === 0) return Number.POSITIVE_INFINITY;
    const moves = (this.leastPerS + HASTE * Math.abs(this.slopePerS)) * spanS;
    return Math.abs(this.shown(0) - limit) - this.reach - moves;
  }

  /** Seconds for which a reading surely stays on its side of a limit if the water goes straight on; 0 where that is not sure. */
  clearOf(limit: number): number {
    const gap = this.shown(0) - limit;
    const spare = Math.abs(gap) - this.reach;
    if (spare <= 0) return 0;
    const towardsPerS = -Math.sign(gap) * (this.slopePerS + this.driftPerDay / SECONDS_PER_DAY);
    return towardsPerS <= 0 ? Number.POSITIVE_INFINITY : spare / towardsPerS;
  }
}

/** It shows the same whatever the water. */
function keepsStill(twin: Twin, sensor: number): boolean {
  const base = twin.model.levers.base.sensor[sensor];
  return !Number.isNaN(twin.levers[base + AT.sensor.fixed]) || twin.levers[base + AT.sensor.frozen] > 0;
}
