/** The copy of a site that the twin reads. */
import { expect, it } from "vitest";
import { siteOf } from "../../test/sites.ts";
import { compile } from "./compile.ts";
import { quickCopy } from "./quick-copy.ts";

const TEXT = `
site: Copied
power: { mains: 230 V, circuits: { ring: { limit: 16 A } } }
systems:
  reef:
    bodies: { display: { volume: 300 L, livestock: { fish: 50 g, corals: mixed } }, sump: { volume: 80 L, brim: 130 L } }
    circulation: [ { from: sump, to: display, by: return } ]
devices:
  return: { kind: return-pump, in: sump, on: ring }
  lamp: { kind: light, in: display, on: ring, schedule: "10:00-20:00" }
hubs: { hub: { on: ring } }
sensors: { warmth: { measures: temperature, in: sump } }
rules: { warm: { when: { warmth: above 27 degC, for: 10 min }, notice: soon, says: warm } }`;

it("a compiled site says the same as its description", () => {
  const site = siteOf(TEXT);
  expect(compile(site).site).toEqual(site);
});

it("a number that has no end is refused, not lost", () => {
  const site = siteOf(TEXT);
  expect(() => quickCopy({ ...site, mains: { volts: Number.POSITIVE_INFINITY } })).toThrow(
    "the number Infinity as 'volts'",
  );
});
