/** One system as flat tables: its waters, the ways between them, and what its devices do by themselves. */
import type { Device, Flow, Site } from "../site/index.ts";
import { compileAround } from "./compile-around.ts";
import { carriesWater, isStore } from "./life.ts";
import type { CarryEdge, GroupModel, PumpEdge, SystemModel, WeirEdge } from "./model.ts";
import { DefectError, mustFind } from "./must-find.ts";
import { watchedLevels } from "./watched-levels.ts";

/** Place of each part by its id. */
export type Ids = ReadonlyMap<string, number>;

/** An opening between two chambers carries this many times what all pumps of the system move, where nothing else is said. */
const OPENING_TIMES = 4;

export function compileSystem(
  site: Site,
  index: number,
  bodyIndex: Ids,
  deviceIndex: Ids,
  groups: readonly GroupModel[],
): SystemModel {
  const { id } = site.systems[index];
  const bodies = site.bodies.filter((body) => body.system === id);
  const flows = site.flows.filter((flow) => flow.system === id);
  const at = (body: string) => mustFind(bodyIndex.get(body), `The body '${body}'`);
  const pumps = flows.flatMap((flow) => (flow.by === null ? [] : [pumpEdge(site, flow, flow.by, at, deviceIndex)]));
  const devices = site.devices.flatMap((device, place) => (device.system === id ? [place] : []));
  const those = (wanted: (device: Device) => boolean) => devices.filter((place) => wanted(site.devices[place]));
  const waters = bodies.filter((body) => !isStore(body)).map((body) => at(body.id));
  const stores = bodies.filter(isStore).map((body) => at(body.id));
  const weirs = orderWeirs(weirEdges(site, flows, at), site);
  return {
    index,
    id,
    waters,
    stores,
    bodies: [...waters, ...stores],
    pumps,
    weirs,
    carries: those(carriesWater).map((place) => carryEdge(site, place, at)),
    devices,
    around: waters.map((body) => compileAround(site, body, devices, pumps, weirs)),
    thermostats: those(hasThermostat),
    ownSwitches: those((device) => hasThermostat(device) || device.ownFloat !== null),
    reactors: those((device) => device.kind === "calcium-reactor"),
    dosed: those((device) => device.dosesPerDay > 0),
    watchedLevels: watchedLevels(site, id, { waters, stores, pumps }, bodyIndex),
    groups: groups.flatMap((group, place) => (group.system === index ? [place] : [])),
    kinds: new Set(devices.map((place) => site.devices[place].kind)),
  };
}

function hasThermostat(device: Device): boolean {
  return device.ownThermostatC !== null || device.cutOutC !== null;
}

function pumpEdge(site: Site, flow: Flow, by: string, at: (body: string) => number, deviceIndex: Ids): PumpEdge {
  const device = mustFind(deviceIndex.get(by), `The pump '${by}'`);
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

/** Every pumped way needs a way back; a chamber with an open connection passes on what comes in. */
function weirEdges(site: Site, flows: readonly Flow[], at: (body: string) => number): WeirEdge[] {
  const pumpedLPerH = flows.reduce((sum, flow) => sum + ratedFlow(site, flow), 0);
  const openFrom = new Set(flows.filter((flow) => flow.by === null).map((flow) => flow.from));
  const done = new Set<string>();
  const edges: WeirEdge[] = [];
  for (const flow of flows) {
    const [from, to] = flow.by === null ? [flow.from, flow.to] : [flow.to, flow.from];
    if ((flow.by !== null && openFrom.has(from)) || done.has(from)) continue;
    done.add(from);
    edges.push({
      flow: site.flows.indexOf(flow),
      from: at(from),
      to: at(to),
      crestL: site.bodies[at(from)].volumeL - flow.weirHeadL,
      headL: flow.weirHeadL,
      ratedLPerH: Math.max(ratedThrough(site, flows, from), 1),
      drainLPerH: flow.by === null && flow.drainLPerH === 0 ? OPENING_TIMES * pumpedLPerH : flow.drainLPerH,
      spareDrainLPerH: flow.spareDrainLPerH,
      dropM: flow.dropM,
    });
  }
  return edges;
}

/** What the pump of a way moves, L/h; 0 for an open way. */
function ratedFlow(site: Site, flow: Flow): number {
  return site.devices.find((device) => device.id === flow.by)?.flowLPerH ?? 0;
}

/** What pumps bring into a body or take out of it, whichever is more, L/h. */
function ratedThrough(site: Site, flows: readonly Flow[], body: string): number {
  const sum = (ways: readonly Flow[]) => ways.reduce((total, flow) => total + ratedFlow(site, flow), 0);
  return Math.max(sum(flows.filter((flow) => flow.to === body)), sum(flows.filter((flow) => flow.from === body)));
}

/** Sorts so that a weir that feeds another body with a weir comes first. */
function orderWeirs(edges: readonly WeirEdge[], site: Site): WeirEdge[] {
  const rest = [...edges];
  const ordered: WeirEdge[] = [];
  while (rest.length > 0) {
    const next = rest.findIndex((edge) => !rest.some((other) => other !== edge && other.to === edge.from));
    if (next < 0) throw new DefectError("defect/ring-of-weirs", ringWords(rest, site), "make one of them a pumped way");
    ordered.push(...rest.splice(next, 1));
  }
  return ordered;
}

function ringWords(ring: readonly WeirEdge[], site: Site): string {
  return `The weirs of ${ring.map((edge) => `'${site.bodies[edge.from].id}'`).join(", ")} feed each other in a ring`;
}

function carryEdge(site: Site, place: number, at: (body: string) => number): CarryEdge {
  const { from, in: to, system } = site.devices[place];
  if (from === null) return { device: place, from: -1, to: at(to), borrows: false };
  return { device: place, from: at(from), to: at(to), borrows: site.bodies[at(from)].system !== system };
}
