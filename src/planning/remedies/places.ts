/** What remedies look up in a site again and again. */
import { formatNumber } from "../../foundation/index.ts";
import type {
  Body,
  Device,
  DeviceKind,
  Flow,
  Hub,
  Quantity,
  RuleSpec,
  Sensor,
  Site,
  SiteEdit,
} from "../../site/index.ts";
import { hubsOf } from "./finding.ts";
import { set } from "./writing.ts";

export function devicesIn(site: Site, system: string, ...kinds: readonly DeviceKind[]): readonly Device[] {
  return site.devices.filter((device) => device.system === system && kinds.includes(device.kind));
}

/** Water that goes round: no store, no container. */
export function circulating(site: Site, system: string): readonly Body[] {
  return site.bodies.filter(
    (body) =>
      body.system === system && body.holds.kind === "salt" && body.role !== "reservoir" && body.role !== "container",
  );
}

export function systemL(site: Site, system: string): number {
  return circulating(site, system).reduce((sum, body) => sum + body.volumeL, 0);
}

export function hasLife({ livestock }: Body): boolean {
  return livestock.corals !== null || livestock.fishG > 0 || livestock.invertebrates;
}

/** Where the animals are: the largest body with livestock, else null. */
export function home(site: Site, system: string): Body | null {
  return (
    circulating(site, system)
      .filter(hasLife)
      .sort((a, b) => b.volumeL - a.volumeL)[0] ?? null
  );
}

export function keptAtC(body: Body): number {
  return body.holds.kind === "salt" ? body.holds.temperatureC : 25.5;
}

export function bodyOf(site: Site, id: string | null): Body | null {
  return site.bodies.find((body) => body.id === id) ?? null;
}

/** Sensors of a quantity at bodies or devices of a system. */
export function sensorsIn(site: Site, system: string, measures: Quantity): readonly Sensor[] {
  const places = new Set([
    ...site.bodies.filter((body) => body.system === system).map(({ id }) => id),
    ...site.devices.filter((device) => device.system === system).map(({ id }) => id),
  ]);
  return site.sensors.filter((sensor) => sensor.measures === measures && places.has(sensor.at));
}

export function rulesOn(site: Site, sensor: string): readonly RuleSpec[] {
  return site.rules.filter((rule) => rule.when.all.some((term) => term.sensor === sensor));
}

/** Whether some rule tells somebody of what this sensor shows, apart from its silence. */
export function tells(site: Site, sensor: string): boolean {
  return rulesOn(site, sensor).some(
    (rule) =>
      rule.notice !== null &&
      rule.when.all.some((term) => term.sensor === sensor && term.is.op !== "silent" && term.is.op !== "unchanged"),
  );
}

/** The hub that should read something new in a system; null where the site has none, and one comes with the sensor. */
export function hubFor(site: Site, system: string): Hub | null {
  const id = hubsOf(site, system)[0];
  return site.hubs.find((hub) => hub.id === id) ?? null;
}

/** The hub that reads most of what stands in a room. */
export function hubForRoom(site: Site, room: string): Hub | null {
  const systems = site.systems.filter((system) => system.room === room).map(({ id }) => id);
  return systems.length > 0 ? hubFor(site, systems[0]) : (site.hubs[0] ?? null);
}

/** The pumped ways that leave a body or end in it. */
export function pumpedFlows(site: Site, system: string): readonly Flow[] {
  return site.flows.filter((flow) => flow.system === system && flow.by !== null);
}

/** Where a circulation stands in its system's list. */
export function flowPath(site: Site, flow: Flow): readonly (string | number)[] {
  const index = site.flows.filter((one) => one.system === flow.system).indexOf(flow);
  return ["systems", flow.system, "circulation", index];
}

export function bodyPath(body: Body): readonly (string | number)[] {
  return ["systems", body.system, "bodies", body.id];
}

/** A chiller or fan whose thermostat is not written starts so far above, K. */
const USUAL_COOLING_K = 1.5;

/** Kinds that keep animals alive while they run: their sockets stay on without the hub. */
const LIFE_SUPPORT: readonly DeviceKind[] = [
  "heater",
  "return-pump",
  "wave-pump",
  "air-pump",
  "skimmer",
  "chiller",
  "fan",
];

/** Whether a rule of this hub may switch a device: it is that hub's already, or nobody's yet. */
export function canSwitch(device: Device, hub: Hub | null): boolean {
  return hub !== null && (device.by === null || device.by === hub.id);
}

/**
 * What must be written so that a rule of the hub may switch a device that is plugged straight in, and all else stays as it
 * was: thermostats and floats that were left out would be taken away from a device that rules switch.
 */
export function onSocket(site: Site, device: Device, hub: Hub | null): readonly SiteEdit[] {
  if (hub === null || device.by !== null) return [];
  const at = (key: string, value: string) => set(["devices", device.id, key], value);
  const fails = LIFE_SUPPORT.includes(device.kind) ? "on" : "off";
  return [
    at("by", hub.id),
    at("without-hub", fails),
    at("normally", device.normally),
    ...ownSwitchWritten(site, device),
  ];
}

/** Own thermostat or float of a device, where the file may have left it to its default. */
function ownSwitchWritten(site: Site, device: Device): readonly SiteEdit[] {
  const { id, ownThermostatC, ownFloat } = device;
  const body = bodyOf(site, device.in);
  if (body === null) return [];
  const usualC = keptAtC(body) + (device.kind === "heater" ? 0 : USUAL_COOLING_K);
  if (ownThermostatC !== null && Math.abs(ownThermostatC - usualC) < 1e-6)
    return [set(["devices", id, "own-thermostat"], `${formatNumber(ownThermostatC)} degC`)];
  if (ownFloat === null || ownFloat.offL !== body.volumeL) return [];
  return [
    set(["devices", id, "own-float", "fills-below"], `${formatNumber(ownFloat.onL)} L`),
    set(["devices", id, "own-float", "stops-at"], `${formatNumber(ownFloat.offL)} L`),
  ];
}
