import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { resultsOf } from "../../../test/browser/fixtures/results.ts";
import { oneTank } from "../../../test/browser/fixtures/sites.ts";
import type { DrillResult, Remedy } from "../../server/contract/index.ts";
import { editInWords } from "./edit-words.ts";
import { effectOf } from "./effect.ts";
import { stepsOf } from "./steps.ts";

const model = resultsOf(oneTank())[0];
const drill = (id: string, finding: string | null = id): DrillResult => ({ ...model, id, finding, verdict: "late" });
const finding = (key: string) => ({ key, text: key, drills: [drill(`${key}@day`), drill(`${key}@night`)] });
const remedy = (id: string, aims: readonly string[]): Remedy => ({
  id,
  title: id,
  kind: "siren",
  parts: [],
  aims,
  edits: [],
  caution: null,
  costEUR: { low: 0, high: 0, words: "" },
  minutesOnce: 0,
  minutesPerMonth: 0,
  why: "",
  needs: "",
});

describe("steps", () => {
  it("hold each finding once, under the first change that aims at it, and each change once", () => {
    const keys = ["a", "b", "c", "d", "e"];
    const aims = fc.subarray(keys).map((chosen) => chosen.map((key) => `${key}@night`));
    fc.assert(
      fc.property(fc.array(aims, { maxLength: 6 }), (lists) => {
        const findings = keys.map(finding);
        const remedies = lists.map((list, i) => remedy(`r${i}`, list));
        const { steps, left } = stepsOf(findings, remedies);
        const told = [...steps.flatMap((step) => step.findings), ...left].map(({ key }) => key);
        expect([...told].sort()).toEqual(keys);
        const named = steps.flatMap(({ remedy: first, others }) => [first.id, ...others.map(({ id }) => id)]);
        expect([...named].sort()).toEqual(remedies.filter((one) => one.aims.length > 0).map(({ id }) => id));
        for (const { remedy: first, findings: mine } of steps)
          for (const { key } of mine) expect(remedies.find((one) => one.aims.includes(`${key}@night`))).toBe(first);
      }),
    );
  });

  it("name another way where it meets most of the same", () => {
    const { steps } = stepsOf(["a", "b", "c"].map(finding), [
      remedy("first", ["a@day"]),
      remedy("second", ["b@day", "c@day"]),
      remedy("other", ["a@day", "b@day", "c@day"]),
    ]);
    expect(steps.map(({ others }) => others.map(({ id }) => id))).toEqual([[], ["other"]]);
  });
});

describe("the effect of a change", () => {
  const before = [drill("a@day"), drill("b@day"), drill("c@day", null)];
  it("counts what it aimed at as closed where the finding or the drill is gone", () => {
    const effect = effectOf(
      remedy("r", ["a@day", "b@day"]),
      before,
      [{ ...drill("a@day", null), verdict: "handled" }],
      true,
    );
    expect(effect).toMatchObject({ aimed: 2, closed: 2, opened: 0, whole: true });
    expect(effect.better).toHaveLength(1);
  });
  it("says nothing yet of what is not tried yet", () => {
    expect(effectOf(remedy("r", ["a@day", "b@day"]), before, [drill("a@day")], false)).toMatchObject({
      aimed: 1,
      closed: 0,
    });
  });
  it("counts a finding that was not there before", () => {
    expect(effectOf(remedy("r", []), before, [drill("c@day"), drill("new@day")], true).opened).toBe(2);
  });
});

describe("a change in words", () => {
  const written = {
    devices: { heater: { power: "200 W", "own-float": { "stops-at": "40 L" } } },
    systems: { reef: { circulation: [{ from: "sump", to: "display" }], bodies: { sump: { brim: "90 L" } } } },
  };
  it.each([
    [["devices", "heater", "power"], "heater", "power", "200 W"],
    [["devices", "heater", "own-float", "stops-at"], "heater", "own float, stops at", "40 L"],
    [["systems", "reef", "bodies", "sump", "brim"], "sump", "brim", "90 L"],
    [["systems", "reef", "circulation", 0, "tested"], "sump-to-display", "tested", null],
    [["power", "batteries", "cells", "energy"], "cells", "energy", null],
    [["silence-watch"], "silence watch", "", null],
  ])("%j is told by part and key, with what was written", (path, part, key, was) => {
    expect(editInWords({ op: "set", path, value: "1 month" }, written)).toEqual({ part, key, was, becomes: "1 month" });
  });
  it("tells a whole part by its keys, and degrees as degrees", () => {
    const value = { kind: "heater", "own-thermostat": "24 degC", feeds: ["hub", "router"] };
    expect(editInWords({ op: "set", path: ["devices", "spare"], value }, written).becomes).toBe(
      "kind heater, own thermostat 24 °C, feeds hub, router",
    );
  });
  it("tells what is taken out and what is called otherwise", () => {
    expect(editInWords({ op: "remove", path: ["devices", "heater", "power"] }, written).becomes).toBeNull();
    expect(editInWords({ op: "rename", from: "a", to: "b" }, written)).toMatchObject({ part: "a", becomes: "b" });
  });
});
