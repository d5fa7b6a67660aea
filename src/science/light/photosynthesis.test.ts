import fc from "fast-check";
import { expect, it } from "vitest";
import { photosynthesisShare } from "./index.ts";

it("photosynthesis is nothing in the dark, straight in dim light, full in strong light", () => {
  expect(photosynthesisShare(0)).toBe(0);
  expect(photosynthesisShare(-5)).toBe(0);
  expect(photosynthesisShare(10)).toBeCloseTo(0.05, 3);
  expect(photosynthesisShare(700)).toBeGreaterThan(0.99);
});

it("photosynthesis never falls with more light up to 800 umol, and falls beyond", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 790, noNaN: true }), (par) => {
      expect(photosynthesisShare(par + 10)).toBeGreaterThanOrEqual(photosynthesisShare(par));
    }),
  );
  expect(photosynthesisShare(1600)).toBeLessThan(photosynthesisShare(800));
});
