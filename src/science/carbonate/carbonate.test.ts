/** The carbonate system against the balance it must satisfy, against common sense, and against worked examples. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  alkalinityBuffer,
  alkalinityFromHydrogen,
  bicarbonateFromHydrogen,
  CARBONATE,
  CARBONATE_SIZE,
  carbonateConstants,
  carbonateFromHydrogen,
  co2FromHydrogen,
  co2FromPco2,
  dicFromHydrogen,
  dicFromPco2,
  omegaAragonite,
  pco2FromCo2,
  phFree,
  phNbs,
  phNbsOffset,
  phSws,
  phTotalFromFree,
  phTotalFromHydrogen,
  phTotalFromNbs,
  phTotalFromSws,
  revelleFactor,
  solveHydrogen,
  solveHydrogenFromPco2,
  withinCarbonateFit,
} from "./index.ts";

function constantsAt(temperatureC: number, salinity: number): Float64Array {
  const constants = new Float64Array(CARBONATE_SIZE);
  carbonateConstants(temperatureC, salinity, constants);
  return constants;
}

const standard = constantsAt(25, 35);
const micro = (value: number) => value * 1e-6;

/** pH on the total scale of water at 25 degrees C and S 35, amounts in umol/kg. */
function phOf(alkalinity: number, dic: number): number {
  return phTotalFromHydrogen(solveHydrogen(standard, micro(alkalinity), micro(dic), 0));
}

function phInAir(alkalinity: number, pco2Uatm: number): number {
  return phTotalFromHydrogen(solveHydrogenFromPco2(standard, micro(alkalinity), pco2Uatm));
}

const temperature = fc.double({ min: 2, max: 40, noNaN: true });
const salinity = fc.double({ min: 1, max: 45, noNaN: true });
const alkalinity = fc.double({ min: -0.005, max: 0.05, noNaN: true });
const carbon = fc.double({ min: 0, max: 0.05, noNaN: true });
const power = fc.double({ min: -12, max: -3, noNaN: true });
const anything = fc.double();

/** How far the balance is off, against all the charges that take part. */
function imbalance(constants: Float64Array, wanted: number, dic: number, h: number, ammonia = 0): number {
  const charges = Math.abs(wanted) + 2 * dic + constants[CARBONATE.BT] + constants[CARBONATE.KW] / h + h + ammonia;
  return Math.abs(alkalinityFromHydrogen(constants, dic, h, ammonia) - wanted) / charges;
}

/** Rounds of a search. Where there is ammonia, each round looks at its constant once. */
function roundsOf(constants: Float64Array, wanted: number, dic: number, start: number): number {
  let rounds = 0;
  const counted = new Proxy(constants, {
    get: (all, column) => {
      if (column === String(CARBONATE.KN)) rounds++;
      return all[Number(column)];
    },
  });
  solveHydrogen(counted, wanted, dic, start, 1e-12);
  return rounds;
}

describe("solveHydrogen", () => {
  it("balances the alkalinity of any water that could exist and of much that could not", () => {
    fc.assert(
      fc.property(temperature, salinity, alkalinity, carbon, (t, s, ta, dic) => {
        const constants = constantsAt(t, s);
        expect(imbalance(constants, ta, dic, solveHydrogen(constants, ta, dic, 0))).toBeLessThan(1e-11);
      }),
      { numRuns: 5000 },
    );
  });

  it("gives a positive finite number whatever it is given, not-a-number and infinity included", () => {
    fc.assert(
      fc.property(anything, anything, anything, anything, anything, anything, (t, s, ta, dic, start, ammonia) => {
        const h = solveHydrogen(constantsAt(t, s), ta, dic, start, ammonia);
        expect(Number.isFinite(h) && h > 0).toBe(true);
      }),
      { numRuns: 5000 },
    );
  });

  it("finds the same root from any starting point", () => {
    const start = fc.double({ min: -20, max: 3, noNaN: true }).map((power) => 10 ** power);
    fc.assert(
      fc.property(temperature, salinity, alkalinity, carbon, start, (t, s, ta, dic, from) => {
        const constants = constantsAt(t, s);
        const cold = solveHydrogen(constants, ta, dic, 0);
        expect(Math.abs(solveHydrogen(constants, ta, dic, from) / cold - 1)).toBeLessThan(1e-11);
      }),
      { numRuns: 2000 },
    );
  });

  it.each([
    { rounds: 2, drift: 1e-6, words: "where it moved by a micromole" },
    { rounds: 3, drift: 5e-6, words: "where it moved by five" },
  ])("takes at most $rounds rounds from the last solution of the same water $words", ({ rounds, drift }) => {
    const moved = fc.double({ min: -drift, max: drift, noNaN: true });
    const usual = fc.double({ min: 1.5e-3, max: 5e-3, noNaN: true });
    fc.assert(
      fc.property(usual, fc.double({ min: 0.75, max: 1, noNaN: true }), moved, moved, (ta, share, more, moreCarbon) => {
        const dic = ta * share;
        const before = solveHydrogen(standard, ta, dic, 0);
        expect(roundsOf(standard, ta + more, dic + moreCarbon, before)).toBeLessThanOrEqual(rounds);
      }),
    );
  });

  it("takes at most four rounds from nothing in any water of tanks", () => {
    const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(between(10, 35), between(20, 42), between(1e-3, 6e-3), between(0.8e-3, 5.5e-3), (t, s, ta, dic) => {
        expect(roundsOf(constantsAt(t, s), ta, dic, 0)).toBeLessThanOrEqual(4);
      }),
      { numRuns: 3000 },
    );
  });

  it("counts ammonia as alkalinity where it is asked to", () => {
    fc.assert(
      fc.property(alkalinity, carbon, fc.double({ min: 0, max: 0.01, noNaN: true }), (ta, dic, ammonia) => {
        const h = solveHydrogen(standard, ta, dic, 0, ammonia);
        expect(imbalance(standard, ta, dic, h, ammonia)).toBeLessThan(1e-11);
      }),
    );
    expect(phTotalFromHydrogen(solveHydrogen(standard, 2.3e-3, 2e-3, 0, 1e-3))).toBeLessThan(phOf(2300, 2000));
  });

  it("gives a higher pH for more alkalinity and a lower one for more carbon", () => {
    const usual = fc.double({ min: 500, max: 6000, noNaN: true });
    fc.assert(
      fc.property(usual, usual, (ta, dic) => {
        expect(phOf(ta + 10, dic)).toBeGreaterThan(phOf(ta, dic));
        expect(phOf(ta, dic + 10)).toBeLessThan(phOf(ta, dic));
      }),
    );
  });

  it("agrees with the balance with the air at the same CO2", () => {
    const pressure = fc.double({ min: 1, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(
        temperature,
        salinity,
        fc.double({ min: 1e-4, max: 0.01, noNaN: true }),
        pressure,
        (t, s, ta, pco2) => {
          const constants = constantsAt(t, s);
          const h = solveHydrogen(constants, ta, dicFromPco2(constants, ta, pco2), 0);
          expect(h / solveHydrogenFromPco2(constants, ta, pco2)).toBeCloseTo(1, 9);
        },
      ),
    );
  });
});

describe("solveHydrogenFromPco2", () => {
  it("gives a positive finite number whatever it is given", () => {
    fc.assert(
      fc.property(anything, anything, anything, anything, (t, s, ta, pco2) => {
        const h = solveHydrogenFromPco2(constantsAt(t, s), ta, pco2);
        expect(Number.isFinite(h) && h > 0).toBe(true);
      }),
      { numRuns: 3000 },
    );
  });

  it("gives a lower pH in stuffier air", () => {
    expect(phInAir(2300, 1000)).toBeLessThan(phInAir(2300, 425));
  });
});

describe("worked examples at 25 degrees C and S 35", () => {
  it("ordinary alkalinity stands at pH 8.02 in fresh air and 7.70 in a stuffy room", () => {
    expect(phInAir(2300, 425)).toBeCloseTo(8.022, 3);
    expect(dicFromPco2(standard, micro(2300), 425) * 1e6).toBeCloseTo(2014, 0);
    expect(phInAir(2300, 1000)).toBeCloseTo(7.703, 3);
    expect(dicFromPco2(standard, micro(2300), 1000) * 1e6).toBeCloseTo(2168, 0);
  });

  it("8 dKH stands at pH 8.10 in fresh air and 7.79 in a stuffy room", () => {
    expect(phInAir(2850, 425)).toBeCloseTo(8.1, 2);
    expect(phInAir(2850, 1000)).toBeCloseTo(7.787, 3);
  });

  it("a millimole of caustic in a kilogram lifts pH 8.05 to 8.93", () => {
    expect(phOf(2300, 2000)).toBeCloseTo(8.05, 2);
    expect(phOf(3300, 2000)).toBeCloseTo(8.93, 2);
  });

  it("ten litres of limewater dumped into 500 litres end at pH 8.74 and fifteenfold saturation", () => {
    const added = (10 * 44) / 500 / 1.0233;
    const dic = micro(2500);
    const h = solveHydrogen(standard, micro(2850) + added * 1e-3, dic, 0);
    const calcium = micro(10280) + (added / 2) * 1e-3;
    expect(phTotalFromHydrogen(h)).toBeCloseTo(8.74, 1);
    expect(carbonateFromHydrogen(standard, dic, h) * 1e6).toBeGreaterThan(920);
    expect(carbonateFromHydrogen(standard, dic, h) * 1e6).toBeLessThan(950);
    expect(omegaAragonite(standard, calcium, dic, h)).toBeCloseTo(15, 0);
  });

  it("pH gains about 0.0015 to 0.002 per microequivalent, and 0.25 when alkalinity doubles in the same air", () => {
    const slope = (phOf(2305, 2014) - phOf(2295, 2014)) / 10;
    expect(slope).toBeGreaterThan(0.0015);
    expect(slope).toBeLessThan(0.002);
    expect(phInAir(4600, 425) - phInAir(2300, 425)).toBeCloseTo(0.25, 1);
  });

  it("closed water loses about 0.015 pH for each degree of warming", () => {
    const at = (t: number) => phTotalFromHydrogen(solveHydrogen(constantsAt(t, 35), micro(2300), micro(2014), 0));
    expect((at(27) - at(23)) / 4).toBeCloseTo(-0.015, 3);
  });
});

describe("species", () => {
  it("add up to the dissolved carbon", () => {
    fc.assert(
      fc.property(temperature, salinity, carbon, power, (t, s, dic, exponent) => {
        const constants = constantsAt(t, s);
        const h = 10 ** exponent;
        const parts = [co2FromHydrogen, bicarbonateFromHydrogen, carbonateFromHydrogen].map((part) =>
          part(constants, dic, h),
        );
        expect(parts[0] + parts[1] + parts[2]).toBeCloseTo(dic, 14);
      }),
    );
  });

  it("dicFromHydrogen undoes solveHydrogen", () => {
    const usual = fc.double({ min: 1e-3, max: 6e-3, noNaN: true });
    fc.assert(
      fc.property(usual, usual, (ta, dic) => {
        expect(dicFromHydrogen(standard, ta, solveHydrogen(standard, ta, dic, 0))).toBeCloseTo(dic, 12);
      }),
    );
  });

  it("pco2FromCo2 undoes co2FromPco2", () => {
    expect(pco2FromCo2(standard, co2FromPco2(standard, 425))).toBeCloseTo(425, 9);
  });
});

describe("buffer", () => {
  it("is the slope of alkalinity against ln H, with ammonia and without", () => {
    const ammonia = fc.constantFrom(0, 1e-3);
    fc.assert(
      fc.property(temperature, salinity, carbon, power, ammonia, (t, s, dic, exponent, nh) => {
        const constants = constantsAt(t, s);
        const h = 10 ** exponent;
        const at = (step: number) => alkalinityFromHydrogen(constants, dic, h * Math.exp(step), nh);
        const slope = (at(-1e-4) - at(1e-4)) / 2e-4;
        expect(alkalinityBuffer(constants, dic, h, nh) / slope).toBeCloseTo(1, 6);
      }),
    );
  });

  it("the Revelle factor is the rise of CO2 for a rise of carbon at the same alkalinity", () => {
    const co2 = (dic: number) => co2FromHydrogen(standard, dic, solveHydrogen(standard, 2.3e-3, dic, 0));
    const ratio = Math.log(co2(2.0002e-3) / co2(1.9998e-3)) / Math.log(2.0002 / 1.9998);
    expect(revelleFactor(standard, 2e-3, solveHydrogen(standard, 2.3e-3, 2e-3, 0))).toBeCloseTo(ratio, 5);
  });
});

describe("pH scales", () => {
  it("a probe's 8.20 is 8.07 on the total scale, and back", () => {
    expect(phTotalFromNbs(8.2, 25, 35)).toBeCloseTo(8.066, 3);
    expect(phNbs(phTotalFromNbs(8.2, 27, 33), 27, 33)).toBeCloseTo(8.2, 12);
    expect(phFree(phTotalFromFree(8.2, 27, 33), 27, 33)).toBeCloseTo(8.2, 12);
    expect(phSws(phTotalFromSws(8.2, 27, 33), 27, 33)).toBeCloseTo(8.2, 12);
  });

  it("the free scale reads about 0.107 above the total scale in seawater and the same in pure water", () => {
    expect(phFree(8, 25, 35)).toBeCloseTo(8.107, 2);
    expect(phFree(8, 25, 0)).toBe(8);
  });

  it("stay finite in a cooked or dried-up tank", () => {
    expect(Number.isFinite(phNbsOffset(90, 300))).toBe(true);
  });
});

it("the range to which the dissociation constants were fitted is 2 to 35 degrees C and 19 to 43 salinity", () => {
  expect(withinCarbonateFit(26, 35)).toBe(true);
  expect(withinCarbonateFit(36, 35)).toBe(false);
  expect(withinCarbonateFit(26, 12)).toBe(false);
});
