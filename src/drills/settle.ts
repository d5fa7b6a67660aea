/**
 * The moment before the fault: a site that has lived some days in its circumstance, and then stands as its description says.
 */
import type { Circumstance, Person } from "../site/index.ts";
import { clockFor } from "../site/index.ts";
import {
  advance,
  createTwin,
  fillStores,
  isStore,
  lookNow,
  lookSoon,
  type Model,
  powerMoved,
  restSwitches,
  roundRooms,
  snapshot,
  startTwin,
  type Twin,
  temperatureC,
  topUp,
  warmTo,
} from "../twin/index.ts";
import { LATE_S } from "./grid.ts";

const DAY_S = 86_400;
/** Days that the site lives before the fault, to settle. */
const SETTLE_DAYS = 3;
/** So long before the fault all stands as described; then thermostats and rules find the state that fits, s. */
const LAST_S = 60;
/** Temperatures of the last day are noted this often, s. */
const NOTE_EVERY_S = 600;
/** Room after the horizon for trying late acts, days. */
const AFTER_DAYS = 6;

/** A twin of a site in a circumstance that may run from the days of settling to some days after its horizon. */
export function makeTwin(model: Model, circumstance: Circumstance, seed: number, horizonDays: number): Twin {
  return createTwin(model, clockFor(model.site, circumstance), {
    seed,
    closed: circumstance.closed,
    hands: handsAreThere(model.site.people, circumstance),
    fromS: -SETTLE_DAYS * DAY_S,
    toS: (horizonDays + AFTER_DAYS) * DAY_S,
    lateFromS: LATE_S,
  });
}

function handsAreThere(people: readonly Person[], circumstance: Circumstance): boolean {
  const away = new Set(circumstance.away.map((one) => one.person));
  return !circumstance.closed && people.some((person) => !away.has(person.id) && person.looks.length > 0);
}

/** State of the whole site at the moment of the fault; the same for all faults and whatever is simulated afterwards. */
export function settledState(model: Model, circumstance: Circumstance, seed: number): Float64Array {
  const twin = makeTwin(model, circumstance, seed, 0);
  startTwin(twin, -SETTLE_DAYS * DAY_S);
  advance(twin, -LAST_S - DAY_S);
  fillStores(twin, circumstance.reservoirs);
  const warmth = lastDay(twin);
  startAsDescribed(twin, warmth);
  fillStores(twin, circumstance.reservoirs);
  powerMoved(twin);
  lookNow(twin);
  advance(twin, 0);
  twin.harm.fill(0);
  // As whoever lets a fault happen leaves it, so that one at rest changes nothing.
  powerMoved(twin);
  lookSoon(twin);
  return snapshot(twin);
}

interface Warmth {
  readonly leastC: Float64Array;
  readonly mostC: Float64Array;
}

/** Lives through the day before the fault and notes between which temperatures each body went. */
function lastDay(twin: Twin): Warmth {
  const count = twin.model.site.bodies.length;
  const leastC = new Float64Array(count).fill(Number.POSITIVE_INFINITY);
  const mostC = new Float64Array(count).fill(Number.NEGATIVE_INFINITY);
  for (let tS = -LAST_S - DAY_S; tS <= -LAST_S; tS += NOTE_EVERY_S) {
    advance(twin, tS);
    for (let body = 0; body < count; body++) {
      const waterC = temperatureC(twin, body);
      leastC[body] = Math.min(leastC[body], waterC);
      mostC[body] = Math.max(mostC[body], waterC);
    }
  }
  return { leastC, mostC };
}

/**
 * Where a thermostat or a float stands in its swing when the fault comes is chance, and would move every time that follows. So
 * each body starts at the temperature that its description says, or at the nearest that it really goes through; each system
 * holds the water that its description says; thermostats, floats and rules rest, and call when they see a reason; and the air of the
 * rooms is known to a tenth of a degree.
 */
function startAsDescribed(twin: Twin, warmth: Warmth): void {
  const { site, systems } = twin.model;
  restSwitches(twin);
  for (const system of systems) topUp(twin, system);
  for (const [place, body] of site.bodies.entries()) {
    if (body.holds.kind !== "salt" || isStore(body)) continue;
    warmTo(twin, place, Math.min(warmth.mostC[place], Math.max(warmth.leastC[place], body.holds.temperatureC)));
  }
  roundRooms(twin);
}
