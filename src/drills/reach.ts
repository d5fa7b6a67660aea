/**
 * How far a fault can reach: the systems whose water, power or rules it may touch. The others keep their normal course.
 * Careful by design: whatever is shared (mains, circuits, hubs, links, rooms, reservoirs) reaches everywhere.
 */
import type { Site } from "../site/index.ts";
import type { Model } from "../twin/index.ts";
import type { Fault } from "./faults/fault.ts";

/** Devices of such a kind draw so much, or may leak so, that they can open a breaker under other systems. */
const LEAKING_WORDS = /leak|trip|short|crack|wet/;

/** Systems that are simulated for these faults, in order. */
export function reachOf(model: Model, faults: readonly Fault[]): readonly number[] {
  const all = model.systems.map((system) => system.index);
  const touched = new Set<number>();
  for (const fault of faults) {
    const own = ownSystem(model.site, fault);
    if (own === null || LEAKING_WORDS.test(fault.mode.mode) || isTied(model.site, own)) return all;
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
    case "sensor": {
      const sensor = site.sensors.find((one) => one.id === fault.part);
      if (sensor?.atKind === "body") return site.bodies.find((body) => body.id === sensor.at)?.system ?? null;
      if (sensor?.atKind === "device") return site.devices.find((device) => device.id === sensor.at)?.system ?? null;
      return null;
    }
    default:
      return null;
  }
}

/** A system is tied to others when a rule reads in one and acts in another, or water is carried between them. */
export function isTied(site: Site, system: string): boolean {
  const systemOfDevice = (id: string) => site.devices.find((device) => device.id === id)?.system;
  const systemOfBody = (id: string | null) => site.bodies.find((body) => body.id === id)?.system;
  const systemOfSensor = (id: string) => {
    const sensor = site.sensors.find((one) => one.id === id);
    if (!sensor || sensor.atKind === "room" || sensor.atKind === "circuit") return undefined;
    return sensor.atKind === "body" ? systemOfBody(sensor.at) : systemOfDevice(sensor.at);
  };
  const ruleTies = site.rules.some((rule) => {
    const conditions = [...rule.when.all, ...(rule.until?.all ?? [])];
    const reads = conditions.map((term) => systemOfSensor(term.sensor));
    const acts = rule.act.map((one) => systemOfDevice(one.device));
    const named = new Set([...reads, ...acts].filter((one) => one !== undefined));
    return named.has(system) && named.size > 1 && rule.act.length > 0;
  });
  const waterTies = site.devices.some((device) => {
    const from = systemOfBody(device.from);
    return from !== undefined && from !== device.system && (from === system || device.system === system);
  });
  return ruleTies || waterTies;
}
