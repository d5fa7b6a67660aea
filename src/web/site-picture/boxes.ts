/** Where each part of the picture is, as a place that something can be put into. */
import { contains } from "./geometry.ts";
import type { Box, Point, Scene, Spot } from "./shapes.ts";
import type { Target } from "./targets.ts";

/** A circuit is drawn under each storey that it feeds: all of them take a plug. */
export type Boxes = ReadonlyMap<string, readonly Box[]>;

const AROUND = 5;

export function boxesOf({ storeys, below }: Scene): Boxes {
  const boxes = new Map<string, Box[]>();
  const add = (id: string, box: Box): void => void boxes.set(id, [...(boxes.get(id) ?? []), box]);
  const addSpot = ({ part, x, y, width, height }: Spot, left: number, top: number): void =>
    add(part.id, {
      x: left + x - width / 2 - AROUND,
      y: top + y - height / 2 - AROUND,
      width: width + 2 * AROUND,
      height: height + 2 * AROUND,
    });
  for (const storey of storeys) {
    for (const { id, label } of storey.rooms)
      add(id, { x: Math.max(0, label.x - 4), y: label.y - 16, width: 150, height: 24 });
    for (const system of storey.systems) {
      for (const { body, x, y, width, height } of system.vessels)
        add(body.id, { x: system.x + x, y: system.y + y, width, height });
      for (const spot of system.spots) addSpot(spot, system.x, system.y);
    }
    for (const spot of storey.roomSpots) addSpot(spot, 0, 0);
  }
  for (const lane of below.lanes) {
    add(lane.id, { x: 3, y: lane.y - 13, width: lane.to + 4, height: 29 });
    for (const { sensor, x } of lane.sensors) add(sensor.id, { x: x - 6, y: lane.y - 8, width: 12, height: 16 });
  }
  for (const { id, x, y, width, height } of below.stations)
    add(id, { x: x - 4, y: y - 4, width: width + 8, height: height + 8 });
  return boxes;
}

/** The place under a point: where several lie over each other the smallest, which lies on top. */
export function targetAt(targets: readonly Target[], boxes: Boxes, { x, y }: Point): Target | null {
  const hits = targets.flatMap((target) =>
    (boxes.get(target.id) ?? [])
      .filter((box) => contains(box, x, y))
      .map((box) => ({ target, size: box.width * box.height })),
  );
  const [first] = hits.sort((a, b) => a.size - b.size);
  return first?.target ?? null;
}
