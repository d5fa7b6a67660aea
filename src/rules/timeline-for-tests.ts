/** Timelines for the tests of this room: readings by the minute in, "start" and "end" by the minute out. */
import type { Comparison, ConditionSpec, RuleSpec } from "../site/index.ts";
import type { RuleTable } from "./rule-table.ts";
import { compileRules, ruleStateSize } from "./rule-table.ts";
import type { RuleOutput } from "./step-rules.ts";
import { initRuleState, makeRuleOutput, stepRules } from "./step-rules.ts";

export const HOURLY_S = 3600;

export function condition(sensor: string, is: Comparison, forS = 0): ConditionSpec {
  return { all: [{ sensor, is }], forS };
}

/** A rule that only watches; the parts that matter to a test are given. */
export function rule(parts: Partial<RuleSpec> & Pick<RuleSpec, "when">): RuleSpec {
  return {
    id: "rule",
    hub: "hub",
    until: null,
    act: [],
    notice: null,
    says: "",
    atMostS: null,
    notOftenerS: 0,
    only: [],
    ...parts,
  };
}

export interface Bench {
  readonly table: RuleTable;
  readonly state: Float64Array;
  readonly out: RuleOutput;
  /** One look, `minute` minutes after Monday 00:00. Sensors count as heard at this look unless told otherwise. */
  look(minute: number, readings: readonly number[], heardAtMinutes?: readonly number[]): RuleOutput;
}

export function bench(
  rules: readonly RuleSpec[],
  sensors: readonly string[],
  devices: readonly string[] = [],
  units: readonly string[] = [],
): Bench {
  const table = compileRules(rules, sensors, devices, units);
  const state = new Float64Array(ruleStateSize(table));
  const out = makeRuleOutput(table);
  initRuleState(table, state, 0);
  const look = (minute: number, readings: readonly number[], heardAtMinutes?: readonly number[]) => {
    const heardAtS = Float64Array.from(readings, (_, place) => (heardAtMinutes?.[place] ?? minute) * 60);
    const day = Math.floor(minute / 1440);
    stepRules(table, state, minute * 60, minute - day * 1440, day % 7, Float64Array.from(readings), heardAtS, out);
    return out;
  };
  return { table, state, out, look };
}

/** Starts and ends of one rule as `start 4`, `end 9`, over looks at the given minutes. */
export function timeline(
  spec: RuleSpec,
  sensors: readonly string[],
  minutes: readonly number[],
  readingsAt: (minute: number) => readonly number[],
  heardAt?: (minute: number) => readonly number[],
): string[] {
  const { look } = bench(
    [spec],
    sensors,
    spec.act.map((act) => act.device),
  );
  return minutes.flatMap((minute) => {
    const { startedCount, endedCount } = look(minute, readingsAt(minute), heardAt?.(minute));
    return [...(startedCount > 0 ? [`start ${minute}`] : []), ...(endedCount > 0 ? [`end ${minute}`] : [])];
  });
}

/** 0, 1, 2 .. last. */
export function everyMinute(last: number): number[] {
  return Array.from({ length: last + 1 }, (_, minute) => minute);
}

/** What a look gave, without what the lists keep from before. */
export function eventsOf(out: RuleOutput) {
  return {
    started: out.started.slice(0, out.startedCount),
    ended: out.ended.slice(0, out.endedCount),
    noticed: out.noticed.slice(0, out.noticedCount),
    commands: [...out.commands],
    overruled: [...out.overruled],
  };
}
