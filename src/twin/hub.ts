/**
 * A hub looks: reads its sensors, runs its rules, gives its commands.
 */

import { dayOfWeekAt, minuteOfDayAt } from "../foundation/index.ts";
import { initRuleState, isActive, type RuleOutput, stepRules } from "../rules/index.ts";
import { askLever } from "./asked.ts";

import {
  DEVICE_COLUMNS,
  DEVICE_COMMAND,
  HUB_COLUMNS,
  HUB_LOOK,
  HUB_UP,
  SENSOR_COLUMNS,
  SENSOR_HEARD,
} from "./columns.ts";
import { AT } from "./levers.ts";
import { nextMarkS } from "./look-soon.ts";
import { planNextLook } from "./next-look.ts";
import { hubPowered } from "./power.ts";
import { readSensor } from "./sensing.ts";
import { type Twin, timeS } from "./state.ts";
import { catchUp } from "./step-matter.ts";

/** True where the hub reads, decides and switches. */
export function hubWorks(twin: Twin, hub: number): boolean {
  const base = twin.model.levers.base.hub[hub];
  const { levers } = twin;
  return hubPowered(twin, hub) && levers[base + AT.hub.hung] === 0 && levers[base + AT.hub.blank] === 0;
}

/** One look of a hub at one island. Returns true where a command changed. */
export function look(twin: Twin, looker: number): boolean {
  const { model } = twin;
  const { hub, island, mindsMatter, table } = model.lookers[looker];
  const state = twin.ruleStates[looker];
  const { readings, heard, output } = twin.scratch.views[looker];
  const nowS = timeS(twin);
  const up = looker * HUB_COLUMNS + HUB_UP;
  if (!hubWorks(twin, hub)) {
    twin.looks[up] = 0;
    twin.looks[looker * HUB_COLUMNS + HUB_LOOK] = nextMarkS(twin);
    return false;
  }
  if (twin.looks[up] === 0) initRuleState(table, state, nowS);
  twin.looks[up] = 1;
  if (mindsMatter) for (const system of model.islands[island].systems) catchUp(twin, system);
  readAll(twin, looker, nowS);
  const clockS = nowS + twin.levers[model.levers.base.hub[hub] + AT.hub.clockS];
  const minute = minuteOfDayAt(twin.clock, clockS);
  const day = dayOfWeekAt(twin.clock, clockS);
  stepRules(table, state, nowS, minute, day, readings, heard, output);
  tell(twin, looker, output);
  const changed = command(twin, looker, output);
  planNextLook(twin, looker, minute, day);
  return changed;
}

function readAll(twin: Twin, looker: number, nowS: number): void {
  const { lookers, site } = twin.model;
  const { readings, heard } = twin.scratch.views[looker];
  const { hub, sensors, idle } = lookers[looker];
  const tick = Math.round(nowS / site.hubs[hub].readsEveryS);
  for (const sensor of sensors) {
    readings[sensor] = readSensor(twin, sensor, nowS, tick);
    heard[sensor] = twin.sensors[sensor * SENSOR_COLUMNS + SENSOR_HEARD];
  }
  for (const sensor of idle) if (isUpToDate(twin, sensor)) readings[sensor] = readSensor(twin, sensor, nowS, tick);
}

/** Nothing hangs on such a reading, so it waits until what it shows has been worked out. */
function isUpToDate({ model, scratch }: Twin, sensor: number): boolean {
  return scratch.lagH[model.sensing.systemOf[sensor]] === 0;
}

function isOff(twin: Twin, looker: number, rule: number): boolean {
  const { levers, lookers } = twin.model;
  return askLever(twin, levers.base.rule[lookers[looker].rules[rule]] + AT.rule.off) > 0;
}

function tell(twin: Twin, looker: number, output: RuleOutput): void {
  if (!twin.onEvent) return;
  const { rules } = twin.model.lookers[looker].table;
  const tS = timeS(twin);
  const noticed = output.noticed.slice(0, output.noticedCount);
  for (const rule of output.started.slice(0, output.startedCount)) {
    if (isOff(twin, looker, rule)) continue;
    const { id, notice, says } = rules[rule];
    twin.onEvent({ tS, kind: "rule", part: id, text: `rule ${id} starts` });
    if (notice !== null && noticed.includes(rule)) twin.onEvent({ tS, kind: "notice", part: id, text: says });
  }
}

/** Hands the commands to the sockets; rules that were switched off count for nothing. */
function command(twin: Twin, looker: number, { commands }: RuleOutput): boolean {
  if (anyRuleOff(twin, looker)) commandWithout(twin, looker, commands);
  let changed = false;
  for (const device of twin.model.lookers[looker].devices) {
    const at = device * DEVICE_COLUMNS + DEVICE_COMMAND;
    if (twin.devices[at] === commands[device]) continue;
    twin.devices[at] = commands[device];
    changed = true;
  }
  return changed;
}

function anyRuleOff(twin: Twin, looker: number): boolean {
  const { table } = twin.model.lookers[looker];
  for (let rule = 0; rule < table.rules.length; rule++)
    if (isActive(table, twin.ruleStates[looker], rule) && isOff(twin, looker, rule)) return true;
  return false;
}

/** The commands of the rules that are left; off beats on. */
function commandWithout(twin: Twin, looker: number, commands: Int8Array): void {
  const { table } = twin.model.lookers[looker];
  commands.fill(-1);
  for (let rule = 0; rule < table.rules.length; rule++) {
    if (!isActive(table, twin.ruleStates[looker], rule) || isOff(twin, looker, rule)) continue;
    for (let place = table.firstCommand[rule]; place < table.firstCommand[rule + 1]; place++) {
      const device = table.commandDevice[place];
      if (commands[device] !== 0) commands[device] = table.commandState[place];
    }
  }
}
