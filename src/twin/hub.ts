/**
 * A hub looks: reads its sensors, runs its rules, gives its commands.
 */

import { dayOfWeekAt, minuteOfDayAt } from "../foundation/index.ts";
import { initRuleState, isActive, type RuleOutput, stepRules } from "../rules/index.ts";
import { askLever } from "./asked.ts";

export { lookSoon } from "./look-soon.ts";

import {
  DEVICE_COLUMNS,
  DEVICE_COMMAND,
  HUB_COLUMNS,
  HUB_LOOK,
  HUB_UP,
  SENSOR_COLUMNS,
  SENSOR_HEARD,
  SENSOR_READING,
} from "./columns.ts";
import { AT } from "./levers.ts";
import { nextMarkS } from "./look-soon.ts";
import { planNextLook } from "./next-look.ts";
import { hubPowered } from "./power.ts";
import { readSensor } from "./sensing.ts";
import { type Twin, timeS } from "./state.ts";

/** True where the hub reads, decides and switches. */
export function hubWorks(twin: Twin, hub: number): boolean {
  const base = twin.model.levers.base.hub[hub];
  const { levers } = twin;
  return hubPowered(twin, hub) && levers[base + AT.hub.hung] === 0 && levers[base + AT.hub.blank] === 0;
}

/** One look. Returns true where a command changed. */
export function look(twin: Twin, hub: number): boolean {
  const { model, ruleStates } = twin;
  const { readings, heard, output } = twin.scratch.hubs[hub];
  const nowS = timeS(twin);
  const up = hub * HUB_COLUMNS + HUB_UP;
  if (!hubWorks(twin, hub)) {
    twin.hubs[up] = 0;
    twin.hubs[hub * HUB_COLUMNS + HUB_LOOK] = nextMarkS(nowS);
    return false;
  }
  if (twin.hubs[up] === 0) initRuleState(model.rules[hub], ruleStates[hub], nowS);
  twin.hubs[up] = 1;
  readAll(twin, hub, nowS);
  const clockS = nowS + twin.levers[model.levers.base.hub[hub] + AT.hub.clockS];
  const minute = minuteOfDayAt(twin.clock, clockS);
  const day = dayOfWeekAt(twin.clock, clockS);
  stepRules(model.rules[hub], ruleStates[hub], nowS, minute, day, readings, heard, output);
  tell(twin, hub, output);
  const changed = command(twin, hub, output);
  planNextLook(twin, hub, minute, day);
  return changed;
}

function readAll(twin: Twin, hub: number, nowS: number): void {
  const { sensing, site } = twin.model;
  const { readings, heard } = twin.scratch.hubs[hub];
  const tick = Math.round(nowS / site.hubs[hub].readsEveryS);
  for (const sensor of sensing.ofHub[hub]) {
    const system = sensing.systemOf[sensor];
    const at = sensor * SENSOR_COLUMNS;
    const keepsStill = system >= 0 && twin.active[system] === 0;
    readings[sensor] = keepsStill ? twin.sensors[at + SENSOR_READING] : readSensor(twin, sensor, nowS, tick);
    heard[sensor] = keepsStill ? nowS : twin.sensors[at + SENSOR_HEARD];
  }
}

function isOff(twin: Twin, hub: number, rule: number): boolean {
  const { levers, rulesOfHub } = twin.model;
  return askLever(twin, levers.base.rule[rulesOfHub[hub][rule]] + AT.rule.off) > 0;
}

function tell(twin: Twin, hub: number, output: RuleOutput): void {
  if (!twin.onEvent) return;
  const { rules } = twin.model.rules[hub];
  const tS = timeS(twin);
  const noticed = output.noticed.slice(0, output.noticedCount);
  for (const rule of output.started.slice(0, output.startedCount)) {
    if (isOff(twin, hub, rule)) continue;
    const { id, notice, says } = rules[rule];
    twin.onEvent({ tS, kind: "rule", part: id, text: `rule ${id} starts` });
    if (notice !== null && noticed.includes(rule)) twin.onEvent({ tS, kind: "notice", part: id, text: says });
  }
}

/** Hands the commands to the sockets; rules that were switched off count for nothing. */
function command(twin: Twin, hub: number, { commands }: RuleOutput): boolean {
  if (anyRuleOff(twin, hub)) commandWithout(twin, hub, commands);
  let changed = false;
  for (const device of twin.model.devicesOfHub[hub]) {
    const at = device * DEVICE_COLUMNS + DEVICE_COMMAND;
    if (twin.devices[at] === commands[device]) continue;
    twin.devices[at] = commands[device];
    changed = true;
  }
  return changed;
}

function anyRuleOff(twin: Twin, hub: number): boolean {
  const table = twin.model.rules[hub];
  for (let rule = 0; rule < table.rules.length; rule++)
    if (isActive(table, twin.ruleStates[hub], rule) && isOff(twin, hub, rule)) return true;
  return false;
}

/** The commands of the rules that are left; off beats on. */
function commandWithout(twin: Twin, hub: number, commands: Int8Array): void {
  const table = twin.model.rules[hub];
  commands.fill(-1);
  for (let rule = 0; rule < table.rules.length; rule++) {
    if (!isActive(table, twin.ruleStates[hub], rule) || isOff(twin, hub, rule)) continue;
    for (let place = table.firstCommand[rule]; place < table.firstCommand[rule + 1]; place++) {
      const device = table.commandDevice[place];
      if (commands[device] !== 0) commands[device] = table.commandState[place];
    }
  }
}
