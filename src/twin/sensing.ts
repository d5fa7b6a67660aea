/**
 * What sensors say: the true value through lag, offset, drift, noise and resolution, or through a failure. Rules see only
 * this. Noise belongs to (seed, sensor, tick), so that nothing else changes it. Sources: docs/science.md#probes.
 */
import { hashNoise, NOISE_BOUND } from "../foundation/index.ts";
import { phNbs } from "../science/index.ts";
import type { Sensor } from "../site/index.ts";
import {
  BODY_COLUMNS,
  HYDROGEN,
  MASS,
  O2,
  ORGANIC,
  ROOM_AIR_C,
  ROOM_CO2,
  ROOM_COLUMNS,
  ROOM_FLOOR,
  SENSOR_COLUMNS,
  SENSOR_FROZEN,
  SENSOR_HEARD,
  SENSOR_LAGGED,
  SENSOR_READING,
  TA,
  TAN,
} from "./columns.ts";
import { deviceLever, isRunning, outputOf, pumpFlow, SPLASH_L, volumeL } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import { DKH_TO_EQ_PER_L } from "./life.ts";
import { circuitLive, circuitLoadW } from "./power.ts";
import { lightShape } from "./schedule.ts";
import { SLOW, SLOW_COLUMNS, type Twin } from "./state.ts";

const O2_MG_PER_MOL = 31998.8;
const N_MG_PER_MOL = 14_007;
const DAYS_PER_MONTH = 30.44;
const SECONDS_PER_DAY = 86_400;

export function temperatureC(twin: Twin, body: number): number {
  return twin.scratch.slow[body * SLOW_COLUMNS + SLOW.temperatureC];
}

export function salinity(twin: Twin, body: number): number {
  return twin.scratch.slow[body * SLOW_COLUMNS + SLOW.salinity];
}

export function perKg(twin: Twin, body: number, column: number): number {
  return twin.bodies[body * BODY_COLUMNS + column] / Math.max(twin.bodies[body * BODY_COLUMNS + MASS], 1e-6);
}

export function oxygenMgL(twin: Twin, body: number): number {
  return perKg(twin, body, O2) * twin.scratch.slow[body * SLOW_COLUMNS + SLOW.kgPerL] * O2_MG_PER_MOL;
}

export function phTotal(twin: Twin, body: number): number {
  return -Math.log10(Math.max(twin.bodies[body * BODY_COLUMNS + HYDROGEN], 1e-14));
}

export function alkalinityDKH(twin: Twin, body: number): number {
  return (perKg(twin, body, TA) * twin.scratch.slow[body * SLOW_COLUMNS + SLOW.kgPerL]) / DKH_TO_EQ_PER_L;
}

export function ammoniaMgNL(twin: Twin, body: number): number {
  return perKg(twin, body, TAN) * twin.scratch.slow[body * SLOW_COLUMNS + SLOW.kgPerL] * N_MG_PER_MOL;
}

/** Redox as a keeper's probe would show it: falls with decay and with lack of oxygen. A stand-in for an index that no model predicts. */
function orpMv(twin: Twin, body: number): number {
  const waste = perKg(twin, body, ORGANIC) * 1e6;
  return 380 - 60 * Math.log10(1 + waste / 5) - 120 * Math.max(0, 1 - oxygenMgL(twin, body) / 5);
}

/** The true value at a sensor's place, in the unit of its quantity. Yes-or-no quantities are 1 or 0. */
export function trueValue(twin: Twin, place: number): number {
  const spec = twin.model.site.sensors[place];
  const at = twin.model.placeOfSensor[place];
  if (spec.atKind === "room") return roomValue(twin, at, spec);
  if (spec.atKind === "device") return deviceValue(twin, at, spec);
  if (spec.atKind === "circuit") return circuitValue(twin, at, spec);
  return bodyValue(twin, at, spec);
}

function bodyValue(twin: Twin, body: number, spec: Sensor): number {
  switch (spec.measures) {
    case "temperature":
      return temperatureC(twin, body);
    case "ph":
      return phNbs(phTotal(twin, body), temperatureC(twin, body), salinity(twin, body));
    case "salinity":
      return salinity(twin, body);
    case "oxygen":
      return oxygenMgL(twin, body);
    case "alkalinity":
      return alkalinityDKH(twin, body);
    case "orp":
      return orpMv(twin, body);
    case "level":
      return volumeL(twin, body);
    case "float":
      return volumeL(twin, body) >= (spec.floatAtL ?? 0) ? 1 : 0;
    case "light":
      return parAt(twin, body);
    default:
      return roomValue(twin, twin.model.roomOfBody[body], spec);
  }
}

function parAt(twin: Twin, body: number): number {
  let par = 0;
  for (const lamp of twin.model.lampsOver[body]) {
    if (isRunning(twin, lamp)) par += twin.model.site.devices[lamp].par * outputOf(twin, lamp) * lightShape(twin, lamp);
  }
  return par;
}

function roomValue(twin: Twin, room: number, spec: Sensor): number {
  const at = room * ROOM_COLUMNS;
  if (spec.measures === "leak") return twin.rooms[at + ROOM_FLOOR] > SPLASH_L ? 1 : 0;
  if (spec.measures === "air-co2") return twin.rooms[at + ROOM_CO2];
  return twin.rooms[at + ROOM_AIR_C];
}

function deviceValue(twin: Twin, device: number, spec: Sensor): number {
  const part = twin.model.site.devices[device];
  if (spec.measures === "power") return isRunning(twin, device) ? part.powerW : 0;
  if (spec.measures !== "flow") return roomValue(twin, 0, spec);
  const pump = twin.model.pumpOfDevice[device];
  if (pump) return pumpFlow(twin, pump);
  if (twin.scratch.deviceFlow[device] > 0) return twin.scratch.deviceFlow[device];
  const moves = isRunning(twin, device) && deviceLever(twin, device, AT.device.idle) === 0;
  return moves && part.from === null ? part.flowLPerH * outputOf(twin, device) : 0;
}

function circuitValue(twin: Twin, circuit: number, spec: Sensor): number {
  if (spec.measures === "power") return circuitLive(twin, circuit) ? circuitLoadW(twin, circuit) : 0;
  return circuitLive(twin, circuit) ? 1 : 0;
}

const YES_OR_NO = new Set(["float", "leak", "mains"]);

/** After so many time constants nothing is left of what a probe showed before. */
const FORGOTTEN_LAGS = 20;

/** Takes a reading of one sensor at `nowS`; `tick` counts the hub's looks. NaN = it says nothing. */
export function readSensor(twin: Twin, place: number, nowS: number, tick: number): number {
  const spec = twin.model.site.sensors[place];
  const at = place * SENSOR_COLUMNS;
  const base = twin.model.levers.base.sensor[place];
  const { levers, sensors } = twin;
  if (levers[base + AT.sensor.silent] > 0) {
    sensors[at + SENSOR_READING] = Number.NaN;
    return Number.NaN;
  }
  const sinceS = nowS - sensors[at + SENSOR_HEARD];
  if (spec.everyH > 0 && sinceS < spec.everyH * 3600 - 1 && !Number.isNaN(sensors[at + SENSOR_READING]))
    return sensors[at + SENSOR_READING];
  const truth = levers[base + AT.sensor.dry] > 0 ? dryValue(twin, spec) : trueValue(twin, place);
  const before = sensors[at + SENSOR_LAGGED];
  const lags = spec.lagS > 0 && sinceS < FORGOTTEN_LAGS * spec.lagS && !Number.isNaN(before);
  const keep = lags ? Math.exp(-Math.max(0, sinceS) / spec.lagS) : 0;
  const lagged = keep === 0 ? truth : truth + (before - truth) * keep;
  sensors[at + SENSOR_LAGGED] = lagged;
  sensors[at + SENSOR_HEARD] = nowS;
  twin.scratch.sensorSlope[place] = sinceS > 0 && !Number.isNaN(before) ? (lagged - before) / sinceS : 0;
  const fixed = levers[base + AT.sensor.fixed];
  if (!Number.isNaN(fixed)) return keepReading(twin, at, fixed);
  if (YES_OR_NO.has(spec.measures)) return keepReading(twin, at, frozenOr(twin, at, base, lagged >= 0.5 ? 1 : 0));
  const days = nowS / SECONDS_PER_DAY;
  const drift = (spec.driftPerMonth / DAYS_PER_MONTH) * days + levers[base + AT.sensor.offsetPerDay] * days;
  const noise =
    spec.noise * levers[base + AT.sensor.noiseFactor] * hashNoise(twin.seed, twin.scratch.sensorStream[place], tick);
  const raw = lagged + spec.offset + levers[base + AT.sensor.offset] + drift + noise;
  const shown = spec.resolution > 0 ? Math.round(raw / spec.resolution) * spec.resolution : raw;
  return keepReading(twin, at, frozenOr(twin, at, base, shown));
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

/** What a probe shows that hangs in the air (science.md 11.3). */
function dryValue(twin: Twin, spec: Sensor): number {
  const body = twin.model.bodyIndex.get(spec.at);
  const room = body === undefined ? 0 : twin.model.roomOfBody[body];
  const dry: Partial<Record<Sensor["measures"], number>> = {
    temperature: twin.rooms[room * ROOM_COLUMNS + ROOM_AIR_C],
    ph: 9.3,
    salinity: 0,
    oxygen: 8.3,
    float: 0,
    level: 0,
    orp: 200,
  };
  return dry[spec.measures] ?? 0;
}

/** Least speed, in units per hour, at which a quantity is taken to be able to move before the next look. */
const SPEED_PER_H: Readonly<Record<Sensor["measures"], number>> = {
  temperature: 0.6,
  ph: 0.15,
  salinity: 0.3,
  oxygen: 0.6,
  alkalinity: 0.4,
  orp: 30,
  level: 5,
  float: 0,
  flow: 0,
  power: 0,
  leak: 0,
  mains: 0,
  "air-temperature": 2,
  "air-co2": 400,
  light: 400,
};

/**
 * How far, at least, a reading stays from a limit over the next `spanS`, given its speed of late and its noise; at or below 0 it
 * may cross. Quantities that jump are watched by events, not by this.
 */
export function distanceToLimit(twin: Twin, place: number, limit: number, spanS: number): number {
  const spec = twin.model.site.sensors[place];
  const base = twin.model.levers.base.sensor[place];
  const least = SPEED_PER_H[spec.measures];
  const still = twin.model.systemOfSensor[place];
  if (still >= 0 && twin.active[still] === 0) return Number.POSITIVE_INFINITY;
  const held = !Number.isNaN(twin.levers[base + AT.sensor.fixed]) || twin.levers[base + AT.sensor.frozen] > 0;
  if (least === 0 || held) return Number.POSITIVE_INFINITY;
  const noise = NOISE_BOUND * spec.noise * twin.levers[base + AT.sensor.noiseFactor] + spec.resolution;
  const moves = (least / 3600 + 2 * Math.abs(twin.scratch.sensorSlope[place])) * spanS;
  return Math.abs(shownWithoutNoise(twin, place, 0) - limit) - noise - moves;
}

function shownWithoutNoise(twin: Twin, place: number, aheadS: number): number {
  const spec = twin.model.site.sensors[place];
  const base = twin.model.levers.base.sensor[place];
  const at = place * SENSOR_COLUMNS;
  const days = (twin.sensors[at + SENSOR_HEARD] + aheadS) / SECONDS_PER_DAY;
  const drift = (spec.driftPerMonth / DAYS_PER_MONTH + twin.levers[base + AT.sensor.offsetPerDay]) * days;
  return (
    twin.sensors[at + SENSOR_LAGGED] +
    twin.scratch.sensorSlope[place] * aheadS +
    spec.offset +
    twin.levers[base + AT.sensor.offset] +
    drift
  );
}

/** The reading at a coming tick if the water goes straight on. */
export function readingAhead(twin: Twin, place: number, tick: number, aheadS: number): number {
  const spec = twin.model.site.sensors[place];
  const base = twin.model.levers.base.sensor[place];
  const noise =
    spec.noise *
    twin.levers[base + AT.sensor.noiseFactor] *
    hashNoise(twin.seed, twin.scratch.sensorStream[place], tick);
  const raw = shownWithoutNoise(twin, place, aheadS) + noise;
  return spec.resolution > 0 ? Math.round(raw / spec.resolution) * spec.resolution : raw;
}
