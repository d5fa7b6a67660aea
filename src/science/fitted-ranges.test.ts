/** What is measured and what is extrapolated. */
import { expect, it } from "vitest";
import { lawsOutside, withinCarbonateFit } from "./index.ts";

const namesOutside = (temperatureC: number, salinity: number) =>
  lawsOutside(temperatureC, salinity, true).map((law) => law.law);

it("ordinary reef water lies inside every law", () => {
  expect(namesOutside(26, 35)).toEqual([]);
});

it("a cooked tank, a chilled one, brackish water and brine leave laws behind, the first of them K1 and K2", () => {
  for (const [t, s] of [
    [38, 35],
    [1, 35],
    [26, 12],
    [26, 50],
  ])
    expect(namesOutside(t, s)[0]).toBe("K1 and K2");
});

it("K1 and K2 are left exactly where withinCarbonateFit says so", () => {
  for (let t = -5; t <= 50; t += 0.5)
    for (let s = 0; s <= 60; s += 0.5) expect(namesOutside(t, s).includes("K1 and K2")).toBe(!withinCarbonateFit(t, s));
});

it("who asks for water alone hears nothing of the carbonate system", () => {
  expect(lawsOutside(26, 12, false)).toEqual([]);
});
