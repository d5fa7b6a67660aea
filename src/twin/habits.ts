/** What devices give by the clock: doses and meals. */
import { localSecondsAt } from "../foundation/index.ts";
import {
  BODY_COLUMNS,
  DEVICE_COLUMNS,
  DEVICE_HELD,
  HEAT,
  HEAT_CAPACITY,
  MASS,
  META,
  ROOM_AIR_C,
  ROOM_COLUMNS,
  UNROTTED,
} from "./columns.ts";
import { deviceLever, isRunning, kgPerL, outputOf, volumeL } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import { FOOD_MOL_N_PER_G, RETAINED_SHARE } from "./life.ts";
import type { SystemModel } from "./model.ts";
import { PLAN, type Twin, timeS } from "./state.ts";
import { catchUp } from "./step-matter.ts";

const SECONDS_PER_DAY = 86_400;
/** Rounds of hands a day: what they do once or twice falls into one of these. */
const HAND_ROUNDS_PER_DAY = 2;
/** Fish take at most this share of their weight a day as dry food; the rest lies and rots. */
const APPETITE_PER_DAY = 0.04;

/** Number of times a thing that comes `perDay` times a local day fell due in (fromS, toS]. */
export function timesDue(twin: Twin, perDay: number, fromS: number, toS: number): number {
  if (perDay <= 0) return 0;
  const before = Math.floor((localSecondsAt(twin.clock, fromS) / SECONDS_PER_DAY) * perDay);
  const after = Math.floor((localSecondsAt(twin.clock, toS) / SECONDS_PER_DAY) * perDay);
  return Math.max(0, after - before);
}

/** When something of a system falls due next by the clock after now, s: at the latest what hands do once a day. */
export function nextHabitS(twin: Twin, system: SystemModel): number {
  let next = Number.POSITIVE_INFINITY;
  for (const device of system.dosed) {
    const { dosesPerDay } = twin.model.site.devices[device];
    const shiftS = 3600 * deviceLever(twin, device, AT.device.clockH);
    next = Math.min(next, nextDueS(twin, dosesPerDay, timeS(twin) + shiftS) - shiftS);
  }
  return twin.hands ? Math.min(next, nextDueS(twin, HAND_ROUNDS_PER_DAY, timeS(twin))) : next;
}

/** When a thing that comes `perDay` times a local day falls due next after `fromS`. */
function nextDueS(twin: Twin, perDay: number, fromS: number): number {
  if (perDay <= 0) return Number.POSITIVE_INFINITY;
  const everyS = SECONDS_PER_DAY / perDay;
  const localS = localSecondsAt(twin.clock, fromS);
  return fromS + everyS - (localS - Math.floor(localS / everyS) * everyS);
}

/** Before something is given to a system or taken from it: all that is dissolved comes up to now, and the next step is planned anew. */
export function beginHandling(twin: Twin, system: SystemModel): void {
  catchUp(twin, system);
  twin.scratch.plan[system.index] = PLAN.none;
}

/** Lets the dosers and feeders of a system give what fell due. */
export function runHabits(twin: Twin, system: SystemModel, fromS: number, toS: number): void {
  for (const device of system.dosed) {
    const spec = twin.model.site.devices[device];
    const shiftS = 3600 * deviceLever(twin, device, AT.device.clockH);
    const due = timesDue(twin, spec.dosesPerDay, fromS + shiftS, toS + shiftS);
    if (due === 0 || !isRunning(twin, device)) continue;
    beginHandling(twin, system);
    const amount = (spec.amountPerDay / spec.dosesPerDay) * due * outputOf(twin, device);
    if (spec.kind === "doser") dose(twin, system, device, amount);
    else if (spec.kind === "feeder") feedFrom(twin, system, device, amount);
  }
}

/** Moves millilitres from the doser's container to its body, as much as there is, with the strength that is really in it. */
function dose(twin: Twin, system: SystemModel, device: number, millilitres: number): void {
  const { bodies } = twin;
  const { site, bodyIndex, bodyOfDevice, systemOfBody } = twin.model;
  const from = bodyIndex.get(site.devices[device].from ?? "");
  if (from === undefined || deviceLever(twin, device, AT.device.idle) > 0) return;
  const litres = Math.min(millilitres / 1000, Math.max(0, volumeL(twin, from) - site.bodies[from].intakeL));
  if (litres <= 0) return;
  const strength = deviceLever(twin, device, AT.device.strength);
  const source = from * BODY_COLUMNS;
  const target = bodyOfDevice[device] * BODY_COLUMNS;
  const share = (litres * kgPerL(twin, from)) / bodies[source + MASS];
  for (let column = 0; column <= MASS; column++) {
    const part = bodies[source + column] * share;
    const arrives = part * (column === HEAT || column === MASS ? 1 : strength);
    bodies[source + column] -= part;
    bodies[target + column] += arrives;
    twin.books?.moved(systemOfBody[from], column, -part);
    twin.books?.moved(system.index, column, arrives);
  }
}

function feedFrom(twin: Twin, system: SystemModel, device: number, grams: number): void {
  const at = device * DEVICE_COLUMNS + DEVICE_HELD;
  const given = Math.min(grams, twin.devices[at]);
  const mealsPerDay = Math.max(1, twin.model.site.devices[device].dosesPerDay);
  twin.devices[at] -= given;
  addFood(twin, system, twin.model.bodyOfDevice[device], given, 1 / mealsPerDay);
}

/** Dry food into a body: the fish eat what they can of this meal, the rest lies and decays. */
export function addFood(twin: Twin, system: SystemModel, body: number, grams: number, dayShare: number): void {
  const eaten = Math.min(grams, twin.model.life[body].fishG * APPETITE_PER_DAY * dayShare);
  addMol(twin, system, body, META, eaten * FOOD_MOL_N_PER_G * (1 - RETAINED_SHARE));
  addMol(twin, system, body, UNROTTED, (grams - eaten) * FOOD_MOL_N_PER_G);
}

/** Adds an amount to a column of a body. */
export function addMol(twin: Twin, system: SystemModel, body: number, column: number, mol: number): void {
  twin.bodies[body * BODY_COLUMNS + column] += mol;
  twin.books?.moved(system.index, column, mol);
}

/** Adds fresh water, which brings nothing but the warmth of the room, kg. */
export function pourFresh(twin: Twin, system: SystemModel, body: number, kg: number): void {
  const airC = twin.rooms[twin.model.roomOfBody[body] * ROOM_COLUMNS + ROOM_AIR_C];
  twin.bodies[body * BODY_COLUMNS + MASS] += kg;
  twin.books?.moved(system.index, MASS, kg);
  addMol(twin, system, body, HEAT, kg * HEAT_CAPACITY * airC);
}
