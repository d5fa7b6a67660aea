import type { SettledLife, Site } from "../../server/contract/index.ts";
import { measure } from "../parts/format.ts";
import { words } from "../words.ts";
import { SIZES, textWidth } from "./geometry.ts";
import { layOutSystem } from "./lay-out-system.ts";
import type { Density } from "./lay-out-vessels.ts";
import type { Label, PlacedSystem, Spot, Storey, SystemLayout } from "./shapes.ts";

const DENSITIES: readonly Density[] = [
  { pxPerM: 230, rows: 2, leastSlot: 40 },
  { pxPerM: 205, rows: 2, leastSlot: 36 },
  { pxPerM: 205, rows: 3, leastSlot: 34 },
  { pxPerM: 165, rows: 3, leastSlot: 32 },
];
const BETWEEN = 20;
const ROOM_GAP = 18;
/** Where there is room, systems begin right of the names of circuits, so that their cables go straight down. */
const CLEAR_OF_NAMES = 72;
/** Room for the names of rooms over everything. */
const HEADER = 34;
/** From the feet of sumps to the floor line, which is where cables go. */
const FEET = 42;

/** How closely each system is drawn, and how wide it came out. */
export type Drawn = ReadonlyMap<string, { readonly density: number; readonly width: number }>;

/**
 * Draws the systems as roomily as they fit side by side; where even the tightest does not fit, on several floors.
 *
 * @param before How they were drawn before a change: then each is drawn as it was, and where that has no room any more only
 * those that have grown are drawn more tightly, so that nothing jumps in a system that nobody touched.
 */
export function layOutStoreys(
  site: Site,
  systemIds: readonly string[],
  settled: SettledLife | null,
  width: number,
  nameOf: (id: string) => string,
  before: Drawn | null = null,
): readonly Storey[] {
  const ids = byRoom(site, systemIds);
  const mostWidth = ids.length === 1 ? width : Number.POSITIVE_INFINITY;
  const draw = (id: string, density: number, lowerBy = 0): Dense => ({
    density,
    ...layOutSystem(site, id, settled, DENSITIES[density], nameOf, lowerBy, mostWidth),
  });
  const close = before === null ? uniform(ids, width, draw) : asBefore(ids, width, before, draw);
  const lowest = Math.max(...close.map(({ bottom }) => bottom));
  const layouts = close.map((one) => (one.bottom === lowest ? one : draw(one.id, one.density, lowest - one.bottom)));
  let top = 0;
  // A room that takes several floors of the picture has its own sensors on the first of them.
  const begun = new Set<string>();
  return inRows(layouts, width).map((row) => {
    const storey = layOutStorey(site, row, top, width, begun);
    for (const { room } of row) begun.add(room);
    top = storey.floor;
    return storey;
  });
}

type Dense = SystemLayout & { readonly density: number };
type DrawDense = (id: string, density: number) => Dense;

function uniform(ids: readonly string[], width: number, draw: DrawDense): readonly Dense[] {
  const attempts = DENSITIES.map((_, density) => ids.map((id) => draw(id, density)));
  return attempts.find((attempt) => widthOf(attempt) <= width) ?? attempts[attempts.length - 1];
}

function asBefore(ids: readonly string[], width: number, before: Drawn, draw: DrawDense): readonly Dense[] {
  const usual = Math.max(0, ...[...before.values()].map(({ density }) => density));
  const layouts = ids.map((id) => draw(id, before.get(id)?.density ?? usual));
  const wasOneRow =
    widthOf(
      layouts.filter(({ id }) => before.has(id)).map((one) => ({ ...one, width: before.get(one.id)?.width ?? 0 })),
    ) <= width;
  for (let step = 1; wasOneRow && step < DENSITIES.length && widthOf(layouts) > width; step++) {
    layouts.forEach((one, i) => {
      const grown = one.width > (before.get(one.id)?.width ?? 0) + 0.5;
      if (grown && one.density + 1 < DENSITIES.length) layouts[i] = draw(one.id, one.density + 1);
    });
  }
  return layouts;
}

/** To be given to the next layout of the same picture. */
export function drawnIn(storeys: readonly Storey[]): Drawn {
  return new Map(
    storeys.flatMap(({ systems }) => systems.map(({ id, density, width }) => [id, { density, width }] as const)),
  );
}

/** Systems of one room stand together, rooms in the order of the file. */
function byRoom(site: Site, systemIds: readonly string[]): readonly string[] {
  const chosen = site.systems.filter(({ id }) => systemIds.includes(id));
  return site.rooms.flatMap(({ id }) => chosen.filter((system) => system.room === id)).map(({ id }) => id);
}

function gapBefore(layouts: readonly SystemLayout[], i: number): number {
  if (i === 0) return 0;
  return BETWEEN + (layouts[i].room === layouts[i - 1].room ? 0 : ROOM_GAP);
}

function widthOf(layouts: readonly SystemLayout[]): number {
  return layouts.reduce((sum, layout, i) => sum + layout.width + gapBefore(layouts, i), 0);
}

function inRows(layouts: readonly Dense[], width: number): readonly (readonly Dense[])[] {
  const rows: Dense[][] = [];
  for (const layout of layouts) {
    const row = rows[rows.length - 1];
    if (row !== undefined && widthOf([...row, layout]) <= width) row.push(layout);
    else rows.push([layout]);
  }
  return rows;
}

function layOutStorey(
  site: Site,
  row: readonly Dense[],
  top: number,
  width: number,
  begun: ReadonlySet<string>,
): Storey {
  const stand = top + HEADER + Math.max(...row.map((layout) => -layout.top));
  const lowest = Math.max(...row.map(({ bottom }) => bottom));
  const spare = Math.max(0, width - widthOf(row));
  // What is left over first keeps the cables clear of the names of the circuits, then the systems from each other.
  const left = Math.min(spare, CLEAR_OF_NAMES);
  const air = row.length > 1 ? Math.min(40, (spare - left) / (row.length - 1)) : 0;
  let x = left;
  const walls: { x: number; top: number }[] = [];
  const rooms: { id: string; words: string; label: Label }[] = [];
  const systems = row.map((layout, i): PlacedSystem => {
    const gap = gapBefore(row, i) + (i > 0 ? air : 0);
    if (i > 0 && layout.room !== row[i - 1].room) walls.push({ x: x + gap / 2, top: top + 8 });
    x += gap;
    if (i === 0 || layout.room !== row[i - 1].room) {
      const text = roomWords(site, layout.room);
      const at = i === 0 ? 2 : x - gap / 2 + 14;
      rooms.push({ id: layout.room, words: text, label: { text, x: at, y: top + 22, anchor: "start", on: "paper" } });
    }
    const placed = { ...layout, x, y: stand };
    x += layout.width;
    return placed;
  });
  const floor = stand + lowest + FEET;
  return {
    systems,
    rooms,
    walls,
    floor,
    roomSpots: rooms.filter(({ id }) => !begun.has(id)).flatMap((room) => roomSpots(site, room, systems, floor)),
  };
}

/** A leak sensor lies on the floor behind the last system of its room; what measures the air hangs beside the room's name. */
function roomSpots(
  site: Site,
  { id, label }: Storey["rooms"][number],
  systems: readonly PlacedSystem[],
  floor: number,
): readonly Spot[] {
  const here = site.sensors.filter(({ at, atKind }) => atKind === "room" && at === id);
  const last = systems.filter((system) => system.room === id).at(-1);
  let onFloor = last === undefined ? label.x + 40 : last.x + last.width - 20;
  let inAir = label.x + textWidth(label.text, SIZES.sounding) + 24;
  return here.map((part): Spot => {
    const size = textWidth(part.id);
    if (part.measures === "leak") {
      const x = Math.max(label.x + 20, onFloor);
      onFloor = x - size - 50;
      return {
        part,
        x,
        y: floor - 5,
        width: 24,
        height: 12,
        label: { text: part.id, x: x - 16, y: floor - 6, anchor: "end", on: "paper" },
        tier: "lower",
      };
    }
    const x = inAir;
    inAir += size + 36;
    return {
      part,
      x,
      y: label.y - 4,
      width: 12,
      height: 16,
      label: { text: part.id, x: x + 11, y: label.y, anchor: "start", on: "paper" },
      tier: "upper",
    };
  });
}

function roomWords(site: Site, id: string): string {
  const room = site.rooms.find((candidate) => candidate.id === id);
  return room === undefined ? id : words.picture.room(id, measure(room.holdsC, words.units.C, 0));
}
