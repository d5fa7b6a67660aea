import { describe, expect, it } from "vitest";
import type { Comparison } from "../site/index.ts";
import { condition, everyMinute, rule, timeline } from "./timeline-for-tests.ts";

/** Readings by the minute of the sensor `tank`, the last one lasting. */
function run(is: Comparison, readings: readonly number[], forS = 0): string[] {
  const spec = rule({ when: condition("tank", is, forS) });
  return timeline(spec, ["tank"], everyMinute(readings.length - 1), (minute) => [readings[minute]]);
}

describe("comparisons of one reading", () => {
  it.each<[string, Comparison, number[], string[]]>([
    [
      "below starts under the limit and ends on it",
      { op: "below", value: 25 },
      [26, 25, 24.9, 24.8, 25, 26],
      ["start 2", "end 4"],
    ],
    [
      "above starts over the limit and ends on it",
      { op: "above", value: 27 },
      [26, 27, 27.1, 28, 27],
      ["start 2", "end 4"],
    ],
    ["between holds its two ends", { op: "between", low: 8, high: 8.4 }, [7.9, 8, 8.2, 8.4, 8.5], ["start 1", "end 4"]],
    [
      "outside leaves its two ends out",
      { op: "outside", low: 8, high: 8.4 },
      [8, 7.9, 8, 8.4, 8.5, 8.4],
      ["start 1", "end 2", "start 4", "end 5"],
    ],
    ["wet is a one", { op: "wet" }, [0, 0, 1, 1, 0], ["start 2", "end 4"]],
    ["dry is a zero", { op: "dry" }, [1, 0, 0, 1], ["start 1", "end 3"]],
    ["present is a one", { op: "present" }, [0, 1, 0], ["start 1", "end 2"]],
    ["absent is a zero", { op: "absent" }, [1, 0, 1], ["start 1", "end 2"]],
  ])("%s", (_, is, readings, expected) => {
    expect(run(is, readings)).toEqual(expected);
  });

  it.each<[string, Comparison]>([
    ["below", { op: "below", value: 1 }],
    ["above", { op: "above", value: -1 }],
    ["between", { op: "between", low: -1, high: 1 }],
    ["outside", { op: "outside", low: 5, high: 6 }],
    ["wet", { op: "wet" }],
    ["dry", { op: "dry" }],
    ["unchanged", { op: "unchanged", forS: 180 }],
    ["rising", { op: "rising", ratePerH: -1 }],
    ["falling", { op: "falling", ratePerH: -1 }],
  ])("a missing reading never satisfies '%s'", (_, is) => {
    expect(run(is, new Array(120).fill(Number.NaN))).toEqual([]);
  });
});

describe("rising and falling", () => {
  const warming = (perH: number) => (minute: number) => [25 + (perH * minute) / 60];

  it("rising starts once a quarter of an hour has shown the rate", () => {
    const spec = rule({ when: condition("tank", { op: "rising", ratePerH: 0.9 }) });
    expect(timeline(spec, ["tank"], everyMinute(60), warming(1))).toEqual(["start 15"]);
  });

  // At minute 65 the last of seven readings is 5 minutes short: slope 1 - (15 * 5) / 700 = 0.893.
  it("rising ends after the water has stopped warming, when the half hour no longer shows the rate", () => {
    const spec = rule({ when: condition("tank", { op: "rising", ratePerH: 0.9 }) });
    const events = timeline(spec, ["tank"], everyMinute(120), (minute) => warming(1)(Math.min(minute, 60)));
    expect(events).toEqual(["start 15", "end 65"]);
  });

  it("falling takes the rate downwards and does not answer to rising", () => {
    const spec = rule({ when: condition("tank", { op: "falling", ratePerH: 0.9 }) });
    expect(timeline(spec, ["tank"], everyMinute(60), warming(-1))).toEqual(["start 15"]);
    expect(timeline(spec, ["tank"], everyMinute(60), warming(1))).toEqual([]);
  });

  it("a rate slower than asked starts nothing", () => {
    const spec = rule({ when: condition("tank", { op: "rising", ratePerH: 1.1 }) });
    expect(timeline(spec, ["tank"], everyMinute(300), warming(1))).toEqual([]);
  });

  it("a gap in the readings is bridged, a long one leaves the rate unknown until there are enough again", () => {
    const spec = rule({ when: condition("tank", { op: "rising", ratePerH: 0.9 }) });
    const withGap = (from: number, to: number) => (minute: number) =>
      minute >= from && minute < to ? [Number.NaN] : warming(1)(minute);
    expect(timeline(spec, ["tank"], everyMinute(90), withGap(40, 50))).toEqual(["start 15", "end 40", "start 50"]);
    expect(timeline(spec, ["tank"], everyMinute(140), withGap(40, 100))).toEqual(["start 15", "end 40", "start 115"]);
  });

  it("a tester that speaks every six hours has no rate in half an hour, whatever its results", () => {
    const spec = rule({ when: condition("tester", { op: "falling", ratePerH: 0.01 }) });
    const result = (minute: number) => Math.floor(minute / 360);
    const events = timeline(
      spec,
      ["tester"],
      everyMinute(1440),
      (minute) => [9 - 0.4 * result(minute)],
      (minute) => [360 * result(minute)],
    );
    expect(events).toEqual([]);
  });

  it("works with a hub that looks every ten minutes", () => {
    const spec = rule({ when: condition("tank", { op: "rising", ratePerH: 0.9 }) });
    const looks = everyMinute(12).map((look) => look * 10);
    expect(timeline(spec, ["tank"], looks, warming(1))).toEqual(["start 30"]);
  });
});

describe("differs", () => {
  const spec = rule({ when: condition("tank", { op: "differs", from: "sump", by: 0.5 }) });

  it("starts and ends at sampling times, either way round", () => {
    const readings = (minute: number) => [25 + (minute >= 7 && minute < 20 ? 0.6 : 0), 25];
    expect(timeline(spec, ["tank", "sump"], everyMinute(40), readings)).toEqual(["start 10", "end 20"]);
    expect(timeline(spec, ["sump", "tank"], everyMinute(40), readings)).toEqual(["start 10", "end 20"]);
  });

  it("is not satisfied while either sensor is missing", () => {
    const readings = (minute: number) => [26, minute >= 10 && minute < 14 ? Number.NaN : 25];
    expect(timeline(spec, ["tank", "sump"], everyMinute(30), readings)).toEqual(["start 0", "end 10", "start 15"]);
  });
});

describe("unchanged", () => {
  const spec = rule({ when: condition("tank", { op: "unchanged", forS: 1800 }) });

  it("starts half an hour after the reading stuck and ends at the sampling that sees it move", () => {
    const readings = (minute: number) => [minute < 30 || minute > 70 ? 25 + minute * 0.01 : 25.3];
    expect(timeline(spec, ["tank"], everyMinute(120), readings)).toEqual(["start 60", "end 75"]);
  });

  it("counts anew after a missing reading", () => {
    const readings = (minute: number) => [minute === 15 ? Number.NaN : 25];
    expect(timeline(spec, ["tank"], everyMinute(60), readings)).toEqual(["start 50"]);
  });
});

describe("silent", () => {
  const spec = rule({ when: condition("tank", { op: "silent", forS: 600 }) });

  it("starts ten minutes after the last word, whether the last value stays or goes, and ends with the next word", () => {
    const heardAt = (minute: number) => [minute <= 20 || minute >= 45 ? minute : 20];
    const stays = () => [25];
    const goes = (minute: number) => [minute <= 20 || minute >= 45 ? 25 : Number.NaN];
    expect(timeline(spec, ["tank"], everyMinute(60), stays, heardAt)).toEqual(["start 30", "end 45"]);
    expect(timeline(spec, ["tank"], everyMinute(60), goes, heardAt)).toEqual(["start 30", "end 45"]);
  });

  it("counts from the start of the hub for a sensor that never spoke", () => {
    const never = () => [Number.NaN];
    expect(timeline(spec, ["tank"], everyMinute(20), never, never)).toEqual(["start 10"]);
    expect(timeline(spec, ["tank"], everyMinute(20), never, () => [Number.NEGATIVE_INFINITY])).toEqual(["start 10"]);
  });
});
