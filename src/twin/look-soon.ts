/** When hubs have to look before their time. */
import { HUB_COLUMNS, HUB_LOOK, HUB_MOVED } from "./columns.ts";
import { type Twin, timeS } from "./state.ts";

/** Everything is looked at this often at least, s: at the full twenty minutes, so that all do so together. */
const MARK_EVERY_S = 1200;
/** Part of a tick that is lost in rounding. */
const ROUNDING = 1e-9;

/** The next full twenty minutes after `nowS`. */
export function nextMarkS(nowS: number): number {
  return (Math.floor(nowS / MARK_EVERY_S + ROUNDING) + 1) * MARK_EVERY_S;
}

/** Number of the last tick of a hub at or before `nowS`. */
export function tickAt(nowS: number, everyS: number): number {
  return Math.floor(nowS / everyS + ROUNDING);
}

/** Every hub looks at once. */
export function lookNow(twin: Twin): void {
  for (let at = 0; at < twin.hubs.length; at += HUB_COLUMNS) {
    twin.hubs[at + HUB_LOOK] = timeS(twin);
    twin.hubs[at + HUB_MOVED] = timeS(twin);
  }
}

/** Something switched in a system, or (-1) anywhere: the hubs that see it look at their next tick. */
export function lookSoon(twin: Twin, system = -1): void {
  const { hubs } = twin.model.site;
  const nowS = timeS(twin);
  for (let hub = 0; hub < hubs.length; hub++) {
    if (system >= 0 && !twin.model.sensing.sees[hub][system]) continue;
    const at = hub * HUB_COLUMNS;
    const nextTickS = (tickAt(nowS, hubs[hub].readsEveryS) + 1) * hubs[hub].readsEveryS;
    twin.hubs[at + HUB_LOOK] = Math.min(twin.hubs[at + HUB_LOOK], nextTickS);
    twin.hubs[at + HUB_MOVED] = nowS;
  }
}
