import type { Sensor, Site } from "../../server/contract/index.ts";
import { measure, span } from "../parts/format.ts";
import { words } from "../words.ts";
import { type Spot, textWidth } from "./geometry.ts";
import { messageWires } from "./lay-out-messages.ts";
import type { PlacedSystem, Storey } from "./lay-out-place.ts";
import { circuitsUnder } from "./part-of-site.ts";

/** A cable from a device down to its circuit: straight, or aside first where the names of the circuits stand in its way. */
export interface Drop {
  /** Where it meets the circuit. */
  readonly x: number;
  readonly d: string;
}

/** A circuit under one storey: a line with a dot for each socket that is used there. */
export interface Lane {
  readonly id: string;
  readonly storey: number;
  readonly y: number;
  readonly from: number;
  readonly to: number;
  readonly note: string;
  /** Whether its name stands over its right end. */
  readonly namedAtEnd: boolean;
  /** Cables that come down to it. */
  readonly drops: readonly Drop[];
  /** Sensors on the circuit itself. */
  readonly sensors: readonly Sensor[];
  /** Where it hangs from another circuit of the same storey. */
  readonly parent: { readonly x: number; readonly y: number } | null;
}

/** A hub, battery, link or person below the floor. */
export interface Station {
  readonly id: string;
  readonly kind: "hub" | "battery" | "link" | "person" | "silence";
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly notes: readonly string[];
}

export interface Wire {
  readonly id: string;
  readonly kind: "power" | "message";
  readonly d: string;
  readonly dot: { readonly x: number; readonly y: number } | null;
  readonly arrow: { readonly x: number; readonly y: number } | null;
}

/** What lies below the floor. */
export interface Below {
  readonly lanes: readonly Lane[];
  readonly stations: readonly Station[];
  readonly wires: readonly Wire[];
  /** Height under each storey that its lanes take. */
  readonly bottom: number;
}

const LANE_STEP = 36;
/** Room for the names of circuits at the left; on a narrow picture they stand over the right end of their line. */
const LANE_LEFT = 128;
const NARROW_WIDTH = 600;
/** Cables set aside come down right of the lines that circuits hang from, px from the start of their line. */
const CLEAR_OF_TREE = 46;
const STATION_HEIGHT = 34;
const STATION_GAP = 20;
/** Stations begin right of the names of circuits, so that wires to them do not run through those. */
const STATIONS_LEFT = 104;

/** Height that the circuits take under a storey. */
export function lanesHeight(circuits: number): number {
  return circuits === 0 ? 16 : 26 + circuits * LANE_STEP;
}

/** Circuits under their storey, stations under the last, the people among them only where messages are shown. `storeys` are already moved apart to make room. */
export function layOutBelow(site: Site, storeys: readonly Storey[], width: number, withMessages: boolean): Below {
  const lanes = storeys.flatMap((storey, i) => layOutLanes(site, storey, i, i === storeys.length - 1, width));
  const lastFloor = storeys[storeys.length - 1].floor;
  const top = Math.max(lastFloor + 16, ...lanes.map(({ y }) => y + 20)) + 18;
  const stations = layOutStations(site, top, width, withMessages);
  const power = stations.flatMap((station) => powerWire(site, station, lanes, storeys.length - 1));
  const messages = withMessages ? messageWires(site, storeys, stations, width) : [];
  const bottom =
    Math.max(
      top,
      ...stations.map(({ y, height, notes }) => y + height + notes.length * 14 + 12),
      ...messages.map(({ low }) => low),
    ) + 12;
  return { lanes, stations, wires: [...power, ...messages.map(({ wire }) => wire)], bottom };
}

function layOutLanes(site: Site, storey: Storey, index: number, isLast: boolean, width: number): readonly Lane[] {
  const ids = new Set(storey.systems.map(({ id }) => id));
  const circuits = circuitsUnder(site, ids, isLast);
  const yOf = new Map(circuits.map((circuit, i) => [circuit.id, storey.floor + 30 + i * LANE_STEP]));
  return circuits.map((circuit) => {
    const y = yOf.get(circuit.id) ?? 0;
    const from = width < NARROW_WIDTH ? 4 : LANE_LEFT;
    const plugged = storey.systems.flatMap((system) =>
      system.spots
        .filter(
          ({ part, tier }) =>
            "on" in part &&
            part.on === circuit.id &&
            (tier === "lower" || system.vessels.every((vessel) => vessel.tier !== "lower")),
        )
        .map((spot) => ({ x: system.x + spot.x, top: system.y + footOf(spot, system) })),
    );
    const drops = plugged.map(({ x, top }, i): Drop => {
      if (x >= from) return { x, d: `M${x} ${top}V${y}` };
      const aside = from + CLEAR_OF_TREE + 7 * i;
      return { x: aside, d: `M${x} ${top}V${storey.floor + 7 + 4 * i}H${aside}V${y}` };
    });
    const devices = site.devices.filter(({ on }) => on === circuit.id);
    const watts = devices.reduce((sum, { powerW }) => sum + powerW, 0);
    const parentY = circuit.on === null ? undefined : yOf.get(circuit.on);
    return {
      id: circuit.id,
      namedAtEnd: width < NARROW_WIDTH,
      storey: index,
      y,
      from,
      to: Math.max(from + 60, ...drops.map(({ x }) => x + 14), width < NARROW_WIDTH ? width - 4 : from + 120),
      note: [measure(circuit.limitA, words.units.A), devices.length === 0 ? "" : measure(watts, words.units.W)]
        .filter((part) => part !== "")
        .join(", "),
      sensors: isLast ? site.sensors.filter(({ at, atKind }) => atKind === "circuit" && at === circuit.id) : [],
      drops,
      parent: parentY === undefined ? null : { x: from + 8 + 9 * depthOf(site, circuit.id), y: parentY },
    };
  });
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

/** Hubs, batteries, links, then the people of the ladder, in as many lines as the width needs. */
function layOutStations(site: Site, top: number, width: number, withPeople: boolean): readonly Station[] {
  const wanted: readonly Omit<Station, "x" | "y" | "width" | "height">[] = [
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
    ...(withPeople ? site.ladder : []).map(({ person, afterMin }) => ({
      id: person,
      kind: "person" as const,
      notes: [afterMin === 0 ? words.picture.atOnce : words.picture.after(span(afterMin))],
    })),
    ...(site.silenceWatch === null || !withPeople
      ? []
      : [
          {
            id: words.picture.silenceWatch,
            kind: "silence" as const,
            notes: [words.picture.silentFor(span(site.silenceWatch.afterMin))],
          },
        ]),
  ];
  const left = width < NARROW_WIDTH ? 0 : STATIONS_LEFT;
  let x = left;
  let y = top;
  let tallest = 0;
  return wanted.map((station) => {
    const own = Math.max(74, textWidth(station.id) + 26);
    const room = Math.max(own, ...station.notes.map((note) => textWidth(note, 12)));
    if (x > left && x + room > width) {
      x = left;
      y += STATION_HEIGHT + tallest * 14 + 46;
      tallest = 0;
    }
    const placed: Station = { ...station, x, y, width: own, height: STATION_HEIGHT };
    x += room + STATION_GAP;
    tallest = Math.max(tallest, station.notes.length);
    return placed;
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
