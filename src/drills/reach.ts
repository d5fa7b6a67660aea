/**
 * How far a fault can reach: the systems whose water, power or rules it may touch. The others keep their normal course.
 * Careful by design: whatever is shared (mains, circuits, hubs, links, rooms, reservoirs) reaches everywhere.
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
    const own = ownSystem(model.site, fault);
    if (own === null || LEAKING_WORDS.test(fault.mode.mode) || tied.has(own)) return all;
    touched.add(model.systems.findIndex((system) => system.id === own));
  }
  return [...touched].sort((a, b) => a - b);
}

function ownSystem(site: Site, fault: Fault): string | null {
  switch (fault.mode.of) {
    case "device":
      return site.devices.find((device) => device.id === fault.part)?.system ?? null;
    case "body":
      return site.bodies.find((body) => body.id === fault.part)?.system ?? null;
    case "flow":
      return site.flows.find((flow) => flow.id === fault.part)?.system ?? null;
    case "sensor":
      return systemOfSensor(site, fault.part)[0] ?? null;
    default:
      return null;
  }
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
  const terms = [...rule.when.all, ...(rule.until?.all ?? [])];
  const named = new Set<string>();
  for (const { sensor } of terms) for (const system of systemOfSensor(site, sensor)) named.add(system);
  for (const { device } of rule.act) for (const system of systemOfDevice(site, device)) named.add(system);
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
