/**
 * The column table of the flat state: what each number of a body is, and in what unit.
 *
 * Amounts, not concentrations, so that mixing, evaporation and overflow conserve by construction (docs/science.md#amounts).
 */

/** Heat capacity of all water in the twin, J/(kg K). Seawater at S 35 has 3 993; fresh water 4 180: the 4.5 % error touches top-off only. */
export const HEAT_CAPACITY = 3993;

/** Transported columns of a body. */
export const HEAT = 0; // J above 0 degrees C
export const SALT = 1; // kg
export const O2 = 2; // mol
export const DIC = 3; // mol
export const TA = 4; // mol charge
export const CA = 5; // mol
export const MG = 6; // mol
export const TAN = 7; // mol N, ammonia and ammonium
export const NO2 = 8; // mol N
export const NO3 = 9; // mol N
export const PO4 = 10; // mol P
export const META = 11; // mol N eaten, on its way through the fish
export const ORGANIC = 12; // mol N in food, waste and carcasses that decay
export const CARBON = 13; // mol C, easily used organic carbon
export const SOLID = 14; // mol CaCO3, suspended crystals
export const UNROTTED = 15; // mol N in food and bodies that bacteria have not taken hold of yet
/** Number of transported columns. */
export const TRANSPORTED = 16;

/** Columns that do not ride on flows. */
export const MASS = 16; // kg of water with its salt
export const HYDROGEN = 17; // mol/kg, last pH solution (a warm start; total scale)
export const BODY_COLUMNS = 18;

export const COLUMN_NAMES = [
  "heat",
  "salt",
  "oxygen",
  "carbon dioxide and its ions",
  "alkalinity",
  "calcium",
  "magnesium",
  "ammonia",
  "nitrite",
  "nitrate",
  "phosphate",
  "nitrogen in fish",
  "nitrogen in waste",
  "organic carbon",
  "crystals",
  "nitrogen not yet rotting",
] as const;

/** Columns of the site as a whole: times in s, and what waits to be looked at, 0 or 1. */
export const CLOCK_NOW = 0;
export const CLOCK_ROOMS = 1; // when the rooms were last moved on
export const CLOCK_LOAD_MOVED = 2; // breakers may have to open
export const CLOCK_COLUMNS = 3;

/** Columns of a room. */
export const ROOM_AIR_C = 0; // degrees C
export const ROOM_HUMIDITY = 1; // kg water per kg dry air
export const ROOM_CO2 = 2; // ppm
export const ROOM_FLOOR = 3; // litres lying on the floor
export const ROOM_WET = 4; // s, when more than a splash came to lie there
export const ROOM_COLUMNS = 5;

/** Columns of a device. */
export const DEVICE_RUNNING = 0; // 0 or 1
export const DEVICE_LATCH = 1; // own thermostat or float calls: 0 or 1
export const DEVICE_COMMAND = 2; // last command of its hub: -1 none, 0 off, 1 on
export const DEVICE_STARTED = 3; // s, when it last began to run
export const DEVICE_HELD = 4; // g left in a feeder
export const DEVICE_SOCKET = 5; // state of its socket, 0 or 1
export const DEVICE_LOCKED = 6; // stopped by its own run limit: 0 or 1
export const DEVICE_COLUMNS = 7;

/** Columns of a sensor. */
export const SENSOR_LAGGED = 0;
export const SENSOR_READING = 1; // NaN = none
export const SENSOR_HEARD = 2; // s, last word
export const SENSOR_FROZEN = 3; // value held by a frozen sensor, NaN = not yet
export const SENSOR_SLOPE = 4; // speed of the lagged value between the last two looks, 1/s
export const SENSOR_COLUMNS = 5;

/** Columns of a battery or generator. */
export const BATTERY_ENERGY = 0; // Wh of what its label says
export const BATTERY_STARTED = 1; // by hand: 0 or 1
export const BATTERY_DROPPED = 2; // it was asked for more than it can give and has let go: 0 or 1
export const BATTERY_COLUMNS = 3;

/** Columns of a hub. */
export const HUB_UP = 0; // it worked at its last look: 0 or 1
export const HUB_LOOK = 1; // s, next look that may matter
export const HUB_MOVED = 2; // s, when something that it sees last switched
export const HUB_COLUMNS = 3;

/** Columns of a flow. */
export const FLOW_NOW = 0; // L/h
export const FLOW_SUCTION = 1; // one of the next three
export const FLOW_COLUMNS = 2;
export const SUCTION_FULL = 0;
export const SUCTION_GURGLING = 1;
export const SUCTION_DRY = 2;
