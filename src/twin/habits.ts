/**
 * What comes by the clock: doses, meals, and what a pair of hands does where no device does it.
 */
import { localSecondsAt } from "../foundation/index.ts";
import {
  BODY_COLUMNS,
  CA,
  DEVICE_COLUMNS,
  DEVICE_HELD,
  DIC,
  HEAT,
  HEAT_CAPACITY,
  LEDGER_COLUMNS,
  LEDGER_WATER,
  MASS,
  META,
  ROOM_AIR_C,
  ROOM_COLUMNS,
  TA,
  TRANSPORTED,
  UNROTTED,
} from "./columns.ts";
import { deviceLever, isRunning, kgPerL, outputOf, volumeL } from "./hydraulics.ts";
import { AT } from "./levers.ts";
import { DKH_TO_EQ_PER_L, FOOD_MOL_N_PER_G, RETAINED_SHARE, systemWaterL } from "./life.ts";
import type { SystemModel } from "./model.ts";
import { refillStore } from "./start.ts";
import type { Twin } from "./state.ts";

const SECONDS_PER_DAY = 86_400;
/** Fish take at most this share of their weight a day as dry food; the rest lies and rots. */
const APPETITE_PER_DAY = 0.04;
/** When hands feed, top off and dose, as shares of the local day. */
const HAND_MEALS_PER_DAY = 2;
/** A reservoir under this share of its volume is filled again by whoever looks after the place. */
const REFILL_UNDER = 0.3;
/** Who misses more than this share of a system's water in a day, more than evaporates anywhere, looks for the leak. */
const HAND_TOP_OFF_SHARE = 0.1;
/** Alkalinity that hands give at most in a day, dKH. */
const HAND_DOSE_DKH = 1.5;

/** Number of times a thing that comes `perDay` times a local day fell due in (fromS, toS]. */
export function timesDue(twin: Twin, perDay: number, fromS: number, toS: number): number {
  if (perDay <= 0) return 0;
  const before = Math.floor((localSecondsAt(twin.clock, fromS) / SECONDS_PER_DAY) * perDay);
  const after = Math.floor((localSecondsAt(twin.clock, toS) / SECONDS_PER_DAY) * perDay);
  return Math.max(0, after - before);
}

export function runHabits(twin: Twin, system: SystemModel, fromS: number, toS: number): void {
  for (const device of system.devices) {
    const spec = twin.model.site.devices[device];
    const shiftS = 3600 * deviceLever(twin, device, AT.device.clockH);
    const due = spec.dosesPerDay > 0 ? timesDue(twin, spec.dosesPerDay, fromS + shiftS, toS + shiftS) : 0;
    if (due === 0 || !isRunning(twin, device)) continue;
    const amount = (spec.amountPerDay / spec.dosesPerDay) * due * outputOf(twin, device);
    if (spec.kind === "doser") dose(twin, system, device, amount);
    else if (spec.kind === "feeder") feedFrom(twin, system, device, amount);
  }
  if (twin.hands) byHand(twin, system, fromS, toS);
}

/** Moves millilitres from the doser's container to its body, with the strength that is really in it. */
function dose(twin: Twin, system: SystemModel, device: number, millilitres: number): void {
  const { model, bodies, ledger } = twin;
  const spec = model.site.devices[device];
  if (spec.from === null || deviceLever(twin, device, AT.device.idle) > 0) return;
  const from = model.bodyIndex.get(spec.from)!;
  const to = model.bodyOfDevice[device];
  const availableL = Math.max(0, volumeL(twin, from) - model.site.bodies[from].intakeL);
  const litres = Math.min(millilitres / 1000, availableL);
  if (litres <= 0) return;
  const strength = deviceLever(twin, device, AT.device.strength);
  const source = from * BODY_COLUMNS;
  const target = to * BODY_COLUMNS;
  const book = system.index * LEDGER_COLUMNS;
  const kg = litres * kgPerL(twin, from);
  const share = kg / bodies[source + MASS];
  for (let column = 0; column < TRANSPORTED; column++) {
    const part = bodies[source + column] * share;
    bodies[source + column] -= part;
    bodies[target + column] += part * (column === HEAT ? 1 : strength);
    ledger[book + column] += part * (column === HEAT ? 1 : strength);
  }
  bodies[source + MASS] -= kg;
  bodies[target + MASS] += kg;
  ledger[book + LEDGER_WATER] += kg;
}

function feedFrom(twin: Twin, system: SystemModel, device: number, grams: number): void {
  const at = device * DEVICE_COLUMNS + DEVICE_HELD;
  const given = Math.min(grams, twin.devices[at]);
  twin.devices[at] -= given;
  addFood(
    twin,
    system,
    twin.model.bodyOfDevice[device],
    given,
    1 / Math.max(1, twin.model.site.devices[device].dosesPerDay),
  );
}

/** Dry food into a body: the fish eat what they can of this meal, the rest lies and decays. */
export function addFood(twin: Twin, system: SystemModel, body: number, grams: number, dayShare: number): void {
  const eaten = Math.min(grams, twin.model.life[body].fishG * APPETITE_PER_DAY * dayShare);
  addMol(twin, system, body, META, eaten * FOOD_MOL_N_PER_G * (1 - RETAINED_SHARE));
  addMol(twin, system, body, UNROTTED, (grams - eaten) * FOOD_MOL_N_PER_G);
}

/** Adds an amount to a column of a body and to the ledger. */
export function addMol(twin: Twin, system: SystemModel, body: number, column: number, mol: number): void {
  twin.bodies[body * BODY_COLUMNS + column] += mol;
  twin.ledger[system.index * LEDGER_COLUMNS + column] += mol;
}

/** Fresh water by hand, L. */
export function pourFresh(twin: Twin, system: SystemModel, body: number, litres: number): void {
  addFreshWater(twin, system, body, litres);
}

/** Adds water of nothing but heat. */
function addFreshWater(twin: Twin, system: SystemModel, body: number, kg: number): void {
  const airC = twin.rooms[twin.model.roomOfBody[body] * ROOM_COLUMNS + ROOM_AIR_C];
  twin.bodies[body * BODY_COLUMNS + MASS] += kg;
  twin.ledger[system.index * LEDGER_COLUMNS + LEDGER_WATER] += kg;
  addMol(twin, system, body, HEAT, kg * HEAT_CAPACITY * airC);
}

function byHand(twin: Twin, system: SystemModel, fromS: number, toS: number): void {
  const { site } = twin.model;
  const { kinds } = system;
  const meals = timesDue(twin, HAND_MEALS_PER_DAY, fromS, toS);
  if (meals > 0 && !kinds.has("feeder")) {
    for (const body of system.waters)
      addFood(
        twin,
        system,
        body,
        (twin.model.life[body].foodGPerDay / HAND_MEALS_PER_DAY) * meals,
        1 / HAND_MEALS_PER_DAY,
      );
  }
  if (timesDue(twin, 1, fromS, toS) === 0) return;
  for (const store of system.stores)
    if (volumeL(twin, store) < site.bodies[store].volumeL * REFILL_UNDER) refillStore(twin, store);
  for (const device of system.devices) {
    const at = device * DEVICE_COLUMNS + DEVICE_HELD;
    if (twin.devices[at] < site.devices[device].holdsG * REFILL_UNDER) twin.devices[at] = site.devices[device].holdsG;
  }
  if (!kinds.has("top-off")) topOffByHand(twin, system);
  if (!kinds.has("doser") && !kinds.has("calcium-reactor")) doseByHand(twin, system);
}

/** Up to the mark of the chamber whose level shows what has evaporated; one that stands full gets nothing. */
function topOffByHand(twin: Twin, system: SystemModel): void {
  const { site } = twin.model;
  const chamber = system.pumps[0]?.from ?? system.waters[0];
  if (chamber === undefined) return;
  const lack = (body: number) => site.bodies[body].volumeL - volumeL(twin, body);
  const evaporated = system.waters.reduce((sum, body) => sum + lack(body), 0);
  if (evaporated > HAND_TOP_OFF_SHARE * systemWaterL(site, system.id)) return;
  const poured = Math.min(evaporated, lack(chamber));
  if (poured > 0) addFreshWater(twin, system, chamber, poured);
}

/** Bicarbonate and calcium chloride, enough for the day, where the water stands under what the owner keeps. */
function doseByHand(twin: Twin, system: SystemModel): void {
  const { site } = twin.model;
  const demand = system.waters.reduce((sum, body) => sum + site.bodies[body].livestock.alkalinityDemandDKHPerDay, 0);
  const main = system.waters[0];
  if (demand === 0 || main === undefined) return;
  const { holds } = site.bodies[main];
  if (holds.kind !== "salt") return;
  const at = main * BODY_COLUMNS;
  const now = (twin.bodies[at + TA] / twin.bodies[at + MASS]) * kgPerL(twin, main);
  const gap = Math.min(HAND_DOSE_DKH * DKH_TO_EQ_PER_L, holds.alkalinityDKH * DKH_TO_EQ_PER_L - now);
  if (gap <= 0) return;
  const eq = gap * systemWaterL(site, system.id);
  addMol(twin, system, main, TA, eq);
  addMol(twin, system, main, DIC, eq);
  addMol(twin, system, main, CA, eq / 2);
}
