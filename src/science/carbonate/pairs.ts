/**
 * Any two of pH, pressure of CO2, dissolved carbon and alkalinity fix the rest. Amounts in mol per kg of seawater, H and pH
 * on the total scale. Sources and certainty: docs/science.md#carbonate-pairs.
 */
import { CARBONATE } from "./columns.ts";
import { hydrogenFromPhTotal } from "./ph-scales.ts";
import { solveHydrogen, solveHydrogenFromPco2 } from "./solver.ts";
import { alkalinityFromHydrogen, co2FromPco2, dicFromCo2, dicFromHydrogen } from "./species.ts";

/** What is known of a water: two of the four. Alkalinity is total alkalinity (Dickson 1981), mol of charge per kg. */
export type CarbonatePair =
  | { readonly alkalinityMolKg: number; readonly dicMolKg: number }
  | { readonly alkalinityMolKg: number; readonly pco2Uatm: number }
  | { readonly alkalinityMolKg: number; readonly phTotal: number }
  | { readonly dicMolKg: number; readonly pco2Uatm: number }
  | { readonly dicMolKg: number; readonly phTotal: number }
  | { readonly pco2Uatm: number; readonly phTotal: number };

/** A water whose charges balance; mol/kg. */
export interface BalancedWater {
  readonly h: number;
  readonly dicMolKg: number;
  readonly alkalinityMolKg: number;
}

/**
 * The water that has both, with `ammoniaMolKg` of total ammonia whose NH3 counts as alkalinity; null where there is none:
 * alkalinity too low for the pH without any carbon, or a pressure of CO2 that asks for more than all the carbon.
 * Within +-0.05 mol/kg of alkalinity and 0 to 0.5 mol/kg of carbon and CO2; see `solveHydrogen`.
 */
export function balancedWater(constants: Float64Array, pair: CarbonatePair, ammoniaMolKg = 0): BalancedWater | null {
  if ("alkalinityMolKg" in pair) return fromAlkalinity(constants, pair, ammoniaMolKg);
  const h = "phTotal" in pair ? hydrogenFromPhTotal(pair.phTotal) : hydrogenFromPartCo2(constants, pair);
  if (h === null) return null;
  const dicMolKg = "dicMolKg" in pair ? pair.dicMolKg : dicFromCo2(constants, co2FromPco2(constants, pair.pco2Uatm), h);
  return { h, dicMolKg, alkalinityMolKg: alkalinityFromHydrogen(constants, dicMolKg, h, ammoniaMolKg) };
}

function fromAlkalinity(
  constants: Float64Array,
  pair: Extract<CarbonatePair, { readonly alkalinityMolKg: number }>,
  ammoniaMolKg: number,
): BalancedWater | null {
  const { alkalinityMolKg } = pair;
  if ("dicMolKg" in pair) {
    const h = solveHydrogen(constants, alkalinityMolKg, pair.dicMolKg, 0, ammoniaMolKg);
    return { h, dicMolKg: pair.dicMolKg, alkalinityMolKg };
  }
  if ("pco2Uatm" in pair) {
    const h = solveHydrogenFromPco2(constants, alkalinityMolKg, pair.pco2Uatm, ammoniaMolKg);
    return { h, dicMolKg: dicFromCo2(constants, co2FromPco2(constants, pair.pco2Uatm), h), alkalinityMolKg };
  }
  const h = hydrogenFromPhTotal(pair.phTotal);
  const dicMolKg = dicFromHydrogen(constants, alkalinityMolKg, h, ammoniaMolKg);
  return dicMolKg >= 0 ? { h, dicMolKg, alkalinityMolKg } : null;
}

/** H at which this much of the carbon is dissolved CO2: the root of a quadratic, if it is less than all. */
function hydrogenFromPartCo2(
  constants: Float64Array,
  { dicMolKg, pco2Uatm }: { readonly dicMolKg: number; readonly pco2Uatm: number },
): number | null {
  const share = co2FromPco2(constants, pco2Uatm) / dicMolKg;
  if (!(share > 0 && share < 1)) return null;
  const k1 = constants[CARBONATE.K1];
  const first = share * k1;
  return (first + Math.sqrt(first * (first + 4 * (1 - share) * constants[CARBONATE.K2]))) / (2 * (1 - share));
}
