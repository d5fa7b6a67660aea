/**
 * What sensors say: the true value through lag, offset, drift, noise and resolution, or through a failure. Rules see only
 * this. Noise belongs to (seed, sensor, tick), so that nothing else changes it. Sources: docs/science.md#probes.
 */

import { hashNoise } from "../foundation/index.ts";
import { markTurn } from "./asked.ts";
import {
  ROOM_AIR_C,
  ROOM_COLUMNS,
  SENSOR_COLUMNS,
  SENSOR_FROZEN,
  SENSOR_HEARD,
  SENSOR_LAGGED,
  SENSOR_READING,
  SENSOR_SLOPE,
} from "./columns.ts";
import { AT } from "./levers.ts";
import { DRY_VALUE } from "./sensor-kinds.ts";
import type { Twin } from "./state.ts";
import { trueValue } from "./true-value.ts";
import { warmingKPerS } from "./warming.ts";

export const DAYS_PER_MONTH = 30.44;
export const SECONDS_PER_DAY = 86_400;
/** After so many time constants nothing is left of what a probe showed before. */
const FORGOTTEN_LAGS = 20;

/** Takes a reading of one sensor at `nowS`; `tick` counts the hub's looks. NaN = it says nothing. */
export function readSensor(twin: Twin, sensor: number, nowS: number, tick: number): number {
  const at = sensor * SENSOR_COLUMNS;
  const base = twin.model.levers.base.sensor[sensor];
  const last = twin.sensors[at + SENSOR_READING];
  if (twin.levers[base + AT.sensor.silent] > 0) return keepReading(twin, at, Number.NaN);
  if (isResting(twin, sensor, nowS) && !Number.isNaN(last)) return last;
  const lagged = followTruth(twin, sensor, nowS);
  const fixed = twin.levers[base + AT.sensor.fixed];
  if (!Number.isNaN(fixed)) return keepReading(twin, at, fixed);
  const shown = twin.model.sensing.isYesOrNo[sensor] ? yesOrNo(lagged) : shownValue(twin, sensor, lagged, nowS, tick);
  if (shown !== last) markTurn(twin, sensor);
  return keepReading(twin, at, frozenOr(twin, at, base, shown));
}

/** A test by hand or a slow instrument speaks only every so many hours. */
function isResting(twin: Twin, sensor: number, nowS: number): boolean {
  const { everyH } = twin.model.site.sensors[sensor];
  return everyH > 0 && nowS - twin.sensors[sensor * SENSOR_COLUMNS + SENSOR_HEARD] < everyH * 3600 - 1;
}

/** The true value through the lag of the probe; notes how fast it moved since the last look. */
function followTruth(twin: Twin, sensor: number, nowS: number): number {
  const { sensors } = twin;
  const { lagS } = twin.model.site.sensors[sensor];
  const at = sensor * SENSOR_COLUMNS;
  const isDry = twin.levers[twin.model.levers.base.sensor[sensor] + AT.sensor.dry] > 0;
  const truth = isDry ? dryValue(twin, sensor) : trueValue(twin, sensor);
  const before = sensors[at + SENSOR_LAGGED];
  const sinceS = nowS - sensors[at + SENSOR_HEARD];
  const lags = lagS > 0 && sinceS < FORGOTTEN_LAGS * lagS && !Number.isNaN(before);
  const keep = lags ? Math.exp(-Math.max(0, sinceS) / lagS) : 0;
  const lagged = keep === 0 ? truth : truth + (before - truth) * keep;
  sensors[at + SENSOR_LAGGED] = lagged;
  sensors[at + SENSOR_HEARD] = nowS;
  if (sinceS > 0 && !Number.isNaN(before)) sensors[at + SENSOR_SLOPE] = (lagged - before) / sinceS;
  if (isThermometer(twin, sensor) && !isDry)
    sensors[at + SENSOR_SLOPE] = warmingKPerS(twin, twin.model.sensing.placeOf[sensor]);
  return lagged;
}

/** It looks at a water, and how fast that warms is known without waiting. */
function isThermometer(twin: Twin, sensor: number): boolean {
  const { atKind, measures } = twin.model.site.sensors[sensor];
  return atKind === "body" && measures === "temperature";
}

function yesOrNo(value: number): number {
  return value >= 0.5 ? 1 : 0;
}

/** With offset, drift and noise, rounded to what the instrument shows. */
function shownValue(twin: Twin, sensor: number, lagged: number, nowS: number, tick: number): number {
  const { levers } = twin;
  const spec = twin.model.site.sensors[sensor];
  const base = twin.model.levers.base.sensor[sensor];
  const days = nowS / SECONDS_PER_DAY;
  const drift = (spec.driftPerMonth / DAYS_PER_MONTH) * days + levers[base + AT.sensor.offsetPerDay] * days;
  const raw = lagged + spec.offset + levers[base + AT.sensor.offset] + drift + noiseAt(twin, sensor, tick);
  return rounded(raw, spec.resolution);
}

/** Noise of a sensor at a tick, in its unit. */
function noiseAt(twin: Twin, sensor: number, tick: number): number {
  const factor = twin.levers[twin.model.levers.base.sensor[sensor] + AT.sensor.noiseFactor];
  return twin.model.site.sensors[sensor].noise * factor * hashNoise(twin.seed, twin.scratch.sensorStream[sensor], tick);
}

/** As an instrument of this resolution shows it; 0 shows all. */
export function rounded(value: number, resolution: number): number {
  return resolution > 0 ? Math.round(value / resolution) * resolution : value;
}

function frozenOr(twin: Twin, at: number, base: number, value: number): number {
  if (twin.levers[base + AT.sensor.frozen] === 0) {
    twin.sensors[at + SENSOR_FROZEN] = Number.NaN;
    return value;
  }
  const held = twin.sensors[at + SENSOR_FROZEN];
  if (!Number.isNaN(held)) return held;
  const last = twin.sensors[at + SENSOR_READING];
  twin.sensors[at + SENSOR_FROZEN] = Number.isNaN(last) ? value : last;
  return twin.sensors[at + SENSOR_FROZEN];
}

function keepReading(twin: Twin, at: number, value: number): number {
  twin.sensors[at + SENSOR_READING] = value;
  return value;
}

/** What a probe shows that hangs in the air: a thermometer the air of its room, others what their kind does. */
function dryValue(twin: Twin, sensor: number): number {
  const { bodyIndex, roomOfBody, site } = twin.model;
  const spec = site.sensors[sensor];
  if (spec.measures !== "temperature") return DRY_VALUE[spec.measures] ?? 0;
  const body = bodyIndex.get(spec.at);
  return twin.rooms[(body === undefined ? 0 : roomOfBody[body]) * ROOM_COLUMNS + ROOM_AIR_C];
}
