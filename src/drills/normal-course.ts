/** The course that normal life takes from the moment of the fault on, had nothing failed. */
import {
  advance,
  forgetAsked,
  type HarmEnd,
  type HarmWhat,
  isHarmed,
  leversAsked,
  type Model,
  type Probe,
  RoomGains,
  restore,
  roomProbes,
  snapshot,
  type Twin,
  type TwinEvent,
  worstHarm,
} from "../twin/index.ts";
import { type SignColumn, signColumns } from "./sign-columns.ts";

const DAY_S = 86_400;
const ENDS: readonly HarmEnd[] = ["early", "likely", "late"];

/** What normal life looks like on the grid, as far as some systems see it. */
export interface NormalCourse {
  /** Value of each column at each place of the grid, row by row. */
  readonly signs: Float64Array;
  readonly columns: readonly SignColumn[];
  /** Air at each place of the grid, row by row: of each of the site's rooms degrees C, percent of humidity, ppm of carbon dioxide. */
  readonly air: Float64Array;
  readonly airProbes: readonly Probe[];
  /** Rules that start or give notice in normal life. */
  readonly routine: ReadonlySet<string>;
  readonly notices: readonly TwinEvent[];
  /** States of the whole site on whole days, to see whether a fault moved anything at all. */
  readonly days: readonly Float64Array[];
  /** When plain life itself does harm (a barrel that runs dry, a heater that is too small), s; Infinity where it does not. */
  readonly harm: Readonly<Record<HarmEnd, number>>;
  readonly harmWhat: HarmWhat | null;
  /** Devices that stood in within normal life. */
  readonly standIns: ReadonlySet<string>;
  /** Marks of the resting levers that were asked for. */
  readonly asked: Uint8Array;
}

/** Normal life of the whole site. */
export interface NormalLife extends Omit<NormalCourse, "harm" | "harmWhat"> {
  /** By system. */
  readonly harms: readonly { readonly times: Record<HarmEnd, number>; what: HarmWhat | null }[];
  /** What the systems gave to the rooms. */
  readonly gains: RoomGains;
}

/** Lives from a settled state through the grid, with all systems. */
export function liveNormally(twin: Twin, start: Float64Array, grid: Float64Array): NormalLife {
  const { model } = twin;
  const columns = signColumns(
    model,
    model.systems.map(({ index }) => index),
  );
  const routine = new Set<string>();
  const standIns = new Set<string>();
  const notices: TwinEvent[] = [];
  const gains = new RoomGains();
  restore(twin, start);
  forgetAsked(twin);
  advance(twin, 0);
  twin.gains = gains;
  twin.onEvent = (event) => {
    if (event.kind === "rule" || event.kind === "notice") routine.add(event.part);
    if (event.kind === "notice") notices.push(event);
    if (event.kind === "stand-in") standIns.add(event.part);
  };
  const signs = new Float64Array(grid.length * columns.length);
  const airProbes = roomProbes(model);
  const air = new Float64Array(grid.length * airProbes.length);
  const days: Float64Array[] = [];
  const harms: NormalLife["harms"] = model.systems.map(() => ({
    times: { early: Number.POSITIVE_INFINITY, likely: Number.POSITIVE_INFINITY, late: Number.POSITIVE_INFINITY },
    what: null,
  }));
  for (const [place, tS] of grid.entries()) {
    advance(twin, tS);
    for (let index = 0; index < columns.length; index++)
      signs[place * columns.length + index] = columns[index].read(twin);
    for (const [probe, { read }] of airProbes.entries()) air[place * airProbes.length + probe] = read(twin);
    if (tS % DAY_S === 0) days.push(snapshot(twin));
    for (const [system, harm] of harms.entries()) noteHarm(twin, system, harm, tS);
  }
  twin.onEvent = null;
  twin.gains = null;
  return {
    signs,
    columns,
    air,
    airProbes,
    routine,
    notices,
    days,
    standIns,
    harms,
    gains,
    asked: leversAsked(twin),
  };
}

function noteHarm(twin: Twin, system: number, harm: NormalLife["harms"][number], tS: number): void {
  for (const end of ENDS) if (harm.times[end] > tS && isHarmed(twin, end, system)) harm.times[end] = tS;
  if (harm.times.early === tS) harm.what = worstHarm(twin, system);
}

/** The same life as far as these systems see it. */
export function normalCourseOf(
  life: NormalLife,
  model: Model,
  systems: readonly number[],
  places: number,
): NormalCourse {
  const columns = signColumns(model, systems);
  const placeOf = new Map(life.columns.map(({ name }, place) => [name, place]));
  const taken = columns.map(({ name }) => placeOf.get(name) ?? 0);
  const signs = new Float64Array(places * columns.length);
  for (let place = 0; place < places; place++)
    for (let index = 0; index < columns.length; index++)
      signs[place * columns.length + index] = life.signs[place * life.columns.length + taken[index]];
  const harm = (end: HarmEnd) => Math.min(...systems.map((system) => life.harms[system].times[end]));
  const first = systems.find((system) => life.harms[system].times.early === harm("early"));
  return {
    ...life,
    columns,
    signs,
    notices: life.notices.filter(({ part }) => isHeard(model, part, systems)),
    harm: { early: harm("early"), likely: harm("likely"), late: harm("late") },
    harmWhat: first === undefined ? null : life.harms[first].what,
  };
}

/** Whether a rule is run where only these systems are simulated. */
function isHeard({ site, lookers, islands }: Model, rule: string, systems: readonly number[]): boolean {
  const place = site.rules.findIndex(({ id }) => id === rule);
  const island = islands[lookers.find(({ rules }) => rules.includes(place))?.island ?? 0];
  return island.systems.length === 0 || island.systems.some(({ index }) => systems.includes(index));
}
