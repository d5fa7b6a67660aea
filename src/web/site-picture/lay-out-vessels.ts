import type { Body, Sensor, SettledLife, Site } from "../../server/contract/index.ts";
import { measure } from "../parts/format.ts";
import { words } from "../words.ts";
import { clamp, lines, SIZES, staggered, textWidth } from "./geometry.ts";
import type { Box, Spot, Vessel } from "./shapes.ts";
import { type BodyParts, sortBody } from "./sort-parts.ts";
import { symbolSize } from "./symbol-size.ts";

/** How closely to draw: from roomy to tight, the first that fits the page is taken. */
export interface Density {
  /** Scale of the waters, px per metre across. */
  readonly pxPerM: number;
  /** Lines of labels under the devices of a sump. */
  readonly rows: number;
  readonly leastSlot: number;
}

/** Heights are drawn larger than widths, as on a section, so that levels can be seen. */
const HEIGHT_FACTOR = 1.45;
const FREEBOARD = 14;
/** The surface of a display is drawn where it stands, within what keeps its name under water, px under its rim. */
const LEAST_FREEBOARD = 7;
const MOST_FREEBOARD = 26;
const LABEL_LINE = 14;
const SYMBOL_HEIGHT = 46;
const FEW_SENSORS = 2;
/** Air over the water of a sump: its name stands there. */
const SUMP_AIR = 44;
/** Lines of labels that a sump has room for. */
const LABEL_ROWS = 3;
/** The surface of a sump is drawn where it stands, within what keeps its name over it and its devices in it, px. */
const LEAST_AIR = 26;
const MOST_AIR = 56;
/** In a narrow picture what is in a sump stands in ranks of at least so many. */
const LEAST_RANK = 4;
const RANK_HEIGHT = SYMBOL_HEIGHT + LABEL_ROWS * LABEL_LINE + 8;
/** Height of a sump with one rank, whatever is in it: so one more device moves no other water. */
export const LOWER_HEIGHT = SUMP_AIR + 8 + SYMBOL_HEIGHT + LABEL_ROWS * LABEL_LINE + 8;

export interface Drawn {
  readonly vessel: Vessel;
  readonly spots: readonly Spot[];
}

/** Share of its full water at which a body stands. */
export function levelOf(body: Body, settled: SettledLife | null): number {
  const litres = settled?.bodies[body.id]?.volumeL ?? body.volumeL * body.fill;
  return clamp(litres / body.volumeL, 0, 1.12);
}

/** Share of what it can hold to its rim that a water stands at: how near it is to running over. */
function rimShare(body: Body, settled: SettledLife | null): number {
  const litres = settled?.bodies[body.id]?.volumeL ?? body.volumeL * body.fill;
  return clamp(litres / Math.max(body.brimL, body.volumeL, 1), 0, 1);
}

export function waterWords(body: Body, settled: SettledLife | null): string {
  const litres = settled?.bodies[body.id]?.volumeL ?? body.volumeL * body.fill;
  return measure(litres, words.units.L, litres < 10 ? 1 : 0);
}

/** A display: its lamp and what else hangs over it, pumps at its walls, sensors at the right, the rest over its floor. */
export function drawUpper(
  site: Site,
  body: Body,
  left: number,
  captionWords: string,
  settled: SettledLife | null,
  density: Density,
): Drawn & { readonly top: number } {
  const parts = sortBody(site, body);
  const sensorWidth = Math.max(0, ...parts.sensors.map(({ id }) => textWidth(id)));
  const wallWidth = Math.max(0, ...parts.walls.map(({ id }) => textWidth(id)));
  const onBothWalls = pumpsOnBothWalls(parts);
  const inside = [...parts.pumps, ...parts.inside];
  const stagger = staggered(
    inside.map(({ id }) => id),
    density.rows,
    density.leastSlot,
  );
  const aboveWidth = parts.above.length === 0 ? 0 : 70 + 34 * (parts.above.length - 1);
  const width = Math.max(
    Math.sqrt(body.surfaceM2 * 2) * density.pxPerM,
    Math.max(textWidth(captionWords, SIZES.name), 60) + 28 + (sensorWidth > 0 ? sensorWidth + 34 : 0),
    onBothWalls ? 2 * wallWidth + 74 : wallWidth + 44 + (sensorWidth > 0 && wallWidth > 0 ? sensorWidth + 40 : 0),
    inside.length * stagger.slot + 28 + 2 * stagger.overhang,
    aboveWidth,
  );
  const insideHeight = inside.length === 0 ? 0 : SYMBOL_HEIGHT + density.rows * LABEL_LINE + 8;
  const wallHeight = parts.walls.length === 0 ? 0 : Math.ceil(parts.walls.length / (onBothWalls ? 2 : 1)) * 30 + 14;
  const depth = Math.max(
    body.depthM * density.pxPerM * HEIGHT_FACTOR,
    62 + insideHeight + wallHeight,
    30 + sensorsHeight(parts, settled) + (onBothWalls ? wallHeight + insideHeight : 0),
  );
  const rim = -(depth + FREEBOARD);
  const waterY = rim + clamp((depth + FREEBOARD) * (1 - rimShare(body, settled)), LEAST_FREEBOARD, MOST_FREEBOARD);
  const box: Box = { x: left, y: rim, width, height: depth + FREEBOARD };
  const above = placeAbove(parts, box);
  const vessel: Vessel = {
    ...box,
    body,
    waterY,
    tier: "upper",
    hasRock: body.rockKg > 0,
    caption: { text: captionWords, x: left + 14, y: waterY + 28, anchor: "start", on: "water", large: true },
    note: { text: waterWords(body, settled), x: left + 14, y: waterY + 46, anchor: "start", on: "water" },
  };
  const spots = [
    ...above.spots,
    ...placeWalls(parts, box, -insideHeight),
    ...placeSensors(parts, box, waterY, settled),
    ...placeInside(inside, {
      x: left + 14 + stagger.overhang,
      y: -insideHeight,
      slot: stagger.slot,
      rows: density.rows,
      tier: "upper",
    }),
  ];
  return { vessel, spots, top: above.top };
}

/** Lamp, feeder, fan: over the rim, with their labels on as many lines as they need. */
function placeAbove(parts: BodyParts, box: Box): { readonly spots: readonly Spot[]; readonly top: number } {
  const lampWidth = Math.max(60, box.width * 0.5);
  let boxAt = box.x + 18 + lampWidth + 22;
  const placed = parts.above.map((device) => {
    const { width, height } = symbolSize(device.kind);
    if (device.kind === "light")
      return { device, x: box.x + 14 + lampWidth / 2, y: box.y - 27, width: lampWidth, height };
    const x = Math.min(boxAt, box.x + box.width - width / 2);
    boxAt += 34;
    return { device, x, y: box.y - 4 - height / 2, width, height };
  });
  const spansOf = placed.map(({ device, x }) => ({
    from: x - textWidth(device.id) / 2,
    to: x + textWidth(device.id) / 2,
  }));
  const rows = lines(spansOf);
  const base = box.y - 40;
  const spots = placed.map(({ device, x, y, width, height }, i): Spot => {
    const baseline = base - rows[i] * 15;
    const needsLeader = y - height / 2 - baseline > 12;
    return {
      part: device,
      x,
      y,
      width,
      height,
      tier: "upper",
      label: {
        text: device.id,
        x,
        y: baseline,
        anchor: "middle",
        on: "paper",
        ...(needsLeader ? { leader: { x, from: baseline + 3, to: y - height / 2 } } : {}),
      },
    };
  });
  return { spots, top: base - Math.max(-1, ...rows) * 15 - 12 };
}

/** Sensors hang at the right: beside more than a few of them, all pumps are at the left. */
function pumpsOnBothWalls({ walls, sensors }: BodyParts): boolean {
  return walls.length > 1 && sensors.length <= FEW_SENSORS;
}

/** @param floor What stands in the water reaches up to here; pumps hang above it. */
function placeWalls(parts: BodyParts, box: Box, floor: number): readonly Spot[] {
  const { width, height } = symbolSize("wave-pump");
  const onBoth = pumpsOnBothWalls(parts);
  const rows = Math.ceil(parts.walls.length / (onBoth ? 2 : 1));
  return parts.walls.map((device, i) => {
    const isLeft = !onBoth || i % 2 === 0;
    const x = isLeft ? box.x + 16 : box.x + box.width - 16;
    const y = floor - 18 - (rows - 1 - (onBoth ? Math.floor(i / 2) : i)) * 30 - (isLeft && onBoth ? 12 : 0);
    return {
      part: device,
      x,
      y,
      width,
      height,
      label: { text: device.id, x: isLeft ? x + 16 : x - 16, y: y + 5, anchor: isLeft ? "start" : "end", on: "water" },
      tier: "upper",
    };
  });
}

/** Lines that a sensor takes: one for its id, one for what it would read. */
const SENSOR_LINE = { bare: 22, reading: 36 };

function readingOf(sensor: Sensor, settled: SettledLife | null): string | null {
  const life = settled?.bodies[sensor.at];
  if (life === undefined) return null;
  return sensor.measures === "temperature" ? measure(life.temperatureC, words.units.C, 1) : null;
}

function sensorsHeight(parts: BodyParts, settled: SettledLife | null): number {
  return parts.sensors.reduce(
    (sum, sensor) => sum + (readingOf(sensor, settled) === null ? SENSOR_LINE.bare : SENSOR_LINE.reading),
    0,
  );
}

function placeSensors(parts: BodyParts, box: Box, waterY: number, settled: SettledLife | null): readonly Spot[] {
  let y = waterY + 26;
  return parts.sensors.map((sensor): Spot => {
    const x = box.x + box.width - 16;
    const reading = readingOf(sensor, settled);
    const spot: Spot = {
      part: sensor,
      x,
      y,
      width: 12,
      height: 16,
      label: { text: sensor.id, x: x - 11, y: y + 4, anchor: "end", on: "water" },
      ...(reading === null ? {} : { reading }),
      tier: "upper",
    };
    y += reading === null ? SENSOR_LINE.bare : SENSOR_LINE.reading;
    return spot;
  });
}

/** Devices and sensors in a row, labels under them on lines in turn. */
function placeInside(
  parts: readonly Spot["part"][],
  row: {
    readonly x: number;
    readonly y: number;
    readonly slot: number;
    readonly rows: number;
    readonly tier: "upper" | "lower";
    readonly unlabelled?: ReadonlySet<string>;
  },
): readonly Spot[] {
  let labelled = 0;
  return parts.map((part, i) => {
    const { width, height } = symbolSize("kind" in part ? part.kind : "sensor");
    const x = row.x + (i + 0.5) * row.slot;
    const y = row.y + SYMBOL_HEIGHT / 2;
    if (row.unlabelled?.has(part.id) === true) return { part, x, y, width, height, label: null, tier: row.tier };
    const line = labelled % row.rows;
    labelled += 1;
    const baseline = row.y + SYMBOL_HEIGHT + (line + 1) * LABEL_LINE - 2;
    const leader = line === 0 ? {} : { leader: { x, from: y + height / 2, to: baseline - 10 } };
    return {
      part,
      x,
      y,
      width,
      height,
      label: { text: part.id, x, y: baseline, anchor: "middle", on: "water", ...leader },
      tier: row.tier,
    };
  });
}

/**
 * A sump or refugium: all that is in it in a row, or in ranks where the row would be longer than `mostWidth`; pumps first,
 * whose names stand at their pipes.
 */
export function drawLower(
  site: Site,
  body: Body,
  left: number,
  top: number,
  name: string,
  settled: SettledLife | null,
  density: Density,
  mostWidth: number,
): Drawn {
  const { pumps, inside, walls, above, sensors } = sortBody(site, body);
  const labelled = [...inside, ...walls, ...above, ...sensors];
  const all = [...pumps, ...labelled];
  const stagger = staggered(
    labelled.map(({ id }) => id),
    density.rows,
    density.leastSlot,
  );
  const litres = waterWords(body, settled);
  const nameWidth = textWidth(name, SIZES.sounding);
  const perRank = Math.max(LEAST_RANK, Math.floor((mostWidth - 20 - stagger.overhang) / stagger.slot));
  const ranks = Array.from({ length: Math.max(1, Math.ceil(all.length / perRank)) }, (_, rank) =>
    all.slice(rank * perRank, (rank + 1) * perRank),
  );
  const width = Math.max(
    Math.min(all.length, perRank) * stagger.slot + 20 + stagger.overhang,
    nameWidth + textWidth(litres, SIZES.sounding) + 40,
    Math.sqrt(body.surfaceM2 * 2) * density.pxPerM * 0.8,
  );
  const height = LOWER_HEIGHT + (ranks.length - 1) * RANK_HEIGHT;
  const waterY = top + clamp(LOWER_HEIGHT * (1 - rimShare(body, settled)), LEAST_AIR, MOST_AIR);
  const vessel: Vessel = {
    x: left,
    y: top,
    width,
    height,
    body,
    waterY,
    tier: "lower",
    hasRock: false,
    caption: { text: name, x: left + 8, y: waterY - 8, anchor: "start", on: "paper", large: false },
    note: { text: litres, x: left + 14 + nameWidth, y: waterY - 8, anchor: "start", on: "paper" },
  };
  const unlabelled = new Set(pumps.map(({ id }) => id));
  const spots = ranks.flatMap((rank, i) =>
    placeInside(rank, {
      x: left + 10,
      y: top + SUMP_AIR + 8 + i * RANK_HEIGHT,
      slot: stagger.slot,
      rows: density.rows,
      tier: "lower",
      unlabelled,
    }),
  );
  return { vessel, spots };
}
