/** Any two of pH, pressure of CO2, carbon and alkalinity describe the same water. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  acidBaseConstants,
  balancedWater,
  CARBONATE,
  CARBONATE_SIZE,
  type CarbonatePair,
  carbonateConstants,
  co2FromHydrogen,
  pco2FromCo2,
  phTotalFromHydrogen,
  solveHydrogen,
} from "./index.ts";

function constantsAt(temperatureC: number, salinity: number): Float64Array {
  const constants = new Float64Array(CARBONATE_SIZE);
  carbonateConstants(temperatureC, salinity, constants);
  return constants;
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const standard = constantsAt(25, 35);

describe("balancedWater", () => {
  it("finds the same water from each of the six pairs, with ammonia and without", () => {
    const water = fc.record({
      t: between(5, 40),
      s: between(5, 45),
      alkalinityMolKg: between(2e-4, 1e-2),
      dicMolKg: between(2e-4, 1e-2),
      ammonia: fc.constantFrom(0, 5e-4),
    });
    fc.assert(
      fc.property(water, ({ t, s, alkalinityMolKg, dicMolKg, ammonia }) => {
        const constants = constantsAt(t, s);
        const h = solveHydrogen(constants, alkalinityMolKg, dicMolKg, 0, ammonia);
        const phTotal = phTotalFromHydrogen(h);
        const pco2Uatm = pco2FromCo2(constants, co2FromHydrogen(constants, dicMolKg, h));
        const pairs: CarbonatePair[] = [
          { alkalinityMolKg, dicMolKg },
          { alkalinityMolKg, pco2Uatm },
          { alkalinityMolKg, phTotal },
          { dicMolKg, pco2Uatm },
          { dicMolKg, phTotal },
          { pco2Uatm, phTotal },
        ];
        for (const pair of pairs) {
          const found = balancedWater(constants, pair, ammonia);
          expect(found, JSON.stringify(pair)).not.toBeNull();
          if (!found) continue;
          expect(phTotalFromHydrogen(found.h)).toBeCloseTo(phTotal, 6);
          expect(found.dicMolKg / dicMolKg).toBeCloseTo(1, 6);
          expect((found.alkalinityMolKg - alkalinityMolKg) / (alkalinityMolKg + dicMolKg)).toBeCloseTo(0, 6);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it("knows no water whose CO2 is more than its carbon, nor one whose carbon would be less than none", () => {
    expect(balancedWater(standard, { dicMolKg: 2e-5, pco2Uatm: 1000 })).toBeNull();
    expect(balancedWater(standard, { dicMolKg: 0, pco2Uatm: 400 })).toBeNull();
    expect(balancedWater(standard, { dicMolKg: 2e-3, pco2Uatm: 0 })).toBeNull();
    expect(balancedWater(standard, { alkalinityMolKg: 1e-4, phTotal: 9 })).toBeNull();
  });
});

it("acidBaseConstants fills the same numbers as carbonateConstants, and only those that pH hangs on", () => {
  const columns = Object.entries(CARBONATE).filter(([name]) => /^(K[12BWSF]|[BSF]T|TOTAL_PER_FREE)$/.test(name));
  expect(columns).toHaveLength(10);
  fc.assert(
    fc.property(between(-20, 80), between(-5, 80), (t, s) => {
      const filled = new Float64Array(CARBONATE_SIZE).fill(7);
      acidBaseConstants(t, s, filled);
      const all = constantsAt(t, s);
      for (const [name, column] of columns) expect(filled[column], name).toBe(all[column]);
      expect(filled[CARBONATE.K0]).toBe(7);
    }),
  );
});
