/** When hubs have to look before their time. */
import { HUB_COLUMNS, HUB_LOOK, HUB_MOVED } from "./columns.ts";
import { type Twin, timeS } from "./state.ts";

/**
 * Everything is looked at this often at least, s: at the full twenty minutes, so that all do so together; where minutes no longer count,
 * at the full hour.
 */
const MARK_EVERY_S = 1200;
const LATE_MARK_EVERY_S = 3600;
/** So long after a heater or chiller has switched the waters have found their new course, s. */
const SETTLE_S = 240;
/** Part of a tick that is lost in rounding. */
const ROUNDING = 1e-9;

/** The next mark after now. */
export function nextMarkS(twin: Twin): number {
  const nowS = timeS(twin);
  const everyS = nowS >= twin.lateFromS ? LATE_MARK_EVERY_S : MARK_EVERY_S;
  return (Math.floor(nowS / everyS + ROUNDING) + 1) * everyS;
}

/** Number of the last tick of a hub at or before `nowS`. */
export function tickAt(nowS: number, everyS: number): number {
  return Math.floor(nowS / everyS + ROUNDING);
}

/** Every hub looks at once. */
export function lookNow(twin: Twin): void {
  for (let at = 0; at < twin.looks.length; at += HUB_COLUMNS) {
    twin.looks[at + HUB_LOOK] = timeS(twin);
    twin.looks[at + HUB_MOVED] = timeS(twin);
  }
}

/** Something switched in a system, or (-1) anywhere: the hubs that see it look at their next tick. */
export function lookSoon(twin: Twin, system = -1): void {
  const { lookers } = twin.model;
  for (let looker = 0; looker < lookers.length; looker++)
    if (system < 0 || lookers[looker].sees[system] > 0) lookAfter(twin, looker, timeS(twin));
}

/** Something switched in a system that only warms or cools: no reading jumps, and the hubs look once the waters have settled. */
export function lookSettled(twin: Twin, system: number): void {
  const { lookers, site } = twin.model;
  for (let looker = 0; looker < lookers.length; looker++) {
    if (lookers[looker].sees[system] === 0) continue;
    const { readsEveryS } = site.hubs[lookers[looker].hub];
    const at = looker * HUB_COLUMNS + HUB_LOOK;
    const ticks = Math.max(1, Math.floor(SETTLE_S / readsEveryS));
    twin.looks[at] = Math.min(twin.looks[at], (tickAt(timeS(twin), readsEveryS) + ticks) * readsEveryS);
  }
}

/** At `atS` water came to lie on the floor of a room: the hubs that feel it look at their next tick. */
export function lookAtFloor(twin: Twin, room: number, atS: number): void {
  const { lookers } = twin.model;
  for (let looker = 0; looker < lookers.length; looker++)
    if (lookers[looker].seesFloor[room] > 0) lookAfter(twin, looker, atS);
}

function lookAfter(twin: Twin, looker: number, atS: number): void {
  const { lookers, site } = twin.model;
  const everyS = site.hubs[lookers[looker].hub].readsEveryS;
  const at = looker * HUB_COLUMNS;
  twin.looks[at + HUB_LOOK] = Math.min(twin.looks[at + HUB_LOOK], (tickAt(atS, everyS) + 1) * everyS);
  twin.looks[at + HUB_MOVED] = atS;
}
