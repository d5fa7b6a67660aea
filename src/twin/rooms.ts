/**
 * The air of a room: temperature, humidity, carbon dioxide. A room loses heat to outside, is heated and cooled by the
 * building, and gets the heat and vapour of its tanks. Sources: docs/science.md#room.
 */
import { anyWindowHolds, dayOfYearAt, minuteOfDayAt } from "../foundation/index.ts";
import { saturationVapourPressureKPa } from "../science/index.ts";
import type { ClimateName } from "../site/index.ts";
import { ROOM_AIR_C, ROOM_CO2, ROOM_COLUMNS, ROOM_HUMIDITY } from "./columns.ts";
import { AT } from "./levers.ts";
import { type Twin, timeS } from "./state.ts";

interface Climate {
  /** Mean of the coldest and the warmest month, degrees C. */
  readonly winterC: number;
  readonly summerC: number;
  /** Half of the day's swing, K. */
  readonly dayK: number;
  readonly relativeHumidity: number;
}

/** Typical places, not stations; northern seasons. */
const CLIMATES: Readonly<Record<ClimateName, Climate>> = {
  "temperate-coast": { winterC: 5, summerC: 17, dayK: 4, relativeHumidity: 0.8 },
  "temperate-inland": { winterC: 1, summerC: 20, dayK: 6, relativeHumidity: 0.72 },
  continental: { winterC: -8, summerC: 22, dayK: 6, relativeHumidity: 0.7 },
  subtropical: { winterC: 13, summerC: 28, dayK: 5, relativeHumidity: 0.72 },
  tropical: { winterC: 26, summerC: 28, dayK: 4, relativeHumidity: 0.8 },
  desert: { winterC: 12, summerC: 35, dayK: 8, relativeHumidity: 0.25 },
};

const OUTSIDE_CO2_PPM = 425;
/** A person at rest: CO2 20 L/h, heat 100 W, vapour 0.05 kg/h. */
const PERSON_CO2_M3_H = 0.02;
const PERSON_HEAT_W = 100;
const PERSON_VAPOUR_KG_H = 0.05;
/** Air with the furniture and the wall that follows it, J/(m3 K): a 60 m3 room with a time constant of 30 h then loses 56 W/K. */
const ROOM_HEAT_J_M3_K = 100_000;
/** The building warms or cools a room by at most this, K/h. */
const BUILDING_K_PER_H = 2;
const AIR_KG_M3 = 1.2;
const STANDARD_KPA = 101.325;

/** Outside air at a time, degrees C: sine over the year (warmest on day 200) and the day (warmest at 15:00). */
export function outsideC(climate: ClimateName, dayOfYear: number, minuteOfDay: number): number {
  const { winterC, summerC, dayK } = CLIMATES[climate];
  const mean = (winterC + summerC) / 2;
  const season = ((summerC - winterC) / 2) * Math.cos((2 * Math.PI * (dayOfYear - 200)) / 365);
  return mean + season + dayK * Math.cos((2 * Math.PI * (minuteOfDay - 900)) / 1440);
}

function humidityRatio(temperatureC: number, relative: number): number {
  const vapour = relative * saturationVapourPressureKPa(temperatureC);
  return (0.622 * vapour) / (STANDARD_KPA - vapour);
}

/** Relative humidity of a room's air, 0..1. */
export function relativeHumidity(twin: Twin, room: number): number {
  const at = room * ROOM_COLUMNS;
  const ratio = twin.rooms[at + ROOM_HUMIDITY];
  const vapour = (STANDARD_KPA * ratio) / (0.622 + ratio);
  return Math.min(1, vapour / saturationVapourPressureKPa(twin.rooms[at + ROOM_AIR_C]));
}

/** What the building's heating holds now. */
export function heldC(twin: Twin, room: number): number {
  const spec = twin.model.site.rooms[room];
  if (spec.setBack === null) return spec.holdsC;
  const back = twin.closed || anyWindowHolds(spec.setBack.during, twin.clock, timeS(twin));
  return back ? spec.setBack.holdsC : spec.holdsC;
}

/** Air at the start of a run. */
export function startRoom(twin: Twin, room: number): void {
  const spec = twin.model.site.rooms[room];
  const at = room * ROOM_COLUMNS;
  const outside = outsideNow(twin, room);
  const warm = Math.max(heldC(twin, room), outside);
  twin.rooms[at + ROOM_AIR_C] = spec.coolsToC === null ? warm : Math.min(warm, spec.coolsToC);
  twin.rooms[at + ROOM_HUMIDITY] = humidityRatio(outside, CLIMATES[spec.climate].relativeHumidity) + 0.002;
  twin.rooms[at + ROOM_CO2] = OUTSIDE_CO2_PPM + 100;
}

function outsideNow(twin: Twin, room: number): number {
  const spec = twin.model.site.rooms[room];
  const now = timeS(twin);
  const extra = twin.levers[twin.model.levers.base.room[room] + AT.room.outsideK];
  return outsideC(spec.climate, dayOfYearAt(twin.clock, now), minuteOfDayAt(twin.clock, now)) + extra;
}

/** Advances one room; `heatW` and `vapourKgH` come from its tanks and devices, `mainsUp` lets the building heat and cool. */
export function stepRoom(
  twin: Twin,
  room: number,
  hours: number,
  heatW: number,
  vapourKgH: number,
  mainsUp: boolean,
): void {
  const spec = twin.model.site.rooms[room];
  const at = room * ROOM_COLUMNS;
  const base = twin.model.levers.base.room[room];
  const outside = outsideNow(twin, room);
  const people = !twin.closed && anyWindowHolds(spec.occupied, twin.clock, timeS(twin)) ? spec.occupants : 0;
  const gainW = heatW + people * PERSON_HEAT_W + twin.levers[base + AT.room.heatW];
  const gainK = (gainW * 3600 * spec.timeConstantH) / (spec.airM3 * ROOM_HEAT_J_M3_K);
  const free = approach(twin.rooms[at + ROOM_AIR_C], outside + gainK, hours / spec.timeConstantH);
  const heats = mainsUp && twin.levers[base + AT.room.heatingOff] === 0;
  const cools = mainsUp && spec.coolsToC !== null && twin.levers[base + AT.room.coolingOff] === 0;
  let air = free;
  const wanted = heldC(twin, room);
  if (heats && air < wanted) air = Math.min(wanted, air + BUILDING_K_PER_H * hours);
  if (cools && air > spec.coolsToC!) air = Math.max(spec.coolsToC!, air - BUILDING_K_PER_H * hours);
  twin.rooms[at + ROOM_AIR_C] = air;

  const exchange = Math.max(spec.airChangesPerH, 0.05);
  const airKgH = exchange * spec.airM3 * AIR_KG_M3;
  const outsideRatio = humidityRatio(outside, CLIMATES[spec.climate].relativeHumidity);
  const ratio = approach(
    twin.rooms[at + ROOM_HUMIDITY],
    outsideRatio + (vapourKgH + people * PERSON_VAPOUR_KG_H) / airKgH,
    exchange * hours,
  );
  twin.rooms[at + ROOM_HUMIDITY] = Math.min(ratio, humidityRatio(air, 1));

  const breath = (people * PERSON_CO2_M3_H * 1e6) / (exchange * spec.airM3);
  const extra = twin.levers[base + AT.room.co2Ppm];
  twin.rooms[at + ROOM_CO2] = approach(twin.rooms[at + ROOM_CO2], OUTSIDE_CO2_PPM + breath + extra, exchange * hours);
}

/** Exponential approach to a target over a number of time constants. */
function approach(from: number, to: number, constants: number): number {
  return to + (from - to) * Math.exp(-constants);
}
