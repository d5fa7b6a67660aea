/** The constants behind an answer, for whoever wants to check it or to go on from there. */
import {
  ammoniumPka,
  ammoniumPkaJohanssonWedborg80,
  aragoniteRateConstant,
  aragoniteRateOrder,
  CARBONATE,
  phFree,
  phNbs,
  phSws,
} from "../../science/index.ts";
import type { Water } from "./water.ts";

/** Name told -> column. Per kg of seawater, total scale but for KS, which is on the free scale. */
const EQUILIBRIA = {
  k0_mol_kg_atm: CARBONATE.K0,
  k1_mol_kg: CARBONATE.K1,
  k2_mol_kg: CARBONATE.K2,
  kb_mol_kg: CARBONATE.KB,
  kw_mol2_kg2: CARBONATE.KW,
  ks_free_mol_kg: CARBONATE.KS,
  kf_mol_kg: CARBONATE.KF,
  kn_mol_kg: CARBONATE.KN,
  ksp_aragonite_mol2_kg2: CARBONATE.KSP_ARAGONITE,
  ksp_calcite_mol2_kg2: CARBONATE.KSP_CALCITE,
} as const;

export interface Equilibrium {
  readonly value: number;
  readonly ln: number;
  readonly log10: number;
}

export interface ConstantsTold {
  readonly equilibria: Readonly<Record<string, Equilibrium>>;
  readonly others: Readonly<Record<string, number>>;
}

export function constantsTold({ constants, temperatureC, salinity }: Water): ConstantsTold {
  const equilibria = Object.entries(EQUILIBRIA).map(([name, column]): [string, Equilibrium] => {
    const value = constants[column];
    return [name, { value, ln: Math.log(value), log10: Math.log10(value) }];
  });
  return {
    equilibria: Object.fromEntries(equilibria),
    others: {
      total_borate_umol_kg: constants[CARBONATE.BT] * 1e6,
      total_sulfate_umol_kg: constants[CARBONATE.ST] * 1e6,
      total_fluoride_umol_kg: constants[CARBONATE.FT] * 1e6,
      co2_fugacity_factor: constants[CARBONATE.FUGACITY],
      ph_free_minus_total: phFree(0, temperatureC, salinity),
      ph_sws_minus_total: phSws(0, temperatureC, salinity),
      ph_nbs_minus_total: phNbs(0, temperatureC, salinity),
      ammonium_pka: ammoniumPka(temperatureC, salinity),
      ammonium_pka_johansson_wedborg: ammoniumPkaJohanssonWedborg80(temperatureC, salinity),
      aragonite_rate_constant_umol_m2_h: aragoniteRateConstant(temperatureC),
      aragonite_rate_order: aragoniteRateOrder(temperatureC),
    },
  };
}
