/** When hubs have to look before their time. */
import { HUB_COLUMNS, HUB_LOOK, HUB_MOVED } from "./columns.ts";
import { type Twin, timeS } from "./state.ts";

/** Everything is looked at this often at least, s: at the full twenty minutes, so that all do so together. */
const MARK_EVERY_S = 1200;
/** So long after a heater or chiller has switched the waters have found their new course, s. */
export const SETTLE_S = 240;
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
  const { lookers } = twin.model;
  for (let looker = 0; looker < lookers.length; looker++)
    if (lookers[looker].sees[system] > 0) lookAfter(twin, looker, timeS(twin), SETTLE_S);
}

/** At `atS` water came to lie on the floor of a room: the hubs that feel it look at their next tick. */
export function lookAtFloor(twin: Twin, room: number, atS: number): void {
  const { lookers } = twin.model;
  for (let looker = 0; looker < lookers.length; looker++)
    if (lookers[looker].seesFloor[room] > 0) lookAfter(twin, looker, atS);
}

/** At `atS` something moved: a look at the next tick, or the last that lies no later than `withinS`. */
function lookAfter(twin: Twin, looker: number, atS: number, withinS = 0): void {
  const { lookers, site } = twin.model;
  const everyS = site.hubs[lookers[looker].hub].readsEveryS;
  const at = looker * HUB_COLUMNS;
  const ticks = Math.max(1, Math.floor(withinS / everyS));
  twin.looks[at + HUB_LOOK] = Math.min(twin.looks[at + HUB_LOOK], (tickAt(atS, everyS) + ticks) * everyS);
  twin.looks[at + HUB_MOVED] = atS;
}
