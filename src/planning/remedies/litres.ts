/** How much may run in by mistake: by the salinity that the animals bear, and by the room that the vessel has. */
import { tolerances } from "../../science/index.ts";
import type { Body, Device, Site } from "../../site/index.ts";
import { bodyOf, circulating, systemL } from "./places.ts";

/** Salinity by which the mixed water stays above the point where harm begins. */
const CLEAR_PPT = 0.5;
/** Share of the free room up to the rim that is used. */
const ROOM_SHARE = 0.9;
/** Water that a square metre of open surface gives off in a day, L: the trade's 4 to 7 L, without fans. */
const EVAPORATED_L_PER_M2_D = 6;

/** Highest salinity at which fresh water begins to harm one of the groups of a system; null where nothing is harmed by it. */
export function harmfulSalinity(site: Site, system: string): number | null {
  const groups = new Set(
    circulating(site, system).flatMap(({ livestock }) => [
      ...(livestock.corals === null ? [] : [livestock.corals]),
      ...(livestock.fishG > 0 && livestock.fishGroup !== null ? [livestock.fishGroup] : []),
      ...(livestock.invertebrates ? ["invertebrates"] : []),
    ]),
  );
  const points = tolerances
    .filter(({ group, stressor }) => stressor === "low-salinity" && groups.has(group))
    .map(({ threshold }) => threshold);
  return points.length === 0 ? null : Math.max(...points);
}

/**
 * Fresh water that may all run into a system at once: V (S / S_limit - 1) litres dilute V litres of salinity S to S_limit, by
 * conservation of salt.
 */
export function harmlessBySaltL(volumeL: number, salinity: number, limit: number): number {
  return Math.max(0, volumeL * (salinity / (limit + CLEAR_PPT) - 1));
}

/** Fresh water from which neither the animals nor the floor take harm if a top-off empties it into its body, L. */
export function harmlessL(site: Site, topOff: Device): number {
  const body = bodyOf(site, topOff.in);
  if (body === null || body.holds.kind !== "salt") return 0;
  const limit = harmfulSalinity(site, body.system);
  const bySalt =
    limit === null ? Number.POSITIVE_INFINITY : harmlessBySaltL(systemL(site, body.system), body.holds.salinity, limit);
  return Math.min(bySalt, ROOM_SHARE * (body.brimL - body.volumeL));
}

/** Water that a system gives off in a day, roughly, L. */
export function evaporatedLPerD(site: Site, system: string): number {
  const open = (body: Body) => (body.lid === "open" ? 1 : body.lid === "mesh" ? 0.9 : 0.15) * body.surfaceM2;
  return circulating(site, system).reduce((sum, body) => sum + open(body), 0) * EVAPORATED_L_PER_M2_D;
}
