/** What a sensor would show at coming ticks if the water went straight on. */
import { NOISE_BOUND } from "../foundation/index.ts";
import { SENSOR_COLUMNS, SENSOR_HEARD, SENSOR_LAGGED, SENSOR_SLOPE } from "./columns.ts";
import { AT } from "./levers.ts";
import { DAYS_PER_MONTH, noiseAt, rounded, SECONDS_PER_DAY } from "./sensing.ts";
import type { Twin } from "./state.ts";

/** The speed of late may double before the next look. */
const HASTE = 2;

/**
 * How far, at least, a reading stays from a limit over the next `spanS`, given its speed of late and its noise; at or below 0 it
 * may cross. Quantities that jump are watched by events, not by this.
 */
export function distanceToLimit(twin: Twin, sensor: number, limit: number, spanS: number): number {
  const leastPerH = twin.model.sensing.leastSpeedPerH[sensor];
  if (leastPerH === 0 || keepsStill(twin, sensor)) return Number.POSITIVE_INFINITY;
  const moves = (leastPerH / 3600 + HASTE * Math.abs(twin.sensors[sensor * SENSOR_COLUMNS + SENSOR_SLOPE])) * spanS;
  return Math.abs(shownAhead(twin, sensor, 0) - limit) - reachOfNoise(twin, sensor) - moves;
}

/** Its water is not simulated, or it shows the same whatever the water. */
function keepsStill(twin: Twin, sensor: number): boolean {
  const system = twin.model.sensing.systemOf[sensor];
  if (system >= 0 && twin.active[system] === 0) return true;
  const base = twin.model.levers.base.sensor[sensor];
  return !Number.isNaN(twin.levers[base + AT.sensor.fixed]) || twin.levers[base + AT.sensor.frozen] > 0;
}

/** No reading lies farther than this from what would be shown without noise. */
export function reachOfNoise(twin: Twin, sensor: number): number {
  const spec = twin.model.site.sensors[sensor];
  const factor = twin.levers[twin.model.levers.base.sensor[sensor] + AT.sensor.noiseFactor];
  return NOISE_BOUND * spec.noise * factor + spec.resolution;
}

/** Without noise, so many seconds after the last word. */
export function shownAhead(twin: Twin, sensor: number, aheadS: number): number {
  const spec = twin.model.site.sensors[sensor];
  const base = twin.model.levers.base.sensor[sensor];
  const at = sensor * SENSOR_COLUMNS;
  const days = (twin.sensors[at + SENSOR_HEARD] + aheadS) / SECONDS_PER_DAY;
  const drift = (spec.driftPerMonth / DAYS_PER_MONTH + twin.levers[base + AT.sensor.offsetPerDay]) * days;
  const lagged = twin.sensors[at + SENSOR_LAGGED] + twin.sensors[at + SENSOR_SLOPE] * aheadS;
  return lagged + spec.offset + twin.levers[base + AT.sensor.offset] + drift;
}

/** The reading at a coming tick. */
export function readingAhead(twin: Twin, sensor: number, tick: number, aheadS: number): number {
  return rounded(
    shownAhead(twin, sensor, aheadS) + noiseAt(twin, sensor, tick),
    twin.model.site.sensors[sensor].resolution,
  );
}
