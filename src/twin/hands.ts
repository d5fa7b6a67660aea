/** What a pair of hands does, once or twice a day, where no device does it. */
import { BODY_COLUMNS, CA, DEVICE_COLUMNS, DEVICE_HELD, DIC, MASS, SALT, TA } from "./columns.ts";
import { addFood, addMol, beginHandling, pourFresh, timesDue } from "./habits.ts";
import { kgPerL, volumeL } from "./hydraulics.ts";
import { DKH_TO_EQ_PER_L, systemWaterL } from "./life.ts";
import type { SystemModel } from "./model.ts";
import { refillStore } from "./start.ts";
import type { Twin } from "./state.ts";

/** Meals by hand a local day; the rest of the work is done once a day. */
const HAND_MEALS_PER_DAY = 2;
/** A reservoir under this share of its volume is filled again by whoever looks after the place. */
const REFILL_UNDER = 0.3;
/** Who misses more than this share of a system's water in a day, more than evaporates anywhere, looks for the leak. */
const HAND_TOP_OFF_SHARE = 0.1;
/** Salt that a balanced dose of bicarbonate and calcium chloride leaves behind (docs/science.md#dosing). */
const NACL_KG_PER_EQ = 0.05844;
/** Alkalinity that hands give at most in a day, dKH. */
const HAND_DOSE_DKH = 1.5;

/** Lets hands do for a system what fell due in (fromS, toS]. */
export function runHands(twin: Twin, system: SystemModel, fromS: number, toS: number): void {
  const { kinds } = system;
  const meals = timesDue(twin, HAND_MEALS_PER_DAY, fromS, toS);
  const isDue = timesDue(twin, 1, fromS, toS) > 0;
  if (meals > 0 || isDue) beginHandling(twin, system);
  if (meals > 0 && !kinds.has("feeder")) for (const body of system.waters) feedByHand(twin, system, body, meals);
  if (!isDue) return;
  refillByHand(twin, system);
  if (!kinds.has("top-off")) topOffByHand(twin, system);
  if (!kinds.has("doser") && !kinds.has("calcium-reactor")) doseByHand(twin, system);
}

function feedByHand(twin: Twin, system: SystemModel, body: number, meals: number): void {
  const grams = (twin.model.life[body].foodGPerDay / HAND_MEALS_PER_DAY) * meals;
  addFood(twin, system, body, grams, 1 / HAND_MEALS_PER_DAY);
}

/** Fills reservoirs, containers and feeders that run low. */
function refillByHand(twin: Twin, system: SystemModel): void {
  const { site } = twin.model;
  for (const store of system.stores)
    if (volumeL(twin, store) < site.bodies[store].volumeL * REFILL_UNDER) refillStore(twin, store);
  for (const device of system.devices) {
    const at = device * DEVICE_COLUMNS + DEVICE_HELD;
    if (twin.devices[at] < site.devices[device].holdsG * REFILL_UNDER) twin.devices[at] = site.devices[device].holdsG;
  }
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
  if (poured > 0) pourFresh(twin, system, chamber, poured);
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
  addMol(twin, system, main, SALT, eq * NACL_KG_PER_EQ);
}
