import type { Site } from "../../server/contract/index.ts";
import { measure, span } from "../parts/format.ts";
import { words } from "../words.ts";
import { clamp, textWidth } from "./geometry.ts";
import { layOutLadder } from "./lay-out-ladder.ts";
import { messageWires } from "./lay-out-messages.ts";
import { circuitsUnder } from "./part-of-site.ts";
import type { Below, Drop, Label, Lane, Layers, PlacedSystem, Spot, Station, Storey, Wire } from "./shapes.ts";

const LANE_STEP = 36;
/** Most room for the names of circuits at the left; on a narrow picture they stand over the right end of their line. */
const MOST_LANE_LEFT = 140;
const LEAST_LANE_LEFT = 84;
const LANE_NAME_X = 5;
const NARROW_WIDTH = 600;
/** Cables set aside come down right of the lines that circuits hang from, px from the start of their line. */
const CLEAR_OF_TREE = 46;
const STATION_HEIGHT = 34;
const STATION_GAP = 20;
/** A list of what a battery feeds may be this long, px. */
const MOST_NOTE = 190;
/** Stations begin right of the names of circuits, so that wires to them do not run through those. */
const STATIONS_LEFT = 104;

/** Height that the circuits take under a storey. */
export function lanesHeight(circuits: number): number {
  return circuits === 0 ? 16 : 26 + circuits * LANE_STEP;
}

/**
 * Circuits under their storey, stations under the last, and under those the people in the order of the ladder. `storeys` are
 * already moved apart to make room.
 */
export function layOutBelow(
  site: Site,
  storeys: readonly Storey[],
  width: number,
  shown: Pick<Layers, "messages" | "people">,
): Below {
  const lanes = storeys.flatMap((storey, i) => layOutLanes(site, storey, i, i === storeys.length - 1, width));
  const lastFloor = storeys[storeys.length - 1].floor;
  const top = Math.max(lastFloor + 16, ...lanes.map(({ y }) => y + 20)) + 18;
  const stations = layOutStations(site, top, width, shown.messages);
  const power = stations.flatMap((station) => powerWire(site, station, lanes, storeys.length - 1));
  const messages = shown.messages ? messageWires(site, storeys, stations, width) : [];
  const foot = Math.max(
    top,
    ...stations.map(({ y, height, notes }) => y + height + notes.length * 14 + 12),
    ...messages.map(({ low }) => low),
  );
  const left = width < NARROW_WIDTH ? 0 : STATIONS_LEFT;
  const ladder = shown.people ? layOutLadder(site, left, foot + 30, width) : { rungs: [], bottom: foot };
  const called = shown.messages && shown.people ? callWires(site, stations, ladder.rungs[0] ?? null, foot + 8) : [];
  return {
    lanes,
    stations,
    ladder: ladder.rungs,
    wires: [...power, ...messages.map(({ wire }) => wire), ...called],
    bottom: ladder.bottom + 10,
  };
}

function layOutLanes(site: Site, storey: Storey, index: number, isLast: boolean, width: number): readonly Lane[] {
  const ids = new Set(storey.systems.map(({ id }) => id));
  const circuits = circuitsUnder(site, ids, isLast);
  const laneLeft = clamp(
    Math.max(
      0,
      ...circuits.map((circuit) => Math.max(textWidth(circuit.id, 14), textWidth(noteOf(site, circuit), 12))),
    ) + 22,
    LEAST_LANE_LEFT,
    MOST_LANE_LEFT,
  );
  const yOf = new Map(circuits.map((circuit, i) => [circuit.id, storey.floor + 30 + i * LANE_STEP]));
  return circuits.map((circuit) => {
    const y = yOf.get(circuit.id) ?? 0;
    const from = width < NARROW_WIDTH ? 4 : laneLeft;
    const plugged = storey.systems.flatMap((system) =>
      system.spots
        .filter(
          ({ part, tier }) =>
            "on" in part &&
            part.on === circuit.id &&
            (tier === "lower" || system.vessels.every((vessel) => vessel.tier !== "lower")),
        )
        .map((spot) => ({ part: spot.part.id, x: system.x + spot.x, top: system.y + footOf(spot, system) })),
    );
    const drops = plugged.map(({ part, x, top }, i): Drop => {
      if (x >= from) return { part, x, d: `M${x} ${top}V${y}` };
      const aside = from + CLEAR_OF_TREE + 7 * i;
      return { part, x: aside, d: `M${x} ${top}V${storey.floor + 7 + 4 * i}H${aside}V${y}` };
    });
    const parentY = circuit.on === null ? undefined : yOf.get(circuit.on);
    const to = Math.max(from + 60, ...drops.map(({ x }) => x + 14), width < NARROW_WIDTH ? width - 4 : from + 120);
    const note = noteOf(site, circuit);
    return {
      id: circuit.id,
      storey: index,
      y,
      from,
      to,
      note,
      labels: laneLabels(circuit.id, note, y, Math.min(to, width), width),
      sensors: isLast
        ? site.sensors
            .filter(({ at, atKind }) => atKind === "circuit" && at === circuit.id)
            .map((sensor, i) => {
              const x = to - 8 - 120 * i;
              return { sensor, x, label: { text: sensor.id, x: x - 10, y: y - 7, anchor: "end", on: "paper" } };
            })
        : [],
      drops,
      parent: parentY === undefined ? null : { x: from + 8 + 9 * depthOf(site, circuit.id), y: parentY },
    };
  });
}

/** What it may carry, and what is plugged into it. */
function noteOf(site: Site, circuit: Site["circuits"][number]): string {
  const devices = site.devices.filter(({ on }) => on === circuit.id);
  const watts = devices.reduce((sum, { powerW }) => sum + powerW, 0);
  return [measure(circuit.limitA, words.units.A), devices.length === 0 ? "" : measure(watts, words.units.W)]
    .filter((part) => part !== "")
    .join(", ");
}

/** Left of the line where there is room for names; on a narrow picture over its right end. */
function laneLabels(id: string, note: string, y: number, end: number, width: number): Lane["labels"] {
  if (width < NARROW_WIDTH)
    return [{ text: `${id}, ${note}`, x: end - 2, y: y - 7, anchor: "end", on: "paper", small: true }];
  return [
    { text: id, x: LANE_NAME_X, y: y - 2, anchor: "start", on: "paper", small: false },
    { text: note, x: LANE_NAME_X, y: y + 13, anchor: "start", on: "paper", small: true },
  ];
}

/** Where the cable of a device begins: under it, or under the store that it stands on. */
function footOf({ part, y, height }: Spot, system: PlacedSystem): number {
  const store = system.vessels.find(
    (vessel) => vessel.tier === "store" && "from" in part && vessel.body.id === part.from,
  );
  return store === undefined ? y + height / 2 : store.y + store.height;
}

function depthOf(site: Site, id: string): number {
  let depth = 0;
  for (let at = site.circuits.find((circuit) => circuit.id === id)?.on ?? null; at !== null; depth += 1)
    at = site.circuits.find((circuit) => circuit.id === at)?.on ?? null;
  return depth;
}

/** Hubs, batteries, links and the watch outside the house, in as many lines as the width needs. */
function layOutStations(site: Site, top: number, width: number, withWatch: boolean): readonly Station[] {
  const wanted: readonly (Pick<Station, "id" | "kind"> & { readonly notes: readonly string[] })[] = [
    ...site.hubs.map(({ id, on }) => ({
      id,
      kind: "hub" as const,
      notes: on === null ? [] : [words.picture.plugged(on)],
    })),
    ...site.batteries.map(({ id, energyWh, feeds }) => ({
      id,
      kind: "battery" as const,
      notes: [measure(energyWh, words.units.Wh), words.picture.feeds(feeds.join(", "))],
    })),
    ...site.links.map(({ id, kind }) => ({ id, kind: "link" as const, notes: [words.linkKind[kind]] })),
    ...(site.silenceWatch === null || !withWatch
      ? []
      : [
          {
            id: words.picture.silenceWatch,
            kind: "silence" as const,
            notes: [words.picture.silentFor(span(site.silenceWatch.afterMin))],
          },
        ]),
  ];
  const left = width < NARROW_WIDTH ? 2 : STATIONS_LEFT;
  let x = left;
  let y = top;
  let tallest = 0;
  return wanted.map(({ id, kind, notes }) => {
    const own = Math.min(Math.max(74, textWidth(id) + 26), width - left - 4);
    const room = Math.min(
      Math.max(own, ...notes.map((note) => textWidth(note, 12))),
      Math.max(own, MOST_NOTE),
      width - left - 4,
    );
    if (x > left && x + room > width - 2) {
      x = left;
      y += STATION_HEIGHT + tallest * 14 + 46;
      tallest = 0;
    }
    const placed: Station = {
      id,
      kind,
      words: notes.join(", "),
      notes: notes.map(
        (note, i): Label => ({
          text: fitted(note, room),
          x,
          y: y + STATION_HEIGHT + 15 + i * 14,
          anchor: "start",
          on: "paper",
        }),
      ),
      x,
      y,
      width: own,
      height: STATION_HEIGHT,
    };
    x += room + STATION_GAP;
    tallest = Math.max(tallest, notes.length);
    return placed;
  });
}

/** A note is cut where a long list would push the neighbours away. */
function fitted(text: string, width: number): string {
  if (textWidth(text, 12) <= width) return text;
  let letters = text.length - 1;
  while (letters > 1 && textWidth(`${text.slice(0, letters)}\u2026`, 12) > width) letters -= 1;
  return `${text.slice(0, letters).trimEnd()}\u2026`;
}

/** From the last links out of the house to who is told first. */
function callWires(
  site: Site,
  stations: readonly Station[],
  first: Below["ladder"][number] | null,
  y: number,
): readonly Wire[] {
  if (first === null || site.ladder.length === 0) return [];
  const vias = new Set(site.links.map(({ via }) => via));
  const out = stations.filter(
    ({ id, kind }) => kind === "link" && !vias.has(id) && site.hubs.some(({ sendsOver }) => sendsOver.includes(id)),
  );
  return out.map((station, i): Wire => {
    const x = station.x + station.width - 6;
    return {
      id: `${station.id} ${first.person.id}`,
      kind: "message",
      d: `M${x} ${station.y + station.height}V${y}H${first.x}V${first.y - 8}`,
      dot: null,
      arrow: i === 0 ? { x: first.x, y: first.y - 7 } : null,
    };
  });
}

/** From a station's circuit down to it. */
function powerWire(site: Site, station: Station, lanes: readonly Lane[], lastStorey: number): readonly Wire[] {
  const on = [...site.hubs, ...site.links, ...site.batteries].find(({ id }) => id === station.id)?.on ?? null;
  const lane = lanes.find(({ id, storey }) => id === on && storey === lastStorey);
  if (lane === undefined) return [];
  const x = Math.max(station.x + station.width / 2, lane.from);
  const reach = x > lane.to ? `M${lane.to} ${lane.y}H${x}` : `M${x} ${lane.y}`;
  const dogleg =
    x === station.x + station.width / 2
      ? `V${station.y}`
      : `V${station.y - 10}H${station.x + station.width / 2}V${station.y}`;
  return [{ id: `${station.id} power`, kind: "power", d: `${reach}${dogleg}`, dot: { x, y: lane.y }, arrow: null }];
}
