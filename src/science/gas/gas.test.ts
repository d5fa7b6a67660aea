/** Gases in water: what it holds, and how fast it takes it. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  co2Solubility,
  oxygenSaturation,
  oxygenSaturationAtPressure,
  pco2FromDryAir,
  schmidtRatioCo2,
  surfaceTransferMPerH,
  weirTransferShare,
} from "./index.ts";

const temperature = fc.double({ min: 0, max: 39, noNaN: true });
const salinity = fc.double({ min: 0, max: 42, noNaN: true });

describe("solubility", () => {
  it("of both gases falls as water warms and as it grows saltier", () => {
    fc.assert(
      fc.property(temperature, salinity, (t, s) => {
        for (const law of [oxygenSaturation, co2Solubility]) {
          expect(law(t + 0.5, s)).toBeLessThan(law(t, s));
          expect(law(t, s + 0.5)).toBeLessThan(law(t, s));
        }
      }),
    );
  });

  it("is the same at one atmosphere by both doors, and less on a mountain", () => {
    expect(oxygenSaturationAtPressure(26, 35, 1)).toBeCloseTo(oxygenSaturation(26, 35), 12);
    expect(oxygenSaturationAtPressure(26, 35, 0.8)).toBeLessThan(0.8 * oxygenSaturation(26, 35));
  });

  it("stays a number in a cooked tank", () => {
    expect(oxygenSaturation(99, 35)).toBeGreaterThan(0);
    expect(oxygenSaturation(-40, 35)).toBeLessThan(1000);
  });

  it("room air of 1000 ppm presses with a little less over warm water, for vapour takes its share", () => {
    expect(pco2FromDryAir(1000, 26, 35)).toBeCloseTo(967, 0);
  });
});

describe("transfer", () => {
  it("through the surface covers the band of each way of stirring", () => {
    const bands = [
      [0, 0.008, 0.02],
      [1 / 3, 0.03, 0.06],
      [2 / 3, 0.08, 0.2],
      [1, 0.2, 0.5],
    ];
    for (const [agitation, low, high] of bands) {
      expect(surfaceTransferMPerH(agitation)).toBeGreaterThan(low);
      expect(surfaceTransferMPerH(agitation)).toBeLessThan(high);
    }
    expect(surfaceTransferMPerH(7)).toBe(surfaceTransferMPerH(1));
  });

  it("of CO2 runs at 0.92 to 0.94 of that of oxygen in a tank", () => {
    fc.assert(
      fc.property(fc.double({ min: 15, max: 32, noNaN: true }), (t) => {
        expect(Math.abs(schmidtRatioCo2(t) - 0.93)).toBeLessThan(0.015);
      }),
    );
  });

  it("over a weir of 0.2 m at 26 degrees C makes up 14 % of the deficit", () => {
    expect(weirTransferShare(0.2, 26)).toBeCloseTo(0.14, 2);
    expect(weirTransferShare(0, 26)).toBe(0);
  });

  it("over a weir grows with the drop and never exceeds the whole", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 3.5, noNaN: true }), temperature, (drop, t) => {
        expect(weirTransferShare(drop + 0.1, t)).toBeGreaterThan(weirTransferShare(drop, t));
        expect(weirTransferShare(drop, t)).toBeLessThan(1);
      }),
    );
  });
});
