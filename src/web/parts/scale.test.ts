import fc from "fast-check";
import { expect, it } from "vitest";
import { BOARD_END_MIN, boardScale, clockTicks, gridValues, linearScale } from "./scale.ts";

it("the board's axis runs from the fault to fourteen days, and grows all the way", () => {
  const x = boardScale(800);
  expect(x(0)).toBe(0);
  expect(x(BOARD_END_MIN)).toBeCloseTo(800);
  expect(x(9)).toBeCloseTo((800 * 1) / Math.log10(1 + BOARD_END_MIN));
  fc.assert(
    fc.property(fc.double({ min: 0, max: BOARD_END_MIN - 1, noNaN: true }), (t) => {
      expect(x(t + 1)).toBeGreaterThan(x(t));
    }),
  );
});

it("both axes keep what lies outside of them at their ends", () => {
  expect(boardScale(800)(10 * BOARD_END_MIN)).toBeCloseTo(800);
  expect(boardScale(800)(-5)).toBe(0);
  expect(linearScale(150, 950, 600)(900)).toBe(950);
  expect(linearScale(150, 950, 600)(300)).toBe(550);
});

it("clockTicks() are evenly spaced, start at the fault and are as few as asked", () => {
  fc.assert(
    fc.property(fc.double({ min: 30, max: 60_000, noNaN: true }), fc.integer({ min: 3, max: 14 }), (end, most) => {
      const ticks = clockTicks(end, most);
      expect(ticks[0]).toBe(0);
      expect(ticks.length - 1).toBeLessThanOrEqual(most);
      expect(ticks[ticks.length - 1]).toBeLessThanOrEqual(end * 1.000001);
    }),
  );
  expect(clockTicks(1320, 11)).toEqual([0, 120, 240, 360, 480, 600, 720, 840, 960, 1080, 1200, 1320]);
});

it("gridValues() are round numbers inside the range", () => {
  expect(gridValues(25, 34.6, 5).values).toEqual([26, 28, 30, 32, 34]);
  fc.assert(
    fc.property(
      fc.double({ min: -100, max: 1000, noNaN: true }),
      fc.double({ min: 0.01, max: 500, noNaN: true }),
      (low, height) => {
        const { values } = gridValues(low, low + height, 5);
        expect(values.length).toBeLessThanOrEqual(6);
        for (const value of values) {
          expect(value).toBeGreaterThanOrEqual(low - height * 1e-6);
          expect(value).toBeLessThanOrEqual(low + height * (1 + 1e-6));
        }
      },
    ),
  );
});
