/** The course that normal life takes from the moment of the fault on, had nothing failed. */
import {
  advance,
  forgetAsked,
  type HarmWhat,
  isHarmed,
  leversAsked,
  restore,
  snapshot,
  type Twin,
  type TwinEvent,
  truthProbes,
  worstHarm,
} from "../twin/index.ts";
import type { SignColumn } from "./sign-columns.ts";

const DAY_S = 86_400;

/** What normal life looks like on the grid. */
export interface NormalCourse {
  /** Value of each column at each place of the grid, row by row. */
  readonly signs: Float64Array;
  readonly columns: readonly SignColumn[];
  /** Air of each of the site's rooms at each place of the grid, degrees C, row by row. */
  readonly airC: Float64Array;
  readonly rooms: number;
  /** Rules that start or give notice in normal life. */
  readonly routine: ReadonlySet<string>;
  readonly notices: readonly TwinEvent[];
  /** States on whole days, to see whether a fault moved anything at all. */
  readonly days: readonly Float64Array[];
  /** When plain life itself does harm (a barrel that runs dry, a heater that is too small), s; Infinity where it does not. */
  readonly harm: Readonly<Record<"early" | "likely" | "late", number>>;
  readonly harmWhat: HarmWhat | null;
  /** Devices that stood in within normal life. */
  readonly standIns: ReadonlySet<string>;
  /** Marks of the resting levers that were asked for. */
  readonly asked: Uint8Array;
}

/** Lives from a settled state through the grid. */
export function liveNormally(
  twin: Twin,
  start: Float64Array,
  grid: Float64Array,
  columns: readonly SignColumn[],
): NormalCourse {
  const routine = new Set<string>();
  const standIns = new Set<string>();
  const notices: TwinEvent[] = [];
  restore(twin, start);
  forgetAsked(twin);
  advance(twin, 0);
  twin.onEvent = (event) => {
    if (event.kind === "rule" || event.kind === "notice") routine.add(event.part);
    if (event.kind === "notice") notices.push(event);
    if (event.kind === "stand-in") standIns.add(event.part);
  };
  const signs = new Float64Array(grid.length * columns.length);
  const air = truthProbes(twin.model).filter(({ name }) => name.endsWith(".air_c"));
  const airC = new Float64Array(grid.length * air.length);
  const days: Float64Array[] = [];
  const harm = { early: Number.POSITIVE_INFINITY, likely: Number.POSITIVE_INFINITY, late: Number.POSITIVE_INFINITY };
  let harmWhat: HarmWhat | null = null;
  for (const [place, tS] of grid.entries()) {
    advance(twin, tS);
    for (let index = 0; index < columns.length; index++)
      signs[place * columns.length + index] = columns[index].read(twin);
    for (let room = 0; room < air.length; room++) airC[place * air.length + room] = air[room].read(twin);
    if (tS % DAY_S === 0) days.push(snapshot(twin));
    for (const end of ["early", "likely", "late"] as const) if (harm[end] > tS && isHarmed(twin, end)) harm[end] = tS;
    if (harm.early === tS) harmWhat = worstHarm(twin);
  }
  twin.onEvent = null;
  return {
    signs,
    columns,
    airC,
    rooms: air.length,
    routine,
    notices,
    days,
    standIns,
    harm,
    harmWhat,
    asked: leversAsked(twin),
  };
}
