/** Where the parts of a site can be moved to, each place with the change of the file that puts them there. */
import type { Body, Device, Sensor, Site, SiteEdit, WrittenValue } from "../../server/contract/index.ts";
import { freeName, isSet, placeOf, valueAt } from "../site-edit/part-path.ts";
import { pictureWords } from "../words/site-picture.ts";
import { sortSystem } from "./sort-parts.ts";

export interface Target {
  /** The part that it is put into, onto or at. */
  readonly id: string;
  readonly how: "move" | "plug" | "connect";
  /** The step of the draft, in words. */
  readonly label: string;
  readonly edits: readonly SiteEdit[];
}

type Written = WrittenValue | null;

const isStore = ({ role }: Body): boolean => role === "reservoir" || role === "container";

/** What may also stand in a barrel in which water is mixed. */
const IN_BARRELS = new Set<Device["kind"]>(["heater", "wave-pump", "air-pump", "other"]);

/** Where each kind of sensor sits. */
const SITS: Readonly<Record<Sensor["measures"], readonly Sensor["atKind"][]>> = {
  temperature: ["body"],
  ph: ["body"],
  salinity: ["body"],
  oxygen: ["body"],
  alkalinity: ["body"],
  orp: ["body"],
  level: ["body"],
  float: ["body"],
  light: ["body"],
  flow: ["device"],
  power: ["device", "circuit"],
  leak: ["room", "body"],
  mains: ["circuit"],
  "air-temperature": ["room"],
  "air-co2": ["room"],
};

/** Everywhere that a part can be moved to, in the order of the file; empty for what stays where it is. */
export function targetsOf(site: Site, written: Written, partId: string, plugOnly = false): readonly Target[] {
  const device = site.devices.find(({ id }) => id === partId);
  if (device !== undefined)
    return [...(plugOnly ? [] : placesOfDevice(site, written, device)), ...sockets(site, written, "devices", device)];
  const sensor = site.sensors.find(({ id }) => id === partId);
  if (sensor !== undefined) return placesOfSensor(site, written, sensor);
  const link = site.links.find(({ id }) => id === partId);
  if (link !== undefined) return sockets(site, written, "links", link);
  const hub = site.hubs.find(({ id }) => id === partId);
  if (hub !== undefined) return sockets(site, written, "hubs", hub);
  const battery = site.batteries.find(({ id }) => id === partId);
  if (battery !== undefined)
    return circuitsFor(site, battery.on, ["power", "batteries", battery.id, "on"], battery.id, pictureWords.plugs);
  const circuit = site.circuits.find(({ id }) => id === partId);
  if (circuit === undefined) return [];
  const below = new Set(hangingFrom(site, circuit.id));
  return circuitsFor(site, circuit.on, ["power", "circuits", circuit.id, "on"], circuit.id, pictureWords.hangs).filter(
    ({ id }) => !below.has(id),
  );
}

function placesOfDevice(site: Site, written: Written, device: Device): readonly Target[] {
  const driven = site.flows.find(({ by }) => by === device.id);
  return site.bodies
    .filter((body) => body.id !== device.in && body.id !== device.from)
    .filter((body) => !isStore(body) || (body.role === "reservoir" && IN_BARRELS.has(device.kind)))
    .filter((body) => driven === undefined || (body.system === driven.system && body.id !== driven.to))
    .map((body): Target => {
      const way = driven === undefined ? null : placeOf(site, written, driven.id);
      return {
        id: body.id,
        how: "move",
        label: pictureWords.moves(device.id, body.id),
        edits: [
          { op: "set", path: ["devices", device.id, "in"], value: body.id },
          // A pump draws where it stands: the way of water that it drives begins there too.
          ...(way === null ? [] : [{ op: "set" as const, path: [...way.path, "from"], value: body.id }]),
        ],
      };
    });
}

function placesOfSensor(site: Site, written: Written, sensor: Sensor): readonly Target[] {
  const sits = SITS[sensor.measures];
  const entry = valueAt(written, ["sensors", sensor.id]);
  const wantsAt = isSet(entry) ? entry.at !== undefined : sensor.atKind !== "body";
  const places = [
    ...(sits.includes("body") ? site.bodies.filter((body) => !isStore(body) || fitsStore(sensor, body)) : []),
    ...(sits.includes("room") ? site.rooms : []),
    ...(sits.includes("device") ? site.devices.filter((device) => isWatched(sensor, device)) : []),
    ...(sits.includes("circuit") ? site.circuits : []),
  ];
  return places
    .filter(({ id }) => id !== sensor.at)
    .map(
      ({ id }): Target => ({
        id,
        how: "move",
        label: pictureWords.moves(sensor.id, id),
        edits: [{ op: "set", path: ["sensors", sensor.id, wantsAt ? "at" : "in"], value: id }],
      }),
    );
}

/** What tells how full a store is, or how warm a barrel. */
function fitsStore({ measures }: Sensor, { role }: Body): boolean {
  return measures === "level" || measures === "float" || (measures === "temperature" && role === "reservoir");
}

function isWatched({ measures }: Sensor, device: Device): boolean {
  return measures === "flow" ? device.flowLPerH > 0 : device.powerW > 0;
}

/** Circuits and batteries that something can be plugged into. */
function sockets(
  site: Site,
  written: Written,
  section: "devices" | "links" | "hubs",
  part: { readonly id: string; readonly on: string | null },
): readonly Target[] {
  const path = [section, part.id, "on"];
  const said = valueAt(written, path);
  const now = typeof said === "string" ? said : part.on;
  return [
    ...circuitsFor(site, now, path, part.id, pictureWords.plugs),
    ...site.batteries.filter(({ id }) => id !== now).map(({ id }) => socket(id, path, part.id, pictureWords.plugs)),
  ];
}

type Saying = (part: string, place: string) => string;

function circuitsFor(
  site: Site,
  now: string | null,
  path: readonly string[],
  partId: string,
  say: Saying,
): readonly Target[] {
  return site.circuits.filter(({ id }) => id !== now).map(({ id }) => socket(id, path, partId, say));
}

function socket(id: string, path: readonly string[], partId: string, say: Saying): Target {
  return { id, how: "plug", label: say(partId, id), edits: [{ op: "set", path, value: id }] };
}

/** A circuit and all that hang from it: it can hang from none of those. */
function hangingFrom(site: Site, id: string): readonly string[] {
  return [id, ...site.circuits.filter(({ on }) => on === id).flatMap((circuit) => hangingFrom(site, circuit.id))];
}

/** Waters of the same system that a body can be joined to by a pump in the lower one of the two. */
export function connectionsOf(site: Site, written: Written, bodyId: string): readonly Target[] {
  const body = site.bodies.find(({ id }) => id === bodyId);
  if (body === undefined || isStore(body)) return [];
  const { upper, lower, flows } = sortSystem(site, body.system);
  const isUpper = (one: Body): boolean => upper.includes(one);
  return [...upper, ...lower]
    .filter((other) => other.id !== body.id)
    .filter(
      ({ id }) =>
        !flows.some(({ from, to, by }) => by !== null && [from, to].includes(id) && [from, to].includes(bodyId)),
    )
    .map((other): Target => {
      const [from, to] = isUpper(body) && !isUpper(other) ? [other, body] : [body, other];
      const pump = freeName(site, `${to.id}-return`);
      const way = { from: from.id, to: to.id, by: pump };
      const usual = `${from.id}-to-${to.id}`;
      const name = freeName(site, usual);
      const entry: WrittenValue = name === usual ? way : { name, ...way };
      const list = ["systems", body.system, "circulation"];
      const entries = valueAt(written, list);
      const on = circuitOf(site, from.id);
      return {
        id: other.id,
        how: "connect",
        label: pictureWords.connects(pump, from.id, to.id),
        edits: [
          {
            op: "set",
            path: ["devices", pump],
            value: { kind: "return-pump", in: from.id, ...(on === null ? {} : { on }) },
          },
          Array.isArray(entries)
            ? { op: "set", path: [...list, entries.length], value: entry }
            : { op: "set", path: list, value: [entry] },
        ],
      };
    });
}

/** The circuit that most of what stands in a body is plugged into. */
function circuitOf(site: Site, bodyId: string): string | null {
  const counts = new Map<string, number>();
  for (const { in: place, on } of site.devices)
    if (place === bodyId && on !== null) counts.set(on, (counts.get(on) ?? 0) + 1);
  const [most] = [...counts].sort((a, b) => b[1] - a[1]);
  return most?.[0] ?? null;
}
