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
/** Seconds in half an hour. */
const HALF_H_S = 1800;
/** No room is tighter than this. */
const LEAST_AIR_CHANGES_PER_H = 0.05;
const STANDARD_KPA = 101.325;
/** Columns of `scratch.roomAir`: temperature, humidity ratio, and what follows from them. */
const KEPT_COLUMNS = 3;

/** Outside air at a time, degrees C: sine over the year (warmest on day 200) and the day (warmest at 15:00). */
function outsideC(climate: ClimateName, dayOfYear: number, minuteOfDay: number): number {
  const { winterC, summerC, dayK } = CLIMATES[climate];
  const mean = (winterC + summerC) / 2;
  const season = ((summerC - winterC) / 2) * Math.cos((2 * Math.PI * (dayOfYear - 200)) / 365);
  return mean + season + dayK * Math.cos((2 * Math.PI * (minuteOfDay - 900)) / 1440);
}

function humidityRatio(temperatureC: number, relative: number): number {
  const vapour = relative * saturationVapourPressureKPa(temperatureC);
  return (0.622 * vapour) / (STANDARD_KPA - vapour);
}

/** Relative humidity of a room's air, 0..1. The air moves so rarely that the last answer is kept. */
export function relativeHumidity(twin: Twin, room: number): number {
  const { roomAir } = twin.scratch;
  const kept = room * KEPT_COLUMNS;
  const airC = twin.rooms[room * ROOM_COLUMNS + ROOM_AIR_C];
  const ratio = twin.rooms[room * ROOM_COLUMNS + ROOM_HUMIDITY];
  if (roomAir[kept] === airC && roomAir[kept + 1] === ratio) return roomAir[kept + 2];
  const vapour = (STANDARD_KPA * ratio) / (0.622 + ratio);
  roomAir[kept] = airC;
  roomAir[kept + 1] = ratio;
  roomAir[kept + 2] = Math.min(1, vapour / saturationVapourPressureKPa(airC));
  return roomAir[kept + 2];
}

/** What the building's heating holds at a time, degrees C. */
function heldC(twin: Twin, room: number, atS: number): number {
  const spec = twin.model.site.rooms[room];
  if (spec.setBack === null) return spec.holdsC;
  const back = twin.closed || anyWindowHolds(spec.setBack.during, twin.clock, atS);
  return back ? spec.setBack.holdsC : spec.holdsC;
}

/** Air at the start of a run. */
export function startRoom(twin: Twin, room: number): void {
  const spec = twin.model.site.rooms[room];
  const at = room * ROOM_COLUMNS;
  const outside = outsideAt(twin, room, timeS(twin));
  const warm = Math.max(heldC(twin, room, timeS(twin)), outside);
  twin.rooms[at + ROOM_AIR_C] = spec.coolsToC === null ? warm : Math.min(warm, spec.coolsToC);
  twin.rooms[at + ROOM_HUMIDITY] = humidityRatio(outside, CLIMATES[spec.climate].relativeHumidity) + 0.002;
  twin.rooms[at + ROOM_CO2] = OUTSIDE_CO2_PPM + 100;
}

function outsideAt(twin: Twin, room: number, atS: number): number {
  const spec = twin.model.site.rooms[room];
  const extra = roomLever(twin, room, AT.room.outsideK);
  return outsideC(spec.climate, dayOfYearAt(twin.clock, atS), minuteOfDayAt(twin.clock, atS)) + extra;
}

/** Heat and vapour that a room gets from its tanks and devices. */
export interface RoomGains {
  readonly heatW: number;
  readonly vapourKgH: number;
}

/** Advances one room by so many hours up to now, as things are in the middle of them; while the mains are up the building heats and cools. */
export function stepRoom(twin: Twin, room: number, hours: number, gains: RoomGains, mainsUp: boolean): void {
  const spec = twin.model.site.rooms[room];
  const at = room * ROOM_COLUMNS;
  const middleS = timeS(twin) - HALF_H_S * hours;
  const outside = outsideAt(twin, room, middleS);
  const occupied = !twin.closed && anyWindowHolds(spec.occupied, twin.clock, middleS);
  const people = occupied ? spec.occupants : 0;
  const airC = nextAirC(twin, room, hours, outside, gains.heatW + people * PERSON_HEAT_W, mainsUp);
  twin.rooms[at + ROOM_AIR_C] = airC;

  const exchange = Math.max(spec.airChangesPerH, LEAST_AIR_CHANGES_PER_H);
  const airKgH = exchange * spec.airM3 * AIR_KG_M3;
  const vapour = (gains.vapourKgH + people * PERSON_VAPOUR_KG_H) / airKgH;
  const outsideRatio = humidityRatio(outside, CLIMATES[spec.climate].relativeHumidity);
  const ratio = approach(twin.rooms[at + ROOM_HUMIDITY], outsideRatio + vapour, exchange * hours);
  twin.rooms[at + ROOM_HUMIDITY] = Math.min(ratio, humidityRatio(airC, 1));

  const breath = (people * PERSON_CO2_M3_H * 1e6) / (exchange * spec.airM3);
  const extra = roomLever(twin, room, AT.room.co2Ppm);
  twin.rooms[at + ROOM_CO2] = approach(twin.rooms[at + ROOM_CO2], OUTSIDE_CO2_PPM + breath + extra, exchange * hours);
}

/** Air after so many hours, degrees C: towards outside and what heats it, then as far as the building can hold it. */
function nextAirC(twin: Twin, room: number, hours: number, outside: number, heatW: number, mainsUp: boolean): number {
  const spec = twin.model.site.rooms[room];
  const gainW = heatW + roomLever(twin, room, AT.room.heatW);
  const gainK = (gainW * 3600 * spec.timeConstantH) / (spec.airM3 * ROOM_HEAT_J_M3_K);
  let air = approach(twin.rooms[room * ROOM_COLUMNS + ROOM_AIR_C], outside + gainK, hours / spec.timeConstantH);
  if (!mainsUp) return air;
  const wanted = heldC(twin, room, timeS(twin) - HALF_H_S * hours);
  const cooled = roomLever(twin, room, AT.room.coolingOff) === 0 ? spec.coolsToC : null;
  if (roomLever(twin, room, AT.room.heatingOff) === 0 && air < wanted)
    air = Math.min(wanted, air + BUILDING_K_PER_H * hours);
  if (cooled !== null && air > cooled) air = Math.max(cooled, air - BUILDING_K_PER_H * hours);
  return air;
}

function roomLever(twin: Twin, room: number, at: number): number {
  return twin.levers[twin.model.levers.base.room[room] + at];
}

/** Exponential approach to a target over a number of time constants. */
function approach(from: number, to: number, constants: number): number {
  return to + (from - to) * Math.exp(-constants);
}
