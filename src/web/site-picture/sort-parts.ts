import type { Body, Device, Flow, Sensor, Site } from "../../server/contract/index.ts";

/** What of a system stands where: displays above, waters that they return to below, stores beside those. */
export interface SystemParts {
  readonly id: string;
  readonly upper: readonly Body[];
  readonly lower: readonly Body[];
  readonly stores: readonly Body[];
  readonly flows: readonly Flow[];
}

const STORES = new Set(["reservoir", "container"]);

export function sortSystem(site: Site, systemId: string): SystemParts {
  const bodies = site.bodies.filter(({ system }) => system === systemId);
  const stores = bodies.filter(({ role }) => STORES.has(role));
  const waters = bodies.filter(({ role }) => !STORES.has(role));
  const displays = waters.filter(({ role }) => role === "display" || role === "frag");
  const upper = displays.length > 0 ? displays : waters.slice(0, 1);
  return {
    id: systemId,
    upper,
    lower: waters.filter((body) => !upper.includes(body)),
    stores,
    flows: site.flows.filter(({ system }) => system === systemId),
  };
}

const ABOVE_WATER = new Set<Device["kind"]>(["light", "feeder", "fan", "siren"]);

/** The devices of a body by where they are drawn. Those that carry water out of a store are drawn at the store. */
export interface BodyParts {
  readonly above: readonly Device[];
  readonly walls: readonly Device[];
  /** Pumps that drive a flow from this body. */
  readonly pumps: readonly Device[];
  readonly inside: readonly Device[];
  readonly sensors: readonly Sensor[];
}

export function sortBody(site: Site, body: Body): BodyParts {
  const here = site.devices.filter((device) => device.in === body.id && !isCarrier(site, device));
  const flowPumps = new Set(site.flows.filter(({ from }) => from === body.id).map(({ by }) => by));
  const hereIds = new Set(here.map(({ id }) => id));
  return {
    above: here.filter(({ kind }) => ABOVE_WATER.has(kind)),
    walls: here.filter(({ kind }) => kind === "wave-pump"),
    pumps: here.filter(({ id }) => flowPumps.has(id)),
    inside: here.filter(({ id, kind }) => !ABOVE_WATER.has(kind) && kind !== "wave-pump" && !flowPumps.has(id)),
    sensors: site.sensors.filter(
      ({ at, atKind }) => (atKind === "body" && at === body.id) || (atKind === "device" && hereIds.has(at)),
    ),
  };
}

/** Whether a device draws from a store of its own system and so is drawn there. */
export function isCarrier(site: Site, device: Device): boolean {
  const source = site.bodies.find(({ id }) => id === device.from);
  return source !== undefined && STORES.has(source.role) && source.system === device.system;
}

export function carriersFrom(site: Site, store: Body): readonly Device[] {
  return site.devices.filter((device) => device.from === store.id && isCarrier(site, device));
}
