/** Our pH against a slow one, typed anew from the papers and found by halving (bench/baseline/carbonate.ts). */
import fc from "fast-check";
import { expect, it } from "vitest";
import { textbookAlkalinity, textbookConstants, textbookPh } from "../bench/baseline/carbonate.ts";
import { acidBaseConstants, CARBONATE_SIZE, phTotalFromHydrogen, solveHydrogen } from "../src/science/index.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** The acceptance asks for 1e-4; what is left is rounding, in double numbers on both sides. */
const ROUNDING = 1e-9;

function ourPh(temperatureC: number, salinity: number, alkalinity: number, dic: number): number {
  const constants = new Float64Array(CARBONATE_SIZE);
  acidBaseConstants(temperatureC, salinity, constants);
  return phTotalFromHydrogen(solveHydrogen(constants, alkalinity, dic, 0));
}

it("pH agrees with the textbook for 10 to 35 degrees C, S 20 to 42, alkalinity 1000 to 6000, carbon 800 to 5500", () => {
  fc.assert(
    fc.property(between(10, 35), between(20, 42), between(1000, 6000), between(800, 5500), (t, s, ta, dic) => {
      const theirs = textbookPh(textbookConstants(t, s), ta * 1e-6, dic * 1e-6);
      expect(Math.abs(ourPh(t, s, ta * 1e-6, dic * 1e-6) - theirs)).toBeLessThan(ROUNDING);
    }),
    { numRuns: 20_000 },
  );
});

it("pH agrees with the textbook at every corner of that range", () => {
  for (const t of [10, 35])
    for (const s of [20, 42])
      for (const ta of [1e-3, 6e-3])
        for (const dic of [0.8e-3, 5.5e-3]) {
          const theirs = textbookPh(textbookConstants(t, s), ta, dic);
          expect(Math.abs(ourPh(t, s, ta, dic) - theirs)).toBeLessThan(ROUNDING);
        }
});

it("a water made up by the textbook to a pH from 2.5 to 10.5 is found at that pH", () => {
  fc.assert(
    fc.property(between(5, 40), between(5, 45), between(0, 6e-3), between(2.5, 10.5), (t, s, dic, ph) => {
      const alkalinity = textbookAlkalinity(textbookConstants(t, s), dic, ph);
      // Near pH 6 water without carbon has no buffer at all, and rounding alone moves its pH.
      expect(Math.abs(ourPh(t, s, alkalinity, dic) - ph)).toBeLessThan(1e-7);
    }),
    { numRuns: 5000 },
  );
});
