/** Lime that is made by life, falls out by itself, or is given by the keeper. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dkhFromMeqPerL } from "../units.ts";
import {
  alkalinityMeqPerG,
  aragoniteDissolutionRate,
  aragonitePrecipitationRate,
  aragoniteRateConstant,
  aragoniteRateOrder,
  calcificationDayMean,
  calcificationFactor,
  calciumMgPerG,
  carbonMmolPerG,
  limewaterStrengthMeqPerL,
  NUCLEATION_OMEGA,
  nucleationShare,
} from "./index.ts";

describe("calcification", () => {
  it("is one at saturation state 4 in full light and at its best warmth, and a third of that in the dark", () => {
    expect(calcificationFactor(4, 1, 26.5)).toBe(1);
    expect(calcificationFactor(4, 0, 26.5)).toBeCloseTo(0.33, 12);
    expect(calcificationDayMean(0.5)).toBeCloseTo(0.665, 12);
  });

  it("loses 15 % for each unit of saturation, stops at 1, and gains no more than 30 %", () => {
    expect(calcificationFactor(3, 1, 26.5)).toBeCloseTo(0.85, 12);
    expect(calcificationFactor(1, 1, 26.5)).toBe(0);
    expect(calcificationFactor(0.3, 1, 26.5)).toBe(0);
    expect(calcificationFactor(20, 1, 26.5)).toBe(1.3);
  });

  it("never falls as saturation or light rises", () => {
    const omega = fc.double({ min: 0, max: 12, noNaN: true });
    const light = fc.double({ min: 0, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(omega, light, (o, l) => {
        expect(calcificationFactor(o + 0.05, l, 26)).toBeGreaterThanOrEqual(calcificationFactor(o, l, 26));
        expect(calcificationFactor(o, l + 0.05, 26)).toBeGreaterThanOrEqual(calcificationFactor(o, l, 26));
      }),
    );
  });

  it("all but ends ten degrees away from the best warmth", () => {
    expect(calcificationFactor(4, 1, 36.5)).toBeLessThan(0.02);
  });
});

describe("precipitation", () => {
  it("follows the measurements of Burton & Walter at 5, 25 and 37 degrees C within a few per cent", () => {
    const measured = [
      [5, 21.8, 0.4],
      [25, 40.6, 1.7],
      [37, 45.1, 2.4],
    ];
    for (const [t, k, n] of measured) {
      expect(Math.abs(aragoniteRateConstant(t) / k - 1)).toBeLessThan(0.03);
      expect(Math.abs(aragoniteRateOrder(t) - n)).toBeLessThan(0.05);
    }
  });

  it("stands still at saturation, grows above it and dissolves below", () => {
    expect(aragonitePrecipitationRate(1, 26)).toBe(0);
    expect(aragonitePrecipitationRate(0.5, 26)).toBe(0);
    expect(aragonitePrecipitationRate(10, 26)).toBeGreaterThan(aragonitePrecipitationRate(5, 26));
    expect(aragoniteDissolutionRate(1.2)).toBe(0);
    expect(aragoniteDissolutionRate(0.5)).toBeGreaterThan(aragoniteDissolutionRate(0.9));
  });

  it("seeds itself only above the critical saturation state", () => {
    expect(nucleationShare(5, NUCLEATION_OMEGA.particles)).toBe(0);
    expect(nucleationShare(14, NUCLEATION_OMEGA.particles)).toBe(1);
    expect(nucleationShare(11, NUCLEATION_OMEGA.clean)).toBe(0);
  });
});

describe("what the keeper gives", () => {
  it("saturated limewater at 25 degrees C holds 44 meq/L, 123 dKH, and less when warmer", () => {
    expect(limewaterStrengthMeqPerL(25)).toBeCloseTo(44, 0);
    expect(dkhFromMeqPerL(limewaterStrengthMeqPerL(25))).toBeCloseTo(123, 0);
    expect(limewaterStrengthMeqPerL(30)).toBeLessThan(limewaterStrengthMeqPerL(20));
  });

  it("limewater lies within 5 % of both compilations of solubility from 10 to 40 degrees C", () => {
    const gramsPerL = [
      [10, 1.76, 1.82],
      [20, 1.65, 1.73],
      [25, 1.59, 1.66],
      [30, 1.53, 1.6],
      [40, 1.41, 1.41],
    ];
    for (const [t, low, high] of gramsPerL) {
      const grams = limewaterStrengthMeqPerL(t) / alkalinityMeqPerG("Ca(OH)2");
      expect(grams).toBeGreaterThan(low * 0.95);
      expect(grams).toBeLessThan(high * 1.05);
    }
  });

  it("100 g of bicarbonate in 500 L give 2.38 meq/L, that is 6.7 dKH", () => {
    const rise = (100 * alkalinityMeqPerG("NaHCO3")) / 500;
    expect(rise).toBeCloseTo(2.38, 2);
    expect(dkhFromMeqPerL(rise)).toBeCloseTo(6.7, 1);
  });

  it("bicarbonate brings as much carbon as alkalinity, carbonate half, hydroxide none", () => {
    expect(carbonMmolPerG("NaHCO3")).toBeCloseTo(alkalinityMeqPerG("NaHCO3"), 12);
    expect(carbonMmolPerG("Na2CO3")).toBeCloseTo(alkalinityMeqPerG("Na2CO3") / 2, 12);
    expect(carbonMmolPerG("NaOH")).toBe(0);
  });

  it("calcium carbonate takes 20.04 mg of calcium for each milliequivalent of alkalinity", () => {
    expect(calciumMgPerG("CaCO3") / alkalinityMeqPerG("CaCO3")).toBeCloseTo(20.04, 2);
    expect(calciumMgPerG("Ca(OH)2") / alkalinityMeqPerG("Ca(OH)2")).toBeCloseTo(20.04, 2);
  });

  it("half the purity brings half the dose", () => {
    expect(alkalinityMeqPerG("NaOH", 0.5)).toBeCloseTo(alkalinityMeqPerG("NaOH") / 2, 12);
  });
});
