/** Landing on a switching: whatever the curve, the step ends on it, within its tolerance, and never beyond the first one. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Steppable, stepToSwitch } from "./landing.ts";

const TOLERANCE = 1e-4;
const LEAST_H = 1e-6;

/** A clock whose switches lie where a curve of the time crosses nothing. */
function along(curve: (hours: number) => number): Steppable & { hours: number } {
  return {
    hours: 0,
    step(hours) {
      this.hours = hours;
    },
    takeBack() {
      this.hours = 0;
    },
    past() {
      return curve(this.hours) / TOLERANCE;
    },
  };
}

describe("stepToSwitch", () => {
  it("goes the whole way where nothing switches", () => {
    const one = along(() => -1);
    expect(stepToSwitch(one, -1 / TOLERANCE, 0.25, LEAST_H)).toBe(0.25);
    expect(one.hours).toBe(0.25);
  });

  it("ends on the crossing of any rising curve", () => {
    const at = fc.double({ min: 0.001, max: 0.249, noNaN: true });
    const bend = fc.double({ min: 0.4, max: 2.5, noNaN: true });
    fc.assert(
      fc.property(at, bend, (crossingH, power) => {
        const one = along((hours) => hours ** power - crossingH ** power);
        const hours = stepToSwitch(one, -(crossingH ** power) / TOLERANCE, 0.25, LEAST_H);
        expect(one.hours).toBe(hours);
        expect(one.past()).toSatisfy((past: number) => past >= 0 && past <= 1);
      }),
    );
  });

  it("ends on the first of several switches", () => {
    const one = along((hours) => Math.max(hours - 0.2, 2 * (hours - 0.1), hours - 0.15));
    expect(stepToSwitch(one, -0.15 / TOLERANCE, 0.25, LEAST_H)).toBeCloseTo(0.1, 3);
  });

  it("takes a step that is as short as a step may be as it is", () => {
    const one = along((hours) => hours);
    expect(stepToSwitch(one, 0, LEAST_H, LEAST_H)).toBe(LEAST_H);
  });
});
