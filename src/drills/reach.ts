/**
 * How far a fault can reach: the systems whose water, power or rules it may touch. The others keep their normal course.
 * Careful by design: whatever is shared (mains, circuits, rooms, reservoirs) reaches everywhere. Links, services and people
 * carry messages only, and reach no water at all.
 */
import type { RuleSpec, Site } from "../site/index.ts";
import type { Model } from "../twin/index.ts";
import type { Fault } from "./faults/fault.ts";

/** Devices of such a kind draw so much, or may leak so, that they can open a breaker under other systems. */
const LEAKING_WORDS = /leak|trip|short|crack|wet/;

/** Systems that are simulated for these faults, in order. */
export function reachOf(model: Model, faults: readonly Fault[]): readonly number[] {
  const all = model.systems.map((system) => system.index);
  const tied = tiedSystems(model.site);
  const touched = new Set<number>();
  for (const fault of faults) {
    const own = ownSystems(model.site, fault);
    if (own === null || LEAKING_WORDS.test(fault.mode.mode) || own.some((id) => tied.has(id))) return all;
    for (const id of withRoommates(model.site, own)) touched.add(model.systems.findIndex((one) => one.id === id));
  }
  return [...touched].sort((a, b) => a - b);
}

/** Systems and those that breathe the same air: what one loses in heat and vapour the others feel. Rooms exchange none. */
function withRoommates({ bodies }: Site, systems: readonly string[]): readonly string[] {
  const rooms = new Set(bodies.filter((body) => systems.includes(body.system)).map((body) => body.room));
  return bodies.filter((body) => rooms.has(body.room)).map((body) => body.system);
}

/** Systems whose water a fault may touch by its own part; null: it may be any. */
function ownSystems(site: Site, { part, mode }: Fault): readonly string[] | null {
  switch (mode.of) {
    case "device":
      return known(systemOfDevice(site, part));
    case "body":
      return known(site.bodies.filter((body) => body.id === part).map((body) => body.system));
    case "flow":
      return known(site.flows.filter((flow) => flow.id === part).map((flow) => flow.system));
    case "sensor":
      return known(systemOfSensor(site, part));
    case "rule":
      return site.rules.filter((rule) => rule.id === part).flatMap((rule) => systemsOfRule(site, rule));
    case "hub":
      return systemsOfHub(site, part);
    case "room":
      return site.bodies.filter((body) => body.room === part).map((body) => body.system);
    // What only carries messages moves no water.
    case "person":
    case "link":
    case "system":
      return [];
    default:
      return null;
  }
}

function known(systems: readonly string[]): readonly string[] | null {
  return systems.length === 0 ? null : systems;
}

function systemsOfRule(site: Site, rule: RuleSpec): readonly string[] {
  const terms = [...rule.when.all, ...(rule.until?.all ?? [])];
  return [
    ...terms.flatMap(({ sensor }) => systemOfSensor(site, sensor)),
    ...rule.act.flatMap(({ device }) => systemOfDevice(site, device)),
  ];
}

function systemsOfHub(site: Site, hub: string): readonly string[] {
  return [
    ...site.sensors.filter((sensor) => sensor.hub === hub).flatMap((sensor) => systemOfSensor(site, sensor.id)),
    ...site.devices.filter((device) => device.by === hub).map((device) => device.system),
  ];
}

const tiedOfSite = new WeakMap<Site, ReadonlySet<string>>();

/** Systems that are tied to others: a rule reads in one and acts in another, or water is carried between them. */
export function tiedSystems(site: Site): ReadonlySet<string> {
  const known = tiedOfSite.get(site);
  if (known) return known;
  const tied = new Set([...site.rules.flatMap((rule) => tiedByRule(site, rule)), ...tiedByWater(site)]);
  tiedOfSite.set(site, tied);
  return tied;
}

function tiedByRule(site: Site, rule: RuleSpec): readonly string[] {
  if (rule.act.length === 0) return [];
  const named = new Set(systemsOfRule(site, rule));
  return named.size > 1 ? [...named] : [];
}

function tiedByWater(site: Site): readonly string[] {
  return site.devices.flatMap((device) => {
    const from = site.bodies.find((body) => body.id === device.from)?.system;
    return from === undefined || from === device.system ? [] : [from, device.system];
  });
}

/** None or one. */
function systemOfSensor(site: Site, id: string): readonly string[] {
  const sensor = site.sensors.find((one) => one.id === id);
  if (sensor?.atKind === "body") return site.bodies.filter((body) => body.id === sensor.at).map((body) => body.system);
  return sensor?.atKind === "device" ? systemOfDevice(site, sensor.at) : [];
}

function systemOfDevice(site: Site, id: string): readonly string[] {
  return site.devices.filter((device) => device.id === id).map((device) => device.system);
}
