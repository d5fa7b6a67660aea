/**
 * A hub looks: reads its sensors, runs its rules, gives its commands. Looks that cannot change anything are left out.
 */
import { dayOfWeekAt, minuteOfDayAt } from "../foundation/index.ts";
import {
  ABOVE,
  BELOW,
  BETWEEN,
  initRuleState,
  isActive,
  nextTimedChangeS,
  OUTSIDE,
  type RuleTable,
  stepRules,
} from "../rules/index.ts";
import { DEVICE_COLUMNS, DEVICE_COMMAND, SENSOR_COLUMNS, SENSOR_HEARD, SENSOR_READING } from "./columns.ts";
import { AT } from "./levers.ts";
import { hubPowered } from "./power.ts";
import { distanceToLimit, readingAhead, readSensor } from "./sensing.ts";
import { type Twin, timeS } from "./state.ts";

/** Place of a hub's flags in the state. */
const WAS_UP = 0;
/** Looks are never farther apart than this, s. */
const LOOK_AT_LEAST_S = 600;

/** True where the hub reads, decides and switches. */
export function hubWorks(twin: Twin, hub: number): boolean {
  const base = twin.model.levers.base.hub[hub];
  const { levers } = twin;
  return hubPowered(twin, hub) && levers[base + AT.hub.hung] === 0 && levers[base + AT.hub.blank] === 0;
}

/** One look. Returns true where a command changed. */
export function look(twin: Twin, hub: number): boolean {
  const { model, scratch, ruleStates } = twin;
  const table = model.rules[hub];
  const state = ruleStates[hub];
  const nowS = timeS(twin);
  if (!hubWorks(twin, hub)) {
    twin.hubs[hub * 2 + WAS_UP] = 0;
    scratch.next.lookS[hub] = nowS + LOOK_AT_LEAST_S;
    return false;
  }
  if (twin.hubs[hub * 2 + WAS_UP] === 0) {
    initRuleState(table, state, nowS);
    twin.hubs[hub * 2 + WAS_UP] = 1;
  }
  const spec = model.site.hubs[hub];
  const tick = Math.round(nowS / spec.readsEveryS);
  readAll(twin, hub, nowS, tick);
  const clockS = nowS + twin.levers[model.levers.base.hub[hub] + AT.hub.clockS];
  const minute = minuteOfDayAt(twin.clock, clockS);
  const day = dayOfWeekAt(twin.clock, clockS);
  const out = scratch.ruleOutputs[hub];
  stepRules(table, state, nowS, minute, day, scratch.readings, scratch.heard, out);
  tell(twin, hub);
  const changed = command(twin, hub);
  planNextLook(twin, hub, minute, day);
  return changed;
}

function readAll(twin: Twin, hub: number, nowS: number, tick: number): void {
  const { model, scratch } = twin;
  for (let sensor = 0; sensor < model.site.sensors.length; sensor++) {
    if (model.hubOfSensor[sensor] !== hub) {
      scratch.readings[sensor] = Number.NaN;
      scratch.heard[sensor] = Number.POSITIVE_INFINITY;
      continue;
    }
    const system = model.systemOfSensor[sensor];
    if (system >= 0 && twin.active[system] === 0) {
      scratch.readings[sensor] = twin.sensors[sensor * SENSOR_COLUMNS + SENSOR_READING];
      scratch.heard[sensor] = nowS;
      continue;
    }
    scratch.readings[sensor] = readSensor(twin, sensor, nowS, tick);
    scratch.heard[sensor] = twin.sensors[sensor * SENSOR_COLUMNS + SENSOR_HEARD];
  }
}

function ruleOff(twin: Twin, hub: number, rule: number): boolean {
  const { model, levers } = twin;
  return levers[model.levers.base.rule[model.rulesOfHub[hub][rule]] + AT.rule.off] > 0;
}

function tell(twin: Twin, hub: number): void {
  if (!twin.onEvent) return;
  const out = twin.scratch.ruleOutputs[hub];
  const { rules } = twin.model.rules[hub];
  const tS = timeS(twin);
  const noticed = (rule: number) => {
    for (let place = 0; place < out.noticedCount; place++) if (out.noticed[place] === rule) return true;
    return false;
  };
  for (let place = 0; place < out.startedCount; place++) {
    const rule = out.started[place];
    if (ruleOff(twin, hub, rule)) continue;
    twin.onEvent({ tS, kind: "rule", part: rules[rule].id, text: `rule ${rules[rule].id} starts` });
    if (noticed(rule) && rules[rule].notice !== null)
      twin.onEvent({ tS, kind: "notice", part: rules[rule].id, text: rules[rule].says });
  }
}

/** Hands the commands to the sockets; rules that were switched off count for nothing. */
function command(twin: Twin, hub: number): boolean {
  const { model, scratch, devices } = twin;
  const { commands } = scratch.ruleOutputs[hub];
  const anyOff = model.rulesOfHub[hub].some((_, rule) => ruleOff(twin, hub, rule));
  if (anyOff) commandWithout(twin, hub, commands);
  let changed = false;
  for (let device = 0; device < model.site.devices.length; device++) {
    if (model.hubOfDevice[device] !== hub) continue;
    const at = device * DEVICE_COLUMNS + DEVICE_COMMAND;
    if (devices[at] === commands[device]) continue;
    devices[at] = commands[device];
    changed = true;
  }
  return changed;
}

function commandWithout(twin: Twin, hub: number, commands: Int8Array): void {
  const table = twin.model.rules[hub];
  commands.fill(-1);
  for (let rule = 0; rule < table.rules.length; rule++) {
    if (ruleOff(twin, hub, rule) || !isActive(table, twin.ruleStates[hub], rule)) continue;
    for (let place = table.firstCommand[rule]; place < table.firstCommand[rule + 1]; place++) {
      const device = table.commandDevice[place];
      if (commands[device] !== 0) commands[device] = table.commandState[place];
    }
  }
}

/**
 * Next time at which this hub's rules could decide anything new. Between looks the water moves slowly and nearly straight, and
 * the noise of every coming tick is known: so the coming ticks are tried on readings drawn straight on from the last two
 * looks, and the hub looks at the first at which a term that matters would change, or after a while that grows with the
 * time since anything was switched.
 */
function planNextLook(twin: Twin, hub: number, minute: number, day: number): void {
  const { model, scratch } = twin;
  const table = model.rules[hub];
  const state = twin.ruleStates[hub];
  const nowS = timeS(twin);
  const everyS = model.site.hubs[hub].readsEveryS;
  for (let sensor = 0; sensor < scratch.heard.length; sensor++) {
    const speaks = !Number.isNaN(scratch.readings[sensor]) && model.site.sensors[sensor].everyH === 0;
    if (speaks) scratch.heard[sensor] = Number.POSITIVE_INFINITY;
  }
  const calmS = Math.max(everyS, 4 * (nowS - scratch.next.movedS));
  const timedS = nextTimedChangeS(table, state, nowS, minute, day, scratch.heard) - nowS;
  const mostS = Math.min(LOOK_AT_LEAST_S, calmS, timedS);
  const nowTick = Math.floor(nowS / everyS + 1e-9);
  let ticks = Math.max(1, Math.ceil(mostS / everyS - 1e-9));
  for (let rule = 0; rule < table.rules.length && ticks > 1; rule++) {
    const active = isActive(table, state, rule);
    const hasUntil = table.firstTerm[2 * rule + 2] > table.firstTerm[2 * rule + 1];
    if (!active || !hasUntil || table.holdS[2 * rule] > 0)
      ticks = ticksToChange(twin, table, 2 * rule, nowTick, everyS, ticks);
    if (active && hasUntil) ticks = ticksToChange(twin, table, 2 * rule + 1, nowTick, everyS, ticks);
  }
  scratch.next.lookS[hub] = (nowTick + ticks) * everyS;
}

/** First coming tick, up to `most`, at which a term of a condition would change. */
function ticksToChange(
  twin: Twin,
  table: RuleTable,
  condition: number,
  nowTick: number,
  everyS: number,
  most: number,
): number {
  let ticks = most;
  for (let term = table.firstTerm[condition]; term < table.firstTerm[condition + 1]; term++) {
    const sensor = table.sensor[term];
    const operator = table.operator[term];
    if (operator > OUTSIDE || staysPut(twin, sensor, everyS * ticks, table.low[term], table.high[term], operator))
      continue;
    const now = termHolds(operator, twin.scratch.readings[sensor], table.low[term], table.high[term]);
    for (let tick = 1; tick < ticks; tick++) {
      const reading = readingAhead(twin, sensor, nowTick + tick, tick * everyS);
      if (termHolds(operator, reading, table.low[term], table.high[term]) !== now) ticks = tick;
    }
  }
  return ticks;
}

/** True where a reading cannot come near the limits within `spanS`. */
function staysPut(twin: Twin, sensor: number, spanS: number, low: number, high: number, operator: number): boolean {
  if (Number.isNaN(twin.scratch.readings[sensor])) return true;
  const distance = distanceToLimit(twin, sensor, low, spanS);
  return operator === BETWEEN || operator === OUTSIDE
    ? distance > 0 && distanceToLimit(twin, sensor, high, spanS) > 0
    : distance > 0;
}

function termHolds(operator: number, reading: number, low: number, high: number): boolean {
  if (operator === BELOW) return reading < low;
  if (operator === ABOVE) return reading > low;
  const inside = reading >= low && reading <= high;
  return operator === BETWEEN ? inside : !inside;
}

/** Something switched: look at the next tick. */
export function lookSoon(twin: Twin): void {
  const nowS = timeS(twin);
  twin.scratch.next.movedS = nowS;
  twin.model.site.hubs.forEach((hub, place) => {
    const nextTick = (Math.floor(nowS / hub.readsEveryS + 1e-9) + 1) * hub.readsEveryS;
    twin.scratch.next.lookS[place] = Math.min(twin.scratch.next.lookS[place], nextTick);
  });
}
