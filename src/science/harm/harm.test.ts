/** Who bears what for how long: worked examples, and what any table of tolerances must satisfy. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ammoniaFraction } from "../nutrients/index.ts";
import {
  DOSE_SPREAD,
  effectShare,
  GROUPS,
  groupIndex,
  HARM_DOSE,
  HARM_FACTOR,
  harmRatePerH,
  REPAIR_HOURS,
  STRESSOR_MEASURE,
  STRESSORS,
  stressorIndex,
  t50Hours,
  tolerances,
} from "./index.ts";

describe("worked examples", () => {
  it("corals used to 27 degrees C lose half at 33 in 13.4 h, fish in 185 h", () => {
    expect(t50Hours("mixed", "heat", 33, 27)).toBeCloseTo(13.4, 1);
    expect(Math.abs(t50Hours("reef-fish", "heat", 33) - 185)).toBeLessThan(1);
  });

  it("corals bear +1.5, +2, +3, +4, +5 and +6.5 degrees for 500, 335, 150, 67, 30 and 9 h", () => {
    const seen = [1.5, 2, 3, 4, 5, 6.5].map((above) => t50Hours("mixed", "heat", 27 + above, 27));
    const wanted = [500, 335, 150, 67, 30, 9];
    for (const [index, hours] of wanted.entries()) expect(Math.abs(seen[index] / hours - 1)).toBeLessThan(0.02);
  });

  it("soft corals bear heat half as long again, large polyps twice, small polyps 0.7 of the time", () => {
    const mixed = t50Hours("mixed", "heat", 31);
    expect(t50Hours("soft", "heat", 31) / mixed).toBeCloseTo(1.5, 9);
    expect(t50Hours("large-polyp", "heat", 31) / mixed).toBeCloseTo(2, 9);
    expect(t50Hours("small-polyp", "heat", 31) / mixed).toBeCloseTo(0.7, 9);
  });

  it("fish bear 35 degrees C for 8.6 h and 36.4 for one", () => {
    expect(t50Hours("reef-fish", "heat", 35)).toBeCloseTo(8.6, 1);
    expect(t50Hours("reef-fish", "heat", 36.4)).toBeCloseTo(1, 9);
  });

  it("fish bear 2.0, 1.0 and 0.5 mg/L of oxygen for 100, 2.2 and 0.32 h", () => {
    expect(t50Hours("reef-fish", "hypoxia", 2)).toBeCloseTo(100, 6);
    expect(t50Hours("reef-fish", "hypoxia", 1)).toBeCloseTo(2.2, 1);
    expect(t50Hours("reef-fish", "hypoxia", 0.5)).toBeCloseTo(0.32, 2);
  });

  it("2 mg/L of ammonia nitrogen is chronic at pH 8.06, 10 mg/L lasts 330 h, and 34 h at pH 8.5", () => {
    const hours = (tan: number, ph: number) => t50Hours("reef-fish", "ammonia", tan * ammoniaFraction(25, 35, ph));
    expect(Math.abs(hours(2, 8.06) / 18_000 - 1)).toBeLessThan(0.03);
    expect(Math.abs(hours(10, 8.06) / 330 - 1)).toBeLessThan(0.03);
    expect(Math.abs(hours(10, 8.5) / 34 - 1)).toBeLessThan(0.03);
  });

  it("corals bear salinity 22 for 72 h and 28 for 384 h, fish not even notice", () => {
    expect(t50Hours("small-polyp", "low-salinity", 22)).toBeCloseTo(72, 9);
    expect(t50Hours("small-polyp", "low-salinity", 28)).toBeCloseTo(384, 9);
    expect(t50Hours("reef-fish", "low-salinity", 22)).toBe(Number.POSITIVE_INFINITY);
  });

  it("active fish die of a lack of oxygen sooner than others, massive corals later than branching ones", () => {
    expect(t50Hours("active-fish", "hypoxia", 1.5)).toBeLessThan(t50Hours("reef-fish", "hypoxia", 1.5));
    expect(t50Hours("large-polyp", "hypoxia", 1.5)).toBeGreaterThan(t50Hours("small-polyp", "hypoxia", 1.5));
  });

  it("ordinary water harms nobody", () => {
    const ordinary = [26, 26, 6, 35, 35, 8.1, 8.1, 0.001, 450, 0, 12];
    for (const group of GROUPS) {
      for (const [index, stressor] of STRESSORS.entries()) {
        expect(t50Hours(group, stressor, ordinary[index]), `${group} ${stressor}`).toBe(Number.POSITIVE_INFINITY);
      }
    }
  });
});

describe("the table of tolerances", () => {
  const named = tolerances.map((row) => [`${row.group}, ${row.stressor}`, row] as const);

  it("has no pair twice", () => {
    expect(new Set(named.map(([name]) => name)).size).toBe(tolerances.length);
  });

  it.each(named)("%s gives back its own points, in order, beyond its threshold", (_, row) => {
    const usedToC = 27.5;
    const side = row.harmIs === "above" ? 1 : -1;
    for (const [x, hours] of row.points) {
      expect((x - row.threshold) * side).toBeGreaterThan(0);
      expect(t50Hours(row.group, row.stressor, x + (row.relative ? usedToC : 0), usedToC)).toBeCloseTo(hours, 6);
    }
    const places = row.points.map(([x]) => x);
    expect(places).toEqual([...places].sort((one, other) => one - other));
    expect(row.factor).toBeGreaterThan(1);
    expect(row.repairHours).toBeGreaterThan(0);
  });

  it.each(named)("%s never hurts less for being farther beyond the threshold", (_, row) => {
    const group = groupIndex(row.group);
    const stressor = stressorIndex(row.stressor);
    const farther = fc.double({ min: 0, max: 1, noNaN: true });
    const span = Math.abs(row.threshold) * 0.9;
    const place = (share: number) => {
      const x = row.threshold + (row.harmIs === "above" ? 1 : -1) * share * span;
      return row.relative ? x + 27.5 : x;
    };
    fc.assert(
      fc.property(farther, farther, (one, other) => {
        const [near, far] = one < other ? [one, other] : [other, one];
        expect(harmRatePerH(group, stressor, place(far), 27.5)).toBeGreaterThanOrEqual(
          harmRatePerH(group, stressor, place(near), 27.5),
        );
      }),
    );
    expect(harmRatePerH(group, stressor, place(0), 27.5)).toBe(0);
    expect(harmRatePerH(group, stressor, place(0.5), 27.5)).toBeGreaterThan(0);
  });

  it("fills the arrays that simulators read", () => {
    for (const row of tolerances) {
      const pair = groupIndex(row.group) * STRESSORS.length + stressorIndex(row.stressor);
      expect(HARM_FACTOR[pair]).toBe(row.factor);
      expect(REPAIR_HOURS[pair]).toBe(row.repairHours);
    }
    expect(HARM_FACTOR.length).toBe(GROUPS.length * STRESSORS.length);
  });

  it("says what each stressor is measured in", () => {
    expect(Object.keys(STRESSOR_MEASURE)).toEqual([...STRESSORS]);
  });
});

describe("harmRatePerH", () => {
  it("is a finite number for any exposure, none included", () => {
    const group = fc.integer({ min: 0, max: GROUPS.length - 1 });
    const stressor = fc.integer({ min: 0, max: STRESSORS.length - 1 });
    fc.assert(
      fc.property(group, stressor, fc.double(), (who, what, x) => {
        const rate = harmRatePerH(who, what, x);
        expect(rate >= 0 && rate <= 60).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
});

describe("effectShare", () => {
  it("is one half at the dose of loss for every spread, and a tenth at exp(-2.2 spread)", () => {
    for (const spread of Object.values(DOSE_SPREAD)) {
      expect(effectShare(HARM_DOSE.loss, spread)).toBe(0.5);
      expect(effectShare(Math.exp(-2.2 * spread), spread)).toBeCloseTo(0.1, 3);
    }
    expect(effectShare(0, DOSE_SPREAD.mixedTank)).toBe(0);
  });

  it("grows with the dose", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 20, noNaN: true }), (dose) => {
        expect(effectShare(dose + 0.1, 0.6)).toBeGreaterThan(effectShare(dose, 0.6));
      }),
    );
  });
});
