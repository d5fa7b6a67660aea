/** `slackwater drill FILE --fault PART.MODE`: one fault, its timeline and its verdict. */
import asciichart from "asciichart";
import type { Command } from "commander";
import { type DrillReport, duration, signedDuration, type Trace, tellDrill } from "../drills/index.ts";
import { NotFoundError } from "../foundation/index.ts";
import { decimal, whole } from "./numbers.ts";
import { openSite, print, printJson, printNotFound } from "./open-site.ts";
import { table, wrap } from "./table.ts";

interface Options {
  readonly fault: string;
  readonly and?: string;
  readonly circumstance: string;
  readonly days?: number;
  readonly step: number;
  readonly only?: string;
  readonly seed: number;
  readonly json?: boolean;
}

const MOST_EVENTS = 40;
/** What switches more often than this is not listed. */
const CYCLING = 6;

export function addDrill(program: Command): void {
  program
    .command("drill")
    .description("rehearse one fault, or two, and show what happens")
    .argument("<file>", "site file")
    .requiredOption("--fault <part.mode>", "the fault, e.g. heater-1.stays-on")
    .option("--and <part.mode>", "a second fault that is there as well")
    .option("--circumstance <name>", "day, night, away, or one of the site's own", "day")
    .option("--days <n>", "how long to look", decimal(0.05, 60))
    .option("--step <min>", "spacing of the trace, minutes", decimal(1 / 60, 1440), 1)
    .option("--only <names>", "quantities and sensors to keep, comma between")
    .option("--seed <n>", "seed of all chance", whole(0, 4_294_967_295), 1)
    .option("--json", "answer as JSON")
    .action(async (file: string, options: Options) => {
      const site = await openSite(file);
      if (!site) return;
      try {
        const report = tellDrill({
          site,
          seed: options.seed,
          faultIds: options.and === undefined ? [options.fault] : [options.fault, options.and],
          circumstance: options.circumstance,
          options: {
            stepMin: options.step,
            only: names(options.only),
            everywhere: true,
            ...(options.days === undefined ? {} : { days: options.days }),
          },
        });
        if (options.json) printJson(report);
        else printDrill(report);
      } catch (error) {
        if (!(error instanceof NotFoundError)) throw error;
        printNotFound(error);
      }
    });
}

export function names(only: string | undefined): string[] {
  return only === undefined ? [] : only.split(",").map((name) => name.trim());
}

function printDrill(report: DrillReport): void {
  print(
    `${report.name}: ${report.faults.map((fault) => fault.part).join(", ")}. ${report.circumstance}, ${report.starts.replace("T", " ")}.`,
  );
  print(
    `Verdict: ${report.verdict}. Margin: ${report.margin_min === null ? "no harm" : signedDuration(report.margin_min)}.`,
  );
  if (report.finding) print(wrap(report.finding, 110, ""));
  if (report.would_help.length > 0) print(wrap(`Would help: ${report.would_help.join("; ")}.`, 110, ""));
  print("");
  const often = new Map<string, number>();
  for (const event of report.events)
    if (event.part) often.set(`${event.kind} ${event.part}`, (often.get(`${event.kind} ${event.part}`) ?? 0) + 1);
  const told = report.events.filter(
    (event) =>
      (event.kind !== "rule" && event.kind !== "device") || (often.get(`${event.kind} ${event.part}`) ?? 0) <= CYCLING,
  );
  const important = told.filter((event) => event.kind !== "device");
  const rows = [
    ...important,
    ...told.filter((event) => event.kind === "device").slice(0, Math.max(0, MOST_EVENTS - important.length)),
  ].sort((a, b) => a.t_min - b.t_min);
  print(
    table(
      rows.slice(0, MOST_EVENTS).map((event) => [`+${duration(event.t_min)}`, event.kind, event.text]),
      ["right", "left", "left"],
    ),
  );
  const curve = plotted(report);
  if (curve)
    print(`\n${curve.name} over ${curve.spanH} h if nobody acts\n${asciichart.plot(curve.values, { height: 10 })}`);
  print("\nThese are estimates of what was tried, not a promise.");
}

const COLUMNS = 90;

function plotted(report: DrillReport): { name: string; values: number[]; spanH: string } | null {
  const name =
    report.telling !== null && report.telling in report.unattended.trace.truth
      ? report.telling
      : telling(report.trace, report.unattended.trace);
  if (name === null) return null;
  const values = report.unattended.trace.truth[name];
  const times = report.unattended.trace.t_min;
  return { name, values: thin(values), spanH: (times[times.length - 1] / 60).toFixed(0) };
}

/** The true quantity that moves most for its kind. */
function telling(trace: Trace, alone: Trace): string | null {
  const scale: Readonly<Record<string, number>> = {
    temperature_c: 1,
    oxygen_mg_l: 1,
    salinity: 0.5,
    ph_total: 0.2,
    alkalinity_dkh: 1,
    water_l: 5,
    ammonia_mg_n_l: 0.2,
  };
  let best: string | null = null;
  let most = 0;
  for (const [name, values] of Object.entries(alone.truth)) {
    const unit = scale[name.split(".")[1] ?? ""];
    if (unit === undefined || !(name in trace.truth)) continue;
    const moved = (Math.max(...values) - Math.min(...values)) / unit;
    if (moved > most) {
      most = moved;
      best = name;
    }
  }
  return best;
}

export function thin(values: readonly number[]): number[] {
  const every = Math.max(1, Math.ceil(values.length / COLUMNS));
  return values.filter((_, place) => place % every === 0);
}
