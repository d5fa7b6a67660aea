/**
 * One look of the hub: which rules start, which end, what the devices are told.
 *
 * Nothing is allocated here, and nothing depends on how many looks came before: a look at which no reading crosses a
 * limit and no time runs out changes nothing, so it may be left out (see timed-change.ts).
 */
import { windowHolds } from "../foundation/index.ts";
import type { RuleTable } from "./rule-table.ts";
import {
  ACTIVE,
  AWAY_SINCE_S,
  BEGAN_S,
  FREE,
  IN_HOURS,
  LAST_SAMPLING,
  LAST_START_S,
  LOCK,
  LOCKED_BY_LIMIT,
  LOCKED_BY_UNTIL,
  MAY_TELL,
  ruleOffset,
  UNTIL_SINCE_S,
  WHEN_SINCE_S,
} from "./rule-table.ts";
import { initTerms, sampleTerms } from "./sampled-terms.ts";
import { conditionTruth, NO, YES } from "./truth.ts";

/** A rule tells again only after its condition was away this long, or as long as it must hold if that is longer. */
const AWAY_BEFORE_TELLING_AGAIN_S = 600;

/** What one look gave. Lists are as long as their counts say; what stands behind that is left from before. */
export interface RuleOutput {
  /** Rules that started at this look. */
  readonly started: number[];
  startedCount: number;
  /** Rules that ended at this look. One that starts and ends at once stands in both. */
  readonly ended: number[];
  endedCount: number;
  /** Rules among the started whose notice is to be sent: once an episode, so that a rule that flaps does not chatter. */
  readonly noticed: number[];
  noticedCount: number;
  /** Per device: -1 no active rule speaks of it, 0 off, 1 on. Off beats on. */
  readonly commands: Int8Array;
  /** Per device: 1 where an active rule wants it on and another, which wins, wants it off. */
  readonly overruled: Uint8Array;
}

/** Made once per table and used again at every look. */
export function makeRuleOutput(table: RuleTable): RuleOutput {
  const places = () => new Array<number>(table.rules.length).fill(0);
  return {
    started: places(),
    startedCount: 0,
    ended: places(),
    endedCount: 0,
    noticed: places(),
    noticedCount: 0,
    commands: new Int8Array(table.deviceIds.length).fill(-1),
    overruled: new Uint8Array(table.deviceIds.length),
  };
}

/** A hub that has just started: no rule active, nothing remembered. */
export function initRuleState(table: RuleTable, state: Float64Array, nowS: number): void {
  state[BEGAN_S] = nowS;
  state[LAST_SAMPLING] = Number.NaN;
  for (let rule = 0; rule < table.rules.length; rule++) {
    const at = ruleOffset(rule);
    state[at + WHEN_SINCE_S] = Number.NaN;
    state[at + UNTIL_SINCE_S] = Number.NaN;
    state[at + AWAY_SINCE_S] = Number.NaN;
    state[at + MAY_TELL] = 1;
    state[at + ACTIVE] = 0;
    state[at + LAST_START_S] = Number.NEGATIVE_INFINITY;
    state[at + LOCK] = FREE;
    state[at + IN_HOURS] = 1;
  }
  initTerms(table, state);
}

export function isActive(_table: RuleTable, state: Float64Array, rule: number): boolean {
  return state[ruleOffset(rule) + ACTIVE] === 1;
}

/**
 * One look of the hub.
 *
 * @param nowS        Seconds on any clock that never goes back.
 * @param minuteOfDay Minutes since local midnight, with their fraction; may jump (daylight saving).
 * @param dayOfWeek   0 = Monday .. 6 = Sunday.
 * @param readings    Per sensor; NaN where it gives no value. Yes-or-no sensors: 1 wet or present, 0 dry or absent.
 * @param heardAtS    Per sensor, time of its last word on the clock of `nowS`; NaN where it never spoke.
 */
export function stepRules(
  table: RuleTable,
  state: Float64Array,
  nowS: number,
  minuteOfDay: number,
  dayOfWeek: number,
  readings: Float64Array,
  heardAtS: Float64Array,
  out: RuleOutput,
): void {
  out.startedCount = 0;
  out.endedCount = 0;
  out.noticedCount = 0;
  sampleTerms(table, state, nowS, readings, heardAtS);
  for (let rule = 0; rule < table.rules.length; rule++) {
    const at = ruleOffset(rule);
    const when = conditionTruth(table, state, 2 * rule, nowS, readings);
    const until = table.rules[rule].until === null ? NO : conditionTruth(table, state, 2 * rule + 1, nowS, readings);
    state[at + IN_HOURS] = inHours(table, rule, minuteOfDay, dayOfWeek) ? 1 : 0;
    followTruth(table, state, rule, when, until, nowS);
    if (mayStart(table, state, rule, nowS)) start(table, state, rule, nowS, out);
    if (state[at + ACTIVE] === 1) endIfDue(table, state, rule, when, nowS, out);
  }
  giveCommands(table, state, out);
}

function inHours(table: RuleTable, rule: number, minuteOfDay: number, dayOfWeek: number): boolean {
  const windows = table.rules[rule].only;
  for (let place = 0; place < windows.length; place++) {
    if (windowHolds(windows[place], dayOfWeek, minuteOfDay)) return true;
  }
  return windows.length === 0;
}

/** Hold times begin with the first yes; a no or a missing reading makes them begin anew. Only a no opens a lock. */
function followTruth(
  table: RuleTable,
  state: Float64Array,
  rule: number,
  when: number,
  until: number,
  nowS: number,
): void {
  const at = ruleOffset(rule);
  if (when !== YES) state[at + WHEN_SINCE_S] = Number.NaN;
  else if (Number.isNaN(state[at + WHEN_SINCE_S])) state[at + WHEN_SINCE_S] = nowS;
  if (until !== YES) state[at + UNTIL_SINCE_S] = Number.NaN;
  else if (Number.isNaN(state[at + UNTIL_SINCE_S])) state[at + UNTIL_SINCE_S] = nowS;
  if (when === NO || (until === NO && state[at + LOCK] === LOCKED_BY_UNTIL)) state[at + LOCK] = FREE;
  if (when === NO && Number.isNaN(state[at + AWAY_SINCE_S])) state[at + AWAY_SINCE_S] = nowS;
  if (when !== YES || Number.isNaN(state[at + AWAY_SINCE_S])) return;
  const awayNeededS = Math.max(AWAY_BEFORE_TELLING_AGAIN_S, table.holdS[2 * rule]);
  if (nowS >= state[at + AWAY_SINCE_S] + awayNeededS) state[at + MAY_TELL] = 1;
  state[at + AWAY_SINCE_S] = Number.NaN;
}

/** True where the condition holds and has done so for its time. NaN, "does not hold", makes the comparison false. */
function held(table: RuleTable, condition: number, sinceS: number, nowS: number): boolean {
  return nowS >= sinceS + table.holdS[condition];
}

function mayStart(table: RuleTable, state: Float64Array, rule: number, nowS: number): boolean {
  const at = ruleOffset(rule);
  return (
    state[at + ACTIVE] === 0 &&
    state[at + LOCK] === FREE &&
    state[at + IN_HOURS] === 1 &&
    held(table, 2 * rule, state[at + WHEN_SINCE_S], nowS) &&
    nowS >= state[at + LAST_START_S] + table.rules[rule].notOftenerS
  );
}

function start(table: RuleTable, state: Float64Array, rule: number, nowS: number, out: RuleOutput): void {
  const at = ruleOffset(rule);
  state[at + ACTIVE] = 1;
  state[at + LAST_START_S] = nowS;
  out.started[out.startedCount++] = rule;
  if (table.rules[rule].notice === null || state[at + MAY_TELL] === 0) return;
  state[at + MAY_TELL] = 0;
  out.noticed[out.noticedCount++] = rule;
}

/** A lock is needed only where the condition has not gone away by itself. */
function endIfDue(
  table: RuleTable,
  state: Float64Array,
  rule: number,
  when: number,
  nowS: number,
  out: RuleOutput,
): void {
  const at = ruleOffset(rule);
  const { until, atMostS } = table.rules[rule];
  const isOver = until === null ? when !== YES : held(table, 2 * rule + 1, state[at + UNTIL_SINCE_S], nowS);
  const isAtLimit = atMostS !== null && nowS >= state[at + LAST_START_S] + atMostS;
  if (!isOver && !isAtLimit && state[at + IN_HOURS] === 1) return;
  state[at + ACTIVE] = 0;
  out.ended[out.endedCount++] = rule;
  if (when === NO) return;
  if (isAtLimit) state[at + LOCK] = LOCKED_BY_LIMIT;
  else if (isOver && until !== null) state[at + LOCK] = LOCKED_BY_UNTIL;
}

function giveCommands(table: RuleTable, state: Float64Array, out: RuleOutput): void {
  out.commands.fill(-1);
  out.overruled.fill(0);
  for (let rule = 0; rule < table.rules.length; rule++) {
    if (state[ruleOffset(rule) + ACTIVE] === 0) continue;
    for (let command = table.firstCommand[rule]; command < table.firstCommand[rule + 1]; command++) {
      const device = table.commandDevice[command];
      const wanted = table.commandState[command];
      const said = out.commands[device];
      if (said !== -1 && said !== wanted) out.overruled[device] = 1;
      out.commands[device] = said === -1 ? wanted : Math.min(said, wanted);
    }
  }
}
