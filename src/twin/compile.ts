/**
 * Site description to flat tables: done once, shared by every drill.
 */
import { compileRules, ruleStateSize } from "../rules/index.ts";
import { type GROUPS, groupIndex, STRESSORS } from "../science/index.ts";
import type { Body, Device, Flow, Sensor, Site } from "../site/index.ts";
import { BODY_COLUMNS, DEVICE_COLUMNS, FLOW_COLUMNS, LEDGER_COLUMNS, ROOM_COLUMNS, SENSOR_COLUMNS } from "./columns.ts";
import { DRY_SHARE, fullAgainL } from "./hydraulics.ts";
import { layLevers, SITE_LEVERS } from "./levers.ts";
import { bodyLife, carriesWater, isStore } from "./life.ts";
import type { CarryEdge, GroupModel, Layout, Model, PumpEdge, SystemModel, WatchedLevel, WeirEdge } from "./model.ts";

type Ids = ReadonlyMap<string, number>;

/** Compiles a checked site. Throws only where the site contradicts what `loadSite` promises. */
export function compile(site: Site): Model {
  const bodyIndex = indexOf(site.bodies);
  const deviceIndex = indexOf(site.devices);
  const sensorIndex = indexOf(site.sensors);
  const circuitIndex = indexOf(site.circuits);
  const batteryIndex = indexOf(site.batteries);
  const linkIndex = indexOf(site.links);
  const hubIndex = indexOf(site.hubs);
  const roomIndex = indexOf(site.rooms);
  const systems = site.systems.map((system, index) =>
    compileSystem(site, index, system.id, { bodyIndex, deviceIndex, roomIndex }),
  );
  const indexOfKind = { body: bodyIndex, room: roomIndex, device: deviceIndex, circuit: circuitIndex };
  const sensorIds = site.sensors.map((sensor) => sensor.id);
  const deviceIds = site.devices.map((device) => device.id);
  const rulesOfHub = site.hubs.map((hub) => site.rules.flatMap((rule, index) => (rule.hub === hub.id ? [index] : [])));
  const rules = rulesOfHub.map((list) =>
    compileRules(
      list.map((index) => site.rules[index]),
      sensorIds,
      deviceIds,
    ),
  );
  const ids = (parts: readonly { readonly id: string }[]) => parts.map((part) => part.id);
  const levers = layLevers({
    device: deviceIds,
    sensor: sensorIds,
    flow: ids(site.flows),
    body: ids(site.bodies),
    circuit: ids(site.circuits),
    mains: ["mains"],
    battery: ids(site.batteries),
    link: ids(site.links),
    hub: ids(site.hubs),
    rule: ids(site.rules),
    person: ids(site.people),
    room: ids(site.rooms),
    system: [SITE_LEVERS],
  });
  const groups = compileGroups(site, bodyIndex);
  const battery = (id: string) => site.batteries.findIndex((one) => one.feeds.includes(id));
  const circuit = (on: string | null) => (on === null ? -1 : (circuitIndex.get(on) ?? -1));
  return {
    site,
    bodyIndex,
    deviceIndex,
    sensorIndex,
    roomIndex,
    circuitIndex,
    batteryIndex,
    linkIndex,
    hubIndex,
    systems,
    groups,
    life: site.bodies.map((body) => bodyLife(site, body)),
    levers,
    rules,
    rulesOfHub,
    batteryOfDevice: Int32Array.from(site.devices, (device) => battery(device.id)),
    batteryOfHub: Int32Array.from(site.hubs, (hub) =>
      batteryIndex.has(hub.on ?? "") ? batteryIndex.get(hub.on!)! : battery(hub.id),
    ),
    batteryOfLink: Int32Array.from(site.links, (link) =>
      batteryIndex.has(link.on ?? "") ? batteryIndex.get(link.on!)! : battery(link.id),
    ),
    circuitOfDevice: Int32Array.from(site.devices, (device) => circuit(device.on)),
    circuitOfHub: Int32Array.from(site.hubs, (hub) => feedOf(hub.on, circuitIndex, site, batteryIndex)),
    circuitOfLink: Int32Array.from(site.links, (link) => feedOf(link.on, circuitIndex, site, batteryIndex)),
    parentOfCircuit: Int32Array.from(site.circuits, (one) => circuit(one.on)),
    hubOfDevice: Int32Array.from(site.devices, (device) => (device.by === null ? -1 : (hubIndex.get(device.by) ?? -1))),
    hubOfSensor: Int32Array.from(site.sensors, (sensor) =>
      sensor.hub === null ? -1 : (hubIndex.get(sensor.hub) ?? -1),
    ),
    bodyOfDevice: Int32Array.from(site.devices, (device) => bodyIndex.get(device.in) ?? -1),
    roomOfBody: Int32Array.from(site.bodies, (body) => roomIndex.get(body.room) ?? 0),
    hasLight: Uint8Array.from(site.bodies, (body) =>
      site.devices.some((device) => device.kind === "light" && device.in === body.id) ? 1 : 0,
    ),
    placeOfSensor: Int32Array.from(site.sensors, (sensor) => indexOfKind[sensor.atKind].get(sensor.at) ?? 0),
    systemOfSensor: Int32Array.from(site.sensors, (sensor) => systemOfSensor(site, sensor)),
    lampsOver: site.bodies.map((body) =>
      site.devices.flatMap((device, place) => (device.kind === "light" && device.in === body.id ? [place] : [])),
    ),
    pumpOfDevice: site.devices.map(
      (_, place) => systems.flatMap((system) => system.pumps).find((pump) => pump.device === place) ?? null,
    ),
    localOfBody: localPlaces(site.bodies.length, systems),
    watchedLevels: systems.map((system) => watchedLevels(site, system, bodyIndex)),
    layout: layOut(site, groups, levers.neutral.length, rules.map(ruleStateSize)),
  };
}

function systemOfSensor(site: Site, sensor: Sensor): number {
  const part =
    sensor.atKind === "body"
      ? site.bodies.find((body) => body.id === sensor.at)
      : site.devices.find((device) => device.id === sensor.at);
  return part === undefined ? -1 : site.systems.findIndex((system) => system.id === part.system);
}

function localPlaces(count: number, systems: readonly SystemModel[]): Int32Array {
  const places = new Int32Array(count).fill(-1);
  for (const system of systems) {
    for (const [local, body] of system.waters.entries()) places[body] = local;
  }
  return places;
}

/** Volumes at which something switches: a step lands on them. */
function watchedLevels(site: Site, system: SystemModel, bodyIndex: Ids): WatchedLevel[] {
  const levels: WatchedLevel[] = [];
  for (const device of site.devices) {
    const body = bodyIndex.get(device.in);
    if (device.ownFloat === null || body === undefined || site.bodies[body].system !== system.id) continue;
    levels.push({ body, volumeL: device.ownFloat.onL }, { body, volumeL: device.ownFloat.offL });
    if (device.ownFloat.spareL !== null) levels.push({ body, volumeL: device.ownFloat.spareL });
  }
  for (const sensor of site.sensors) {
    const body = bodyIndex.get(sensor.at);
    if (sensor.floatAtL === null || body === undefined || site.bodies[body].system !== system.id) continue;
    levels.push({ body, volumeL: sensor.floatAtL });
  }
  for (const { from } of system.pumps) {
    const { intakeL } = site.bodies[from];
    levels.push(
      { body: from, volumeL: intakeL },
      { body: from, volumeL: intakeL * DRY_SHARE },
      { body: from, volumeL: fullAgainL(intakeL) },
    );
  }
  for (const store of system.stores) levels.push({ body: store, volumeL: site.bodies[store].intakeL });
  for (const body of system.waters) levels.push({ body, volumeL: site.bodies[body].brimL });
  return levels;
}

/** A thing that hangs on a battery is fed by the circuit behind that battery while it lives. */
function feedOf(on: string | null, circuits: Ids, site: Site, batteries: Ids): number {
  if (on === null) return -1;
  const behind = batteries.has(on) ? site.batteries[batteries.get(on)!].on : on;
  return behind === null ? -1 : (circuits.get(behind) ?? -1);
}

function indexOf(parts: readonly { readonly id: string }[]): Ids {
  return new Map(parts.map((part, index) => [part.id, index]));
}

interface SystemIds {
  readonly bodyIndex: Ids;
  readonly deviceIndex: Ids;
  readonly roomIndex: Ids;
}

function compileSystem(site: Site, index: number, id: string, ids: SystemIds): SystemModel {
  const bodies = site.bodies.filter((body) => body.system === id);
  const flows = site.flows.filter((flow) => flow.system === id);
  const at = (body: string) => ids.bodyIndex.get(body)!;
  const pumps = flows.filter((flow) => flow.by !== null).map((flow) => pumpEdge(site, flow, at, ids.deviceIndex));
  const devices = site.devices.flatMap((device, place) => (device.system === id ? [place] : []));
  return {
    index,
    id,
    room: ids.roomIndex.get(bodies[0]?.room ?? site.systems[index].room) ?? 0,
    waters: bodies.filter((body) => !isStore(body)).map((body) => at(body.id)),
    stores: bodies.filter(isStore).map((body) => at(body.id)),
    pumps,
    weirs: orderWeirs(weirEdges(site, flows, at), pumps),
    devicesAt: bodies
      .filter((body) => !isStore(body))
      .map((body) => devices.filter((place) => site.devices[place].in === body.id)),
    thermostats: devices.filter(
      (place) => site.devices[place].ownThermostatC !== null || site.devices[place].cutOutC !== null,
    ),
    ownSwitches: devices.filter(
      (place) =>
        site.devices[place].ownThermostatC !== null ||
        site.devices[place].cutOutC !== null ||
        site.devices[place].ownFloat !== null,
    ),
    reactors: devices.filter((place) => site.devices[place].kind === "calcium-reactor"),
    kinds: new Set(devices.map((place) => site.devices[place].kind)),
    carries: devices
      .filter((place) => carriesWater(site.devices[place]))
      .map((place) => carryEdge(site.devices[place], place, ids.bodyIndex)),
    devices,
  };
}

function pumpEdge(site: Site, flow: Flow, at: (body: string) => number, deviceIndex: Ids): PumpEdge {
  const device = deviceIndex.get(flow.by!)!;
  return {
    flow: site.flows.indexOf(flow),
    device,
    from: at(flow.from),
    to: at(flow.to),
    ratedLPerH: site.devices[device].flowLPerH,
    backSiphonL: flow.backSiphonL,
    backSiphonUnbrokenL: flow.backSiphonUnbrokenL,
    checkValve: flow.checkValve,
  };
}

/** An opening between two chambers carries this many times what all pumps of the system move, where nothing else is said. */
const OPENING_TIMES = 4;

/** Every pumped way needs a way back; a chamber with an open connection passes on what comes in. */
function weirEdges(site: Site, flows: readonly Flow[], at: (body: string) => number): WeirEdge[] {
  const pumpedLPerH = flows.reduce(
    (sum, flow) => sum + (site.devices.find((device) => device.id === flow.by)?.flowLPerH ?? 0),
    0,
  );
  const openFrom = new Set(flows.filter((flow) => flow.by === null).map((flow) => flow.from));
  const done = new Set<string>();
  const edges: WeirEdge[] = [];
  for (const flow of flows) {
    const [from, to] = flow.by === null ? [flow.from, flow.to] : [flow.to, flow.from];
    if ((flow.by !== null && openFrom.has(from)) || done.has(from)) continue;
    done.add(from);
    const body = site.bodies[at(from)];
    const rated = flow.by === null ? ratedInto(site, flows, from) : ratedInto(site, flows, flow.to);
    edges.push({
      flow: site.flows.indexOf(flow),
      from: at(from),
      to: at(to),
      crestL: body.volumeL - flow.weirHeadL,
      headL: flow.weirHeadL,
      ratedLPerH: Math.max(rated, 1),
      drainLPerH: flow.by === null && flow.drainLPerH === 0 ? OPENING_TIMES * pumpedLPerH : flow.drainLPerH,
      spareDrainLPerH: flow.spareDrainLPerH,
      dropM: flow.dropM,
    });
  }
  return edges;
}

function ratedInto(site: Site, flows: readonly Flow[], body: string): number {
  const own = flows
    .filter((flow) => flow.by !== null && flow.to === body)
    .map((flow) => site.devices.find((device) => device.id === flow.by)!.flowLPerH);
  const through = flows
    .filter((flow) => flow.by !== null && flow.from === body)
    .map((flow) => site.devices.find((device) => device.id === flow.by)!.flowLPerH);
  return Math.max(
    own.reduce((sum, one) => sum + one, 0),
    through.reduce((sum, one) => sum + one, 0),
  );
}

/** Sorts so that a weir that feeds another body with a weir comes first. */
function orderWeirs(edges: readonly WeirEdge[], pumps: readonly PumpEdge[]): WeirEdge[] {
  const rest = [...edges];
  const ordered: WeirEdge[] = [];
  while (rest.length > 0) {
    const next = rest.findIndex((edge) => !rest.some((other) => other !== edge && other.to === edge.from));
    if (next < 0)
      throw new Error(
        `Weirs around body ${rest[0].from} feed each other in a ring (${pumps.length} pumps); one of them must be a pumped way`,
      );
    ordered.push(...rest.splice(next, 1));
  }
  return ordered;
}

function carryEdge(device: Device, place: number, bodyIndex: Ids): CarryEdge {
  return {
    device: place,
    from: device.from === null ? -1 : (bodyIndex.get(device.from) ?? -1),
    to: bodyIndex.get(device.in)!,
  };
}

function compileGroups(site: Site, bodyIndex: Ids): GroupModel[] {
  const groupsOf = (body: Body): GroupModel[] => {
    const system = site.systems.findIndex((one) => one.id === body.system);
    const place = bodyIndex.get(body.id)!;
    const names: (typeof GROUPS)[number][] = [];
    if (body.livestock.corals) names.push(body.livestock.corals);
    if (body.livestock.fishG > 0) names.push(body.livestock.fishGroup ?? "reef-fish");
    if (body.livestock.invertebrates) names.push("invertebrates");
    return names.map((name) => ({ body: place, system, group: groupIndex(name), name }));
  };
  return site.bodies.flatMap(groupsOf);
}

function layOut(site: Site, groups: readonly GroupModel[], levers: number, ruleSizes: readonly number[]): Layout {
  let next = 0;
  const take = (count: number) => {
    const start = next;
    next += count;
    return start;
  };
  return {
    clock: take(4),
    bodies: take(site.bodies.length * BODY_COLUMNS),
    rooms: take(site.rooms.length * ROOM_COLUMNS),
    devices: take(site.devices.length * DEVICE_COLUMNS),
    sensors: take(site.sensors.length * SENSOR_COLUMNS),
    batteries: take(site.batteries.length * 2),
    circuits: take(site.circuits.length),
    flows: take(site.flows.length * FLOW_COLUMNS),
    hubs: take(site.hubs.length * 2),
    ledger: take(site.systems.length * LEDGER_COLUMNS),
    harm: take(groups.length * STRESSORS.length),
    dark: take(site.bodies.length),
    levers: take(levers),
    rules: ruleSizes.map(take),
    size: next,
  };
}
