/**
 * What a gram of each pure compound brings into the water: stoichiometry from atomic weights (IUPAC 2021).
 * Sources and certainty: docs/science.md#dosing.
 */

/** Atomic weights, g/mol. */
const H = 1.008;
const C = 12.011;
const O = 15.999;
const NA = 22.98976928;
const MG = 24.305;
const S = 32.06;
const CL = 35.45;
const CA = 40.078;
const WATER = 2 * H + O;

/** Per formula: molar mass, g/mol; equivalents of alkalinity; atoms of inorganic carbon, calcium, magnesium. */
interface Formula {
  readonly gPerMol: number;
  readonly alkalinity: number;
  readonly carbon: number;
  readonly calcium: number;
  readonly magnesium: number;
}

const COMPOUNDS = {
  "CaCl2.2H2O": { gPerMol: CA + 2 * CL + 2 * WATER, alkalinity: 0, carbon: 0, calcium: 1, magnesium: 0 },
  CaCl2: { gPerMol: CA + 2 * CL, alkalinity: 0, carbon: 0, calcium: 1, magnesium: 0 },
  NaHCO3: { gPerMol: NA + H + C + 3 * O, alkalinity: 1, carbon: 1, calcium: 0, magnesium: 0 },
  Na2CO3: { gPerMol: 2 * NA + C + 3 * O, alkalinity: 2, carbon: 1, calcium: 0, magnesium: 0 },
  NaOH: { gPerMol: NA + O + H, alkalinity: 1, carbon: 0, calcium: 0, magnesium: 0 },
  "Ca(OH)2": { gPerMol: CA + 2 * (O + H), alkalinity: 2, carbon: 0, calcium: 1, magnesium: 0 },
  "MgCl2.6H2O": { gPerMol: MG + 2 * CL + 6 * WATER, alkalinity: 0, carbon: 0, calcium: 0, magnesium: 1 },
  "MgSO4.7H2O": { gPerMol: MG + S + 4 * O + 7 * WATER, alkalinity: 0, carbon: 0, calcium: 0, magnesium: 1 },
  CaCO3: { gPerMol: CA + C + 3 * O, alkalinity: 2, carbon: 1, calcium: 1, magnesium: 0 },
} as const satisfies Record<string, Formula>;

export type Compound = keyof typeof COMPOUNDS;

/** Alkalinity, meq per gram, at a purity of 0..1. */
export function alkalinityMeqPerG(compound: Compound, purity = 1): number {
  return (purity * 1000 * COMPOUNDS[compound].alkalinity) / COMPOUNDS[compound].gPerMol;
}

/** Inorganic carbon, mmol per gram, at a purity of 0..1. */
export function carbonMmolPerG(compound: Compound, purity = 1): number {
  return (purity * 1000 * COMPOUNDS[compound].carbon) / COMPOUNDS[compound].gPerMol;
}

/** Calcium, mg per gram, at a purity of 0..1. */
export function calciumMgPerG(compound: Compound, purity = 1): number {
  return (purity * 1000 * CA * COMPOUNDS[compound].calcium) / COMPOUNDS[compound].gPerMol;
}

/** Magnesium, mg per gram, at a purity of 0..1. */
export function magnesiumMgPerG(compound: Compound, purity = 1): number {
  return (purity * 1000 * MG * COMPOUNDS[compound].magnesium) / COMPOUNDS[compound].gPerMol;
}
