/** Parts of a site by name. */
import { NotFoundError } from "../foundation/index.ts";
import type {
  Body,
  Circuit,
  Circumstance,
  Device,
  Flow,
  Hub,
  PartKind,
  Person,
  Room,
  RuleSpec,
  Sensor,
  Site,
  System,
} from "./model.ts";

export type NamedPart =
  | { readonly kind: "room"; readonly part: Room }
  | { readonly kind: "circuit"; readonly part: Circuit }
  | { readonly kind: "battery"; readonly part: Site["batteries"][number] }
  | { readonly kind: "link"; readonly part: Site["links"][number] }
  | { readonly kind: "hub"; readonly part: Hub }
  | { readonly kind: "system"; readonly part: System }
  | { readonly kind: "body"; readonly part: Body }
  | { readonly kind: "flow"; readonly part: Flow }
  | { readonly kind: "device"; readonly part: Device }
  | { readonly kind: "sensor"; readonly part: Sensor }
  | { readonly kind: "rule"; readonly part: RuleSpec }
  | { readonly kind: "person"; readonly part: Person };

/** Every named part of a site, in the order of the model. */
export function partsOfSite(site: Site): readonly NamedPart[] {
  const as = <K extends NamedPart["kind"], P>(kind: K, parts: readonly P[]): { kind: K; part: P }[] =>
    parts.map((part) => ({ kind, part }));
  return [
    ...as("room", site.rooms),
    ...as("circuit", site.circuits),
    ...as("battery", site.batteries),
    ...as("link", site.links),
    ...as("hub", site.hubs),
    ...as("system", site.systems),
    ...as("body", site.bodies),
    ...as("flow", site.flows),
    ...as("device", site.devices),
    ...as("sensor", site.sensors),
    ...as("rule", site.rules),
    ...as("person", site.people),
  ];
}

/** Every named part by its name, for rooms that look up often. */
export function partIndex(site: Site): ReadonlyMap<string, NamedPart> {
  return new Map(partsOfSite(site).map((entry) => [entry.part.id, entry]));
}

function found<T>(part: T | undefined, kind: string, id: string, site: Site): T {
  if (part !== undefined) return part;
  throw new NotFoundError("site/no-such-part", `${site.name} has no ${kind} called '${id}'`);
}

export function bodyById(site: Site, id: string): Body {
  return found(
    site.bodies.find((body) => body.id === id),
    "body",
    id,
    site,
  );
}

export function deviceById(site: Site, id: string): Device {
  return found(
    site.devices.find((device) => device.id === id),
    "device",
    id,
    site,
  );
}

export function sensorById(site: Site, id: string): Sensor {
  return found(
    site.sensors.find((sensor) => sensor.id === id),
    "sensor",
    id,
    site,
  );
}

export function circumstanceById(site: Site, id: string): Circumstance {
  return found(
    site.circumstances.find((circumstance) => circumstance.id === id),
    "circumstance",
    id,
    site,
  );
}

/** Kind of a named part, `mains` for the mains, null for no part of the site. */
export function kindOfPart(site: Site, id: string): PartKind | null {
  if (id === "mains") return "mains";
  return partsOfSite(site).find((entry) => entry.part.id === id)?.kind ?? null;
}
