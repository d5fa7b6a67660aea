/**
 * The course of time: from mark to mark, one island after the other, and between them what all share: rooms, batteries, breakers.
 */

import { advanceIsland, isAwake, settleSwitches } from "./advance-island.ts";
import { prepare } from "./advance-system.ts";
import { CLOCK_LOAD_MOVED, CLOCK_NOW } from "./columns.ts";
import { hoursToEmptyBattery, stepBatteries } from "./loads.ts";
import type { SystemModel } from "./model.ts";
import { SAME_S, SHORTEST_S } from "./moments.ts";
import { updateSlow } from "./slow.ts";
import { SLOW, SLOW_COLUMNS, type Twin, type TwinEvent, timeS } from "./state.ts";
import { creep, moveRooms, nextRoomS } from "./surroundings.ts";

/** Runs the twin up to `untilS`. */
export function advance(twin: Twin, untilS: number): void {
  learnWaters(twin);
  while (timeS(twin) < untilS - SAME_S) {
    if (twin.clocks[CLOCK_LOAD_MOVED] > 0) for (const island of twin.model.islands) settleSwitches(twin, island);
    inOrder(twin, () => advanceAll(twin, nextStop(twin, untilS)));
  }
}

/** After a start or a restore nothing is known of the water yet, and thermostats and floats must see it before they switch. */
function learnWaters(twin: Twin): void {
  for (const system of twin.model.systems) {
    if (!isUnknown(twin, system)) continue;
    if (twin.active[system.index] > 0) updateSlow(twin, system);
    else prepare(twin, system);
  }
}

function isUnknown(twin: Twin, system: SystemModel): boolean {
  const first = system.bodies[0];
  return first !== undefined && Number.isNaN(twin.scratch.slow[first * SLOW_COLUMNS + SLOW.evaporationKgH]);
}

/** The next moment that concerns more than one island, s; at the latest `untilS`. */
function nextStop(twin: Twin, untilS: number): number {
  const fromS = timeS(twin);
  const stop = Math.min(nextRoomS(twin), fromS + 3600 * hoursToEmptyBattery(twin));
  return Math.min(untilS, Math.max(stop, fromS + SHORTEST_S));
}

/** Runs every island to `toS`, and then what lies around them. */
function advanceAll(twin: Twin, toS: number): void {
  const fromS = timeS(twin);
  const roomsMoveS = nextRoomS(twin);
  for (const island of twin.model.islands) {
    if (!isAwake(twin, island)) continue;
    advanceIsland(twin, island, toS);
    twin.clocks[CLOCK_NOW] = fromS;
  }
  const hours = (toS - fromS) / 3600;
  stepBatteries(twin, hours, toS);
  creep(twin, hours);
  twin.clocks[CLOCK_NOW] = toS;
  if (toS >= roomsMoveS - SAME_S) moveRooms(twin);
}

/** Islands go through the same time one after the other; what happens there is told in the order of time. */
function inOrder(twin: Twin, run: () => void): void {
  const tell = twin.onEvent;
  if (!tell) {
    run();
    return;
  }
  const events: TwinEvent[] = [];
  twin.onEvent = (event) => events.push(event);
  run();
  twin.onEvent = tell;
  events.sort((a, b) => a.tS - b.tS);
  for (const event of events) tell(event);
}
