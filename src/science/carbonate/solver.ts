/**
 * The hydrogen ion that balances alkalinity: Halley's method in the logarithm of H inside a bracket.
 *
 * The alkalinity of a solution falls strictly as H rises, so there is exactly one root. The bracket and the starting
 * guess follow the idea of Munhoven 2013 (Geoscientific Model Development 6:1367). How it was checked:
 * docs/science.md#carbonate-solver.
 */
import { held } from "../held.ts";
import { CARBONATE } from "./columns.ts";
import { guessFromCo2, guessFromDic, waterAlone } from "./first-guess.ts";

/**
 * Step in ln H at which the search ends. The step is still taken, and cubes the error. Every term of the balance is a
 * sigmoid in ln H, whose slope changes at most twofold and whose bend at most fourfold in a unit of ln H; so do their sums,
 * and the error left is below 5/3 of the cube: 2e-13, whatever the water.
 */
const CLOSE_ENOUGH = 5e-5;
/** Halving alone would need 40 steps for the widest bracket; never reached. */
const MOST_ROUNDS = 100;
/** Alkalinity beyond these is no water that anyone keeps, mol/kg. */
const LARGEST_ALKALINITY = 0.05;
/** Dissolved carbon and ammonia beyond these likewise, mol/kg. */
const LARGEST_AMOUNT = 0.5;
/** More caustic and more acid than any of these waters, mol/kg. */
const LEAST_HYDROGEN = 1e-16;
const MOST_HYDROGEN = 1;

/** What `balance` holds fixed while it varies H. */
const FIXED_DIC = 0;
const FIXED_CO2 = 1;

/**
 * H at which the solution has the wanted alkalinity. `carbon` is DIC or dissolved CO2, as `fixed` says.
 *
 * Each round works out three numbers: by how much the solution's alkalinity exceeds the wanted one, how much of it a unit
 * of ln H takes away (the buffer), and how that changes (the bend). The bracket begins as all positive numbers, shrinks
 * with every round, and gets its ends from theory the first time that a step leaves it or does not halve the last one;
 * it is then halved in ln H. One function with its loop, since V8 puts numbers that cross a call on the heap.
 */
function balance(
  k: Float64Array,
  alkalinity: number,
  carbon: number,
  fixed: number,
  ammonia: number,
  start: number,
): number {
  const k1 = k[CARBONATE.K1];
  const k2 = k[CARBONATE.K2];
  const k12 = k1 * k2;
  const kb = k[CARBONATE.KB];
  const kw = k[CARBONATE.KW];
  const kf = k[CARBONATE.KF];
  const perFree = 1 / k[CARBONATE.TOTAL_PER_FREE];
  const ks = k[CARBONATE.KS] * k[CARBONATE.TOTAL_PER_FREE];
  const borate = k[CARBONATE.BT];
  const sulfate = k[CARBONATE.ST];
  const fluoride = k[CARBONATE.FT];
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  let lastStep = Number.POSITIVE_INFINITY;
  let h = start;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let excess: number;
    let buffer: number;
    let bend: number;
    if (fixed === FIXED_DIC) {
      const square = h * h;
      const first = k1 * h;
      const inverse = 1 / (square + first + k12);
      const bicarbonate = first * inverse;
      const spread = bicarbonate * (square + 4 * k2 * h + k12) * inverse;
      excess = carbon * (first + 2 * k12) * inverse;
      buffer = carbon * spread;
      bend = carbon * (k12 - square) * inverse * (2 * spread - bicarbonate);
    } else {
      const single = (carbon * k1) / h;
      const double = (2 * single * k2) / h;
      excess = single + double;
      buffer = single + 2 * double;
      bend = -single - 4 * double;
    }
    // One division serves two fractions.
    const weak = 1 / (h * (kb + h));
    const hydroxide = kw * (kb + h) * weak;
    const borateShare = kb * h * weak;
    const borateBuffer = borate * borateShare * (1 - borateShare);
    const strong = h / ((h + ks) * (h + kf));
    const bisulfateShare = strong * (h + kf);
    const bisulfateBuffer = sulfate * bisulfateShare * (1 - bisulfateShare);
    const fluorideShare = strong * (h + ks);
    const fluorideBuffer = fluoride * fluorideShare * (1 - fluorideShare);
    const freeHydrogen = h * perFree;
    excess +=
      borate * borateShare +
      hydroxide -
      alkalinity -
      (freeHydrogen + sulfate * bisulfateShare + fluoride * fluorideShare);
    buffer += borateBuffer + hydroxide + (freeHydrogen + bisulfateBuffer + fluorideBuffer);
    bend +=
      borateBuffer * (2 * borateShare - 1) -
      hydroxide +
      (freeHydrogen + bisulfateBuffer * (1 - 2 * bisulfateShare) + fluorideBuffer * (1 - 2 * fluorideShare));
    if (ammonia > 0) {
      const kn = k[CARBONATE.KN];
      const share = kn / (kn + h);
      const ammoniaBuffer = ammonia * share * (1 - share);
      excess += ammonia * share;
      buffer += ammoniaBuffer;
      bend += ammoniaBuffer * (2 * share - 1);
    }
    // Halley: Newton's step, excess over buffer, mended by the bend, but never more than doubled.
    const square = buffer * buffer;
    const step = (excess * buffer) / Math.max(0.5 * square, square + 0.5 * excess * bend);
    const size = Math.abs(step);
    if (size < CLOSE_ENOUGH) return h * (1 + step * (1 + 0.5 * step));
    if (step > 0) low = h;
    else high = h;
    const next = size < 0.1 ? h * (1 + step * (1 + 0.5 * step)) : h * Math.exp(step);
    if (2 * size > lastStep || !(next > low && next < high)) {
      low = Math.max(low, leastHydrogen(k, alkalinity, fixed));
      high = Math.min(high, mostHydrogen(k, alkalinity, carbon, fixed, ammonia));
      h = Math.sqrt(low) * Math.sqrt(high);
      lastStep = Number.POSITIVE_INFINITY;
    } else {
      h = next;
      lastStep = size;
    }
  }
  return h;
}

/** The least H that can be: without water's own ions the rest carries no less than none of the bases charged. */
function leastHydrogen(k: Float64Array, alkalinity: number, fixed: number): number {
  return fixed === FIXED_CO2 ? LEAST_HYDROGEN : waterAlone(k, alkalinity + k[CARBONATE.ST] + k[CARBONATE.FT]);
}

/** The most H that can be: the rest carries no more than all of the bases charged. */
function mostHydrogen(k: Float64Array, alkalinity: number, carbon: number, fixed: number, ammonia: number): number {
  return fixed === FIXED_CO2 ? MOST_HYDROGEN : waterAlone(k, alkalinity - 2 * carbon - k[CARBONATE.BT] - ammonia);
}

/**
 * Hydrogen ion on the total scale, mol/kg, of water with this alkalinity and dissolved inorganic carbon (mol/kg).
 *
 * `startH` is the last solution of the same water (1 or 2 rounds then) or 0 for none. `ammoniaMolKg` is total ammonia where
 * the caller counts NH3 as alkalinity. Always returns a positive finite number: alkalinity is held to +-0.05, carbon and
 * ammonia to 0..0.5 mol/kg, and what is not a number to the lowest of these. Allocates nothing.
 */
export function solveHydrogen(
  constants: Float64Array,
  alkalinityMolKg: number,
  dicMolKg: number,
  startH: number,
  ammoniaMolKg = 0,
): number {
  const alkalinity = held(alkalinityMolKg, -LARGEST_ALKALINITY, LARGEST_ALKALINITY);
  const dic = held(dicMolKg, 0, LARGEST_AMOUNT);
  const ammonia = held(ammoniaMolKg, 0, LARGEST_AMOUNT);
  const start = held(startH > 0 ? startH : guessFromDic(constants, alkalinity, dic), LEAST_HYDROGEN, MOST_HYDROGEN);
  return balance(constants, alkalinity, dic, FIXED_DIC, ammonia, start);
}

/** Hydrogen ion (total scale, mol/kg) of water with this alkalinity in balance with a partial pressure of CO2, uatm. */
export function solveHydrogenFromPco2(
  constants: Float64Array,
  alkalinityMolKg: number,
  pco2Uatm: number,
  ammoniaMolKg = 0,
): number {
  const alkalinity = held(alkalinityMolKg, -LARGEST_ALKALINITY, LARGEST_ALKALINITY);
  const co2 = held(constants[CARBONATE.K0] * constants[CARBONATE.FUGACITY] * pco2Uatm * 1e-6, 0, LARGEST_AMOUNT);
  const ammonia = held(ammoniaMolKg, 0, LARGEST_AMOUNT);
  const start = held(guessFromCo2(constants, alkalinity, co2), LEAST_HYDROGEN, MOST_HYDROGEN);
  return balance(constants, alkalinity, co2, FIXED_CO2, ammonia, start);
}
