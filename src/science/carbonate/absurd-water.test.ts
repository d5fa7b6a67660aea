/** A million waters that no one should keep: what an overdose, a stuck heater and a broken probe make of the numbers. */
import { expect, it } from "vitest";
import {
  acidBaseConstants,
  alkalinityBuffer,
  alkalinityFromHydrogen,
  CARBONATE,
  CARBONATE_SIZE,
  carbonateConstants,
  solveHydrogen,
  solveHydrogenFromPco2,
} from "./index.ts";

const WATERS = 1_000_000;
const BROKEN = [
  Number.NaN,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
  0,
  -0,
  Number.MIN_VALUE,
  Number.MAX_VALUE,
  -1e300,
];

/** The same waters each time (xorshift), from 0 to 1. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 4_294_967_296;
  };
}

/** Mostly a number of any size and sign up to `most`, sometimes one that is broken. */
function absurd(random: () => number, most: number): number {
  const kind = random();
  if (kind < 0.05) return BROKEN[Math.floor(random() * BROKEN.length)];
  const size = kind < 0.5 ? most * random() : most * 10 ** (-18 * random());
  return random() < 0.3 ? -size : size;
}

it("a million absurd waters each have a pH, whatever pair is given and wherever the search begins", () => {
  const random = seeded(20_251_125);
  const constants = new Float64Array(CARBONATE_SIZE);
  let without = 0;
  for (let water = 0; water < WATERS; water++) {
    const temperatureC = absurd(random, 500);
    const salinity = absurd(random, 500);
    if (water % 2 === 0) carbonateConstants(temperatureC, salinity, constants);
    else acidBaseConstants(temperatureC, salinity, constants);
    const ammonia = random() < 0.5 ? 0 : absurd(random, 10);
    const start = random() < 0.5 ? 0 : absurd(random, 10);
    const alkalinity = absurd(random, 10);
    const h =
      random() < 0.8
        ? solveHydrogen(constants, alkalinity, absurd(random, 10), start, ammonia)
        : solveHydrogenFromPco2(constants, alkalinity, absurd(random, 1e9), ammonia);
    if (!(h > 0 && h < Number.POSITIVE_INFINITY)) without++;
  }
  expect(without).toBe(0);
});

it("in half a million overdosed waters the pH is right to 1e-9", () => {
  const random = seeded(7_654_321);
  const constants = new Float64Array(CARBONATE_SIZE);
  let worst = 0;
  for (let water = 0; water < WATERS / 2; water++) {
    acidBaseConstants(-5 + 65 * random(), 60 * random(), constants);
    const alkalinity = 0.05 * (2 * random() - 1) ** 3;
    const dic = 0.5 * random() ** 6;
    const h = solveHydrogen(constants, alkalinity, dic, 0);
    // The residue over the buffer is how far ln H is off; rounding of the largest charge is no fault of the search.
    const residue = Math.abs(alkalinityFromHydrogen(constants, dic, h) - alkalinity);
    const rounding = 1e-15 * (2 * dic + Math.abs(alkalinity) + h + constants[CARBONATE.KW] / h);
    const buffer = alkalinityBuffer(constants, dic, h);
    worst = Math.max(worst, (residue - rounding) / (buffer * Math.LN10));
  }
  expect(worst).toBeLessThan(1e-9);
});
