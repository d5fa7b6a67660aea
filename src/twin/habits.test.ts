/** What a pair of hands does by itself every day, and what it leaves. */
import { describe, expect, it } from "vitest";
import { startRun } from "../../test/sites.ts";
import { SALT } from "./columns.ts";
import { floorL } from "./index.ts";

const TANK = `
site: By hand
systems:
  tank:
    bodies:
      display: { volume: 200 L }
`;

describe("topping off by hand", () => {
  it("makes up for what evaporates", () => {
    const run = startRun(TANK, { hands: true }).hours(24 * 7);
    expect(run.volumeL("display")).toBeGreaterThan(195);
    expect(run.salinity("display")).toBeLessThan(36);
  });

  it("does not pour fresh water into a tank that runs out", () => {
    const run = startRun(TANK, { hands: true }).set("display", "leakLPerH", 20).set("display", "leakStopsAt", 0.5);
    run.hours(24 * 5);
    expect(run.volumeL("display")).toBeLessThan(101);
    expect(run.salinity("display")).toBeGreaterThan(35);
  });

  it("pours nothing into a sump that stands full because its pump has stopped", () => {
    const withSump = `
site: Sump runs over
systems:
  tank:
    bodies:
      display: { volume: 300 L }
      sump: { volume: 60 L, brim: 66 L }
    circulation: { from: sump, to: display, by: return }
devices:
  return: { kind: return-pump, in: sump }
`;
    const run = startRun(withSump, { hands: true }).hours(2).set("return", "dead", 1).hours(12);
    const spilledL = floorL(run.twin);
    run.hours(24 * 4);
    expect(spilledL).toBeGreaterThan(1);
    expect(floorL(run.twin)).toBeCloseTo(spilledL, 6);
  });
});

describe("dosing by hand", () => {
  it("leaves the salt of a balanced dose: 58.4 mg for each meq, 0.02 a day for each dKH", () => {
    const run = startRun(
      `
site: By hand
systems:
  tank:
    bodies:
      display: { volume: 200 L, rock: 0 kg, livestock: { corals: mixed, alkalinity-use: 1 dKH/d } }
devices:
  heater: { kind: heater, in: display }
  skimmer: { kind: skimmer, in: display }
  lamp: { kind: light, in: display }
`,
      { hands: true },
    ).hours(48);
    const before = run.twin.bodies[SALT];
    run.hours(10 * 24);
    // A dKH a day in 200 L are 71 meq; in ten days 41.7 g of sodium chloride.
    expect(1000 * (run.twin.bodies[SALT] - before)).toSatisfy((grams: number) => grams > 33 && grams < 50);
  });
});
