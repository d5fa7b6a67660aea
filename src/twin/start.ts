/**
 * The first moment of a run: every body filled as described, every battery full, nobody alarmed.
 */
import {
  CARBONATE_SIZE,
  carbonateConstants,
  dicFromPco2,
  limewaterStrengthMeqPerL,
  oxygenSaturation,
  seawaterDensity,
} from "../science/index.ts";
import type { Body, WaterKind } from "../site/index.ts";
import {
  BODY_COLUMNS,
  CA,
  CARBON,
  CLOCK_NOW,
  CLOCK_ROOMS,
  DEVICE_COLUMNS,
  DEVICE_COMMAND,
  DEVICE_HELD,
  DEVICE_LATCH,
  DIC,
  HEAT,
  HEAT_CAPACITY,
  HUB_COLUMNS,
  HUB_UP,
  HYDROGEN,
  MASS,
  MG,
  NO2,
  NO3,
  O2,
  PO4,
  ROOM_AIR_C,
  ROOM_CO2,
  ROOM_COLUMNS,
  ROOM_HUMIDITY,
  SALT,
  SENSOR_COLUMNS,
  SENSOR_FROZEN,
  SENSOR_HEARD,
  SENSOR_LAGGED,
  SENSOR_READING,
  TA,
  TAN,
} from "./columns.ts";
import { volumeL } from "./hydraulics.ts";
import { DKH_TO_EQ_PER_L, isStore } from "./life.ts";
import { lookNow } from "./look-soon.ts";
import type { SystemModel } from "./model.ts";
import { fillBatteries, powerMoved } from "./power.ts";
import { startRoom } from "./rooms.ts";
import { forget, type Twin } from "./state.ts";

const CA_MG_PER_MOL = 40_078;
const MG_MG_PER_MOL = 24_305;
const NO3_MG_PER_MOL = 62_005;
const PO4_MG_PER_MOL = 94_971;
/** Air in a lived-in room, uatm. */
const START_PCO2_UATM = 500;
/**
 * Salt that one mole of charge or of metal leaves behind: its sodium or chloride, kg. The part that the shells take up again
 * (calcium, carbonate) is not counted as salt. Carbon that comes with the charge, mol.
 */
const SALTS = {
  bicarbonate: { kgPerMol: 0.023, carbon: 1 },
  carbonate: { kgPerMol: 0.023, carbon: 0.5 },
  hydroxide: { kgPerMol: 0.023, carbon: 0 },
  "calcium-chloride": { kgPerMol: 0.0709, carbon: 0 },
  "magnesium-chloride": { kgPerMol: 0.0709, carbon: 0 },
  ethanol: { kgPerMol: 0, carbon: 0 },
  none: { kgPerMol: 0, carbon: 0 },
} as const;
const ETHANOL_MOL_C_PER_G = 2 / 46.07;

/** Sets the whole state to the start, at `fromS` on the twin's clock. */
export function startTwin(twin: Twin, fromS: number): void {
  const { model } = twin;
  twin.state.fill(0);
  twin.clocks[CLOCK_NOW] = fromS;
  twin.clocks[CLOCK_ROOMS] = fromS;
  twin.levers.set(model.levers.neutral);
  for (let room = 0; room < model.site.rooms.length; room++) startRoom(twin, room);
  for (const [place, body] of model.site.bodies.entries()) fillBody(twin, body, place, body.volumeL * body.fill);
  for (const [place, { holdsG }] of model.site.devices.entries()) {
    twin.devices[place * DEVICE_COLUMNS + DEVICE_COMMAND] = -1;
    twin.devices[place * DEVICE_COLUMNS + DEVICE_HELD] = holdsG;
  }
  for (let sensor = 0; sensor < model.site.sensors.length; sensor++) {
    const at = sensor * SENSOR_COLUMNS;
    twin.sensors[at + SENSOR_LAGGED] = Number.NaN;
    twin.sensors[at + SENSOR_READING] = Number.NaN;
    twin.sensors[at + SENSOR_FROZEN] = Number.NaN;
    twin.sensors[at + SENSOR_HEARD] = fromS;
  }
  fillBatteries(twin);
  forget(twin);
  powerMoved(twin);
  lookNow(twin);
}

/** Reservoirs and drums as full as the circumstance says, after the days of settling in. */
export function fillStores(twin: Twin, share: number | null): void {
  for (const [place, body] of twin.model.site.bodies.entries())
    if (isStore(body)) fillBody(twin, body, place, body.volumeL * (share ?? body.fill));
  for (const [place, { holdsG }] of twin.model.site.devices.entries())
    twin.devices[place * DEVICE_COLUMNS + DEVICE_HELD] = holdsG;
}

/** Brings a body to a temperature, degrees C. Only for the start of a run: no books know of it. */
export function warmTo(twin: Twin, place: number, toC: number): void {
  const at = place * BODY_COLUMNS;
  twin.bodies[at + HEAT] = twin.bodies[at + MASS] * HEAT_CAPACITY * toC;
}

/** Gives a system back what evaporated, or takes what was too much, where its pump draws. Only for the start of a run. */
export function topUp(twin: Twin, system: SystemModel): void {
  const { site } = twin.model;
  const body = system.pumps[0]?.from ?? system.waters[0];
  if (body === undefined) return;
  const missing = system.waters.reduce((sum, one) => sum + site.bodies[one].volumeL - volumeL(twin, one), 0);
  twin.bodies[body * BODY_COLUMNS + MASS] += missing;
}

/** Lets thermostats, floats and rules begin anew: none calls before it sees a reason to. Only for the start of a run. */
export function restSwitches(twin: Twin): void {
  for (let at = DEVICE_LATCH; at < twin.devices.length; at += DEVICE_COLUMNS) twin.devices[at] = 0;
  for (let at = HUB_UP; at < twin.looks.length; at += HUB_COLUMNS) twin.looks[at] = 0;
}

/** Brings the air of the rooms to round numbers: 0.1 K, 0.0005 kg of water per kg of air, 25 ppm. Only for the start of a run. */
export function roundRooms(twin: Twin): void {
  const round = (at: number, to: number) => {
    twin.rooms[at] = Math.round(twin.rooms[at] / to) * to;
  };
  for (let at = 0; at < twin.rooms.length; at += ROOM_COLUMNS) {
    round(at + ROOM_AIR_C, 0.1);
    round(at + ROOM_HUMIDITY, 0.0005);
    round(at + ROOM_CO2, 25);
  }
}

/** Fills one reservoir or container as described, with what belongs in it. */
export function refillStore(twin: Twin, place: number): void {
  const body = twin.model.site.bodies[place];
  if (!isStore(body)) return;
  const held = twin.bodies.subarray(place * BODY_COLUMNS, (place + 1) * BODY_COLUMNS);
  const before = held.slice();
  fillBody(twin, body, place, body.volumeL);
  const system = twin.model.systemOfBody[place];
  for (let column = 0; column <= MASS; column++) twin.books?.moved(system, column, held[column] - before[column]);
}

function fillBody(twin: Twin, body: Body, place: number, litres: number): void {
  const airC = twin.rooms[twin.model.roomOfBody[place] * ROOM_COLUMNS + ROOM_AIR_C];
  const warmC = body.holds.kind === "salt" && !isStore(body) ? body.holds.temperatureC : airC;
  const salinity = body.holds.kind === "salt" ? body.holds.salinity : 0;
  const kg = litres * kgPerLitre(body.holds, warmC);
  const at = place * BODY_COLUMNS;
  twin.bodies.fill(0, at, at + BODY_COLUMNS);
  twin.bodies[at + MASS] = kg;
  twin.bodies[at + HEAT] = kg * HEAT_CAPACITY * warmC;
  twin.bodies[at + O2] = kg * oxygenSaturation(warmC, salinity) * 1e-6;
  twin.bodies[at + HYDROGEN] = 1e-8;
  dissolve(twin, at, body.holds, litres, warmC);
}

/** Density as the twin will see it: a solution weighs more by its salt, up to the 45 g/kg to which the equation of state holds. */
function kgPerLitre(holds: WaterKind, warmC: number): number {
  if (holds.kind === "salt") return seawaterDensity(warmC, holds.salinity) / 1000;
  let density = seawaterDensity(warmC, 0) / 1000;
  if (holds.kind !== "solution" || holds.of === "carbon") return density;
  const saltGPerL = holds.strengthPerML * 1000 * SALTS[holds.salt].kgPerMol;
  for (let round = 0; round < 8; round++) density = seawaterDensity(warmC, Math.min(45, saltGPerL / density)) / 1000;
  return density;
}

function dissolve(twin: Twin, at: number, holds: WaterKind, litres: number, warmC: number): void {
  const { bodies } = twin;
  if (holds.kind === "salt") {
    const kg = bodies[at + MASS];
    bodies[at + SALT] = (kg * holds.salinity) / 1000;
    bodies[at + TA] = holds.alkalinityDKH * DKH_TO_EQ_PER_L * litres;
    bodies[at + CA] = (holds.calciumMgL / CA_MG_PER_MOL) * litres;
    bodies[at + MG] = (holds.magnesiumMgL / MG_MG_PER_MOL) * litres;
    bodies[at + NO3] = (holds.nitrateMgL / NO3_MG_PER_MOL) * litres;
    bodies[at + PO4] = (holds.phosphateMgL / PO4_MG_PER_MOL) * litres;
    bodies[at + TAN] = 0.5e-6 * kg;
    bodies[at + NO2] = 0.2e-6 * kg;
    const constants = new Float64Array(CARBONATE_SIZE);
    carbonateConstants(warmC, holds.salinity, constants);
    bodies[at + DIC] = dicFromPco2(constants, bodies[at + TA] / kg, START_PCO2_UATM) * kg;
  } else if (holds.kind === "limewater") {
    const eq = (limewaterStrengthMeqPerL(warmC) / 1000) * litres;
    bodies[at + TA] = eq;
    bodies[at + CA] = eq / 2;
  } else if (holds.kind === "solution") {
    const amount = holds.strengthPerML * 1000 * litres;
    const salt = SALTS[holds.salt];
    if (holds.of === "carbon") bodies[at + CARBON] = amount * ETHANOL_MOL_C_PER_G;
    else bodies[at + SALT] = (amount / 1000) * salt.kgPerMol;
    if (holds.of === "alkalinity") {
      bodies[at + TA] = amount / 1000;
      bodies[at + DIC] = (amount / 1000) * salt.carbon;
    }
    if (holds.of === "calcium") bodies[at + CA] = amount / 1000;
    if (holds.of === "magnesium") bodies[at + MG] = amount / 1000;
  }
}
