/** What makes an answer less than sure, in words. */
import {
  type FittedRange,
  isSalinityWithin,
  isTemperatureWithin,
  lawsOutside,
  NUCLEATION_OMEGA,
  omegaAragonite,
} from "../../science/index.ts";
import { knownOfPair, type Question } from "./question.ts";
import type { Water } from "./water.ts";

/** Beyond these every set of constants for the sea is an extrapolation (docs/science.md#carbonate-constants). */
const LEAST_PH = 5;
const MOST_PH = 10;

export function warningsOf(question: Question, water: Water): string[] {
  const hasPh = water.phTotal !== null;
  return [
    ...unusedFields(question),
    ...notComputed(question, water),
    ...lawsOutside(water.temperatureC, water.salinity, hasPh || question.withConstants).map((law) =>
      extrapolated(law, water),
    ),
    ...beyondTheSea(water),
  ];
}

function unusedFields({ unused }: Question): string[] {
  return unused.map((name) => `${JSON.stringify(name)} is no field of a water; its value was not used`);
}

function notComputed({ given }: Question, { balanced }: Water): string[] {
  if (balanced !== null) return [];
  const known = knownOfPair(given);
  const why = known.length === 0 ? "nothing was given of" : `${known[0]} alone does not fix`;
  return [`no carbonate system: ${why} alkalinity, carbon, CO2 and pH, of which any two would do`];
}

function extrapolated(law: FittedRange, { temperatureC, salinity }: Water): string {
  const ranges = [
    ...(isTemperatureWithin(law, temperatureC) ? [] : [`${law.coldestC} to ${law.hottestC} degC`]),
    ...(isSalinityWithin(law, salinity) ? [] : [`S ${law.freshest} to ${law.saltiest}`]),
  ];
  return `extrapolated beyond ${ranges.join(" and ")}: ${law.bears} (${law.law}, ${law.source})`;
}

function beyondTheSea({ phTotal, balanced, constants, calciumMolKg }: Water): string[] {
  const warnings: string[] = [];
  if (phTotal !== null && !(phTotal >= LEAST_PH && phTotal <= MOST_PH))
    warnings.push(
      `pH ${phTotal.toFixed(2)} is outside ${LEAST_PH} to ${MOST_PH}: all constants for the sea are extrapolated there`,
    );
  if (balanced === null) return warnings;
  const omega = omegaAragonite(constants, calciumMolKg, balanced.dicMolKg, balanced.h);
  if (omega > NUCLEATION_OMEGA.clean)
    warnings.push(
      `aragonite is ${omega.toFixed(0)} times saturated: above ${NUCLEATION_OMEGA.clean} it falls out by itself (Morse & He 1993), so this water does not last`,
    );
  return warnings;
}
