import type { SettledLife, Site } from "../../server/contract/index.ts";
import { measure } from "../parts/format.ts";
import { words } from "../words.ts";
import { SIZES, type Spot, textWidth } from "./geometry.ts";
import { layOutSystem, type SystemLayout } from "./lay-out-system.ts";
import type { Density } from "./lay-out-vessels.ts";

/** A system where it stands in the whole picture. */
export interface PlacedSystem extends SystemLayout {
  readonly x: number;
  /** Where its stand lies. */
  readonly y: number;
}

/** Systems side by side on one floor. */
export interface Storey {
  readonly systems: readonly PlacedSystem[];
  readonly rooms: readonly { readonly id: string; readonly text: string; readonly x: number; readonly y: number }[];
  /** Between rooms. */
  readonly walls: readonly { readonly x: number; readonly top: number }[];
  readonly floor: number;
  /** Sensors of the rooms themselves: on the floor, or in the air beside the room's name. */
  readonly roomSpots: readonly Spot[];
}

const DENSITIES: readonly Density[] = [
  { pxPerM: 230, rows: 2, leastSlot: 40 },
  { pxPerM: 205, rows: 2, leastSlot: 36 },
  { pxPerM: 205, rows: 3, leastSlot: 34 },
  { pxPerM: 165, rows: 3, leastSlot: 32 },
];
const BETWEEN = 20;
const ROOM_GAP = 18;
/** Where there is room, systems begin right of the names of circuits, so that their cables go straight down. */
const CLEAR_OF_NAMES = 110;
/** Room for the names of rooms over everything. */
const HEADER = 34;
/** From the feet of sumps to the floor line, which is where cables go. */
const FEET = 42;

/** Draws the systems as roomily as they fit side by side; where even the tightest does not fit, on several floors. */
export function layOutStoreys(
  site: Site,
  systemIds: readonly string[],
  settled: SettledLife | null,
  width: number,
  nameOf: (id: string) => string,
): readonly Storey[] {
  const ids = byRoom(site, systemIds);
  const attempts = DENSITIES.map((density) =>
    onOneFloor(ids, (id, lowerBy) => layOutSystem(site, id, settled, density, nameOf, lowerBy)),
  );
  const layouts = attempts.find((attempt) => widthOf(attempt) <= width) ?? attempts[attempts.length - 1];
  let top = 0;
  return inRows(layouts, width).map((row) => {
    const storey = layOutStorey(site, row, top, width);
    top = storey.floor;
    return storey;
  });
}

function onOneFloor(
  ids: readonly string[],
  layOut: (id: string, lowerBy: number) => SystemLayout,
): readonly SystemLayout[] {
  const layouts = ids.map((id) => layOut(id, 0));
  const lowest = Math.max(...layouts.map(({ bottom }) => bottom));
  return layouts.map((layout) => (layout.bottom === lowest ? layout : layOut(layout.id, lowest - layout.bottom)));
}

/** Systems of one room stand together, rooms in the order of the file. */
function byRoom(site: Site, systemIds: readonly string[]): readonly string[] {
  const chosen = site.systems.filter(({ id }) => systemIds.includes(id));
  return site.rooms.flatMap((room) => chosen.filter((system) => system.room === room.id)).map(({ id }) => id);
}

function gapBefore(layouts: readonly SystemLayout[], i: number): number {
  if (i === 0) return 0;
  return BETWEEN + (layouts[i].room === layouts[i - 1].room ? 0 : ROOM_GAP);
}

function widthOf(layouts: readonly SystemLayout[]): number {
  return layouts.reduce((sum, layout, i) => sum + layout.width + gapBefore(layouts, i), 0);
}

function inRows(layouts: readonly SystemLayout[], width: number): readonly (readonly SystemLayout[])[] {
  const rows: SystemLayout[][] = [];
  for (const layout of layouts) {
    const row = rows[rows.length - 1];
    if (row !== undefined && widthOf([...row, layout]) <= width) row.push(layout);
    else rows.push([layout]);
  }
  return rows;
}

function layOutStorey(site: Site, row: readonly SystemLayout[], top: number, width: number): Storey {
  const stand = top + HEADER + Math.max(...row.map((layout) => -layout.top));
  const lowest = Math.max(...row.map(({ bottom }) => bottom));
  const spare = Math.max(0, width - widthOf(row));
  const air = row.length > 1 ? Math.min(40, spare / (row.length - 1)) : 0;
  let x = Math.min(spare - air * (row.length - 1), CLEAR_OF_NAMES);
  const walls: { x: number; top: number }[] = [];
  const rooms: { id: string; text: string; x: number; y: number }[] = [];
  const systems = row.map((layout, i): PlacedSystem => {
    const gap = gapBefore(row, i) + (i > 0 ? air : 0);
    if (i > 0 && layout.room !== row[i - 1].room) walls.push({ x: x + gap / 2, top: top + 8 });
    x += gap;
    if (i === 0 || layout.room !== row[i - 1].room)
      rooms.push({
        id: layout.room,
        text: roomWords(site, layout.room),
        x: i === 0 ? 0 : x - gap / 2 + 14,
        y: top + 22,
      });
    const placed = { ...layout, x, y: stand };
    x += layout.width;
    return placed;
  });
  const floor = stand + lowest + FEET;
  return { systems, rooms, walls, floor, roomSpots: rooms.flatMap((room) => roomSpots(site, room, systems, floor)) };
}

/** A leak sensor lies on the floor behind the last system of its room; what measures the air hangs beside the room's name. */
function roomSpots(
  site: Site,
  room: Storey["rooms"][number],
  systems: readonly PlacedSystem[],
  floor: number,
): readonly Spot[] {
  const here = site.sensors.filter(({ at, atKind }) => atKind === "room" && at === room.id);
  const last = systems.filter((system) => system.room === room.id).at(-1);
  let onFloor = last === undefined ? room.x + 40 : last.x + last.width - 20;
  let inAir = room.x + textWidth(room.text, SIZES.sounding) + 24;
  return here.map((part): Spot => {
    const size = textWidth(part.id);
    if (part.measures === "leak") {
      const x = Math.max(room.x + 20, onFloor);
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
      y: room.y - 4,
      width: 12,
      height: 16,
      label: { text: part.id, x: x + 11, y: room.y, anchor: "start", on: "paper" },
      tier: "upper",
    };
  });
}

function roomWords(site: Site, id: string): string {
  const room = site.rooms.find((candidate) => candidate.id === id);
  return room === undefined ? id : words.picture.room(id, measure(room.holdsC, words.units.C, 0));
}
