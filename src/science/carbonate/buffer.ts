/** How stiffly the water holds its pH. Amounts in mol per kg, H on the total scale; docs/science.md#carbonate-species. */
import { CARBONATE } from "./columns.ts";

/**
 * Alkalinity that a unit of ln H takes away, mol/kg; times ln 10, what a unit of pH takes. The first derivative of
 * `alkalinityFromHydrogen`, the sign turned.
 */
export function alkalinityBuffer(constants: Float64Array, dic: number, h: number, ammoniaMolKg = 0): number {
  const k1 = constants[CARBONATE.K1];
  const k2 = constants[CARBONATE.K2];
  const free = constants[CARBONATE.TOTAL_PER_FREE];
  const all = h * h + k1 * h + k1 * k2;
  const spread = (k1 * h * (h * h + 4 * k2 * h + k1 * k2)) / (all * all);
  return (
    dic * spread +
    ammoniaMolKg * halfCharged(constants[CARBONATE.KN], h) +
    constants[CARBONATE.BT] * halfCharged(constants[CARBONATE.KB], h) +
    constants[CARBONATE.KW] / h +
    h / free +
    constants[CARBONATE.ST] * halfCharged(constants[CARBONATE.KS] * free, h) +
    constants[CARBONATE.FT] * halfCharged(constants[CARBONATE.KF], h)
  );
}

function halfCharged(constant: number, h: number): number {
  return (constant * h) / ((constant + h) * (constant + h));
}

/** Mean charge of the dissolved carbon, 0 to 2. */
export function carbonCharge(constants: Float64Array, h: number): number {
  const k1 = constants[CARBONATE.K1];
  const k12 = k1 * constants[CARBONATE.K2];
  return (k1 * h + 2 * k12) / (h * h + k1 * h + k12);
}

/**
 * Revelle factor: per cent by which CO2 rises when carbon rises by one per cent at the same alkalinity; 8 to 15 in the sea.
 * 1 + DIC n2 / buffer, where n is the mean charge of the carbon.
 */
export function revelleFactor(constants: Float64Array, dic: number, h: number, ammoniaMolKg = 0): number {
  const charge = carbonCharge(constants, h);
  return 1 + (dic * charge * charge) / alkalinityBuffer(constants, dic, h, ammoniaMolKg);
}
