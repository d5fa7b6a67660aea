import { describe, expect, it } from "vitest";
import { describeRule } from "./describe-rule.ts";
import { explainRule } from "./explain-rule.ts";
import { spanWords } from "./rule-words.ts";
import { bench, condition, everyMinute, HOURLY_S, rule } from "./timeline-for-tests.ts";

const above = condition("display-temp", { op: "above", value: 27.2 }, 600);

/** Runs one rule over minutes and explains it after the last look. */
function explained(spec: Parameters<typeof rule>[0], readings: readonly number[], sensors = ["display-temp"]): string {
  const { table, state, look } = bench([rule(spec)], sensors, ["heater-1"], ["degC"]);
  for (const minute of everyMinute(readings.length - 1)) look(minute, [readings[minute]]);
  return explainRule(table, state, 0, Float64Array.of(readings[readings.length - 1]), (readings.length - 1) * 60);
}

describe("explainRule()", () => {
  it("says what was read and what is needed", () => {
    expect(explained({ when: above }, [25.9])).toBe(
      "did not fire: display-temp read 25.9 degC, needs above 27.2 degC for 10 min",
    );
  });

  it("says that a reading is missing", () => {
    expect(explained({ when: above }, [Number.NaN])).toBe(
      "did not fire: display-temp gives no reading, needs above 27.2 degC for 10 min",
    );
  });

  it("says how long the condition has held", () => {
    expect(explained({ when: above }, new Array(5).fill(28))).toBe(
      "did not fire yet: its condition (display-temp is above 27.2 degC) has held for 4 min, needs 10 min",
    );
  });

  it("says since when a rule is active and what ends it", () => {
    expect(explained({ when: above }, new Array(16).fill(28))).toBe(
      "fired 5 min ago and is active: display-temp read 28 degC; ends as soon as its condition no longer holds",
    );
    const until = condition("display-temp", { op: "below", value: 26.8 });
    expect(explained({ when: above, until, atMostS: 7200 }, new Array(11).fill(28))).toBe(
      "fired now: display-temp read 28 degC; ends when display-temp is below 26.8 degC, and after 2 h at most",
    );
  });

  it("says that the limit was reached", () => {
    expect(explained({ when: above, atMostS: 300 }, new Array(20).fill(28))).toBe(
      "did not fire again: it reached its limit of 5 min and waits until its condition has been away once",
    );
  });

  it("says that what ends it still holds", () => {
    const until = condition("display-temp", { op: "above", value: 20 });
    expect(explained({ when: above, until }, new Array(20).fill(28))).toBe(
      "did not fire again: what ends it still holds (display-temp is above 20 degC)",
    );
  });

  it("says that it rests, or that it is not its hour", () => {
    const brief = condition("display-temp", { op: "above", value: 27.2 });
    expect(explained({ when: brief, notOftenerS: HOURLY_S }, [28, 26, 28])).toBe(
      "did not fire: its condition holds, but it fired 2 min ago and does so at most once in 1 h",
    );
    expect(
      explained(
        { when: brief, only: [{ days: [0, 1, 2, 3, 4, 5, 6], fromMin: 1320, toMin: 390 }] },
        new Array(400).fill(28),
      ),
    ).toBe("did not fire: its condition holds, but it works only in these hours: 22:00-06:30");
  });

  it("names every comparison that fails", () => {
    const { table, state, look } = bench(
      [
        rule({
          when: {
            all: [
              { sensor: "a", is: { op: "rising", ratePerH: 1 } },
              { sensor: "a", is: { op: "differs", from: "b", by: 2 } },
              { sensor: "b", is: { op: "unchanged", forS: 1800 } },
              { sensor: "b", is: { op: "silent", forS: 600 } },
              { sensor: "c", is: { op: "wet" } },
            ],
            forS: 0,
          },
        }),
      ],
      ["a", "b", "c"],
      [],
      ["degC", "degC", ""],
    );
    for (const minute of everyMinute(30))
      look(minute, [25 - minute / 60, 25, 0], [minute, Math.min(minute, 24), minute]);
    expect(explainRule(table, state, 0, Float64Array.of(24.5, Number.NaN, 0), 1800)).toBe(
      "did not fire: a fell by 1 degC an hour, needs rising by more than 1 degC an hour; " +
        "a or b gave no reading, needs more than 2 degC away from b; " +
        "b gives no reading, needs unchanged for 30 min; " +
        "b has not been heard for 6 min, needs silent for 10 min; " +
        "c was dry, needs wet",
    );
    expect(explainRule(table, state, 0, Float64Array.of(24.5, 25, 1), 1800)).toBe(
      "did not fire: a fell by 1 degC an hour, needs rising by more than 1 degC an hour; " +
        "a was 0.5 degC away from b, needs more than 2 degC away from b; " +
        "b has not been heard for 6 min, needs silent for 10 min",
    );
  });

  it("says that a rate is not known yet", () => {
    expect(explained({ when: condition("display-temp", { op: "rising", ratePerH: 1 }) }, [25, 26])).toBe(
      "did not fire: display-temp has too few readings in 30 min for a rate, needs rising by more than 1 degC an hour",
    );
  });

  it("says that off beats on", () => {
    const heat = rule({
      id: "heat",
      when: condition("t", { op: "below", value: 25 }),
      act: [{ device: "heater-1", state: "on" }],
    });
    const leak = rule({
      id: "leak",
      when: condition("floor", { op: "wet" }),
      act: [{ device: "heater-1", state: "off" }],
    });
    const { table, state, look } = bench([heat, leak], ["t", "floor"], ["heater-1"]);
    look(0, [24, 1]);
    expect(explainRule(table, state, 0, Float64Array.of(24, 1), 0)).toBe(
      "fired now: t read 24; ends as soon as its condition no longer holds; heater-1 stays off, because leak wants it off and off beats on",
    );
  });
});

describe("describeRule()", () => {
  const unit = () => "degC";

  it("tells condition, hold time, action, notice and end", () => {
    const spec = rule({
      when: above,
      act: [
        { device: "heater-1", state: "off" },
        { device: "heater-2", state: "off" },
      ],
      notice: "urgent",
      says: "Too warm: pull the heaters",
    });
    expect(describeRule(spec, unit)).toBe(
      "When display-temp is above 27.2 degC for 10 min: switch heater-1 off, switch heater-2 off and " +
        'send an urgent notice ("Too warm: pull the heaters"). This ends as soon as that no longer holds.',
    );
  });

  it("tells until, limit, rest and hours", () => {
    const spec = rule({
      when: {
        all: [
          { sensor: "float", is: { op: "dry" } },
          { sensor: "spare", is: { op: "silent", forS: 90 } },
        ],
        forS: 30,
      },
      until: condition("float", { op: "wet" }, 5),
      act: [{ device: "top-off", state: "on" }],
      atMostS: 5400,
      notOftenerS: 6 * HOURLY_S,
      only: [{ days: [0, 1, 2, 3, 4], fromMin: 540, toMin: 1020 }],
    });
    expect(describeRule(spec)).toBe(
      "When float is dry and spare has been silent for 1 min 30 s, all together for 30 s: switch top-off on. " +
        "This ends when float is wet for 5 s, and after 1 h 30 min at most; then not again before the condition has been away. " +
        "It starts at most once in 6 h. It works only in these hours: weekdays 09:00-17:00.",
    );
  });

  it("has words for every comparison", () => {
    const words = (is: Parameters<typeof condition>[1]) =>
      describeRule(rule({ when: condition("s", is), notice: "note" }), unit);
    expect(words({ op: "between", low: 24, high: 26 })).toBe("When s is between 24 and 26 degC: write a note.");
    expect(words({ op: "outside", low: 24, high: 26 })).toBe("When s is outside 24 to 26 degC: write a note.");
    expect(words({ op: "falling", ratePerH: 0.5 })).toBe(
      "When s is falling by more than 0.5 degC an hour: write a note.",
    );
    expect(words({ op: "differs", from: "u", by: 1 })).toBe("When s is more than 1 degC away from u: write a note.");
    expect(words({ op: "unchanged", forS: 7200 })).toBe("When s has been unchanged for 2 h: write a note.");
    expect(words({ op: "absent" })).toBe("When s is absent: write a note.");
  });
});

it("spanWords() gives the two largest parts", () => {
  expect([0, 59.4, 60, 90, 3600, 3660, 90000].map(spanWords)).toEqual([
    "0 s",
    "59 s",
    "1 min",
    "1 min 30 s",
    "1 h",
    "1 h 1 min",
    "25 h",
  ]);
});
