/**
 * When a hub need look again. Between looks the water moves slowly and nearly straight, and the noise of every coming tick
 * is known: so the coming ticks are tried on readings drawn straight on from the last two looks, and the hub looks at the
 * first at which a term that matters would change, or after a while that grows with the time since anything was switched.
 */
import { ABOVE, BELOW, BETWEEN, isActive, nextTimedChangeS, OUTSIDE, type RuleTable } from "../rules/index.ts";
import { HUB_COLUMNS, HUB_LOOK, HUB_MOVED } from "./columns.ts";
import { nextMarkS, tickAt } from "./look-soon.ts";
import { Outlook } from "./reading-ahead.ts";
import { type Twin, timeS } from "./state.ts";

/** After something that may make readings jump the time between looks grows with this multiple of the time since. */
const CALM_TIMES = 16;

/** The line of the sensor that is being thought about. */
const outlook = new Outlook();

/** Sets the next time at which the rules of a hub for one island could decide anything new. */
export function planNextLook(twin: Twin, looker: number, minute: number, day: number): void {
  const at = looker * HUB_COLUMNS;
  const { hub, table } = twin.model.lookers[looker];
  const nowS = timeS(twin);
  const everyS = twin.model.site.hubs[hub].readsEveryS;
  const timedS = timedChangeS(twin, looker, minute, day) - nowS;
  const calmS = Math.max(everyS, CALM_TIMES * (nowS - twin.looks[at + HUB_MOVED]));
  const mostS = Math.min(nextMarkS(twin) - nowS, calmS, timedS);
  const nowTick = tickAt(nowS, everyS);
  let ticks = Math.max(1, Math.ceil(mostS / everyS - 1e-9));
  for (let rule = 0; rule < table.rules.length && ticks > 1; rule++) {
    const active = isActive(table, twin.ruleStates[looker], rule);
    const hasUntil = table.firstTerm[2 * rule + 2] > table.firstTerm[2 * rule + 1];
    if (!active || !hasUntil || table.holdS[2 * rule] > 0)
      ticks = ticksToChange(twin, looker, 2 * rule, { nowTick, everyS }, ticks);
    if (active && hasUntil) ticks = ticksToChange(twin, looker, 2 * rule + 1, { nowTick, everyS }, ticks);
  }
  twin.looks[at + HUB_LOOK] = (nowTick + ticks) * everyS;
}

/** A sensor that speaks at every look need not be waited for. */
function timedChangeS(twin: Twin, looker: number, minute: number, day: number): number {
  const { lookers, site } = twin.model;
  const { sensors, table } = lookers[looker];
  const { readings, heard } = twin.scratch.views[looker];
  for (const sensor of sensors)
    if (!Number.isNaN(readings[sensor]) && site.sensors[sensor].everyH === 0) heard[sensor] = Number.POSITIVE_INFINITY;
  return nextTimedChangeS(table, twin.ruleStates[looker], timeS(twin), minute, day, heard);
}

interface Ticks {
  readonly nowTick: number;
  readonly everyS: number;
}

/** First coming tick, up to `most`, at which a term of a condition would change. */
function ticksToChange(twin: Twin, looker: number, condition: number, times: Ticks, most: number): number {
  const { table } = twin.model.lookers[looker];
  const { readings } = twin.scratch.views[looker];
  let ticks = most;
  for (let term = table.firstTerm[condition]; term < table.firstTerm[condition + 1]; term++)
    if (table.operator[term] <= OUTSIDE && !Number.isNaN(readings[table.sensor[term]]))
      ticks = termChange(twin, table, term, readings[table.sensor[term]], times, ticks);
  return ticks;
}

/** The same for one term. Only ticks at which the reading may come near a limit are tried. */
function termChange(
  twin: Twin,
  table: RuleTable,
  term: number,
  reading: number,
  { nowTick, everyS }: Ticks,
  most: number,
): number {
  const low = table.low[term];
  const high = hasTwoLimits(table.operator[term]) ? table.high[term] : low;
  outlook.take(twin, table.sensor[term]);
  if (outlook.distanceTo(low, everyS * most) > 0 && outlook.distanceTo(high, everyS * most) > 0) return most;
  const now = termHolds(table, term, reading);
  const clearTicks = Math.min(outlook.clearOf(low), outlook.clearOf(high)) / everyS - 1;
  for (let tick = Math.max(1, Math.floor(clearTicks)); tick < most; tick++)
    if (termHolds(table, term, outlook.reading(nowTick + tick, tick * everyS)) !== now) return tick;
  return most;
}

function hasTwoLimits(operator: number): boolean {
  return operator === BETWEEN || operator === OUTSIDE;
}

function termHolds(table: RuleTable, term: number, reading: number): boolean {
  const operator = table.operator[term];
  if (operator === BELOW) return reading < table.low[term];
  if (operator === ABOVE) return reading > table.low[term];
  const inside = reading >= table.low[term] && reading <= table.high[term];
  return operator === BETWEEN ? inside : !inside;
}
