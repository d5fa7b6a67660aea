import { describe, expect, it } from "vitest";
import { hashNoise } from "../foundation/index.ts";
import type { RuleSpec } from "../site/index.ts";
import { isActive } from "./step-rules.ts";
import { bench, condition, eventsOf, everyMinute, HOURLY_S, rule, timeline } from "./timeline-for-tests.ts";

const hot = condition("tank", { op: "above", value: 27 });
const hotForThree = condition("tank", { op: "above", value: 27 }, 180);
const EVERY_DAY = [0, 1, 2, 3, 4, 5, 6];

/** One rule on one sensor, looked at every minute; `readings` by the minute. */
function run(parts: Partial<RuleSpec>, readings: readonly number[]): string[] {
  return timeline(rule({ when: hot, ...parts }), ["tank"], everyMinute(readings.length - 1), (minute) => [
    readings[minute],
  ]);
}

describe("hold time", () => {
  it("starts when the condition has held for its time, ends at the first look without it", () => {
    expect(run({ when: hotForThree }, [26, 28, 28, 28, 28, 28, 28, 28, 28, 26])).toEqual(["start 4", "end 9"]);
  });

  it("begins anew after one look without the condition, and after one missing reading", () => {
    expect(run({ when: hotForThree }, [28, 28, 28, 26, 28, 28, 28, 28, 28])).toEqual(["start 7"]);
    expect(run({ when: hotForThree }, [28, 28, 28, Number.NaN, 28, 28, 28, 28, 28])).toEqual(["start 7"]);
  });

  it("counts time, not looks", () => {
    expect(timeline(rule({ when: hotForThree }), ["tank"], [0, 2, 2.5, 4, 7], () => [28])).toEqual(["start 4"]);
  });

  it("asks for all comparisons at the same time", () => {
    const spec = rule({ when: { all: [...hot.all, { sensor: "pump", is: { op: "absent" } }], forS: 120 } });
    const readings = (minute: number) => [minute >= 2 ? 28 : 26, minute >= 5 && minute < 10 ? 0 : 1];
    expect(timeline(spec, ["tank", "pump"], everyMinute(15), readings)).toEqual(["start 7", "end 10"]);
  });
});

describe("until", () => {
  it("keeps the action between the two limits", () => {
    const when = condition("tank", { op: "below", value: 25.2 });
    const until = condition("tank", { op: "above", value: 25.6 });
    expect(run({ when, until }, [25.4, 25.1, 25.3, 25.5, 25.7, 25.5, 25.3, 25.1])).toEqual([
      "start 1",
      "end 4",
      "start 7",
    ]);
  });

  it("has a hold time of its own", () => {
    const until = condition("tank", { op: "below", value: 26 }, 120);
    expect(run({ until }, [28, 25, 25, 27, 25, 25, 25])).toEqual(["start 0", "end 6"]);
  });

  it("is not satisfied by a missing reading: the action goes on, where a rule without 'until' ends", () => {
    const until = condition("tank", { op: "below", value: 26 });
    expect(run({ until }, [28, Number.NaN, Number.NaN, 28])).toEqual(["start 0"]);
    expect(run({}, [28, Number.NaN, Number.NaN, 28])).toEqual(["start 0", "end 1", "start 3"]);
  });

  it("that holds already lets the rule start and end at once, once, until either condition goes away", () => {
    const spec = rule({ when: hot, until: condition("door", { op: "present" }) });
    const door = (minute: number) => (minute === 5 ? 0 : 1);
    expect(timeline(spec, ["tank", "door"], everyMinute(9), (minute) => [28, door(minute)])).toEqual([
      "start 0",
      "end 0",
      "start 5",
      "end 6",
    ]);
  });
});

describe("at most", () => {
  it("ends the action and keeps it ended until the condition was away once", () => {
    expect(run({ atMostS: 120 }, [28, 28, 28, 28, 28, 28, 26, 28, 28, 28])).toEqual([
      "start 0",
      "end 2",
      "start 7",
      "end 9",
    ]);
  });

  it("is not forgotten over a missing reading", () => {
    expect(run({ atMostS: 120 }, [28, 28, 28, Number.NaN, 28, 28])).toEqual(["start 0", "end 2"]);
  });

  it("does not lock where the condition had gone away before", () => {
    const until = condition("tank", { op: "below", value: 20 });
    expect(run({ until, atMostS: 180 }, [28, 28, 26, 26, 26, 28])).toEqual(["start 0", "end 3", "start 5"]);
    const spec = rule({ when: hot, until, atMostS: 180 });
    const fewLooks = timeline(spec, ["tank"], [0, 2, 3, 5], (minute) => [minute === 0 || minute === 5 ? 28 : 26]);
    expect(fewLooks).toEqual(["start 0", "end 3", "start 5"]);
  });
});

describe("not oftener", () => {
  it("counts from the last start and then catches up", () => {
    expect(run({ notOftenerS: 300 }, [28, 26, 28, 28, 28, 28, 28])).toEqual(["start 0", "end 1", "start 5"]);
  });
});

describe("only", () => {
  const night = [{ days: EVERY_DAY, fromMin: 22 * 60, toMin: 6 * 60 }];

  it("starts when the hours begin, over midnight, and ends with them", () => {
    const looks = everyMinute(48).map((half) => half * 30);
    expect(timeline(rule({ when: hot, only: night }), ["tank"], looks, () => [28])).toEqual([
      "start 0",
      "end 360",
      "start 1320",
    ]);
  });

  it("a window past midnight belongs to the day on which it begins", () => {
    const spec = rule({ when: hot, only: [{ days: [1], fromMin: 22 * 60, toMin: 6 * 60 }] });
    const looks = everyMinute(24 * 7).map((hour) => hour * 60);
    expect(timeline(spec, ["tank"], looks, () => [28])).toEqual(["start 2760", "end 3240"]);
  });

  it("lets the hold time run outside the hours", () => {
    const spec = rule({ when: condition("tank", { op: "above", value: 27 }, 3 * HOURLY_S), only: night });
    const looks = everyMinute(24).map((hour) => hour * 60);
    expect(timeline(spec, ["tank"], looks, (minute) => [minute >= 720 ? 28 : 26])).toEqual(["start 1320"]);
  });
});

describe("commands", () => {
  const heat = rule({
    id: "heat",
    when: condition("tank", { op: "below", value: 25 }),
    act: [{ device: "heater", state: "on" }],
  });
  const wet = rule({
    id: "wet",
    when: condition("floor", { op: "wet" }),
    act: [
      { device: "heater", state: "off" },
      { device: "valve", state: "off" },
    ],
  });

  it("off beats on whatever the order of the rules, and says so", () => {
    for (const rules of [
      [heat, wet],
      [wet, heat],
    ]) {
      const { look } = bench(rules, ["tank", "floor"], ["heater", "valve", "pump"]);
      const out = look(0, [24, 1]);
      expect([...out.commands]).toEqual([0, 0, -1]);
      expect([...out.overruled]).toEqual([1, 0, 0]);
    }
  });

  it("are said by active rules only", () => {
    const { look, table, state } = bench([heat, wet], ["tank", "floor"], ["heater", "valve", "pump"]);
    expect([...look(0, [24, 0]).commands]).toEqual([1, -1, -1]);
    expect(isActive(table, state, 0)).toBe(true);
    expect([...look(1, [26, 0]).commands]).toEqual([-1, -1, -1]);
    expect(isActive(table, state, 0)).toBe(false);
  });
});

describe("notices", () => {
  const told = rule({ when: hot, notice: "urgent" });

  it("come once an activation", () => {
    const { look } = bench([told], ["tank"]);
    expect(everyMinute(30).filter((minute) => look(minute, [28]).noticedCount > 0)).toEqual([0]);
  });

  it("do not come from rules that have none", () => {
    expect(bench([rule({ when: hot })], ["tank"]).look(0, [28]).noticedCount).toBe(0);
  });

  it("are not repeated by a rule that flaps, and come again after the condition was away for ten minutes", () => {
    const { look } = bench([told], ["tank"]);
    const reading = (minute: number) => (minute < 60 ? 26 + 2 * (minute % 2) : minute < 75 ? 26 : 28);
    expect(everyMinute(90).filter((minute) => look(minute, [reading(minute)]).noticedCount > 0)).toEqual([1, 75]);
  });

  it("are not repeated because readings were missing", () => {
    const { look } = bench([told], ["tank"]);
    const reading = (minute: number) => (minute >= 10 && minute < 40 ? Number.NaN : 28);
    const out = everyMinute(60).map((minute) => ({ ...look(minute, [reading(minute)]) }));
    expect(out.filter((one) => one.startedCount > 0)).toHaveLength(2);
    expect(out.filter((one) => one.noticedCount > 0)).toHaveLength(1);
  });
});

describe("a noisy reading at the limit", () => {
  const hotForTen = condition("tank", { op: "above", value: 27 }, 600);
  const besideTheLimit = [-0.1, -0.05, 0, 0.05, 0.1];

  /** Minutes of the starts or notices over ten days of looks every 30 s, with noise of 0.05 around `27 + offset`. */
  function minutesOf(parts: Partial<RuleSpec>, offset: number, count: "startedCount" | "noticedCount"): number[] {
    const { look } = bench([rule({ when: hot, notice: "soon", ...parts })], ["tank"]);
    return everyMinute(240 * 120)
      .map((tick) => tick / 2)
      .filter((minute) => look(minute, [27 + offset + 0.05 * hashNoise(7, 1, 2 * minute)])[count] > 0);
  }

  function closest(minutes: readonly number[]): number {
    return Math.min(...minutes.slice(1).map((minute, place) => minute - minutes[place]));
  }

  it("without hold or 'until' would start a rule over and over", () => {
    expect(minutesOf({}, 0, "startedCount").length).toBeGreaterThan(5000);
  });

  it("with a hold of ten minutes starts a rule at most once an hour", () => {
    expect(closest(minutesOf({ when: hotForTen }, 0, "startedCount"))).toBeGreaterThanOrEqual(60);
  });

  it.each(besideTheLimit)("with an 'until' beyond the noise starts a rule once, %d beside the limit", (offset) => {
    const until = condition("tank", { op: "below", value: 26.5 });
    expect(minutesOf({ until }, offset, "startedCount")).toHaveLength(1);
  });

  it.each(besideTheLimit)(
    "with a hold of ten minutes gives at most one notice an hour, %d beside the limit",
    (offset) => {
      expect(closest(minutesOf({ when: hotForTen }, offset, "noticedCount"))).toBeGreaterThanOrEqual(60);
    },
  );

  it.each(besideTheLimit)(
    "without any hold still leaves ten minutes between notices, %d beside the limit",
    (offset) => {
      expect(closest(minutesOf({}, offset, "noticedCount"))).toBeGreaterThanOrEqual(10);
    },
  );
});

describe("a copied state", () => {
  it("goes on exactly as the original would have", () => {
    const specs = [
      rule({ id: "a", when: hotForThree, atMostS: 600, notOftenerS: 900, notice: "soon" }),
      rule({
        id: "b",
        when: condition("tank", { op: "rising", ratePerH: 2 }),
        until: condition("tank", { op: "falling", ratePerH: 1 }),
      }),
      rule({ id: "c", when: condition("tank", { op: "unchanged", forS: 600 }, 60) }),
    ];
    const reading = (minute: number) => [27 + Math.round(8 * Math.sin(minute / 20)) / 4];
    const first = bench(specs, ["tank"]);
    const second = bench(specs, ["tank"]);
    for (const minute of everyMinute(75)) first.look(minute, reading(minute));
    second.state.set(Float64Array.from(first.state));
    for (const minute of everyMinute(200).map((one) => one + 76)) {
      expect(eventsOf(second.look(minute, reading(minute)))).toEqual(eventsOf(first.look(minute, reading(minute))));
    }
    expect(second.state).toEqual(first.state);
    expect(first.state.some((value) => value > 0)).toBe(true);
  });
});

describe("compileRules()", () => {
  it("says which rule names a part that is not there, and what was perhaps meant", () => {
    const spec = rule({ id: "too-warm", when: condition("tnak", { op: "wet" }) });
    expect(() => bench([spec], ["tank"])).toThrow("Rule 'too-warm' names the sensor 'tnak', which is not there");
    const acts = rule({ id: "too-warm", when: hot, act: [{ device: "heater", state: "off" }] });
    expect(() => bench([acts], ["tank"], ["heater-1"])).toThrow(
      "Rule 'too-warm' names the device 'heater', which is not there",
    );
  });

  it("refuses a condition without sensors, which would always hold", () => {
    expect(() => bench([rule({ id: "empty", when: { all: [], forS: 0 } })], ["tank"])).toThrow(
      "Rule 'empty' has a condition that names no sensor",
    );
  });

  it("takes a hub without rules", () => {
    expect(bench([], ["tank"], ["heater"]).look(0, [25]).startedCount).toBe(0);
  });
});
