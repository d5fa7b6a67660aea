import { clockOfDay } from "./clock.ts";
import { difference, measure } from "./format.ts";
import { manner } from "./manner.ts";
import { TURNED_UNITS } from "./units.ts";

/**
 * What the engine tells, in the manner of the reader.
 *
 * The engine writes its sentences in metric units, with a point and a clock of 24 hours, for files, programs and screens
 * alike. Here a figure with its unit is turned ("25.9 °C" to "78.6 °F"), both ends of a range are, and a difference is not
 * taken for a temperature ("1 °C above normal" to "1.8 °F above normal"). What is no figure with a known unit stays.
 */
export function asTold(text: string): string {
  return text.replace(FIGURES, (whole: string, ...groups: readonly unknown[]) => {
    const found = groups.at(-1) as Readonly<Record<string, string | undefined>>;
    const at = groups.at(-3) as number;
    const { from, between, to, unit, hour, minute, bare } = found;
    if (unit !== undefined && to !== undefined) {
      const before = text.slice(0, at);
      const after = text.slice(at + whole.length);
      const say = isDifference(Number.parseFloat(plain(to)), unit, before, after) ? difference : measure;
      const end = turned(to, unit, say);
      if (from === undefined || between === undefined) return end;
      return `${withoutUnit(turned(from, unit, say))}${between}${end}`;
    }
    if (hour !== undefined && minute !== undefined) return clockOfDay(Number(hour) * 60 + Number(minute));
    return bare === undefined ? whole : bare.replace(".", manner().decimal);
  });
}

const NUMBER = "[-\u2212]?\\d+(?:\\.\\d+)?";
/** No digits of a name ("heater-3"), of a version, or behind a decimal comma. */
const ALONE = "(?<![\\w.:/-]|\\d,)";
const UNIT = [...TURNED_UNITS].sort((a, b) => b.length - a.length).join("|");
const MEASURED = `(?:(?<from>${NUMBER})(?<between> to | and | or |\u2013|-))?(?<to>${NUMBER})[ \u00a0]?(?<unit>${UNIT})(?![\\w/\u00b2\u00b3])`;
const CLOCK = "(?<hour>[01]\\d|2[0-3]):(?<minute>[0-5]\\d)(?![\\w:]|\\.\\d|[ \u00a0][ap]m)";
const DECIMAL = "(?<bare>\\d+\\.\\d+)(?![\\w.]*\\d)";
const FIGURES = new RegExp(`${ALONE}(?:${MEASURED}|${DECIMAL})|(?<![\\w.:/]|\\D-)${CLOCK}`, "g");

function plain(number: string): string {
  return number.replace("\u2212", "-");
}

/** With the digits it was written with; a whole temperature that does not stay whole gets one. */
function turned(number: string, unit: string, say: typeof measure): string {
  const written = number.split(".")[1]?.length ?? 0;
  const value = Number.parseFloat(plain(number));
  if (written > 0 || !TEMPERATURE.test(unit)) return say(value, unit, written);
  return say(value, unit, 1).replace(`${manner().decimal}0\u00a0`, "\u00a0");
}

function withoutUnit(text: string): string {
  return text.split("\u00a0")[0];
}

const TEMPERATURE = /^(?:\u00b0C|degC|K)$/;
/** Larger temperatures than this are no distance from another one, \u00b0C. */
const LARGEST_DISTANCE = 15;
const LEADS_TO_DIFFERENCE =
  /\b(?:by|gap of|apart|within|differ|differs|difference of|swing of|swings|change of|changes|band of|drift of|drifts|rise of|fall of)(?: (?:about|at least|at most|more than|less than|up to|only|some|over|under))*\s?$/i;
const CLEARLY_DIFFERENCE =
  /^ (?:too (?:low|high|warm|cold|hot)|higher|lower|warmer|colder|cooler|hotter|up|down|apart|away|an hour|a day|per)\b/i;
const BESIDE_SOMETHING = /^ (?:above|below|over|under) [a-z]/i;

/** Whether a temperature is a distance between two: by the words beside it. */
function isDifference(value: number, unit: string, before: string, after: string): boolean {
  if (!TEMPERATURE.test(unit)) return false;
  if (LEADS_TO_DIFFERENCE.test(before) || CLEARLY_DIFFERENCE.test(after)) return true;
  return Math.abs(value) < LARGEST_DISTANCE && BESIDE_SOMETHING.test(after);
}
