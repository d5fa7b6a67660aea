import { expect, it } from "vitest";
import { sensor } from "../../../../test/browser/fixtures/parts.ts";
import { school } from "../../../../test/browser/fixtures/sites.ts";
import type { Comparison, Quantity } from "../../../site/index.ts";
import { bringAbout } from "./bring-about.ts";

const NUMBERS: readonly Quantity[] = [
  ..."temperature ph salinity oxygen alkalinity orp level flow power air-temperature air-co2 light".split(" "),
] as Quantity[];
const OF_NUMBERS: readonly Comparison[] = [
  { op: "below", value: 1 },
  { op: "above", value: 1 },
  { op: "between", low: 1, high: 2 },
  { op: "outside", low: 1, high: 2 },
  { op: "rising", ratePerH: 1 },
  { op: "falling", ratePerH: 1 },
  { op: "differs", from: "other", by: 1 },
];
const OF_ALL: readonly Comparison[] = [
  { op: "silent", forS: 60 },
  { op: "unchanged", forS: 60 },
];
const cases: readonly (readonly [Quantity, Comparison])[] = [
  ...NUMBERS.flatMap((quantity) => [...OF_NUMBERS, ...OF_ALL].map((is) => [quantity, is] as const)),
  ...(["leak", "float"] as const).flatMap((quantity) =>
    (["wet", "dry"] as const).map((op) => [quantity, { op }] as const),
  ),
  ...(["present", "absent"] as const).map((op) => ["mains", { op }] as const),
];

it.each(cases)("there is a way to make a sensor of %s say what %o asks, and a way back", (quantity, is) => {
  const site = school();
  const at = quantity === "flow" || quantity === "power" ? "return-1" : "atrium-reef-display";
  const probe = sensor("probe", quantity, at);
  const way = bringAbout({ ...site, sensors: [...site.sensors, probe] }, probe, is);
  expect(way.steps.length).toBeGreaterThan(0);
  for (const sentence of [...way.steps, way.putBack]) expect(sentence).toMatch(/^[A-Z][^{}]*\.$/);
  expect([...way.steps, way.putBack].join(" ")).not.toMatch(/undefined|null|NaN/);
  expect(way.longestS).toBeGreaterThanOrEqual(600);
});

it("a pump stands still for twenty minutes at most, a probe is out of its tank for an hour at most", () => {
  const site = school();
  const moved = bringAbout(site, sensor("probe", "flow", "return-1"), { op: "below", value: 100 });
  expect(moved.longestS).toBeLessThanOrEqual(1200);
  const probe = bringAbout(site, sensor("probe", "temperature", "atrium-reef-sump"), { op: "above", value: 27 });
  expect(probe.longestS).toBeLessThanOrEqual(3600);
});
