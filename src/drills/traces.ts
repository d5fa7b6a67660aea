/** Traces put together: one after the other, and side by side. */
import { advance, restore } from "../twin/index.ts";
import { evenGrid, Recorder } from "./recorder.ts";
import type { Setting } from "./setting.ts";
import type { Trace } from "./types.ts";

type Series<T> = Readonly<Record<string, readonly T[]>>;

/** The first trace up to a minute, the second from there on. */
export function joined(first: Trace, second: Trace, fromMin: number): Trace {
  const keep = first.t_min.filter((minute) => minute < fromMin).length;
  const start = Math.max(
    second.t_min.findIndex((minute) => minute >= fromMin),
    0,
  );
  const join = <T>(a: readonly T[], b: readonly T[] = []) => [...a.slice(0, keep), ...b.slice(start)];
  const joinAll = <T>(a: Series<T>, b: Series<T>): Series<T> =>
    Object.fromEntries(Object.entries(a).map(([name, values]) => [name, join(values, b[name])]));
  return {
    t_min: join(first.t_min, second.t_min),
    truth: joinAll(first.truth, second.truth),
    sensed: joinAll(first.sensed, second.sensed),
  };
}

/** Normal life of a setting, at even steps. */
export function normalTrace(setting: Setting, only: readonly string[], stepMin: number, days: number): Trace {
  const { twin, start } = setting;
  const recorder = new Recorder(setting, only, stepMin);
  restore(twin, start);
  advance(twin, 0);
  for (const tS of evenGrid(days, stepMin)) {
    advance(twin, tS);
    recorder.take(twin, tS);
  }
  return recorder.trace();
}

/** Adds what went on elsewhere to a trace, moment by moment. */
export function withElsewhere(trace: Trace, elsewhere: Trace | null): Trace {
  if (elsewhere === null) return trace;
  const placeOf = new Map(elsewhere.t_min.map((minute, place) => [minute, place]));
  const places = trace.t_min.map((minute) => placeOf.get(minute) ?? elsewhere.t_min.length - 1);
  const picked = <T>(all: Series<T>): Series<T> =>
    Object.fromEntries(Object.entries(all).map(([name, values]) => [name, places.map((place) => values[place])]));
  return {
    t_min: trace.t_min,
    truth: { ...picked(elsewhere.truth), ...trace.truth },
    sensed: { ...picked(elsewhere.sensed), ...trace.sensed },
  };
}
