/** The twin's integrator on a problem whose solution is known to ten digits (bench/ode/two-vessels.ts). */
import { describe, expect, it } from "vitest";
import { reference, runTwoVessels, scores } from "../bench/ode/run.ts";

const quick = { mostH: 0.25, firstH: 0.005, growth: 1 };
const careful = { mostH: 0.1, firstH: 0.003, growth: 0.7 };

describe.each(["A", "B"] as const)("fourteen days of two vessels, variant %s", (variant) => {
  const fast = runTwoVessels(variant, quick);
  const fine = runTwoVessels(variant, careful);

  it("switch as often as in the reference", () => {
    expect(fast.counts).toEqual(reference().counts);
    expect(fine.counts).toEqual(reference().counts);
  });

  it("end near enough for any decision with steps of a quarter of an hour, comfortably with six minutes", () => {
    expect(scores(variant, fast.days).all).toBeLessThan(1);
    expect(scores(variant, fine.days).all).toBeLessThan(0.1);
  });

  it("come nearer with shorter steps", () => {
    expect(scores(variant, fine.days).all).toBeLessThan(scores(variant, fast.days).all / 2);
  });
});

it("the heater of variant A switches within seconds of its reference for the first days", () => {
  const { heaterTimes } = runTwoVessels("A", careful);
  for (const [place, wanted] of reference().heaterTimesA.slice(0, 24).entries())
    expect(Math.abs(heaterTimes[place] - wanted) * 3600).toBeLessThan(3);
});
