/** Answers a question about a water. A number that rests on an extrapolation comes with a warning that says so. */
import { type ConstantsTold, constantsTold } from "./constants-told.ts";
import { OUTPUTS } from "./outputs.ts";
import { type Outcome, readQuestion } from "./question.ts";
import { warningsOf } from "./warnings.ts";
import { waterOf } from "./water.ts";

export interface Answer {
  readonly temperatureC: number;
  readonly salinity: number;
  /** Temperature, salinity, then what was worked out, by field, in the order told. */
  readonly numbers: Readonly<Record<string, number>>;
  readonly constants: ConstantsTold | null;
  readonly warnings: readonly string[];
}

/** @param said names and values as written in JSON or in options */
export function answer(said: Readonly<Record<string, unknown>>): Outcome<Answer> {
  const question = readQuestion(said);
  if (question.problems) return question;
  const water = waterOf(question.result);
  if (water.problems) return water;
  const { temperatureC, salinity } = water.result;
  const numbers: Record<string, number> = { temperature_c: temperatureC, salinity };
  for (const { field, of } of OUTPUTS) {
    const value = of(water.result);
    if (value === null) continue;
    if (!Number.isFinite(value)) return { problems: [`${field} of this water is no number`] };
    numbers[field] = value;
  }
  return {
    result: {
      temperatureC,
      salinity,
      numbers,
      constants: question.result.withConstants ? constantsTold(water.result) : null,
      warnings: warningsOf(question.result, water.result),
    },
  };
}

/** The answer as one flat object for programs. */
export function plain({ numbers, constants, warnings }: Answer): Readonly<Record<string, unknown>> {
  return constants === null
    ? { ...numbers, warnings }
    : { ...numbers, constants: { ...constants.equilibria, ...constants.others }, warnings };
}
