/** Ammonia and the bacteria that live on it. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { phFree } from "../carbonate/index.ts";
import {
  ammoniaFraction,
  ammoniumPka,
  ammoniumPkaJohanssonWedborg80,
  nitrificationShare,
  nitriteOxidationShare,
} from "./index.ts";

const ph = fc.double({ min: 6, max: 10, noNaN: true });
const temperature = fc.double({ min: 10, max: 34, noNaN: true });

it("6.1 % of ammonia is NH3 at pH 8.06 and 25 degrees C", () => {
  expect(ammoniaFraction(25, 35, 8.06)).toBeCloseTo(0.061, 3);
});

it("more of it is NH3 at a higher pH and in warmer water", () => {
  fc.assert(
    fc.property(ph, temperature, (value, t) => {
      expect(ammoniaFraction(t, 35, value + 0.05)).toBeGreaterThan(ammoniaFraction(t, 35, value));
      expect(ammoniaFraction(t + 0.5, 35, value)).toBeGreaterThan(ammoniaFraction(t, 35, value));
    }),
  );
});

it("another published pKa agrees with ours once both stand on the free scale", () => {
  const bellFree = 10.0423 - 0.0315536 * 25 + 0.003071 * 35;
  expect(phFree(ammoniumPka(25, 35), 25, 35)).toBeCloseTo(bellFree, 1);
});

it("the pKa of ammonium agrees with an older independent fit to 0.03 in tanks", () => {
  const salinity = fc.double({ min: 25, max: 38, noNaN: true });
  fc.assert(
    fc.property(fc.double({ min: 20, max: 32, noNaN: true }), salinity, (t, s) => {
      expect(Math.abs(ammoniumPka(t, s) - ammoniumPkaJohanssonWedborg80(t, s))).toBeLessThan(0.03);
    }),
  );
});

it("nitrification needs ammonia and oxygen, never exceeds its greatest at 26 degrees C, and runs faster when warm", () => {
  const amount = fc.double({ min: 0, max: 50, noNaN: true });
  for (const law of [nitrificationShare, nitriteOxidationShare]) {
    expect(law(0, 6, 26)).toBe(0);
    expect(law(1, 0, 26)).toBe(0);
    expect(law(-1, 6, 26)).toBe(0);
    fc.assert(
      fc.property(amount, amount, (nitrogen, oxygen) => {
        const share = law(nitrogen, oxygen, 26);
        expect(share).toBeLessThan(1);
        expect(law(nitrogen + 0.1, oxygen + 0.1, 26)).toBeGreaterThan(share);
      }),
    );
    expect(law(1, 6, 30) / law(1, 6, 20)).toBeCloseTo(1.08 ** 10, 9);
    expect(law(1, 6, 50)).toBe(law(1, 6, 35));
  }
});
