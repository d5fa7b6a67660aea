import type { Body, SettledLife, Site } from "../../server/contract/index.ts";
import { measure } from "../parts/format.ts";
import { words } from "../words.ts";
import { type DrawnStore, drawStores, STORE_LINE } from "./lay-out-stores.ts";
import { type Density, drawLower, drawUpper, LOWER_HEIGHT } from "./lay-out-vessels.ts";
import type { Pipe, Spot, SystemLayout, Vessel } from "./shapes.ts";
import { sortSystem } from "./sort-parts.ts";

/** Room at the left of a display for the pipe that rises, and at its right for the one that falls. */
const RISER = 22;
const FALL = 18;
/** Where the first pipe under the stand turns; each further one lies lower. */
const FIRST_BUS = 40;
const BUS_STEP = 12;

/** Where stores have no room beside the sumps, they stand so far under them: room for their names and pipes, px. */
const UNDER_SUMPS = 136;

/**
 * @param lowerBy Sets the sumps so much lower, so that those of one storey stand on one floor, px.
 * @param mostWidth Where the stores would reach beyond this, they stand under the sumps instead of beside them, px.
 */
export function layOutSystem(
  site: Site,
  systemId: string,
  settled: SettledLife | null,
  density: Density,
  nameOf: (id: string) => string,
  lowerBy = 0,
  mostWidth = Number.POSITIVE_INFINITY,
): SystemLayout {
  const parts = sortSystem(site, systemId);
  const room = site.systems.find(({ id }) => id === systemId)?.room ?? "";
  const upper: ReturnType<typeof drawUpper>[] = [];
  let x = RISER + 14;
  for (const body of parts.upper) {
    const captionId = parts.upper.length === 1 ? systemId : body.id;
    const drawn = drawUpper(site, body, x, nameOf(captionId), settled, density);
    upper.push(drawn);
    x += drawn.vessel.width + FALL + RISER + 20;
  }
  const upperRight = x - RISER - 6;
  const pumped = parts.flows.filter(({ by }) => by !== null).length;
  // Names of many stores stand over each other, and need more room under the pipes.
  const named = Math.max(0, parts.stores.length - 2) * STORE_LINE;
  const lowerTop =
    lowerBy + (parts.lower.length === 0 ? 30 : FIRST_BUS + 2 * BUS_STEP * Math.max(1, pumped) + 22 + named);
  const mostSump = (mostWidth - 70) / Math.max(1, parts.lower.length);
  const drawSump = (body: Body, left: number, top: number): ReturnType<typeof drawLower> =>
    drawLower(site, body, left, top, nameOf(body.id), settled, density, mostSump);
  const deepest = Math.max(LOWER_HEIGHT, ...parts.lower.map((body) => drawSump(body, 0, 0).vessel.height));
  const floor = parts.lower.length === 0 && parts.stores.length === 0 ? 40 + lowerBy : lowerTop + deepest;
  const lower: ReturnType<typeof drawLower>[] = [];
  x = 28;
  for (const body of parts.lower) {
    const drawn = drawSump(body, x, floor - drawSump(body, 0, 0).vessel.height);
    lower.push(drawn);
    x += drawn.vessel.width + 22;
  }
  const surface = parts.lower.length === 0 ? floor : Math.min(...lower.map(({ vessel }) => vessel.waterY));
  const waterRight = Math.max(upperRight, x - 22);
  const beside = drawStores(
    site,
    parts.stores,
    parts.lower.length > 0 ? x + 8 : upperRight + 16,
    floor,
    surface,
    settled,
  );
  const isUnder = beside.right > mostWidth && parts.stores.length > 0;
  const storeFloor = isUnder ? floor + UNDER_SUMPS + (STORE_LINE + 8) * parts.stores.length : floor;
  const stores = isUnder ? drawStores(site, parts.stores, 8, storeFloor, storeFloor, settled) : beside;
  const vessels = [...upper, ...lower, ...stores.drawn].map(({ vessel }) => vessel);
  const spots = [...upper, ...lower, ...stores.drawn].flatMap((drawn) => drawn.spots);
  const byId = new Map(vessels.map((vessel) => [vessel.body.id, vessel]));
  const flowPipes = parts.flows.flatMap((flow, i) => pipesOfFlow(flow, i, pumped, byId, spots, settled, site));
  const outside = isUnder
    ? Math.max(waterRight, ...upper.map(({ vessel }) => vessel.x + vessel.width + FALL)) + 8
    : null;
  const storePipes = stores.drawn.flatMap((drawn, i) => pipeOfStore(drawn, i, byId, outside));
  return {
    id: systemId,
    room,
    vessels,
    spots,
    pipes: [...flowPipes, ...storePipes],
    width: Math.max(waterRight, stores.right, outside === null ? 0 : outside + 6 * stores.drawn.length) + 6,
    top: Math.min(...upper.map(({ top }) => top)),
    bottom: storeFloor,
  };
}

type FlowOf = Site["flows"][number];

/** The pumped way up and the gravity way back, under the stand without crossing each other's turns. */
function pipesOfFlow(
  flow: FlowOf,
  index: number,
  pumped: number,
  vessels: ReadonlyMap<string, Vessel>,
  spots: readonly Spot[],
  settled: SettledLife | null,
  site: Site,
): readonly Pipe[] {
  const from = vessels.get(flow.from);
  const to = vessels.get(flow.to);
  if (from === undefined || to === undefined) return [];
  const pump = spots.find(({ part }) => part.id === flow.by);
  const litres = settled?.flowsLPerH[flow.id] ?? site.devices.find(({ id }) => id === flow.by)?.flowLPerH ?? 0;
  const amount = measure(Math.round(litres / 10) * 10, words.units.LPerH);
  if (pump === undefined) return from.tier === to.tier ? [openConnection(flow.id, from, to)] : [];
  if (to.tier !== "upper") return [shortWay(flow.id, pump, to, amount)];
  const rise = FIRST_BUS + index * BUS_STEP;
  const fall = FIRST_BUS + (pumped + index) * BUS_STEP;
  const riseX = to.x - RISER;
  const fallX = to.x + to.width + FALL;
  const landX = from.x + from.width - 12;
  const pumpTop = pump.y - pump.height / 2;
  return [
    {
      id: `${flow.id} up`,
      d: `M${pump.x} ${pumpTop}V${rise}H${riseX}V${to.y - 14}H${to.x + 16}V${to.y + 8}`,
      arrow: { x: riseX, y: to.y + to.height * 0.62, way: "up" },
      label: { text: pump.part.id, x: riseX + 9, y: 20, anchor: "start", on: "paper" },
      partId: pump.part.id,
    },
    {
      id: `${flow.id} back`,
      d: `M${to.x + to.width - 14} ${to.waterY + 1}H${fallX}V${fall}H${landX}V${from.waterY - 2}`,
      arrow: { x: fallX, y: 8, way: "down" },
      label: { text: amount, x: fallX - 9, y: 20, anchor: "end", on: "paper" },
      partId: flow.id,
    },
  ];
}

/** Chambers that share a level. */
function openConnection(id: string, a: Vessel, b: Vessel): Pipe {
  const [left, right] = a.x < b.x ? [a, b] : [b, a];
  const y = left.waterY + 24;
  return {
    id,
    d: `M${left.x + left.width - 6} ${y}H${right.x + 6}M${left.x + left.width - 6} ${y + 5}H${right.x + 6}`,
    arrow: null,
    label: null,
    partId: id,
  };
}

/** From a pump over the wall into a water beside or below it. */
function shortWay(id: string, pump: Spot, to: Vessel, amount: string): Pipe {
  const over = to.y - 12;
  const land = to.x + to.width / 2;
  return {
    id,
    d: `M${pump.x} ${pump.y - pump.height / 2}V${over}H${land}V${to.waterY}`,
    arrow: { x: land, y: to.y + 14, way: "down" },
    label: { text: amount, x: land + 9, y: to.y - 2, anchor: "start", on: "paper" },
    partId: id,
  };
}

/** From a store to the water that it tops up or doses. */
function pipeOfStore(
  { vessel: store, spots, turn }: DrawnStore,
  index: number,
  vessels: ReadonlyMap<string, Vessel>,
  outside: number | null,
): readonly Pipe[] {
  const carrier = spots[0]?.part;
  if (carrier === undefined || !("in" in carrier)) return [];
  const to = vessels.get(carrier.in);
  if (to === undefined || to.tier === "store") return [];
  const rise = `M${store.x + store.width / 2} ${store.y + 4}V${turn}`;
  if (to.tier === "upper") {
    const up = to.x + to.width + FALL + 10 + index * 6;
    return [
      {
        id: `${carrier.id} pipe`,
        d: `${rise}H${up}V${to.y - 10}H${to.x + to.width - 20}V${to.y + 8}`,
        arrow: { x: up, y: 6, way: "up" },
        label: null,
        partId: null,
      },
    ];
  }
  const wall = to.x + to.width;
  const land = wall - 26 - index * 9;
  if (outside !== null) {
    const up = outside + index * 6;
    const over = to.waterY - 6 - index * 6;
    return [
      {
        id: `${carrier.id} pipe`,
        d: `${rise}H${up}V${over}H${land}V${to.waterY - 1}`,
        arrow: { x: up, y: to.y + to.height + 4, way: "up" },
        label: null,
        partId: null,
      },
    ];
  }
  return [
    {
      id: `${carrier.id} pipe`,
      d: `${rise}H${land}V${to.waterY - 1}`,
      arrow: { x: wall + 5 + (index % 2) * 9, y: turn, way: "left" },
      label: null,
      partId: null,
    },
  ];
}
