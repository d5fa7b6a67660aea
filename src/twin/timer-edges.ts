/** The moments at which any timer of a site turns something. */
import { type LocalClock, nextWindowChange } from "../foundation/index.ts";
import type { Site } from "../site/index.ts";

/** All times at which a timer of the site turns something, ascending, from one time to another, s. Worked out once a run. */
export function timerEdges(site: Site, clock: LocalClock, fromS: number, toS: number): Float64Array {
  const edges = new Set<number>();
  const windows = [
    ...site.devices.map((device) => device.schedule),
    ...site.rooms.map((room) => room.setBack?.during ?? []),
  ];
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
