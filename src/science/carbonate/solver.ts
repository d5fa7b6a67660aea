/**
 * The hydrogen ion that balances alkalinity: Newton's method in the logarithm of H inside a bracket.
 *
 * The alkalinity of a solution falls strictly as H rises, so there is exactly one root. The bracket and the starting
 * guess follow the idea of Munhoven 2013 (Geoscientific Model Development 6:1367). How it was checked:
 * docs/science.md#carbonate-solver.
 */
import { held } from "../held.ts";
import { CARBONATE } from "./constants.ts";

/**
 * Step in ln H at which the search ends. The step is still taken, and squares the error: ln H is right to 4e-12.
 */
const CLOSE_ENOUGH = 2e-6;
/** A warm start that has not settled by then goes to the bracketed search. */
const WARM_STEPS = 5;
/** Halving alone would need 25 steps for the widest bracket; never reached. */
const MOST_STEPS = 100;
/** Alkalinity beyond these is no water that anyone keeps, mol/kg. */
const LARGEST_ALKALINITY = 0.05;
/** Dissolved carbon and ammonia beyond these likewise, mol/kg. */
const LARGEST_AMOUNT = 0.5;
/** What a bracket must hold: pure caustic and pure acid, mol/kg. */
const LEAST_HYDROGEN = 1e-16;
const MOST_HYDROGEN = 1;

/** What `logStep` holds fixed while it varies H. */
const FIXED_DIC = 0;
const FIXED_CO2 = 1;

/**
 * Newton's step in ln H: (alkalinity of the solution at H - alkalinity wanted) / (-d alkalinity / d ln H).
 * Positive where H must rise. `carbon` is DIC or dissolved CO2, as `fixed` says.
 */
function logStep(
  k: Float64Array,
  alkalinity: number,
  carbon: number,
  fixed: number,
  ammonia: number,
  h: number,
): number {
  const k1 = k[CARBONATE.K1];
  const k12 = k1 * k[CARBONATE.K2];
  const square = h * h;
  let excess: number;
  let buffer: number;
  if (fixed === FIXED_DIC) {
    const first = k1 * h;
    const inverse = 1 / (square + first + k12);
    const share = carbon * inverse;
    excess = share * (first + 2 * k12);
    buffer = share * first * inverse * (square + 4 * k[CARBONATE.K2] * h + k12);
  } else {
    const single = (carbon * k1) / h;
    const double = (2 * carbon * k12) / square;
    excess = single + double;
    buffer = single + 2 * double;
  }
  const borateShare = k[CARBONATE.KB] / (k[CARBONATE.KB] + h);
  const borate = k[CARBONATE.BT] * borateShare;
  const hydroxide = k[CARBONATE.KW] / h;
  const freeHydrogen = h / k[CARBONATE.TOTAL_PER_FREE];
  const bisulfateShare = h / (h + k[CARBONATE.KS] * k[CARBONATE.TOTAL_PER_FREE]);
  const bisulfate = k[CARBONATE.ST] * bisulfateShare;
  const fluorideShare = h / (h + k[CARBONATE.KF]);
  const fluoride = k[CARBONATE.FT] * fluorideShare;
  excess += borate + hydroxide - freeHydrogen - bisulfate - fluoride - alkalinity;
  buffer +=
    borate * (1 - borateShare) +
    hydroxide +
    freeHydrogen +
    bisulfate * (1 - bisulfateShare) +
    fluoride * (1 - fluorideShare);
  if (ammonia > 0) {
    const ammoniaShare = k[CARBONATE.KN] / (k[CARBONATE.KN] + h);
    excess += ammonia * ammoniaShare;
    buffer += ammonia * ammoniaShare * (1 - ammoniaShare);
  }
  return excess / buffer;
}

/** h * exp(u), by three terms of the series where they do. */
function moved(h: number, u: number): number {
  return Math.abs(u) < 0.1 ? h * (1 + u * (1 + 0.5 * u)) : h * Math.exp(u);
}

/** Newton from a good guess, without bracket; 0 where it does not settle. */
function fromNear(k: Float64Array, alkalinity: number, carbon: number, ammonia: number, start: number): number {
  let h = start;
  for (let step = 0; step < WARM_STEPS; step++) {
    const u = logStep(k, alkalinity, carbon, FIXED_DIC, ammonia, h);
    if (!(Math.abs(u) < 0.5)) return 0;
    h = moved(h, u);
    if (Math.abs(u) < CLOSE_ENOUGH) return h;
  }
  return 0;
}

/** Newton held inside a shrinking bracket: halves it in ln H whenever a step leaves it or brings no real progress. */
function insideBracket(
  k: Float64Array,
  alkalinity: number,
  carbon: number,
  fixed: number,
  ammonia: number,
  start: number,
  least: number,
  most: number,
): number {
  let low = least;
  let high = most;
  let h = held(start, low, high);
  let lastStep = Number.POSITIVE_INFINITY;
  for (let step = 0; step < MOST_STEPS; step++) {
    const u = logStep(k, alkalinity, carbon, fixed, ammonia, h);
    if (Math.abs(u) < CLOSE_ENOUGH) return moved(h, u);
    if (u > 0) low = h;
    else high = h;
    const next = moved(h, u);
    const slow = Math.abs(u) > 0.5 * Math.abs(lastStep);
    h = slow || !(next > low && next < high) ? Math.sqrt(low) * Math.sqrt(high) : next;
    lastStep = slow ? Number.POSITIVE_INFINITY : u;
  }
  return h;
}

/** H at which water alone (hydroxide and free hydrogen) would carry `charge`, the alkalinity that nothing else explains. */
function waterAlone(k: Float64Array, charge: number): number {
  const root = Math.sqrt(charge * charge + (4 * k[CARBONATE.KW]) / k[CARBONATE.TOTAL_PER_FREE]);
  return charge >= 0 ? (2 * k[CARBONATE.KW]) / (charge + root) : (k[CARBONATE.TOTAL_PER_FREE] * (root - charge)) / 2;
}

/** Root of the cubic that keeps carbonate and borate only (Munhoven 2013), else a plain guess. */
function coldStart(k: Float64Array, alkalinity: number, dic: number): number {
  if (alkalinity <= 0) return 1e-3;
  if (alkalinity >= 2 * dic + k[CARBONATE.BT]) return 1e-10;
  const k1 = k[CARBONATE.K1];
  const k2 = k[CARBONATE.K2];
  const kb = k[CARBONATE.KB];
  const carbon = dic / alkalinity;
  const borate = k[CARBONATE.BT] / alkalinity;
  const a2 = kb * (1 - borate) + k1 * (1 - carbon);
  const a1 = k1 * kb * (1 - borate - carbon) + k1 * k2 * (1 - 2 * carbon);
  const a0 = k1 * k2 * kb * (1 - borate - 2 * carbon);
  const discriminant = a2 * a2 - 3 * a1;
  if (!(discriminant > 0)) return 1e-7;
  const root = Math.sqrt(discriminant);
  const least = a2 < 0 ? (root - a2) / 3 : -a1 / (a2 + root);
  const guess = least + Math.sqrt(-(a0 + least * (a1 + least * (a2 + least))) / root);
  return guess > 0 ? guess : 1e-7;
}

/**
 * Hydrogen ion on the total scale, mol/kg, of water with this alkalinity and dissolved inorganic carbon (mol/kg).
 *
 * `startH` is the last solution of the same water (2 or 3 steps then) or 0 for none. `ammoniaMolKg` is total ammonia where
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
  if (startH > 0) {
    const near = fromNear(constants, alkalinity, dic, ammonia, startH);
    if (near > 0) return near;
  }
  // Without water's own ions the alkalinity of the rest lies between none of the bases charged and all of them.
  const none = -(constants[CARBONATE.ST] + constants[CARBONATE.FT]);
  const all = 2 * dic + constants[CARBONATE.BT] + ammonia;
  const least = waterAlone(constants, alkalinity - none);
  const most = waterAlone(constants, alkalinity - all);
  const start = coldStart(constants, alkalinity, dic);
  return insideBracket(constants, alkalinity, dic, FIXED_DIC, ammonia, start, least, most);
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
  return insideBracket(constants, alkalinity, co2, FIXED_CO2, ammonia, 1e-8, LEAST_HYDROGEN, MOST_HYDROGEN);
}
