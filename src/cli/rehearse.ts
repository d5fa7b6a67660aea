/** `slackwater rehearse FILE`: every fault of every part in every circumstance. */
import { availableParallelism } from "node:os";
import type { Command } from "commander";
import {
  type DrillResult,
  duration,
  planPairs,
  type RehearsalReport,
  rehearse,
  Stage,
  signedDuration,
} from "../drills/index.ts";
import type { Site } from "../site/index.ts";
import { whole } from "./numbers.ts";
import { openSite, print, printJson } from "./open-site.ts";
import { table, wrap } from "./table.ts";

interface Options {
  readonly pairs?: boolean;
  readonly threads: number;
  readonly seed: number;
  readonly json?: boolean;
  readonly all?: boolean;
}

const RANK = { unseen: 0, late: 1, "handed over": 2, handled: 3, absorbed: 4, "not simulated": 5 } as const;
const SHOWN = 40;
const FINDINGS = 20;

export function addRehearse(program: Command): void {
  program
    .command("rehearse")
    .description("rehearse every fault of every part, by day, by night and while away")
    .argument("<file>", "site file")
    .option("--pairs", "also pairs while away: every latent fault, then every other")
    .option("--threads <n>", "worker threads", whole(1, 64), availableParallelism())
    .option("--seed <n>", "seed of all chance", whole(0, 4_294_967_295), 1)
    .option("--all", "list every drill")
    .option("--json", "answer as JSON")
    .action(async (file: string, options: Options) => {
      const site = await openSite(file);
      if (!site) return;
      const stop = new AbortController();
      const interrupt = () => stop.abort();
      process.once("SIGINT", interrupt);
      const startedS = performance.now() / 1000;
      const report = await rehearse(site, {
        seed: options.seed,
        threads: options.threads,
        pairs: options.pairs ?? false,
        nowS: () => performance.now() / 1000,
        signal: stop.signal,
        onProgress: (done, total) => showProgress(done, total, performance.now() / 1000 - startedS),
      });
      process.removeListener("SIGINT", interrupt);
      if (process.stderr.isTTY) process.stderr.write("\r\u001b[K");
      if (!report.complete) process.exitCode = 130;
      if (options.json) return printJson(report);
      printReport(report, options.all ?? false);
      if (options.pairs) printLeftOut(site);
    });
}

function printLeftOut(site: Site): void {
  const { leftOut } = planPairs(new Stage(site, 0).model);
  print(`Pairs whose first fault is not a latent one were left out: ${leftOut}.`);
}

function showProgress(done: number, total: number, elapsedS: number): void {
  if (!process.stderr.isTTY) return;
  const left = done === 0 ? "" : `, about ${duration(((elapsedS / done) * (total - done)) / 60)} left`;
  process.stderr.write(`\r\u001b[K${done} of ${total} drills${left}`);
}

function marginOf(drill: DrillResult): string {
  if (drill.margin_min === null) return drill.verdict === "unseen" ? "nobody told" : "no harm";
  if (drill.minutes.acting === null) return drill.minutes.told === null ? "nobody told" : "nobody came";
  return signedDuration(drill.margin_min);
}

/** Worst first: unseen by earliest harm, then by margin. */
export function byUrgency(a: DrillResult, b: DrillResult): number {
  if (RANK[a.verdict] !== RANK[b.verdict]) return RANK[a.verdict] - RANK[b.verdict];
  const far = Number.MAX_VALUE;
  if (a.verdict === "unseen") return (a.minutes.harm_early ?? far) - (b.minutes.harm_early ?? far);
  return (a.margin_min ?? far) - (b.margin_min ?? far);
}

function printReport(report: RehearsalReport, all: boolean): void {
  const sorted = [...report.drills].sort(byUrgency);
  const shown = all ? sorted : sorted.slice(0, SHOWN);
  const time = (minute: number | null) => (minute === null ? "" : duration(minute));
  print(
    table(
      [
        ["verdict", "margin", "fault", "part", "when", "noticed", "harm early", "likely"],
        ...shown.map((drill) => [
          drill.verdict,
          marginOf(drill),
          drill.name,
          drill.faults.map((fault) => fault.part).join(", "),
          drill.circumstance,
          time(drill.minutes.noticed),
          time(drill.minutes.harm_early),
          time(drill.minutes.harm_likely),
        ]),
      ],
      ["left", "right", "left", "left", "left", "right", "right", "right"],
    ),
  );
  if (shown.length < sorted.length)
    print(`... and ${sorted.length - shown.length} more with better verdicts or margins (--all lists them)`);
  const findings = [
    ...new Map(sorted.filter((drill) => drill.finding).map((drill) => [drill.finding, drill])).values(),
  ];
  if (findings.length > 0) {
    print(`\nWhat to mend first (${Math.min(FINDINGS, findings.length)} of ${findings.length}):`);
    for (const drill of findings.slice(0, FINDINGS)) {
      print(wrap(`${drill.finding}`, 110, "  "));
      if (drill.would_help.length > 0) print(wrap(`Would help: ${drill.would_help.join("; ")}.`, 110, "      "));
    }
  }
  for (const plain of report.plain_life) print(`\n${plain.finding}`);
  const { summary } = report;
  print(
    `\n${report.site}: ${report.drills.length} drills in ${report.elapsed_s} s on ${report.threads} threads, seed ${report.seed}.`,
  );
  print(
    `unseen ${summary.unseen}, late ${summary.late}, handed over ${summary["handed over"]}, handled ${summary.handled}, absorbed ${summary.absorbed}`,
  );
  if (!report.complete) print(`Stopped: ${report.not_run} drills were not run.`);
  print("These are estimates of what was tried, not a promise.");
}
