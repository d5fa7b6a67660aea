/** Which parts of a site a fault mode can strike: the questions that the modes ask of a description. */
import {
  type Body,
  type Circuit,
  type Device,
  type DeviceKind,
  deviceById,
  type Flow,
  type Quantity,
  type RuleSpec,
  type Sensor,
  type Site,
} from "../../site/index.ts";
import { isStore } from "../../twin/index.ts";

export type PartsOf = (site: Site) => readonly string[];

/** The part under which faults of the public supply stand. */
export const MAINS = "mains";

function ids(parts: readonly { readonly id: string }[]): readonly string[] {
  return parts.map((part) => part.id);
}

/** Devices that work every day (a waiting spare has its own modes). */
export function devicesWhere(fits: (device: Device, site: Site) => boolean): PartsOf {
  return (site) => ids(site.devices.filter((device) => device.spare === null && fits(device, site)));
}

/** Devices with power on them: also a spare that stands by plugged in. */
export function pluggedDevicesWhere(fits: (device: Device, site: Site) => boolean): PartsOf {
  return (site) =>
    ids(site.devices.filter((device) => (device.spare === null || device.normally === "on") && fits(device, site)));
}

export function devicesOf(...kinds: readonly DeviceKind[]): PartsOf {
  return devicesWhere((device) => kinds.includes(device.kind));
}

/** Devices of these kinds whose socket a hub switches. */
export function switchedDevices(...kinds: readonly DeviceKind[]): PartsOf {
  return devicesWhere((device) => device.by !== null && kinds.includes(device.kind));
}

export function sparesOf(...kinds: readonly DeviceKind[]): PartsOf {
  return (site) => ids(site.devices.filter((device) => device.spare !== null && kinds.includes(device.kind)));
}

export function bodiesWhere(fits: (body: Body, site: Site) => boolean): PartsOf {
  return (site) => ids(site.bodies.filter((body) => fits(body, site)));
}

/** Bodies among which water circulates. */
export function watersWhere(fits: (body: Body, site: Site) => boolean): PartsOf {
  return bodiesWhere((body, site) => !isStore(body) && fits(body, site));
}

export function flowsWhere(fits: (flow: Flow, site: Site) => boolean): PartsOf {
  return (site) => ids(site.flows.filter((flow) => fits(flow, site)));
}

export function circuitsWhere(fits: (circuit: Circuit, site: Site) => boolean): PartsOf {
  return (site) => ids(site.circuits.filter((circuit) => fits(circuit, site)));
}

/** Sensors that a rule reads: what nothing listens to cannot mislead. */
export function sensorsWhere(fits: (sensor: Sensor, site: Site) => boolean): PartsOf {
  return (site) => ids(site.sensors.filter((sensor) => readByRule(site, sensor.id) && fits(sensor, site)));
}

export function sensorsOf(...quantities: readonly Quantity[]): PartsOf {
  return sensorsWhere((sensor) => quantities.includes(sensor.measures));
}

export function isLivestocked(body: Body): boolean {
  const { livestock } = body;
  return livestock.corals !== null || livestock.fishG > 0 || livestock.invertebrates;
}

/** Sensors in a rule's conditions, of its beginning and of its end. */
export function sensorsOfRule(rule: RuleSpec): readonly string[] {
  return [...rule.when.all, ...(rule.until?.all ?? [])].map((term) => term.sensor);
}

function readByRule(site: Site, sensor: string): boolean {
  return site.rules.some((rule) => sensorsOfRule(rule).includes(sensor));
}

/** The circuit and all that it hangs from. */
export function circuitsAbove(site: Site, circuit: string | null): readonly Circuit[] {
  const own = site.circuits.find((one) => one.id === circuit);
  return own === undefined ? [] : [own, ...circuitsAbove(site, own.on)];
}

/** Whether a leakage of this size opens anything above. */
export function leakTrips(site: Site, circuit: string | null, leakMA: number): boolean {
  return circuitsAbove(site, circuit).some((one) => one.tripsOnLeakMA !== null && leakMA > one.tripsOnLeakMA);
}

/**
 * Flows whose levers bend the way back out of a body: an open connection that leaves it goes before the pumped ways that
 * fill it, the first before the others (as src/twin/compile.ts lays out the weirs).
 */
export function waysBack(site: Site): readonly Flow[] {
  const openFrom = new Set(site.flows.filter((flow) => flow.by === null).map((flow) => flow.from));
  const done = new Set<string>();
  return site.flows.filter((flow) => {
    const from = flow.by === null ? flow.from : flow.to;
    if ((flow.by !== null && openFrom.has(from)) || done.has(from)) return false;
    done.add(from);
    return true;
  });
}

/** What stops when a device's supply does: the mains and every circuit above it. */
export function supplyOf(site: Site, device: string): readonly string[] {
  const on = deviceById(site, device).on;
  return on === null ? [MAINS] : [MAINS, ...ids(circuitsAbove(site, on))];
}

/** Kinds of device whose failure a quantity gives away. */
const GIVEN_AWAY_BY: Readonly<Partial<Record<Quantity, readonly DeviceKind[]>>> = {
  temperature: ["heater", "chiller", "fan"],
  ph: ["doser", "calcium-reactor", "top-off"],
  salinity: ["top-off", "refill-valve", "water-change"],
  oxygen: ["return-pump", "wave-pump", "air-pump", "skimmer"],
  alkalinity: ["doser", "calcium-reactor"],
  orp: ["feeder", "skimmer"],
  level: ["top-off", "refill-valve", "return-pump"],
  float: ["top-off", "refill-valve", "return-pump"],
  light: ["light"],
};

/** Parts whose failure a sensor would give away. */
export function guardedBy(site: Site, sensor: Sensor): readonly string[] {
  if (sensor.measures === "mains") return [MAINS, ...ids(circuitsAbove(site, sensor.at))];
  if (sensor.atKind === "circuit") return ids(circuitsAbove(site, sensor.at));
  if (sensor.atKind === "device") return [sensor.at];
  if (sensor.measures === "leak") return wetThingsIn(site, sensor);
  if (sensor.atKind === "room") return [sensor.at];
  const system = site.bodies.find((body) => body.id === sensor.at)?.system;
  const kinds = GIVEN_AWAY_BY[sensor.measures] ?? [];
  const devices = site.devices.filter((device) => device.system === system && kinds.includes(device.kind));
  const levels = sensor.measures === "level" || sensor.measures === "float";
  const flows = levels ? site.flows.filter((flow) => flow.system === system) : [];
  return [...ids(devices), ...ids(flows)];
}

/** Bodies and flows that can wet the floor of a leak sensor's room. */
function wetThingsIn(site: Site, sensor: Sensor): readonly string[] {
  const room = sensor.atKind === "room" ? sensor.at : site.bodies.find((body) => body.id === sensor.at)?.room;
  const bodies = site.bodies.filter((body) => body.room === room);
  const flows = site.flows.filter((flow) => bodies.some((body) => body.id === flow.from || body.id === flow.to));
  return [...ids(bodies), ...ids(flows)];
}

/** Parts whose failure a rule gives away or meets, without repetition, in the order of the site. */
export function guardedByRules(site: Site, rules: readonly RuleSpec[]): readonly string[] {
  const sensors = site.sensors.filter((sensor) => rules.some((rule) => sensorsOfRule(rule).includes(sensor.id)));
  const acted = rules.flatMap((rule) => rule.act.map((act) => act.device));
  return [...new Set([...acted, ...sensors.flatMap((sensor) => guardedBy(site, sensor))])];
}

/**
 * Of these parts the first of each kind: one heater stands for all, one body of each role, one flow. Keeps the pairs of a
 * site with many sensors and rules to those that differ.
 */
export function firstOfEachKind(site: Site, parts: readonly string[]): readonly string[] {
  const seen = new Set<string>();
  return parts.filter((id) => {
    const kind =
      site.devices.find((device) => device.id === id)?.kind ??
      site.bodies.find((body) => body.id === id)?.role ??
      (site.flows.some((flow) => flow.id === id) ? "flow" : id);
    if (seen.has(kind)) return false;
    seen.add(kind);
    return true;
  });
}

/** A rule that protects: it tells someone, or switches something off. The others only run the place. */
export function isGuard(rule: RuleSpec): boolean {
  return rule.notice !== null || rule.act.some((act) => act.state === "off");
}

/** Parts whose sudden failure needs a person within hours. */
export function urgentParts(site: Site): readonly string[] {
  const urgent = site.devices.filter((device) => device.kind === "heater" || device.kind === "return-pump");
  return [MAINS, ...ids(urgent)];
}

/** Months between trials where somebody tries it at least every quarter; rarer trials do not count as a defence. */
export function quarterly(months: number | null | undefined): number | null {
  return months !== null && months !== undefined && months <= 3 ? Math.max(1, months) : null;
}
