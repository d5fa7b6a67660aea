/** Where each constant of the carbonate system stands in its array. Amounts in mol per kg of seawater. */
export const CARBONATE = {
  /** Solubility of CO2, mol/(kg atm). Weiss 1974. */
  K0: 0,
  /** First and second dissociation of carbonic acid. Lueker, Dickson & Keeling 2000. */
  K1: 1,
  K2: 2,
  /** Boric acid. Dickson 1990. */
  KB: 3,
  /** Water. Millero 1995 in the total-scale form of Dickson, Sabine & Christian 2007. */
  KW: 4,
  /** Bisulfate, on the free scale. Dickson 1990. */
  KS: 5,
  /** Hydrogen fluoride. Perez & Fraga 1987. */
  KF: 6,
  /** Ammonium. Clegg & Whitfield 1995. */
  KN: 7,
  /** Total borate, sulfate, fluoride. */
  BT: 8,
  ST: 9,
  FT: 10,
  /** Hydrogen ion on the total scale over free hydrogen ion: 1 + ST/KS. */
  TOTAL_PER_FREE: 11,
  /** Solubility products, (mol/kg)2. Mucci 1983. */
  KSP_ARAGONITE: 12,
  KSP_CALCITE: 13,
  /** Fugacity over partial pressure of CO2 in air. Weiss 1974. */
  FUGACITY: 14,
} as const;

/** Length of the array of constants. */
export const CARBONATE_SIZE = 15;
