/**
 * The setting of a drill: a site in one circumstance, settled in its normal life, with the course that this life would
 * take if nothing failed. Made once and shared by all drills of that circumstance.
 */
import type { LocalClock } from "../foundation/index.ts";
import { harmRatePerH, type Stressor, stressorIndex } from "../science/index.ts";
import { type Circumstance, clockFor, type Person } from "../site/index.ts";
import {
  advance,
  alkalinityDKH,
  ammoniaMgNL,
  createTwin,
  fillStores,
  floorL,
  isHarmed,
  isRunning,
  isStore,
  lookNow,
  type Model,
  oxygenMgL,
  phTotal,
  powerMoved,
  restore,
  roundRooms,
  salinity,
  snapshot,
  startTwin,
  type Twin,
  type TwinEvent,
  temperatureC,
  topUp,
  volumeL,
  warmTo,
  worstHarm,
} from "../twin/index.ts";
import { drillGrid } from "./grid.ts";

const DAY_S = 86_400;
/** Days that the site lives before the fault, to settle. */
const SETTLE_DAYS = 3;
/** Temperatures of the last day are noted this often, s. */
const NOTE_EVERY_S = 600;
/** Room after the horizon for trying late acts, days. */
const AFTER_DAYS = 6;

export interface Setting {
  readonly model: Model;
  readonly circumstance: Circumstance;
  readonly clock: LocalClock;
  readonly seed: number;
  readonly grid: Float64Array;
  readonly twin: Twin;
  /** State at the moment of the fault. */
  readonly start: Float64Array;
  readonly normal: NormalCourse;
  /** Systems that this setting simulates. */
  readonly systems: readonly number[];
}

/** What normal life looks like on the grid. */
export interface NormalCourse {
  readonly signs: Float64Array;
  readonly columns: readonly SignColumn[];
  /** Rules that start or give notice in normal life. */
  readonly routine: ReadonlySet<string>;
  readonly notices: readonly TwinEvent[];
  /** States on whole days, to see whether a fault moved anything at all. */
  readonly days: readonly Float64Array[];
  /** When plain life itself does harm (a barrel that runs dry, a heater that is too small), s; Infinity where it does not. */
  readonly harm: { readonly early: number; readonly likely: number; readonly late: number };
  readonly harmWhat: HarmWhat | null;
  /** Devices that stood in within normal life. */
  readonly standIns: ReadonlySet<string>;
}

export interface HarmWhat {
  readonly body: string;
  readonly group: string;
  readonly stressor: string;
}

export interface SignColumn {
  readonly name: string;
  /** A difference to normal life at and above which it can be measured. */
  readonly measurable: number;
  /** What someone at the glass would notice of it, and from which difference on; Infinity: nothing. */
  readonly visible: number;
  readonly read: (twin: Twin) => number;
  /** Values between which nothing here harms anyone nor makes anything run dry, so that a slow drift inside may go on. */
  readonly harmless: Range;
}

export interface Range {
  readonly from: number;
  readonly to: number;
}

/** Makes the setting: settles the site for some days, then lives through the horizon without a fault. */
export function makeSetting(
  model: Model,
  circumstance: Circumstance,
  seed: number,
  systems: readonly number[],
  horizonDays = circumstance.horizonDays,
): Setting {
  const clock = clockFor(model.site, circumstance);
  const grid = drillGrid(horizonDays);
  const twin = createTwin(model, clock, {
    seed,
    closed: circumstance.closed,
    hands: handsAreThere(model.site.people, circumstance),
    fromS: -SETTLE_DAYS * DAY_S,
    toS: (horizonDays + AFTER_DAYS) * DAY_S,
  });
  model.systems.forEach((system) => {
    twin.active[system.index] = systems.includes(system.index) ? 1 : 0;
  });
  startTwin(twin, -SETTLE_DAYS * DAY_S);
  twin.active.fill(1);
  advance(twin, -DAY_S);
  fillStores(twin, circumstance.reservoirs);
  const warmth = lastDay(twin);
  twin.harm.fill(0);
  startAsDescribed(twin, warmth);
  fillStores(twin, circumstance.reservoirs);
  powerMoved(twin);
  lookNow(twin);
  model.systems.forEach((system) => {
    twin.active[system.index] = systems.includes(system.index) ? 1 : 0;
  });
  const start = snapshot(twin);
  const columns = signColumns(model, systems);
  const normal = liveNormally(twin, start, grid, columns);
  return { model, circumstance, clock, seed, grid, twin, start, normal, systems };
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
  for (let tS = -DAY_S; tS <= 0; tS += NOTE_EVERY_S) {
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
 * holds the water that its description says; and the air of the rooms is known to a tenth of a degree.
 */
function startAsDescribed(twin: Twin, warmth: Warmth): void {
  const { site, systems } = twin.model;
  for (const system of systems) topUp(twin, system);
  site.bodies.forEach((body, place) => {
    if (body.holds.kind !== "salt" || isStore(body)) return;
    warmTo(twin, place, Math.min(warmth.mostC[place], Math.max(warmth.leastC[place], body.holds.temperatureC)));
  });
  roundRooms(twin);
}

function handsAreThere(people: readonly Person[], circumstance: Circumstance): boolean {
  const away = new Set(circumstance.away.map((one) => one.person));
  return !circumstance.closed && people.some((person) => !away.has(person.id) && person.looks.length > 0);
}

function liveNormally(
  twin: Twin,
  start: Float64Array,
  grid: Float64Array,
  columns: readonly SignColumn[],
): NormalCourse {
  const routine = new Set<string>();
  const standIns = new Set<string>();
  const notices: TwinEvent[] = [];
  restore(twin, start);
  advance(twin, 0);
  twin.onEvent = (event) => {
    if (event.kind === "rule" || event.kind === "notice") routine.add(event.part);
    if (event.kind === "notice") notices.push(event);
    if (event.kind === "stand-in") standIns.add(event.part);
  };
  const signs = new Float64Array(grid.length * columns.length);
  const days: Float64Array[] = [];
  const harm = { early: Number.POSITIVE_INFINITY, likely: Number.POSITIVE_INFINITY, late: Number.POSITIVE_INFINITY };
  let harmWhat: HarmWhat | null = null;
  for (let place = 0; place < grid.length; place++) {
    advance(twin, grid[place]);
    columns.forEach((column, index) => {
      signs[place * columns.length + index] = column.read(twin);
    });
    if (grid[place] % DAY_S === 0) days.push(snapshot(twin));
    for (const end of ["early", "likely", "late"] as const)
      if (isHarmed(twin, end)) harm[end] = Math.min(harm[end], grid[place]);
    if (harmWhat === null && Number.isFinite(harm.early)) harmWhat = worstHarm(twin);
  }
  twin.onEvent = null;
  return { signs, columns, routine, notices, days, standIns, harm, harmWhat };
}

const NOWHERE: Range = { from: Number.POSITIVE_INFINITY, to: Number.NEGATIVE_INFINITY };

/** Between which temperatures, salinities and pH nobody in a body comes to harm: tried on the tolerances themselves. */
function easeOf(
  model: Model,
  body: number,
): { readonly temperatureC: Range; readonly salinity: Range; readonly ph: Range } {
  const groups = model.groups.filter((group) => group.body === body).map((group) => group.group);
  const range = (stressors: readonly Stressor[], low: number, high: number, step: number): Range => {
    const hurts = (x: number) =>
      groups.some((group) => stressors.some((stressor) => harmRatePerH(group, stressorIndex(stressor), x) > 0));
    let from = (low + high) / 2;
    let to = from;
    while (from > low && !hurts(from)) from -= step;
    while (to < high && !hurts(to)) to += step;
    return { from, to };
  };
  return {
    temperatureC: range(["heat", "cold"], 14, 36, 0.25),
    salinity: range(["low-salinity", "high-salinity"], 20, 50, 0.5),
    ph: range(["low-ph", "high-ph"], 7, 9, 0.05),
  };
}

const SILENT_KINDS = new Set(["return-pump", "wave-pump", "skimmer", "light", "air-pump"]);

function signColumns(model: Model, systems: readonly number[]): SignColumn[] {
  const columns: SignColumn[] = [];
  for (const index of systems) {
    const system = model.systems[index];
    for (const body of system.waters) {
      const { id, volumeL: normalL } = model.site.bodies[body];
      const isFloating = system.pumps.some((pump) => pump.from === body) || system.pumps.length === 0;
      const add = (
        quantity: string,
        measurable: number,
        visible: number,
        harmless: Range,
        read: (twin: Twin) => number,
      ) => columns.push({ name: `${id}.${quantity}`, measurable, visible, harmless, read });
      const ease = easeOf(model, body);
      add("temperature", 0.3, 1.5, ease.temperatureC, (twin) => temperatureC(twin, body));
      add("salinity", 0.3, Number.POSITIVE_INFINITY, ease.salinity, (twin) => salinity(twin, body));
      add("oxygen", 0.4, 3, { from: 4.5, to: 12 }, (twin) => oxygenMgL(twin, body));
      add("ph", 0.08, Number.POSITIVE_INFINITY, ease.ph, (twin) => phTotal(twin, body));
      add("ammonia", 0.05, Number.POSITIVE_INFINITY, { from: -1, to: 0.1 }, (twin) => ammoniaMgNL(twin, body));
      add("alkalinity", 0.3, Number.POSITIVE_INFINITY, { from: 4, to: 16 }, (twin) => alkalinityDKH(twin, body));
      add("volume", Math.max(1, 0.03 * normalL), isFloating ? 0.15 * normalL : 0.1 * normalL, NOWHERE, (twin) =>
        volumeL(twin, body),
      );
    }
    for (const store of system.stores) {
      const normalL = model.site.bodies[store].volumeL;
      columns.push({
        name: `${model.site.bodies[store].id}.volume`,
        measurable: Math.max(0.05, 0.1 * normalL),
        visible: 0.5 * normalL,
        harmless: {
          from: Math.max(0.1 * normalL, 1.5 * model.site.bodies[store].intakeL),
          to: 0.98 * model.site.bodies[store].brimL,
        },
        read: (twin) => volumeL(twin, store),
      });
    }
    for (const device of system.devices) {
      const spec = model.site.devices[device];
      if (SILENT_KINDS.has(spec.kind) && spec.ownThermostatC === null) {
        columns.push({
          name: `${spec.id}.on`,
          measurable: 1,
          visible: 1,
          harmless: NOWHERE,
          read: (twin) => (isRunning(twin, device) ? 1 : 0),
        });
      }
    }
  }
  columns.push({ name: "floor", measurable: 0.2, visible: 0.5, harmless: NOWHERE, read: floorL });
  return columns;
}
