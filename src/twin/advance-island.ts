/**
 * One island through a stretch of time: from one moment at which something may switch to the next, its systems together.
 */
import { advanceSystem, plan } from "./advance-system.ts";
import { CLOCK_LOAD_MOVED, CLOCK_NOW, HUB_COLUMNS, HUB_LOOK } from "./columns.ts";
import { nextHabitS, runHabits } from "./habits.ts";
import { runHands } from "./hands.ts";
import { look } from "./hub.ts";
import { drawOnBatteries, dropOverloads, tripCircuits, tripOverloads } from "./loads.ts";
import { lookSoon } from "./look-soon.ts";
import type { Island, SystemModel } from "./model.ts";
import { SAME_S, SHORTEST_S } from "./moments.ts";
import { nextRunLimitS } from "./own-switches.ts";
import { planHoldsH } from "./plan-holds.ts";
import { PLAN, type Twin, timeS } from "./state.ts";
import { catchUp } from "./step-matter.ts";
import { switchSystem } from "./switching.ts";

/** Rounds within which switches come to rest: a breaker that opens changes the sockets, which changes the load. */
const ROUNDS = 8;

/** Whether an island is simulated: its systems all are, or none. The house is, where a hub looks at it. */
export function isAwake(twin: Twin, { lookers, systems }: Island): boolean {
  return systems.length === 0 ? lookers.length > 0 : systems.some((system) => isActive(twin, system));
}

function isActive(twin: Twin, system: SystemModel): boolean {
  return twin.active[system.index] > 0;
}

/** Runs an island up to `untilS`, at which the clock stands then. */
export function advanceIsland(twin: Twin, island: Island, untilS: number): void {
  // All devices are looked at once a stretch in any case.
  twin.switchAll[island.index] = 1;
  for (const system of island.systems) {
    twin.scratch.plan[system.index] = PLAN.none;
    twin.scratch.habitS[system.index] = nextHabitS(twin, system);
  }
  while (timeS(twin) < untilS - SAME_S) {
    settleSwitches(twin, island);
    // Water that has found its level may have lifted a float.
    if (planAll(twin, island) && switchDevices(twin, island, false)) {
      settleSwitches(twin, island);
      planAll(twin, island);
    }
    const toS = nextStop(twin, island, untilS);
    advanceTo(twin, island, toS);
    // At a mark all is up to date before the hubs look, so that they see all of it.
    if (toS >= untilS - SAME_S) for (const system of island.systems) catchUp(twin, system);
    lookAt(twin, island);
  }
}

/** True where a system was planned anew. */
function planAll(twin: Twin, { systems }: Island): boolean {
  let isNew = false;
  for (const system of systems) if (isActive(twin, system) && plan(twin, system)) isNew = true;
  return isNew;
}

/** Lets sockets, thermostats and breakers come to rest. */
export function settleSwitches(twin: Twin, island: Island): void {
  for (let round = 0; round < ROUNDS; round++) {
    const switched = switchDevices(twin, island, round > 0 || isAllDue(twin, island));
    const loadMoved = twin.clocks[CLOCK_LOAD_MOVED] > 0;
    if (!switched && !loadMoved) return;
    twin.clocks[CLOCK_LOAD_MOVED] = 0;
    if (loadMoved) tripCircuits(twin);
    else tripOverloads(twin);
    dropOverloads(twin);
    if (loadMoved) lookSoon(twin);
  }
}

/** Puts the devices of an island in their state: all, or only those that switch by themselves. True where anything changed. */
function switchDevices(twin: Twin, { systems }: Island, all: boolean): boolean {
  let changed = false;
  for (const system of systems) if (isActive(twin, system) && switchSystem(twin, system, all)) changed = true;
  return changed;
}

/** Everything is looked at when something was touched, when a timer turns, and once every stretch in any case. */
function isAllDue(twin: Twin, { index }: Island): boolean {
  const edges = twin.scratch.timerEdges[index];
  const { edge } = twin.scratch;
  let due = twin.switchAll[index] > 0;
  while (edge[index] < edges.length && edges[edge[index]] <= timeS(twin) + SAME_S) {
    edge[index]++;
    due = true;
  }
  twin.switchAll[index] = 0;
  return due;
}

/** The next moment at which anything may switch, s; at the latest `untilS`. */
function nextStop(twin: Twin, island: Island, untilS: number): number {
  const { edge, habitS, replanS, timerEdges } = twin.scratch;
  const fromS = timeS(twin);
  const edgeS = timerEdges[island.index][edge[island.index]] ?? Number.POSITIVE_INFINITY;
  let stop = Math.min(untilS, edgeS, nextRunLimitS(twin, island));
  for (const looker of island.lookers) stop = Math.min(stop, twin.looks[looker * HUB_COLUMNS + HUB_LOOK]);
  for (const system of island.systems) {
    if (!isActive(twin, system)) continue;
    replanS[system.index] = fromS + 3600 * planHoldsH(twin, system);
    stop = Math.min(stop, replanS[system.index], habitS[system.index]);
  }
  return Math.min(untilS, Math.max(stop, fromS + SHORTEST_S));
}

/** Runs everything to the next stop, where doses and meals fall due. */
function advanceTo(twin: Twin, island: Island, toS: number): void {
  const fromS = timeS(twin);
  for (const system of island.systems) if (isActive(twin, system)) advanceSystem(twin, system, fromS, toS);
  drawOnBatteries(twin, island, (toS - fromS) / 3600, toS);
  twin.clocks[CLOCK_NOW] = toS;
  for (const system of island.systems) {
    if (!isActive(twin, system)) continue;
    if (twin.scratch.replanS[system.index] <= toS + SAME_S) twin.scratch.plan[system.index] = PLAN.none;
    runByTheClock(twin, system, fromS, toS);
  }
}

/** The hubs whose time has come look. */
function lookAt(twin: Twin, { index, lookers }: Island): void {
  for (const looker of lookers)
    if (twin.looks[looker * HUB_COLUMNS + HUB_LOOK] <= timeS(twin) + SAME_S && look(twin, looker))
      twin.switchAll[index] = 1;
}

function runByTheClock(twin: Twin, system: SystemModel, fromS: number, toS: number): void {
  const { habitS } = twin.scratch;
  if (toS < habitS[system.index] - SAME_S) return;
  habitS[system.index] = nextHabitS(twin, system);
  runHabits(twin, system, fromS, toS);
  if (twin.hands) runHands(twin, system, fromS, toS);
}
