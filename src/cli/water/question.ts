/** Reads what is said of a water into a question that can be answered, or says all that is wrong with it. */
import { AMBIGUOUS, type Borate, FIELDS, type FieldName, PAIR, type TemperatureScale, WAYS, WORDS } from "./fields.ts";

export interface Question {
  /** Each number as given, by field; which of them is there decides what is asked. */
  readonly given: ReadonlyMap<FieldName, number>;
  readonly borate: Borate;
  readonly temperatureScale: TemperatureScale;
  /** Whether the equilibrium constants are wanted too. */
  readonly withConstants: boolean;
  /** Names that nobody here knows, and whose values were not used. */
  readonly unused: readonly string[];
}

/** A result, or every reason why there is none. */
export type Outcome<Result> =
  | { readonly result: Result; readonly problems?: never }
  | { readonly result?: never; readonly problems: readonly string[] };

const FIELD = new Map(FIELDS.map((field) => [field.name as string, field]));
/** Fields that are not numbers; `id` comes back as it is. */
const OTHERS = new Set(["id", "borate", "borate_source", "temperature_scale", "constants"]);

type Said = Readonly<Record<string, unknown>>;

/** @param said names and values as written; null counts as not given */
export function readQuestion(said: Said): Outcome<Question> {
  const problems: string[] = [];
  const given = new Map<FieldName, number>();
  const unused: string[] = [];
  const mentioned = new Set<FieldName>();
  let isClear = true;
  for (const [name, value] of Object.entries(said)) {
    if (value === null || value === undefined || OTHERS.has(name)) continue;
    const field = FIELD.get(name);
    if (!field) {
      if (Object.hasOwn(AMBIGUOUS, name)) {
        problems.push(`${name}: ${AMBIGUOUS[name]}`);
        isClear = false;
      } else unused.push(name);
      continue;
    }
    mentioned.add(field.name);
    if (typeof value !== "number" || !(value >= field.low && value <= field.high)) {
      problems.push(`${name}: have ${shown(value)}, want ${aNumberWithin(field.low, field.high)}`);
    } else given.set(field.name, value);
  }
  const borate = word("borate", said.borate ?? said.borate_source, problems);
  const temperatureScale = word("temperature_scale", said.temperature_scale, problems);
  const withConstants = said.constants ?? false;
  if (typeof withConstants !== "boolean") problems.push(`constants: have ${shown(withConstants)}, want true or false`);
  problems.push(...contradictions(mentioned), ...(isClear ? gaps(mentioned) : []));
  if (problems.length > 0 || borate === null || temperatureScale === null) return { problems };
  return { result: { given, borate, temperatureScale, withConstants: withConstants === true, unused } };
}

function aNumberWithin(low: number, high: number): string {
  return `a number from ${low} to ${high}`;
}

function shown(value: unknown): string {
  const text = typeof value === "number" ? String(value) : JSON.stringify(value);
  return text.length > 40 ? `${text.slice(0, 40)}...` : text;
}

/** The first of the words if nothing is said; null, and a problem, if it is none of them. */
function word<Key extends keyof typeof WORDS>(
  key: Key,
  value: unknown,
  problems: string[],
): (keyof (typeof WORDS)[Key] & string) | null {
  const choices: Readonly<Record<string, readonly string[]>> = WORDS[key];
  const names = Object.keys(choices) as (keyof (typeof WORDS)[Key] & string)[];
  if (value === undefined || value === null) return names[0];
  const found = names.find((name) => choices[name].some((spelling) => spelling === value));
  if (found !== undefined) return found;
  problems.push(`${key}: have ${shown(value)}, want ${names.join(" or ")}`);
  return null;
}

/** Fields that are there, whatever they say. */
type Present = Pick<ReadonlySet<FieldName>, "has">;

/** Which field, if any, says each of the quantities. */
export function wayOf(given: Present, quantity: keyof typeof WAYS): FieldName | undefined {
  return WAYS[quantity].find((name) => given.has(name));
}

function contradictions(given: Present): string[] {
  const problems: string[] = [];
  for (const [quantity, names] of Object.entries(WAYS)) {
    const ways = names.filter((name) => given.has(name));
    if (ways.length > 1) problems.push(`${ways.join(" and ")} both say the ${quantity}; give one`);
  }
  const known = knownOfPair(given);
  if (known.length > 2)
    problems.push(`${known.join(", ")} are ${known.length} of four, and any two fix the rest; give two`);
  for (const [detail, needs] of [
    ["conductivity_at_c", "conductivity_ms_cm"],
    ["specific_gravity_reference_c", "specific_gravity"],
  ] as const)
    if (given.has(detail) && !given.has(needs)) problems.push(`${detail} says nothing without ${needs}`);
  return problems;
}

/** Fields that say one of the four quantities of the carbonate system. */
export function knownOfPair(given: Present): FieldName[] {
  return PAIR.map((quantity) => wayOf(given, quantity)).filter((name) => name !== undefined);
}

/**
 * What is missing. A water without any of the four is asked for its density and gases, and a pH alone for its scales and for
 * ammonia; alkalinity, carbon or CO2 alone is half a question.
 */
function gaps(given: Present): string[] {
  const problems: string[] = [];
  if (!given.has("temperature_c")) problems.push("temperature_c is missing");
  if (wayOf(given, "salinity") === undefined)
    problems.push(`salinity is missing; give one of ${WAYS.salinity.join(", ")}`);
  const known = knownOfPair(given);
  if (known.length === 1 && !known[0].startsWith("ph_"))
    problems.push(
      `${known[0]} alone does not fix the carbonate system; give one more of ${PAIR.filter((quantity) => wayOf(given, quantity) === undefined).join(", ")}`,
    );
  return problems;
}
