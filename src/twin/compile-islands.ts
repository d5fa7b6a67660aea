/**
 * Which systems must go through time in step with one another, and which need not: the islands of a site, and who looks at each.
 */
import { compileRules, type RuleTable } from "../rules/index.ts";
import type { Quantity, RuleSpec, Sensor, Site } from "../site/index.ts";
import type { Island, Looker, PowerTables, SystemModel } from "./model.ts";
import { overloadableSets } from "./overloads.ts";

/** What is needed of the tables that are made before. */
export interface Laid {
  readonly site: Site;
  readonly systems: readonly SystemModel[];
  readonly power: PowerTables;
  readonly hubOfDevice: Int32Array;
  readonly systemOfSensor: Int32Array;
}

/** System of each device of a site; -1 where it has none. */
function systemOfDevices({ site }: Laid): number[] {
  return site.devices.map(({ system }) => site.systems.findIndex(({ id }) => id === system));
}

/**
 * Systems are tied where one can switch something, carry water or open a breaker in the other, or where a rule looks at both. What
 * touches no system (the air of a room that several share, and notices of it) is an island of its own, the house, and the last.
 */
export function compileIslands(laid: Laid): {
  readonly islands: readonly Island[];
  readonly lookers: readonly Looker[];
} {
  const { site, systems, power } = laid;
  const ties = tie(laid);
  const roots = [...new Set(systems.map(({ index }) => ties.rootOf(index)))];
  const house = roots.length;
  const islandAt = (node: number) => {
    const island = roots.indexOf(ties.rootOf(node));
    return island < 0 ? house : island;
  };
  const systemsOf = systemOfDevices(laid);
  const islandOfDevice = systemsOf.map((system) => (system < 0 ? house : islandAt(system)));
  const islands = [...roots.keys(), house];
  const lookers = islands.flatMap((island) => {
    const isHere = (node: number) => islandAt(node) === island;
    const isDeviceHere = (device: number) => islandOfDevice[device] === island;
    return site.hubs.flatMap((_, hub) => lookerOf(laid, ties, { hub, island, isHere, isDeviceHere }));
  });
  return {
    lookers,
    islands: islands.map((index) => ({
      index,
      systems: systems.filter((system) => islandAt(system.index) === index),
      lookers: placesOf(lookers, ({ island }) => island === index),
      limitedFills: site.devices.flatMap(({ ownFloat }, device) => {
        const longestRunS = ownFloat?.longestRunS ?? null;
        return longestRunS === null || islandOfDevice[device] !== index ? [] : [{ device, longestRunS }];
      }),
      carried: site.batteries.flatMap((_, battery) => {
        const devices = [...power.carriedDevices[battery]].filter((device) => islandOfDevice[device] === index);
        return devices.length > 0 ? [{ battery, devices }] : [];
      }),
      timers: placesOf(site.devices, ({ schedule }, at) => schedule.length > 0 && islandOfDevice[at] === index),
    })),
  };
}

/** One hub and one island. */
interface Pairing {
  readonly hub: number;
  readonly island: number;
  readonly isHere: (node: number) => boolean;
  readonly isDeviceHere: (device: number) => boolean;
}

/** What a hub does for an island; none where it has nothing to do there. */
function lookerOf(laid: Laid, ties: Ties, { hub, island, isHere, isDeviceHere }: Pairing): Looker[] {
  const { site, hubOfDevice } = laid;
  const { id } = site.hubs[hub];
  const rules = placesOf(site.rules, (rule, at) => rule.hub === id && isHere(ties.rule(at)));
  const all = placesOf(site.sensors, (sensor, at) => sensor.hub === id && isHere(ties.sensor(at)));
  const devices = placesOf(site.devices, (_, at) => hubOfDevice[at] === hub && isDeviceHere(at));
  if (rules.length + all.length + devices.length === 0) return [];
  const read = new Set(rules.flatMap((rule) => sensorsOf(site, site.rules[rule])));
  const ofMatter = all.filter((sensor) => OF_MATTER.has(site.sensors[sensor].measures));
  const idle = ofMatter.filter((sensor) => !read.has(sensor));
  const sensors = all.filter((sensor) => !idle.includes(sensor));
  const mindsMatter = ofMatter.length > idle.length;
  const table = tableOf(site, rules);
  return [{ hub, island, rules, sensors, idle, mindsMatter, devices, table, ...looksAt(laid, all) }];
}

/** What hangs on what is dissolved in the water. */
const OF_MATTER: ReadonlySet<Quantity> = new Set(["ph", "salinity", "oxygen", "alkalinity", "orp"]);

function placesOf<T>(all: readonly T[], is: (one: T, place: number) => boolean): number[] {
  return [...all.keys()].filter((place) => is(all[place], place));
}

function tableOf(site: Site, rules: readonly number[]): RuleTable {
  const specs = rules.map((place) => site.rules[place]);
  const ids = (parts: readonly { readonly id: string }[]) => parts.map(({ id }) => id);
  return { ...compileRules(specs, ids(site.sensors), ids(site.devices)), rules: specs };
}

/** What these sensors may show: what switches in a system, and water on the floor of a room. */
function looksAt({ site, systems, power, systemOfSensor }: Laid, sensors: readonly number[]) {
  const sees = (place: number, system: SystemModel) =>
    systemOfSensor[place] === system.index ||
    devicesUnder({ site, power }, site.sensors[place]).some((device) => system.devices.includes(device));
  return {
    sees: Uint8Array.from(systems, (system) => (sensors.some((place) => sees(place, system)) ? 1 : 0)),
    seesFloor: Uint8Array.from(site.rooms, (room) =>
      sensors.some((place) => isLeak(site.sensors[place]) && roomOf(site, site.sensors[place]) === room.id) ? 1 : 0,
    ),
  };
}

/** Devices that show in a sensor of a circuit; none in any other. */
function devicesUnder({ site, power }: Pick<Laid, "site" | "power">, { atKind, at }: Sensor): readonly number[] {
  const circuit = atKind === "circuit" ? site.circuits.findIndex(({ id }) => id === at) : -1;
  return circuit < 0 ? [] : [...power.devicesUnder[circuit]];
}

function isLeak({ measures }: Sensor): boolean {
  return measures === "leak";
}

/** Room in which a sensor is. */
function roomOf(site: Site, { atKind, at }: Sensor): string | undefined {
  if (atKind === "room") return at;
  if (atKind === "body") return site.bodies.find(({ id }) => id === at)?.room;
  return site.rooms[0]?.id;
}

/** Sets of systems, sensors and rules that are tied. The first nodes are the systems, by their place. */
class Ties {
  readonly #parent: number[];
  readonly #sensors: number;
  readonly #rules: number;

  constructor(systems: number, sensors: number, rules: number) {
    this.#sensors = systems;
    this.#rules = systems + sensors;
    this.#parent = Array.from({ length: systems + sensors + rules }, (_, node) => node);
  }

  sensor(place: number): number {
    return this.#sensors + place;
  }

  rule(place: number): number {
    return this.#rules + place;
  }

  rootOf(node: number): number {
    let root = node;
    while (this.#parent[root] !== root) root = this.#parent[root];
    return root;
  }

  /** Ties all of these to one another. */
  join(nodes: readonly number[]): void {
    for (const node of nodes.slice(1)) this.#parent[this.rootOf(node)] = this.rootOf(nodes[0]);
  }
}

function tie(laid: Laid): Ties {
  const { site, systems, power } = laid;
  const ties = new Ties(systems.length, site.sensors.length, site.rules.length);
  const systemsOf = systemOfDevices(laid);
  const withSystem = (devices: Iterable<number>) =>
    [...new Set(Array.from(devices, (device) => systemsOf[device]))].filter((system) => system >= 0);
  for (const [place, sensor] of site.sensors.entries()) {
    const at = laid.systemOfSensor[place];
    if (isLeak(sensor)) tieToFloor(laid, ties, place);
    else if (at >= 0) ties.join([ties.sensor(place), at]);
    else ties.join([ties.sensor(place), ...withSystem(devicesUnder(laid, sensor))]);
  }
  for (const [place, rule] of site.rules.entries()) {
    const acted = rule.act.map(({ device }) => site.devices.findIndex(({ id }) => id === device));
    ties.join([ties.rule(place), ...sensorsOf(site, rule).map((at) => ties.sensor(at)), ...withSystem(acted)]);
  }
  for (const system of systems)
    for (const { from, borrows } of system.carries)
      if (borrows) ties.join([system.index, systems.findIndex(({ stores }) => stores.includes(from))]);
  for (const devices of overloadableSets(site, power)) ties.join(withSystem(devices));
  return ties;
}

/** Places of the sensors that a rule reads. */
function sensorsOf(site: Site, rule: RuleSpec): number[] {
  const terms = [...rule.when.all, ...(rule.until?.all ?? [])];
  const ids = terms.flatMap(({ sensor, is }) => (is.op === "differs" ? [sensor, is.from] : [sensor]));
  return ids.map((id) => site.sensors.findIndex((sensor) => sensor.id === id));
}

/**
 * Water on the floor may come from any system in the room. Where a rule acts on it, or one system alone stands there, all is one
 * island; else only notices hang on it, which the house gives once all systems have been through the time.
 */
function tieToFloor({ site, systems }: Laid, ties: Ties, place: number): void {
  const room = roomOf(site, site.sensors[place]);
  const inRoom = systems.filter(({ bodies }) => bodies.some((body) => site.bodies[body].room === room));
  const acts = site.rules.some((rule) => rule.act.length > 0 && sensorsOf(site, rule).includes(place));
  if (acts || inRoom.length === 1) ties.join([ties.sensor(place), ...inRoom.map(({ index }) => index)]);
}
