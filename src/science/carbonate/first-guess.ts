/** Where the search for the hydrogen ion begins, and the ends that it can not pass. Amounts in mol/kg. */
import { CARBONATE } from "./columns.ts";

/** Below this ratio of alkalinity to carbon a water counts as acid. */
const ACID_SHARE = 0.8;

/** H at which water alone (hydroxide and free hydrogen) would carry `charge`, the alkalinity that nothing else explains. */
export function waterAlone(k: Float64Array, charge: number): number {
  const root = Math.sqrt(charge * charge + (4 * k[CARBONATE.KW]) / k[CARBONATE.TOTAL_PER_FREE]);
  return charge >= 0 ? (2 * k[CARBONATE.KW]) / (charge + root) : (k[CARBONATE.TOTAL_PER_FREE] * (root - charge)) / 2;
}

/**
 * A first guess from alkalinity and carbon. In between: the root of the cubic that keeps carbonate and borate and leaves
 * out water's own ions (Munhoven 2013). It lies too low where hydroxide counts and too high where free acid does, and so do,
 * on their sides, the roots of the quadratics that take bicarbonate and boric acid as few (in caustic), and carbonic acid as
 * nearly everything (in acid). The best of each is the nearest.
 */
export function guessFromDic(k: Float64Array, alkalinity: number, dic: number): number {
  const k1 = k[CARBONATE.K1];
  const k2 = k[CARBONATE.K2];
  const kb = k[CARBONATE.KB];
  const bt = k[CARBONATE.BT];
  const spare = 2 * dic + bt - alkalinity;
  if (alkalinity < ACID_SHARE * dic || alkalinity <= 0) return acidGuess(k, alkalinity, dic);
  const caustic = causticGuess(k, spare, dic);
  if (spare <= 0) return caustic;
  const borate = alkalinity - bt;
  const a2 = kb * borate + k1 * (alkalinity - dic);
  const a1 = k1 * (kb * (borate - dic) + k2 * (alkalinity - 2 * dic));
  const a0 = -k1 * k2 * kb * spare;
  const discriminant = a2 * a2 - 3 * alkalinity * a1;
  if (!(discriminant > 0)) return 1e-7;
  const root = Math.sqrt(discriminant);
  const least = a2 < 0 ? (root - a2) / (3 * alkalinity) : -a1 / (a2 + root);
  const guess = least + Math.sqrt(-(a0 + least * (a1 + least * (a2 + least * alkalinity))) / root);
  return Math.max(guess, caustic);
}

/** H of a water so acid that carbonate, borate and hydroxide hardly count: the root of a quadratic. */
function acidGuess(k: Float64Array, alkalinity: number, dic: number): number {
  const k1 = k[CARBONATE.K1];
  const half = 0.5 * (alkalinity + k1);
  const rest = k1 * (dic - alkalinity) + k[CARBONATE.KW];
  const root = Math.sqrt(half * half + rest);
  return half > 0 ? rest / (half + root) : root - half;
}

/** H of a caustic water, `spare` short of having all carbon as carbonate and all boron as borate. */
function causticGuess(k: Float64Array, spare: number, dic: number): number {
  const perHydrogen = dic / k[CARBONATE.K2] + k[CARBONATE.BT] / k[CARBONATE.KB];
  const root = Math.sqrt(spare * spare + 4 * perHydrogen * k[CARBONATE.KW]);
  return spare > 0 ? (spare + root) / (2 * perHydrogen) : (2 * k[CARBONATE.KW]) / (root - spare);
}

/** A first guess from alkalinity and dissolved CO2: bicarbonate and carbonate alone. */
export function guessFromCo2(k: Float64Array, alkalinity: number, co2: number): number {
  const first = k[CARBONATE.K1] * co2;
  if (!(alkalinity > 0)) return 1e-3;
  return (first + Math.sqrt(first * (first + 8 * alkalinity * k[CARBONATE.K2]))) / (2 * alkalinity);
}
