/**
 * Site description to flat tables: done once, shared by every drill.
 */
import { ruleStateSize } from "../rules/index.ts";
import { type GROUPS, groupIndex } from "../science/index.ts";
import type { Body, Device, Sensor, Site } from "../site/index.ts";
import { compileIslands } from "./compile-islands.ts";
import { compilePower } from "./compile-power.ts";
import { compileSystem, type Ids } from "./compile-system.ts";
import { layOut } from "./layout.ts";
import { type LeverTable, layLevers, SITE_LEVERS } from "./levers.ts";
import { bodyLife } from "./life.ts";
import type { GroupModel, Model, SensorTables, SystemModel } from "./model.ts";
import { mustFind } from "./must-find.ts";
import { quickCopy } from "./quick-copy.ts";
import { isYesOrNo, SPEED_PER_H } from "./sensor-kinds.ts";

/** Compiles a checked site. Throws only where the site contradicts what `loadSite` promises. */
export function compile(described: Site): Model {
  const site = quickCopy(described);
  const bodyIndex = indexOf(site.bodies);
  const deviceIndex = indexOf(site.devices);
  const circuitIndex = indexOf(site.circuits);
  const batteryIndex = indexOf(site.batteries);
  const hubIndex = indexOf(site.hubs);
  const roomIndex = indexOf(site.rooms);
  const groups = compileGroups(site, bodyIndex);
  const systems = site.systems.map((_, index) => compileSystem(site, index, bodyIndex, deviceIndex, groups));
  const levers = compileLevers(site);
  const hubOfDevice = Int32Array.from(site.devices, ({ by }) => (by === null ? -1 : (hubIndex.get(by) ?? -1)));
  const power = compilePower(site, circuitIndex, batteryIndex);
  const sensing = compileSensors(site, {
    body: bodyIndex,
    room: roomIndex,
    device: deviceIndex,
    circuit: circuitIndex,
  });
  const laid = { site, systems, power, hubOfDevice, systemOfSensor: sensing.systemOf };
  const { islands, lookers } = compileIslands(laid);
  const rules = lookers.map(({ table }) => ruleStateSize(table));
  return {
    site,
    bodyIndex,
    deviceIndex,
    sensorIndex: indexOf(site.sensors),
    circuitIndex,
    batteryIndex,
    linkIndex: indexOf(site.links),
    hubIndex,
    systems,
    groups,
    life: site.bodies.map((body) => bodyLife(site, body)),
    levers,
    islands,
    islandOfSystem: Int32Array.from(systems, (system) =>
      islands.findIndex((island) => island.systems.includes(system)),
    ),
    lookers,
    power,
    sensing,
    localOfBody: localPlaces(site.bodies.length, systems),
    roomOfBody: Int32Array.from(site.bodies, (body) => roomIndex.get(body.room) ?? 0),
    systemOfBody: Int32Array.from(site.bodies, ({ system }) => site.systems.findIndex(({ id }) => id === system)),
    hasLight: Uint8Array.from(site.bodies, (body) => (lampsOver(site, body).length > 0 ? 1 : 0)),
    lampsOver: site.bodies.map((body) => lampsOver(site, body)),
    bodyOfDevice: Int32Array.from(site.devices, (device) => bodyIndex.get(device.in) ?? -1),
    hubOfDevice,
    warmsOnly: Uint8Array.from(site.devices, (device) => (warmsOnly(site, device) ? 1 : 0)),
    pumpOfDevice: site.devices.map(
      (_, place) => systems.flatMap((system) => system.pumps).find((pump) => pump.device === place) ?? null,
    ),
    layout: layOut(site, { groups: groups.length, levers: levers.neutral.length, islands: islands.length, rules }),
  };
}

function idsOf(parts: readonly { readonly id: string }[]): string[] {
  return parts.map((part) => part.id);
}

function indexOf(parts: readonly { readonly id: string }[]): Ids {
  return new Map(parts.map((part, index) => [part.id, index]));
}

function compileLevers(site: Site): LeverTable {
  return layLevers({
    device: idsOf(site.devices),
    sensor: idsOf(site.sensors),
    flow: idsOf(site.flows),
    body: idsOf(site.bodies),
    circuit: idsOf(site.circuits),
    mains: ["mains"],
    battery: idsOf(site.batteries),
    link: idsOf(site.links),
    hub: idsOf(site.hubs),
    rule: idsOf(site.rules),
    person: idsOf(site.people),
    room: idsOf(site.rooms),
    system: [SITE_LEVERS],
  });
}

function compileSensors(site: Site, ids: Readonly<Record<Sensor["atKind"], Ids>>): SensorTables {
  const systemOf = site.sensors.map((sensor) => systemOfSensor(site, sensor));
  return {
    placeOf: Int32Array.from(site.sensors, (sensor) => ids[sensor.atKind].get(sensor.at) ?? 0),
    systemOf: Int32Array.from(systemOf),
    isYesOrNo: Uint8Array.from(site.sensors, ({ measures }) => (isYesOrNo(measures) ? 1 : 0)),
    leastSpeedPerH: Float64Array.from(site.sensors, ({ measures }) => SPEED_PER_H[measures]),
  };
}

function systemOfSensor(site: Site, sensor: Sensor): number {
  const parts = sensor.atKind === "body" ? site.bodies : site.devices;
  const part = parts.find((one) => one.id === sensor.at);
  return part === undefined ? -1 : site.systems.findIndex((system) => system.id === part.system);
}

/** Heaters and chillers, where no sensor shows what they or any circuit draw. */
function warmsOnly({ sensors }: Site, { id, kind }: Device): boolean {
  const isSeen = sensors.some(({ at, atKind }) => atKind === "circuit" || (atKind === "device" && at === id));
  return (kind === "heater" || kind === "chiller") && !isSeen;
}

function localPlaces(count: number, systems: readonly SystemModel[]): Int32Array {
  const places = new Int32Array(count).fill(-1);
  for (const system of systems) for (const [local, body] of system.waters.entries()) places[body] = local;
  return places;
}

function lampsOver(site: Site, body: Body): number[] {
  return site.devices.flatMap((device, place) => (device.kind === "light" && device.in === body.id ? [place] : []));
}

function compileGroups(site: Site, bodyIndex: Ids): GroupModel[] {
  return site.bodies.flatMap(({ id, system, livestock }) => {
    const names: (typeof GROUPS)[number][] = [];
    if (livestock.corals) names.push(livestock.corals);
    if (livestock.fishG > 0) names.push(livestock.fishGroup ?? "reef-fish");
    if (livestock.invertebrates) names.push("invertebrates");
    return names.map((name) => ({
      body: mustFind(bodyIndex.get(id), `The body '${id}'`),
      system: site.systems.findIndex((one) => one.id === system),
      group: groupIndex(name),
    }));
  });
}
