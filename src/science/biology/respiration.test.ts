/** How much oxygen fish take, and what they do when it runs short. */
import { expect, it } from "vitest";
import { fishOxygenMgPerH, fishWarmthFactor, oxygenLimitation } from "./index.ts";

it("fish of 5, 20, 50 and 100 g at 26 degrees C take 1.7, 5.2, 10.9 and 18.9 mg of oxygen an hour", () => {
  expect(fishOxygenMgPerH(5, 26)).toBeCloseTo(1.7, 1);
  expect(fishOxygenMgPerH(20, 26)).toBeCloseTo(5.2, 1);
  expect(fishOxygenMgPerH(50, 26)).toBeCloseTo(10.9, 1);
  expect(fishOxygenMgPerH(100, 26)).toBeCloseTo(18.9, 1);
});

it("ten small fish take more than one of their weight, and no fish takes none", () => {
  expect(fishOxygenMgPerH(10, 26, 10)).toBeGreaterThan(fishOxygenMgPerH(100, 26));
  expect(fishOxygenMgPerH(0, 26)).toBe(0);
});

it("ten degrees multiply the uptake by 2.4 within a species and by 1.8 across species", () => {
  expect(fishWarmthFactor(36) / fishWarmthFactor(26)).toBeCloseTo(2.4, 12);
  expect(fishOxygenMgPerH(50, 31) / fishOxygenMgPerH(50, 21)).toBeCloseTo(1.75, 1);
});

it("uptake holds above the critical oxygen and falls in proportion under it", () => {
  expect(oxygenLimitation(6, 2)).toBe(1);
  expect(oxygenLimitation(1, 2)).toBe(0.5);
  expect(oxygenLimitation(-1, 2)).toBe(0);
});
