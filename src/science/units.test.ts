/** The trade's words for alkalinity against chemistry's. */
import fc from "fast-check";
import { expect, it } from "vitest";
import {
  alkalinityMolKgFromDkh,
  dkhFromAlkalinityMolKg,
  dkhFromMeqPerL,
  MEQ_PER_L_PER_DKH,
  MOLAR_MASS,
  meqPerLFromDkh,
  mgPerLFromMolKg,
  molKgFromMgPerL,
} from "./index.ts";

it("one degree of carbonate hardness is 17.848 mg of calcium carbonate in a litre", () => {
  expect((MEQ_PER_L_PER_DKH * MOLAR_MASS.calciumCarbonate) / 2).toBeCloseTo(17.848, 3);
});

it("8 dKH at 1023 kg/m3 are 2789 umol/kg", () => {
  expect(alkalinityMolKgFromDkh(8, 1023) * 1e6).toBeCloseTo(2789, 0);
});

it("conversions undo each other", () => {
  const amount = fc.double({ min: 0, max: 1000, noNaN: true });
  const density = fc.double({ min: 990, max: 1060, noNaN: true });
  fc.assert(
    fc.property(amount, density, (value, kgPerM3) => {
      expect(meqPerLFromDkh(dkhFromMeqPerL(value))).toBeCloseTo(value, 9);
      expect(dkhFromAlkalinityMolKg(alkalinityMolKgFromDkh(value, kgPerM3), kgPerM3)).toBeCloseTo(value, 9);
      const back = mgPerLFromMolKg(molKgFromMgPerL(value, MOLAR_MASS.calcium, kgPerM3), MOLAR_MASS.calcium, kgPerM3);
      expect(back).toBeCloseTo(value, 9);
    }),
  );
});

it("seawater's 10.28 mmol/kg of calcium are 422 mg/L", () => {
  expect(mgPerLFromMolKg(0.01028, MOLAR_MASS.calcium, 1023.3)).toBeCloseTo(421.6, 1);
});
