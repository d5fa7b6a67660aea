/**
 * The course of time: from one moment at which something may switch to the next, all systems together.
 */
import { advanceSystem, prepare } from "./advance-system.ts";
import { CLOCK_NOW } from "./columns.ts";
import { runHabits } from "./habits.ts";
import { runHands } from "./hands.ts";
import { look, lookSoon } from "./hub.ts";
import { hoursToEmptyBattery, tripCircuits } from "./loads.ts";
import type { SystemModel } from "./model.ts";
import { hoursToLevel } from "./next-level.ts";
import { nextRunLimitS } from "./own-switches.ts";
import { updateSlow } from "./slow.ts";
import { SLOW, SLOW_COLUMNS, type Twin, timeS } from "./state.ts";
import { advanceSurroundings } from "./surroundings.ts";
import { switchDevices } from "./switching.ts";

/** Longest and shortest stretch between two looks at everything, s. */
export const STRETCH_S = 600;
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
  const { next } = twin.scratch;
  for (let round = 0; round < ROUNDS; round++) {
    const changed = switchDevices(twin, round > 0 || isAllDue(twin)) || next.loadMoved;
    if (!changed) return;
    next.loadMoved = false;
    tripCircuits(twin);
    lookSoon(twin);
  }
}

/** Everything is looked at when something was touched, when a timer turns, and once every stretch in any case. */
function isAllDue(twin: Twin): boolean {
  const { next, timerEdges } = twin.scratch;
  const nowS = timeS(twin);
  let due = next.switchAll || nowS - next.switchedS >= STRETCH_S - ABOUT_S;
  while (next.edge < timerEdges.length && timerEdges[next.edge] <= nowS + SAME_S) {
    next.edge++;
    due = true;
  }
  if (due) {
    next.switchAll = false;
    next.switchedS = nowS;
  }
  return due;
}

/** The next moment at which anything may switch, s; at the latest `untilS`. */
function nextStop(twin: Twin, untilS: number): number {
  const { next, timerEdges } = twin.scratch;
  const fromS = timeS(twin);
  const edgeS = timerEdges[next.edge] ?? Number.POSITIVE_INFINITY;
  let stop = Math.min(untilS, fromS + STRETCH_S, edgeS, nextRunLimitS(twin));
  for (let hub = 0; hub < next.lookS.length; hub++) stop = Math.min(stop, next.lookS[hub]);
  for (const system of twin.model.systems)
    if (isActive(twin, system)) stop = Math.min(stop, fromS + 3600 * hoursToLevel(twin, system));
  stop = Math.min(stop, fromS + 3600 * hoursToEmptyBattery(twin));
  return Math.min(untilS, Math.max(stop, fromS + SHORTEST_S));
}

/** Runs everything to the next stop, where doses and meals fall due and hubs look. */
function advanceTo(twin: Twin, toS: number): void {
  const { model, scratch } = twin;
  const fromS = timeS(twin);
  for (const system of model.systems) if (isActive(twin, system)) advanceSystem(twin, system, fromS, toS);
  advanceSurroundings(twin, (toS - fromS) / 3600, toS);
  twin.state[model.layout.clock + CLOCK_NOW] = toS;
  for (const system of model.systems) if (isActive(twin, system)) runByTheClock(twin, system, fromS, toS);
  for (let hub = 0; hub < model.site.hubs.length; hub++)
    if (scratch.next.lookS[hub] <= toS + SAME_S && look(twin, hub)) scratch.next.switchAll = true;
}

function runByTheClock(twin: Twin, system: SystemModel, fromS: number, toS: number): void {
  runHabits(twin, system, fromS, toS);
  if (twin.hands) runHands(twin, system, fromS, toS);
}
