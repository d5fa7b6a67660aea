/** Seawater as a body of water: conversions that keepers make with it, and back. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  afterBatchChanges,
  afterSteadyExchange,
  conductivityFromSalinity,
  freezingPoint,
  heatCapacity,
  salinityFromConductivity,
  salinityFromSpecificGravity,
  seawaterDensity,
  specificGravityFromSalinity,
} from "./index.ts";

const salinity = fc.double({ min: 0.5, max: 45, noNaN: true });
const temperature = fc.double({ min: 0, max: 38, noNaN: true });

describe("salinity", () => {
  it("comes back from its own conductivity", () => {
    fc.assert(
      fc.property(salinity, temperature, (s, t) => {
        expect(salinityFromConductivity(conductivityFromSalinity(s, t), t)).toBeCloseTo(s, 9);
      }),
    );
  });

  it("comes back from its own specific gravity at 20 and at 25 degrees C", () => {
    fc.assert(
      fc.property(salinity, fc.constantFrom(20, 25), (s, reference) => {
        expect(salinityFromSpecificGravity(specificGravityFromSalinity(s, reference), reference)).toBeCloseTo(s, 8);
      }),
    );
  });

  it("is 35 at 53.07 mS/cm and 25 degrees C, and at specific gravity 1.0264 (25/25)", () => {
    expect(salinityFromConductivity(53.07, 25)).toBeCloseTo(35, 1);
    expect(salinityFromSpecificGravity(1.02637, 25)).toBeCloseTo(35, 1);
    expect(salinityFromSpecificGravity(1.0266, 20)).toBeCloseTo(35, 1);
  });

  it("is nothing in pure water, in air and in a broken reading", () => {
    expect(salinityFromConductivity(0, 25)).toBe(0);
    expect(salinityFromConductivity(-3, 25)).toBe(0);
    expect(salinityFromSpecificGravity(1, 25)).toBe(0);
    expect(salinityFromSpecificGravity(0.99, 25)).toBe(0);
    expect(conductivityFromSalinity(0, 25)).toBe(0);
  });

  it("is misread by 0.76 for each degree by which a probe's thermometer is off", () => {
    const conductivity = conductivityFromSalinity(35, 25);
    expect(salinityFromConductivity(conductivity, 26) - 35).toBeCloseTo(-0.76, 2);
  });
});

describe("density and heat", () => {
  it("salt makes water heavier and easier to warm", () => {
    fc.assert(
      fc.property(salinity, temperature, (s, t) => {
        expect(seawaterDensity(t, s + 0.1)).toBeGreaterThan(seawaterDensity(t, s));
        expect(heatCapacity(t, s + 0.1)).toBeLessThan(heatCapacity(t, s));
      }),
    );
  });

  it("tank water takes about 3995 J to warm a kilogram by a degree", () => {
    expect(Math.abs(heatCapacity(26, 35) - 3995)).toBeLessThan(5);
  });
});

describe("freezing", () => {
  it("needs -2.588567 degrees C at S 40 under 500 dbar (printed check value of UNESCO 1983, less the term for depth)", () => {
    expect(Math.abs(freezingPoint(40) - 7.53e-4 * 500 - -2.588567)).toBeLessThan(1e-6);
  });

  it("needs more cold the saltier the water", () => {
    fc.assert(
      fc.property(salinity, (s) => {
        expect(freezingPoint(s + 0.1)).toBeLessThan(freezingPoint(s));
      }),
    );
    expect(freezingPoint(0)).toBeCloseTo(0, 12);
  });
});

describe("water changes", () => {
  it("many small changes of the same total approach the steady exchange", () => {
    expect(afterBatchChanges(50, 0, 0.3 / 3000, 3000)).toBeCloseTo(afterSteadyExchange(50, 0, 0.3), 2);
  });

  it("one batch always removes more than the same water exchanged steadily", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.9, noNaN: true }), (fraction) => {
        expect(afterBatchChanges(50, 0, fraction, 1)).toBeLessThan(afterSteadyExchange(50, 0, fraction));
      }),
    );
  });
});
