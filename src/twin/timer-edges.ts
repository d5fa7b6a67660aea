/** The moments at which any timer of a site turns something. */
import { type LocalClock, nextWindowChange, type WallWindow } from "../foundation/index.ts";
import type { Model } from "./model.ts";

/** Moments from one time to another, ascending, s. Worked out once a run. */
export interface Edges {
  /** By island: when a timer of one of its devices turns. */
  readonly timers: readonly Float64Array[];
  /** When people come to a room or leave it, or its heating is set back or up. */
  readonly rooms: Float64Array;
}

export function edgesOf({ site, islands }: Model, clock: LocalClock, fromS: number, toS: number): Edges {
  const of = (windows: readonly (readonly WallWindow[])[]) => changes(windows, clock, fromS, toS);
  return {
    timers: islands.map(({ timers }) => of(timers.map((device) => site.devices[device].schedule))),
    rooms: of(site.rooms.flatMap(({ setBack, occupied }) => [setBack?.during ?? [], occupied])),
  };
}

function changes(
  windows: readonly (readonly WallWindow[])[],
  clock: LocalClock,
  fromS: number,
  toS: number,
): Float64Array {
  const edges = new Set<number>();
  for (const schedule of windows) {
    if (schedule.length === 0) continue;
    let next = nextWindowChange(schedule, clock, fromS);
    while (next <= toS) {
      edges.add(next);
      next = nextWindowChange(schedule, clock, next);
    }
  }
  return Float64Array.from([...edges].sort((a, b) => a - b));
}
