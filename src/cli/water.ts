/** `slackwater water`: one water by options, or any number of them as lines of JSON. */
import { type Command, InvalidArgumentError } from "commander";
import { print, printJson } from "./open-site.ts";
import { type Align, table, wrap } from "./table.ts";
import { type Answer, answer, plain } from "./water/answer.ts";
import { FIELDS, type Field, WORDS } from "./water/fields.ts";
import { answerLines } from "./water/lines.ts";
import { OUTPUTS } from "./water/outputs.ts";

const WIDTH = 110;

const EXAMPLES = `
Any two of alkalinity, carbon, CO2 and pH fix the rest. Amounts are per kilogram of seawater where a name says kg, per
litre where it says l or dKH. Without options it reads one water a line from standard input, as JSON with the same names
(temperature_c, salinity, alkalinity_umol_kg, ...), and answers each with one line.

  slackwater water --temperature 25 --salinity 35 --dkh 8 --ph-nbs 8.2
  echo '{"temperature_c":25,"salinity":35,"alkalinity_umol_kg":2300,"dic_umol_kg":2000}' | slackwater water

All fields, what is answered, and where each law holds: docs/water.md and docs/science.md.`;

/** An option with its number; whether it can be is for the question to say. */
function number(text: string): number {
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (!Number.isFinite(value)) throw new InvalidArgumentError("Give a number.");
  return value;
}

const dashed = (name: string) => name.replaceAll("_", "-");
/** The name under which commander keeps an option. */
const camel = (name: string) => name.replace(/_(\w)/g, (_, letter: string) => letter.toUpperCase());

function addField(command: Command, { name, short, words, unit }: Field): void {
  const flags = short === undefined ? `--${dashed(name)}` : `--${short}, --${dashed(name)}`;
  command.option(`${flags} <${unit}>`, words, number);
}

export function addWater(program: Command): void {
  const command = program
    .command("water")
    .description(
      "chemistry of a water: pH, CO2, saturation, gases, density, salinity; one by options, or lines of JSON",
    );
  for (const field of FIELDS) addField(command, field);
  command
    .option("--borate <source>", `total borate by: ${Object.keys(WORDS.borate).join(" or ")} (4 % more)`)
    .option("--temperature-scale <scale>", "scale of the temperatures: its-90 or ipts-68; conductivity alone notices")
    .option("--constants", "tell the equilibrium constants too")
    .option("--json", "answer as JSON; lines of JSON are always answered so")
    .addHelpText("after", EXAMPLES)
    .action(async (options: Readonly<Record<string, unknown>>) => {
      const numbers = saidIn(options);
      const words = {
        borate: options.borate,
        temperature_scale: options.temperatureScale,
        constants: options.constants,
      };
      if (Object.keys(numbers).length > 0) {
        answerOne({ ...words, ...numbers }, options.json === true);
        return;
      }
      if (process.stdin.isTTY)
        command.error("error: give a water by options, or lines of JSON on standard input", { exitCode: 2 });
      if ((await answerLines(process.stdin, process.stdout, words)) > 0) process.exitCode = 1;
    });
}

/** The numbers among the options, by the names of their fields. */
function saidIn(options: Readonly<Record<string, unknown>>): Record<string, unknown> {
  return Object.fromEntries(
    FIELDS.map(({ name }) => [name, options[camel(name)]]).filter(([, value]) => value !== undefined),
  );
}

function answerOne(said: Readonly<Record<string, unknown>>, asJson: boolean): void {
  const { result, problems } = answer(said);
  if (problems) {
    process.exitCode = 1;
    if (asJson) printJson({ error: problems.join("; ") });
    else for (const problem of problems) process.stderr.write(`${problem}\n`);
    return;
  }
  if (asJson) printJson(plain(result));
  else printAnswer(result);
}

/** With so many decimals, or with three figures where those would be too few. */
function shown(value: number, decimals: number): string {
  const isTiny = value !== 0 && Math.abs(value) < 10 ** (1 - decimals);
  return isTiny ? value.toPrecision(3) : value.toFixed(decimals);
}

function printAnswer({ temperatureC, salinity, numbers, constants, warnings }: Answer): void {
  print(
    `Water at ${temperatureC} degC, S ${Number(salinity.toFixed(3))}. Alkalinity is total alkalinity, borate included.\n`,
  );
  const rows = OUTPUTS.flatMap(({ field, words, unit, decimals }) => {
    if (!Object.hasOwn(numbers, field)) return [];
    return [[`  ${words}`, shown(numbers[field], decimals), unit]];
  });
  const aligns: readonly Align[] = ["left", "right", "left"];
  print(table(rows, aligns));
  if (constants !== null) {
    const told = Object.entries(constants.equilibria).map(([name, one]) => [
      `  ${name}`,
      one.value.toExponential(5),
      `ln ${one.ln.toFixed(5)}`,
      `log10 ${one.log10.toFixed(5)}`,
    ]);
    const others = Object.entries(constants.others).map(([name, value]) => [`  ${name}`, value.toPrecision(7)]);
    print(
      `\nConstants, total scale, per kg of seawater\n${table([...told, ...others], ["left", "right", "right", "right"])}`,
    );
  }
  for (const warning of warnings) print(`\n${wrap(`Beware: ${warning}.`, WIDTH, "")}`);
}
