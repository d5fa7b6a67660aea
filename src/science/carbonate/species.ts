/**
 * What the carbon in the water is made of, once the hydrogen ion is known. All amounts in mol per kg of seawater, H on the
 * total scale. Sources and certainty: docs/science.md#carbonate-species.
 */
import { CARBONATE } from "./columns.ts";
import { solveHydrogenFromPco2 } from "./solver.ts";

/** Dissolved carbon dioxide (with carbonic acid), mol/kg. */
export function co2FromHydrogen(constants: Float64Array, dic: number, h: number): number {
  const k1 = constants[CARBONATE.K1];
  return (dic * h * h) / (h * h + k1 * h + k1 * constants[CARBONATE.K2]);
}

/** Bicarbonate, mol/kg. */
export function bicarbonateFromHydrogen(constants: Float64Array, dic: number, h: number): number {
  const k1 = constants[CARBONATE.K1];
  return (dic * k1 * h) / (h * h + k1 * h + k1 * constants[CARBONATE.K2]);
}

/** Carbonate, mol/kg. */
export function carbonateFromHydrogen(constants: Float64Array, dic: number, h: number): number {
  const k12 = constants[CARBONATE.K1] * constants[CARBONATE.K2];
  return (dic * k12) / (h * h + constants[CARBONATE.K1] * h + k12);
}

/** Saturation state of aragonite, the mineral of coral skeletons; above 1 it can form. */
export function omegaAragonite(constants: Float64Array, calciumMolKg: number, dic: number, h: number): number {
  return (calciumMolKg * carbonateFromHydrogen(constants, dic, h)) / constants[CARBONATE.KSP_ARAGONITE];
}

/** Saturation state of calcite. */
export function omegaCalcite(constants: Float64Array, calciumMolKg: number, dic: number, h: number): number {
  return (calciumMolKg * carbonateFromHydrogen(constants, dic, h)) / constants[CARBONATE.KSP_CALCITE];
}

/** Partial pressure of CO2, uatm, that this much dissolved CO2 (mol/kg) is in balance with. */
export function pco2FromCo2(constants: Float64Array, co2MolKg: number): number {
  return (co2MolKg * 1e6) / (constants[CARBONATE.K0] * constants[CARBONATE.FUGACITY]);
}

/** Dissolved CO2, mol/kg, in balance with a partial pressure of CO2, uatm. */
export function co2FromPco2(constants: Float64Array, pco2Uatm: number): number {
  return pco2Uatm * 1e-6 * constants[CARBONATE.K0] * constants[CARBONATE.FUGACITY];
}

/** Dissolved inorganic carbon, mol/kg, of water with this alkalinity in balance with a partial pressure of CO2, uatm. */
export function dicFromPco2(constants: Float64Array, alkalinityMolKg: number, pco2Uatm: number): number {
  const h = solveHydrogenFromPco2(constants, alkalinityMolKg, pco2Uatm);
  return dicFromCo2(constants, co2FromPco2(constants, pco2Uatm), h);
}

/** Dissolved inorganic carbon, mol/kg, of water with this much dissolved CO2 (mol/kg) and hydrogen ion. */
export function dicFromCo2(constants: Float64Array, co2MolKg: number, h: number): number {
  return co2MolKg * (1 + (constants[CARBONATE.K1] / h) * (1 + constants[CARBONATE.K2] / h));
}

/**
 * Dissolved inorganic carbon, mol/kg, of water with this alkalinity and hydrogen ion: how a pH test fixes the carbon.
 * Negative where the rest of the water alone has more alkalinity than that. `ammoniaMolKg` is total ammonia.
 */
export function dicFromHydrogen(constants: Float64Array, alkalinityMolKg: number, h: number, ammoniaMolKg = 0): number {
  const k1 = constants[CARBONATE.K1];
  const k12 = k1 * constants[CARBONATE.K2];
  const ammonia = (ammoniaMolKg * constants[CARBONATE.KN]) / (constants[CARBONATE.KN] + h);
  const carbonateAlkalinity = alkalinityMolKg - ammonia - alkalinityWithoutCarbon(constants, h);
  return (carbonateAlkalinity * (h * h + k1 * h + k12)) / (k1 * h + 2 * k12);
}

/** Total alkalinity, mol of charge per kg, of water with this carbon, hydrogen ion and total ammonia. */
export function alkalinityFromHydrogen(constants: Float64Array, dic: number, h: number, ammoniaMolKg = 0): number {
  const ammonia = (ammoniaMolKg * constants[CARBONATE.KN]) / (constants[CARBONATE.KN] + h);
  const bicarbonate = bicarbonateFromHydrogen(constants, dic, h);
  return bicarbonate + 2 * carbonateFromHydrogen(constants, dic, h) + ammonia + alkalinityWithoutCarbon(constants, h);
}

/** Borate, hydroxide and (negative) free hydrogen, bisulfate and hydrogen fluoride, mol/kg. Dickson 1981. */
function alkalinityWithoutCarbon(constants: Float64Array, h: number): number {
  const free = constants[CARBONATE.TOTAL_PER_FREE];
  return (
    (constants[CARBONATE.BT] * constants[CARBONATE.KB]) / (constants[CARBONATE.KB] + h) +
    constants[CARBONATE.KW] / h -
    h / free -
    (constants[CARBONATE.ST] * h) / (h + constants[CARBONATE.KS] * free) -
    (constants[CARBONATE.FT] * h) / (h + constants[CARBONATE.KF])
  );
}
