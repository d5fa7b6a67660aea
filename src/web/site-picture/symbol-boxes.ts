/** What the symbols of the picture cover: no label may lie over one. */
import type { Below, Box, Scene, Storey } from "./shapes.ts";

export function symbolsOf({ storeys, below }: Pick<Scene, "storeys" | "below">): readonly Box[] {
  return [...storeys.flatMap(symbolsOfStorey), ...symbolsBelow(below)];
}

function middle(x: number, y: number, width: number, height: number): Box {
  return { x: x - width / 2, y: y - height / 2, width, height };
}

const ARROW = 9;

function symbolsOfStorey({ systems, roomSpots }: Storey): readonly Box[] {
  return [
    ...systems.flatMap(({ x, y, spots, pipes }) => [
      ...spots.map((spot) => middle(x + spot.x, y + spot.y, spot.width, spot.height)),
      ...pipes.flatMap(({ arrow }) => (arrow === null ? [] : [arrowBox(x + arrow.x, y + arrow.y, arrow.way)])),
    ]),
    ...roomSpots.map((spot) => middle(spot.x, spot.y, spot.width, spot.height)),
  ];
}

function arrowBox(x: number, y: number, way: "up" | "down" | "left" | "right"): Box {
  if (way === "up") return { x: x - ARROW / 2, y, width: ARROW, height: ARROW };
  if (way === "down") return { x: x - ARROW / 2, y: y - ARROW, width: ARROW, height: ARROW };
  return { x: way === "left" ? x : x - ARROW, y: y - ARROW / 2, width: ARROW, height: ARROW };
}

const HEAD = 5;

function symbolsBelow({ lanes, stations, ladder, wires }: Below): readonly Box[] {
  return [
    ...lanes.flatMap(({ sensors, y }) => sensors.map(({ x }) => middle(x, y, 12, 16))),
    ...stations.map(({ x, y, width, height }) => ({ x, y, width, height })),
    ...ladder.map(({ x, y }) => middle(x, y, 2 * HEAD, 2 * HEAD)),
    ...ladder.flatMap(({ step }) =>
      step === null || step.arrow === null ? [] : [arrowBox(step.arrow.x, step.arrow.y, step.arrow.way)],
    ),
    ...wires.flatMap(({ arrow }) => (arrow === null ? [] : [arrowBox(arrow.x, arrow.y, "down")])),
  ];
}
