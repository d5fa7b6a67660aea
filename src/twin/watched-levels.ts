/** The volumes at which something switches by itself: floats, intakes, brims. */
import type { Site } from "../site/index.ts";
import { DRY_SHARE, fullAgainL } from "./hydraulics.ts";
import type { PumpEdge, WatchedLevel } from "./model.ts";

interface Around {
  readonly waters: readonly number[];
  readonly stores: readonly number[];
  readonly pumps: readonly PumpEdge[];
}

export function watchedLevels(
  site: Site,
  system: string,
  { waters, stores, pumps }: Around,
  bodyIndex: ReadonlyMap<string, number>,
): WatchedLevel[] {
  const ownBody = (id: string) => {
    const body = bodyIndex.get(id);
    return body !== undefined && site.bodies[body].system === system ? body : null;
  };
  const levels: WatchedLevel[] = [];
  const watch = (body: number | null, ...volumes: readonly (number | null)[]) => {
    for (const volumeL of volumes) if (body !== null && volumeL !== null) levels.push({ body, volumeL });
  };
  for (const { ownFloat, in: body } of site.devices)
    if (ownFloat) watch(ownBody(body), ownFloat.onL, ownFloat.offL, ownFloat.spareL);
  for (const { at, floatAtL } of site.sensors) watch(ownBody(at), floatAtL);
  for (const { from } of pumps) {
    const { intakeL } = site.bodies[from];
    watch(from, intakeL, intakeL * DRY_SHARE, fullAgainL(intakeL));
  }
  for (const store of stores) watch(store, site.bodies[store].intakeL);
  for (const body of waters) watch(body, site.bodies[body].brimL);
  return levels;
}
