import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Comparison, ConditionSpec, RuleSpec, TimeWindow } from "../site/index.ts";
import type { RuleTable } from "./rule-table.ts";
import { compileRules, ruleStateSize } from "./rule-table.ts";
import { initRuleState, makeRuleOutput, stepRules } from "./step-rules.ts";
import { limitsOf, nextTimedChangeS } from "./timed-change.ts";
import { condition, eventsOf, rule } from "./timeline-for-tests.ts";

const SENSORS = ["a", "b", "float"];
const DEVICES = ["heater", "pump"];

/** What the sensors say at each look; made beforehand so that both ways of looking see the same. */
interface Look {
  readonly nowS: number;
  readonly minuteOfDay: number;
  readonly dayOfWeek: number;
  readonly readings: Float64Array;
  readonly heardAtS: Float64Array;
  /** Per sensor, a number that changes when it starts or stops speaking, or (for those that speak seldom) speaks. */
  readonly words: readonly number[];
}

interface Signal {
  /** Value at every knot, quarter steps so that limits are touched as well as crossed; null = no reading. */
  readonly knots: readonly (number | null)[];
  readonly knotEveryS: number;
  readonly isSilentFromS: number;
  readonly isSilentForS: number;
  /** Speaks at every look, or every so many looks. */
  readonly speaksEvery: number;
}

function valueAt({ knots, knotEveryS }: Signal, timeS: number): number {
  const place = Math.min(Math.floor(timeS / knotEveryS), knots.length - 2);
  const [from, to] = [knots[place], knots[place + 1]];
  if (from === null || to === null) return Number.NaN;
  return from + (to - from) * Math.min((timeS - place * knotEveryS) / knotEveryS, 1);
}

function makeLooks(
  signals: readonly Signal[],
  lookEveryS: number,
  count: number,
  startMin: number,
  jumpAtH: number,
  jumpMin: number,
): Look[] {
  const heard = signals.map(() => 0);
  return Array.from({ length: count }, (_, place) => {
    const nowS = place * lookEveryS;
    const jump = startMin + nowS / 60 >= jumpAtH * 60 ? jumpMin : 0;
    const localMin = 2 * 1440 + startMin + nowS / 60 + jump;
    const silent = signals.map(
      (signal) => nowS >= signal.isSilentFromS && nowS < signal.isSilentFromS + signal.isSilentForS,
    );
    signals.forEach((signal, sensor) => {
      if (!silent[sensor] && place % signal.speaksEvery === 0) heard[sensor] = nowS;
    });
    return {
      nowS,
      minuteOfDay: localMin % 1440,
      dayOfWeek: Math.floor(localMin / 1440) % 7,
      readings: Float64Array.from(signals, (signal, sensor) => {
        const value = valueAt(signal, nowS);
        return SENSORS[sensor] === "float" ? (value >= 1 ? 1 : value < 1 ? 0 : value) : value;
      }),
      heardAtS: Float64Array.from(heard),
      words: signals.map((signal, sensor) => (signal.speaksEvery === 1 ? Number(silent[sensor]) : heard[sensor])),
    };
  });
}

/** Sides of all limits on which the readings are, which readings are missing, and who has spoken. */
function sides(table: RuleTable, look: Look): string {
  const { sensor, value } = limitsOf(table);
  const signs = Array.from(sensor, (place, limit) => Math.sign(look.readings[place] - value[limit]));
  return [...signs, ...look.readings.map((reading) => Number(Number.isNaN(reading))), ...look.words].join();
}

/** What happened at every look that was made, and the state after it. */
function runLooks(table: RuleTable, looks: readonly Look[], skip: boolean) {
  const state = new Float64Array(ruleStateSize(table));
  const out = makeRuleOutput(table);
  initRuleState(table, state, 0);
  const history = new Map<number, { events: string; state: Float64Array }>();
  let nextS = 0;
  let lastSides = "";
  for (const look of looks) {
    const now = sides(table, look);
    if (skip && look.nowS < nextS && now === lastSides) continue;
    lastSides = now;
    stepRules(table, state, look.nowS, look.minuteOfDay, look.dayOfWeek, look.readings, look.heardAtS, out);
    history.set(look.nowS, { events: JSON.stringify(eventsOf(out)), state: Float64Array.from(state) });
    nextS = nextTimedChangeS(table, state, look.nowS, look.minuteOfDay, look.dayOfWeek, look.heardAtS);
    expect(nextS).toBeGreaterThan(look.nowS);
  }
  return history;
}

const quarter = fc.integer({ min: -4, max: 12 }).map((value) => value / 4);
const spanS = fc.constantFrom(0, 45, 60, 300, 1000, 1800, 3600);
const comparison: fc.Arbitrary<Comparison> = fc.oneof(
  fc.record({ op: fc.constantFrom("below", "above"), value: quarter }),
  fc.record({ op: fc.constantFrom("between", "outside"), low: quarter, high: quarter }),
  fc.record({ op: fc.constantFrom("rising", "falling"), ratePerH: fc.constantFrom(0, 0.5, 2) }),
  fc.record({ op: fc.constant("differs"), from: fc.constantFrom(...SENSORS), by: fc.constantFrom(0, 0.5, 1) }),
  fc.record({ op: fc.constantFrom("unchanged", "silent"), forS: fc.constantFrom(100, 360, 900, 1800) }),
  fc.record({ op: fc.constantFrom("wet", "dry", "present", "absent") }),
);
const aCondition: fc.Arbitrary<ConditionSpec> = fc.record({
  all: fc.array(fc.record({ sensor: fc.constantFrom(...SENSORS), is: comparison }), { minLength: 1, maxLength: 2 }),
  forS: spanS,
});
const hours: fc.Arbitrary<TimeWindow> = fc.record({
  days: fc.subarray([0, 1, 2, 3, 4, 5, 6], { minLength: 3 }),
  fromMin: fc.integer({ min: 0, max: 1439 }),
  toMin: fc.integer({ min: 1, max: 1440 }),
});
const aRule: fc.Arbitrary<RuleSpec> = fc.record({
  id: fc.constant("rule"),
  hub: fc.constant("hub"),
  when: aCondition,
  until: fc.option(aCondition),
  act: fc.array(fc.record({ device: fc.constantFrom(...DEVICES), state: fc.constantFrom("on", "off") }), {
    maxLength: 2,
  }),
  notice: fc.constantFrom("urgent", null),
  says: fc.constant(""),
  atMostS: fc.option(fc.constantFrom(60, 400, 2000)),
  notOftenerS: fc.constantFrom(0, 500, 4000),
  only: fc.oneof(
    { weight: 2, arbitrary: fc.constant([]) },
    { weight: 1, arbitrary: fc.array(hours, { maxLength: 2 }) },
  ),
});
const aSignal: fc.Arbitrary<Signal> = fc.record({
  knots: fc.array(
    fc.option(
      fc.integer({ min: -2, max: 10 }).map((value) => value / 4),
      { freq: 8 },
    ),
    { minLength: 2, maxLength: 14 },
  ),
  knotEveryS: fc.constantFrom(240, 600, 1500, 3000),
  isSilentFromS: fc.integer({ min: 0, max: 30000 }),
  isSilentForS: fc.constantFrom(0, 0, 500, 4000),
  speaksEvery: fc.constantFrom(1, 1, 7, 40),
});
const circumstances = fc.record({
  rules: fc.array(aRule, { minLength: 1, maxLength: 4 }),
  signals: fc.tuple(aSignal, aSignal, aSignal),
  lookEveryS: fc.constantFrom(10, 30, 47, 60, 400),
  startMin: fc.integer({ min: 0, max: 1439 }),
  jumpAtH: fc.integer({ min: 0, max: 24 }),
  jumpMin: fc.constantFrom(0, 60, -60),
});

describe("looking only when something can change", () => {
  it("gives at every look that is made the same events and the same state, bit for bit, as looking every time, and misses no event", () => {
    fc.assert(
      fc.property(circumstances, ({ rules, signals, lookEveryS, startMin, jumpAtH, jumpMin }) => {
        const table = compileRules(rules, SENSORS, DEVICES);
        const looks = makeLooks(signals, lookEveryS, 700, startMin, jumpAtH, jumpMin);
        const dense = runLooks(table, looks, false);
        const skipped = runLooks(table, looks, true);
        let before = "";
        for (const [nowS, { events, state }] of dense) {
          const made = skipped.get(nowS);
          if (made === undefined) expect({ nowS, events }).toEqual({ nowS, events: before });
          else expect(made).toEqual({ events, state });
          before = withoutChanges(events);
        }
      }),
      { numRuns: 150, seed: 20260815 },
    );
  });

  it.each([60, -60])("keeps its hours when the clocks change by %d minutes in the night", (jumpMin) => {
    const only = [{ days: [0, 1, 2, 3, 4, 5, 6], fromMin: 4 * 60 + 10, toMin: 5 * 60 }];
    const table = compileRules([rule({ when: condition("a", { op: "above", value: 20 }), only })], SENSORS, DEVICES);
    const steady: Signal = { knots: [25, 25], knotEveryS: 90000, isSilentFromS: 0, isSilentForS: 0, speaksEvery: 1 };
    const looks = makeLooks([steady, steady, steady], 30, 1000, 60, 2, jumpMin);
    const changes = (skip: boolean) =>
      [...runLooks(table, looks, skip)]
        .filter(([, { events }]) => events !== withoutChanges(events))
        .map(([nowS]) => nowS / 60);
    expect(changes(false)).toEqual([190 - jumpMin, 240 - jumpMin]);
    expect(changes(true)).toEqual(changes(false));
  });

  it("needs few looks for a quiet day: none at all for a limit that is far away", () => {
    const table = compileRules([rule({ when: condition("a", { op: "above", value: 27 }, 600) })], SENSORS, DEVICES);
    const steady: Signal = { knots: [25, 26], knotEveryS: 21000, isSilentFromS: 0, isSilentForS: 0, speaksEvery: 1 };
    const looks = makeLooks([steady, steady, steady], 30, 700, 0, 0, 0);
    expect(runLooks(table, looks, true).size).toBe(1);
  });

  it("looks for silence only where a sensor may be silent", () => {
    const table = compileRules([rule({ when: condition("a", { op: "silent", forS: 600 }) })], SENSORS, DEVICES);
    const state = new Float64Array(ruleStateSize(table));
    initRuleState(table, state, 0);
    expect(nextTimedChangeS(table, state, 100, 0, 0, Float64Array.of(100, 100, 100))).toBe(700);
    expect(nextTimedChangeS(table, state, 100, 0, 0, new Float64Array(3).fill(Number.POSITIVE_INFINITY))).toBe(
      Number.POSITIVE_INFINITY,
    );
  });
});

/** The events of a look at which nothing new happens after this one: commands stay, starts and ends are over. */
function withoutChanges(events: string): string {
  return JSON.stringify({ ...(JSON.parse(events) as object), started: [], ended: [], noticed: [] });
}

describe("limitsOf()", () => {
  it("lists each limit once, by sensor and value, and none for what is only sampled", () => {
    const table = compileRules(
      [
        rule({
          when: condition("b", { op: "outside", low: 8, high: 8.4 }),
          until: condition("a", { op: "below", value: 26 }),
        }),
        rule({ when: condition("a", { op: "above", value: 27 }), until: condition("a", { op: "below", value: 26 }) }),
        rule({ when: condition("float", { op: "wet" }), until: condition("a", { op: "rising", ratePerH: 1 }) }),
      ],
      SENSORS,
      DEVICES,
    );
    expect(limitsOf(table)).toEqual({
      sensor: Int32Array.of(0, 0, 1, 1, 2),
      value: Float64Array.of(26, 27, 8, 8.4, 0.5),
    });
  });
});
