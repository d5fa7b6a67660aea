/** How the air of the rooms goes on in normal life: seasons, and weekends on which a building is let cool. */
import { AIR_COLUMNS } from "../twin/index.ts";
import type { NormalCourse } from "./normal-course.ts";

const DAY_S = 86_400;

/** K by which the air ahead falls below, and rises above, what it was on the last day. */
export interface AirShift {
  readonly down: number;
  readonly up: number;
}

export function airAhead(normal: NormalCourse, grid: Float64Array, room: number, place: number): AirShift {
  let from = place;
  while (from > 0 && grid[from] > grid[place] - DAY_S) from--;
  const last = rangeOf(normal, room, from, place);
  const ahead = rangeOf(normal, room, place, grid.length - 1);
  return { down: Math.min(0, ahead.least - last.least), up: Math.max(0, ahead.most - last.most) };
}

function rangeOf({ air, airProbes }: NormalCourse, room: number, from: number, to: number) {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let place = from; place <= to; place++) {
    const airC = air[place * airProbes.length + AIR_COLUMNS * room];
    least = Math.min(least, airC);
    most = Math.max(most, airC);
  }
  return { least, most };
}
