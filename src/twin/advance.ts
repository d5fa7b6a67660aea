/**
 * The course of time: from one moment at which something may switch to the next, all systems together.
 */
import { advanceSystem, prepare } from "./advance-system.ts";
import { CLOCK_LOAD_MOVED, CLOCK_NOW, CLOCK_SWITCH_ALL, CLOCK_SWITCHED, HUB_COLUMNS, HUB_LOOK } from "./columns.ts";
import { runHabits } from "./habits.ts";
import { runHands } from "./hands.ts";
import { look } from "./hub.ts";
import { dropOverloads, hoursToEmptyBattery, tripCircuits } from "./loads.ts";
import { lookSoon, nextMarkS } from "./look-soon.ts";
import type { SystemModel } from "./model.ts";
import { hoursToLevel } from "./next-level.ts";
import { nextRunLimitS } from "./own-switches.ts";
import { updateSlow } from "./slow.ts";
import { SLOW, SLOW_COLUMNS, type Twin, timeS } from "./state.ts";
import { advanceSurroundings } from "./surroundings.ts";
import { switchDevices } from "./switching.ts";

/** All devices are looked at about this often, s. */
const STRETCH_S = 1200;
/** Shortest stretch between two stops, s. */
const SHORTEST_S = 0.5;
/** Times closer than this are the same, s. */
const SAME_S = 1e-6;
/** Everything is looked at once a stretch, give or take this, s. */
const ABOUT_S = 1;
/** Rounds within which switches come to rest: a breaker that opens changes the sockets, which changes the load. */
const ROUNDS = 8;

/** Runs the twin up to `untilS`. */
export function advance(twin: Twin, untilS: number): void {
  learnWaters(twin);
  while (timeS(twin) < untilS - SAME_S) {
    settleSwitches(twin);
    for (const system of twin.model.systems) if (isActive(twin, system)) prepare(twin, system);
    advanceTo(twin, nextStop(twin, untilS));
  }
}

function isActive(twin: Twin, system: SystemModel): boolean {
  return twin.active[system.index] > 0;
}

/** After a start or a restore nothing is known of the water yet, and thermostats and floats must see it before they switch. */
function learnWaters(twin: Twin): void {
  for (const system of twin.model.systems) {
    if (!isUnknown(twin, system)) continue;
    if (isActive(twin, system)) updateSlow(twin, system);
    else prepare(twin, system);
  }
}

function isUnknown(twin: Twin, system: SystemModel): boolean {
  const first = system.bodies[0];
  return first !== undefined && Number.isNaN(twin.scratch.slow[first * SLOW_COLUMNS + SLOW.evaporationKgH]);
}

/** Lets sockets, thermostats and breakers come to rest. */
function settleSwitches(twin: Twin): void {
  for (let round = 0; round < ROUNDS; round++) {
    const switched = switchDevices(twin, round > 0 || isAllDue(twin));
    const loadMoved = twin.clocks[CLOCK_LOAD_MOVED] > 0;
    if (!switched && !loadMoved) return;
    twin.clocks[CLOCK_LOAD_MOVED] = 0;
    tripCircuits(twin);
    dropOverloads(twin);
    if (loadMoved) lookSoon(twin);
  }
}

/** Everything is looked at when something was touched, when a timer turns, and once every stretch in any case. */
function isAllDue(twin: Twin): boolean {
  const { next, timerEdges } = twin.scratch;
  const nowS = timeS(twin);
  let due = twin.clocks[CLOCK_SWITCH_ALL] > 0 || nowS - twin.clocks[CLOCK_SWITCHED] >= STRETCH_S - ABOUT_S;
  while (next.edge < timerEdges.length && timerEdges[next.edge] <= nowS + SAME_S) {
    next.edge++;
    due = true;
  }
  if (due) {
    twin.clocks[CLOCK_SWITCH_ALL] = 0;
    twin.clocks[CLOCK_SWITCHED] = nowS;
  }
  return due;
}

/** The next moment at which anything may switch, s; at the latest `untilS`. */
function nextStop(twin: Twin, untilS: number): number {
  const { next, timerEdges } = twin.scratch;
  const fromS = timeS(twin);
  const edgeS = timerEdges[next.edge] ?? Number.POSITIVE_INFINITY;
  let stop = Math.min(untilS, nextMarkS(fromS), edgeS, nextRunLimitS(twin));
  for (let at = HUB_LOOK; at < twin.hubs.length; at += HUB_COLUMNS) stop = Math.min(stop, twin.hubs[at]);
  for (const system of twin.model.systems)
    if (isActive(twin, system)) stop = Math.min(stop, fromS + 3600 * hoursToLevel(twin, system));
  stop = Math.min(stop, fromS + 3600 * hoursToEmptyBattery(twin));
  return Math.min(untilS, Math.max(stop, fromS + SHORTEST_S));
}

/** Runs everything to the next stop, where doses and meals fall due and hubs look. */
function advanceTo(twin: Twin, toS: number): void {
  const { model } = twin;
  const fromS = timeS(twin);
  for (const system of model.systems) if (isActive(twin, system)) advanceSystem(twin, system, fromS, toS);
  advanceSurroundings(twin, (toS - fromS) / 3600, toS);
  twin.clocks[CLOCK_NOW] = toS;
  for (const system of model.systems) if (isActive(twin, system)) runByTheClock(twin, system, fromS, toS);
  for (let hub = 0; hub < model.site.hubs.length; hub++)
    if (twin.hubs[hub * HUB_COLUMNS + HUB_LOOK] <= toS + SAME_S && look(twin, hub)) twin.clocks[CLOCK_SWITCH_ALL] = 1;
}

function runByTheClock(twin: Twin, system: SystemModel, fromS: number, toS: number): void {
  runHabits(twin, system, fromS, toS);
  if (twin.hands) runHands(twin, system, fromS, toS);
}
