/**
 * Where the labels of the picture go at last: each to the first of its places where it covers no other label and no symbol
 * and is not cut at the edge; shortened where nowhere has room for all of it; left out where not even that helps. The whole
 * name is always in what a part says for ears and in its sheet.
 */
import { boxOf, overlap, SIZES } from "./geometry.ts";
import type { Box, Label, Lane, PlacedSystem, Rung, Scene, Spot, Station, Storey, Vessel } from "./shapes.ts";
import { symbolsOf } from "./symbol-boxes.ts";

type Place = Pick<Label, "x" | "y" | "anchor">;

/** Letters that must be left of a shortened label. */
const LEAST_LETTERS = 4;
/** Air that each label keeps, px. */
const AIR = 1.5;

/** Symbols, and the labels that have found their place. */
class Chart {
  readonly taken: Box[];
  readonly bounds: Box;

  constructor(symbols: readonly Box[], bounds: Box) {
    this.taken = [...symbols];
    this.bounds = bounds;
  }

  /** The label at the first of its places that has room; null where none has. */
  settle<L extends Label>(label: L, size: number, places: readonly Place[]): L | null {
    for (const text of shorter(label.text)) {
      for (const place of places) {
        const box = boxOf({ text, ...place }, size);
        const wide = { x: box.x - AIR, y: box.y, width: box.width + 2 * AIR, height: box.height };
        if (!this.isFree(wide)) continue;
        this.taken.push(wide);
        return { ...label, ...place, text };
      }
    }
    return null;
  }

  private isFree(box: Box): boolean {
    const { bounds } = this;
    const within =
      box.x >= bounds.x &&
      box.x + box.width <= bounds.x + bounds.width &&
      box.y >= bounds.y &&
      box.y + box.height <= bounds.y + bounds.height;
    return within && !this.taken.some((other) => overlap(box, other));
  }
}

/** The whole text, then ever less of it. */
function* shorter(text: string): Generator<string> {
  yield text;
  for (let letters = text.length - 2; letters >= LEAST_LETTERS; letters--)
    yield `${text
      .slice(0, letters)
      .trimEnd()
      .replace(/[-,_]+$/, "")}\u2026`;
}

/** Settles the labels of the whole picture: names of waters and places first, then parts, then figures. */
export function settleLabels({ storeys, below, width }: Scene): Scene {
  const chart = new Chart(symbolsOf({ storeys, below }), {
    x: 0,
    y: 0,
    width,
    height: below.bottom,
  });
  const named = storeys.map((storey) => nameWaters(chart, storey));
  const lanes = below.lanes.map((lane) => nameLane(chart, lane));
  const spotted = named.map((storey) => nameSpots(chart, storey));
  const ladder = below.ladder.map((rung) => nameRung(chart, rung));
  const piped = spotted.map((storey) => namePipes(chart, storey));
  const stations = below.stations.map((station) => noteStation(chart, station));
  return {
    storeys: piped,
    below: { ...below, lanes: lanes.map((lane) => nameSensors(chart, lane)), ladder, stations },
    width,
  };
}

/** Settles a label of a system, which counts from the system's own corner. */
function inSystem<L extends Label>(
  chart: Chart,
  { x, y }: PlacedSystem,
  label: L,
  size: number,
  places: readonly Place[],
): L | null {
  const moved = places.map((place) => ({ ...place, x: place.x + x, y: place.y + y }));
  const found = chart.settle(label, size, moved);
  return found === null ? null : { ...found, x: found.x - x, y: found.y - y };
}

function nameWaters(chart: Chart, storey: Storey): Storey {
  const rooms = storey.rooms.flatMap((room) => {
    const label = chart.settle(room.label, SIZES.sounding, [room.label]);
    return label === null ? [] : [{ ...room, label }];
  });
  const systems = storey.systems.map(
    (system): PlacedSystem => ({
      ...system,
      vessels: system.vessels.map((vessel): Vessel => {
        const { caption, note } = vessel;
        return {
          ...vessel,
          caption:
            caption === null
              ? null
              : inSystem(chart, system, caption, caption.large ? SIZES.name : SIZES.sounding, [caption]),
          note: note === null ? null : inSystem(chart, system, note, SIZES.sounding, [note]),
        };
      }),
    }),
  );
  return { ...storey, rooms, systems };
}

function nameSpots(chart: Chart, storey: Storey): Storey {
  return {
    ...storey,
    systems: storey.systems.map((system) => ({
      ...system,
      spots: system.spots.map((spot) =>
        nameSpot(
          spot,
          (label, places) => inSystem(chart, system, label, SIZES.device, places),
          (label) => inSystem(chart, system, label, SIZES.sounding, [label]),
        ),
      ),
    })),
    roomSpots: storey.roomSpots.map((spot) =>
      nameSpot(
        spot,
        (label, places) => chart.settle(label, SIZES.device, places),
        (label) => chart.settle(label, SIZES.sounding, [label]),
      ),
    ),
  };
}

const LINE = 14;

function nameSpot(
  spot: Spot,
  settle: (label: Label, places: readonly Place[]) => Label | null,
  settleReading: (label: Label) => Label | null,
): Spot {
  if (spot.label === null) return spot;
  const label = settle(spot.label, placesOf(spot, spot.label));
  const { reading, ...rest } = spot;
  if (label === null) return { ...rest, label: null };
  const under = reading === undefined ? null : settleReading({ ...label, text: reading, y: label.y + LINE });
  return { ...rest, label: withLeader(spot, label), ...(under === null ? {} : { reading: under.text }) };
}

/** Where it was meant to be; lines nearby; beside its symbol. */
function placesOf(spot: Spot, label: Label): readonly Place[] {
  const lines = [0, LINE, -LINE, 2 * LINE, -2 * LINE, 3 * LINE].map((by) => ({
    x: label.x,
    y: label.y + by,
    anchor: label.anchor,
  }));
  const beside = spot.width / 2 + 6;
  return [
    ...lines,
    { x: spot.x + beside, y: spot.y + 4, anchor: "start" },
    { x: spot.x - beside, y: spot.y + 4, anchor: "end" },
  ];
}

/** A line from the symbol to a label that stands away from it, above or below. */
function withLeader(spot: Spot, label: Label): Label {
  const { leader: _, ...bare } = label;
  const top = spot.y - spot.height / 2;
  const bottom = spot.y + spot.height / 2;
  const box = boxOf(label, SIZES.device);
  if (spot.x < box.x - 6 || spot.x > box.x + box.width + 6) return bare;
  if (box.y + box.height < top - 10) return { ...bare, leader: { x: spot.x, from: label.y + 3, to: top } };
  if (box.y > bottom + 6) return { ...bare, leader: { x: spot.x, from: bottom, to: box.y } };
  return bare;
}

function namePipes(chart: Chart, storey: Storey): Storey {
  return {
    ...storey,
    systems: storey.systems.map((system) => ({
      ...system,
      pipes: system.pipes.map((pipe) => {
        if (pipe.label === null) return pipe;
        const size = pipe.partId === pipe.label.text ? SIZES.device : SIZES.sounding;
        const places = [0, LINE, -LINE].map((by) => ({
          ...pipe.label,
          y: (pipe.label?.y ?? 0) + by,
        })) as readonly Place[];
        return {
          ...pipe,
          label: inSystem(
            chart,
            system,
            pipe.label,
            size,
            places.map(({ x, y, anchor }) => ({ x, y, anchor })),
          ),
        };
      }),
    })),
  };
}

function nameLane(chart: Chart, lane: Lane): Lane {
  return {
    ...lane,
    labels: lane.labels.flatMap((label) => {
      const found = chart.settle(label, label.small ? SIZES.sounding : LANE_NAME, [label]);
      return found === null ? [] : [found];
    }),
  };
}

/** Names of circuits are set a little larger and heavier. */
const LANE_NAME = 14;

function nameSensors(chart: Chart, lane: Lane): Lane {
  return {
    ...lane,
    sensors: lane.sensors.map((one) => ({
      ...one,
      label:
        one.label === null
          ? null
          : chart.settle(one.label, SIZES.device, [
              one.label,
              { x: one.x + 11, y: lane.y - 7, anchor: "start" },
              { x: one.x + 11, y: lane.y + 15, anchor: "start" },
            ]),
    })),
  };
}

function nameRung(chart: Chart, rung: Rung): Rung {
  const name = chart.settle(rung.name, SIZES.device, [rung.name]);
  const wait = rung.step === null ? null : chart.settle(rung.step.wait, SIZES.sounding, [rung.step.wait]);
  return {
    ...rung,
    name: name ?? { ...rung.name, text: "" },
    notes: rung.notes.flatMap((note) => chart.settle(note, SIZES.sounding, [note]) ?? []),
    step: rung.step === null ? null : { ...rung.step, wait: wait ?? { ...rung.step.wait, text: "" } },
  };
}

function noteStation(chart: Chart, station: Station): Station {
  return { ...station, notes: station.notes.flatMap((note) => chart.settle(note, SIZES.sounding, [note]) ?? []) };
}
