/** `slackwater run FILE`: plain life without a fault. */
import asciichart from "asciichart";
import type { Command } from "commander";
import { circumstanceNamed, type PlainLife, plainLife, Stage } from "../drills/index.ts";
import { NotFoundError } from "../foundation/index.ts";
import { names, thin } from "./drill.ts";
import { decimal, whole } from "./numbers.ts";
import { openSite, print, printJson, printNotFound } from "./open-site.ts";
import { table } from "./table.ts";

interface Options {
  readonly days: number;
  readonly circumstance: string;
  readonly step: number;
  readonly only?: string;
  readonly seed: number;
  readonly json?: boolean;
}

export function addRun(program: Command): void {
  program
    .command("run")
    .description("live through some days without a fault")
    .argument("<file>", "site file")
    .option("--days <n>", "how long", decimal(0.05, 60), 2)
    .option("--circumstance <name>", "day, night, away, or one of the site's own", "day")
    .option("--step <min>", "spacing of the trace, minutes", decimal(1 / 60, 1440), 1)
    .option("--only <names>", "quantities and sensors to keep, comma between")
    .option("--seed <n>", "seed of all chance", whole(0, 4_294_967_295), 1)
    .option("--json", "answer as JSON")
    .action(async (file: string, options: Options) => {
      const site = await openSite(file);
      if (!site) return;
      try {
        const circumstance = circumstanceNamed(site, options.circumstance);
        const life = plainLife(new Stage(site, options.seed), circumstance, {
          stepMin: options.step,
          only: names(options.only),
          everywhere: true,
          days: options.days,
        });
        if (options.json) printJson(life);
        else printLife(life);
      } catch (error) {
        if (!(error instanceof NotFoundError)) throw error;
        printNotFound(error);
      }
    });
}

function printLife(life: PlainLife): void {
  print(
    `${life.site}, ${life.days} days of plain life from ${life.starts.replace("T", " ")} (${life.circumstance}).\n`,
  );
  const rows = Object.entries(life.trace.truth)
    .filter(([name]) => !name.endsWith(".on"))
    .map(([name, values]) => [
      name,
      ...[
        Math.min(...values),
        values.reduce((sum, one) => sum + one, 0) / values.length,
        Math.max(...values),
        values[values.length - 1],
      ].map(short),
    ]);
  print(
    table(
      [["true quantity", "least", "mean", "most", "at the end"], ...rows],
      ["left", "right", "right", "right", "right"],
    ),
  );
  const runs = new Map<string, number>();
  for (const event of life.events)
    if (event.part !== null && event.text.endsWith("runs")) runs.set(event.part, (runs.get(event.part) ?? 0) + 1);
  if (runs.size > 0) print(`\nSwitched on: ${[...runs].map(([part, count]) => `${part} ${count} times`).join(", ")}.`);
  const notices = life.events.filter((event) => event.kind === "notice");
  print(
    notices.length === 0 ? "No notice was raised." : `Notices raised: ${notices.map((one) => one.part).join(", ")}.`,
  );
  const first = Object.keys(life.trace.truth).find((name) => name.endsWith(".temperature_c"));
  if (first) print(`\n${first}\n${asciichart.plot(thin(life.trace.truth[first]), { height: 8 })}`);
}

function short(value: number): string {
  return value >= 1000 ? value.toFixed(0) : value >= 100 ? value.toFixed(1) : value.toFixed(2);
}
