/**
 * How fast a rehearsal with pairs is on this machine: wall time, pairs a second, the share of pairs that are derived from their
 * trigger, and the peak of memory. Seeded. The times of pairs are those with pairs less those without.
 *
 * Run: `npm run tool -- node bench/pairs.ts [--json]`
 */
import { type RehearsalReport, rehearse } from "../src/drills/index.ts";
import type { Site } from "../src/site/index.ts";
import { machine, siteAt } from "./common.ts";

const THREADS = 2;
const KB_PER_MB = 1000;

interface Figure {
  readonly what: string;
  readonly value: number;
  readonly unit: string;
}

function rehearsed(site: Site, pairs: boolean): Promise<RehearsalReport> {
  return rehearse(site, { seed: 1, threads: THREADS, pairs, nowS: () => performance.now() / 1000 });
}

const school = siteAt("examples/alder-row-school.yaml");
const singles = await rehearsed(school, false);
const singlesPeakMB = process.resourceUsage().maxRSS / KB_PER_MB;
const all = await rehearsed(school, true);
const pairs = all.drills.filter((drill) => drill.faults.length > 1);
const derived = pairs.filter((drill) => drill.derived !== null);
const figures: Figure[] = [
  { what: `all ${singles.drills.length} singles, ${THREADS} threads`, value: singles.elapsed_s, unit: "s" },
  { what: `singles and ${pairs.length} pairs, ${THREADS} threads`, value: all.elapsed_s, unit: "s" },
  { what: "pairs a second", value: pairs.length / (all.elapsed_s - singles.elapsed_s), unit: "1/s" },
  { what: "share of pairs that are derived", value: (100 * derived.length) / pairs.length, unit: "%" },
  { what: "peak of memory, singles", value: singlesPeakMB, unit: "MB" },
  { what: "peak of memory, with pairs", value: process.resourceUsage().maxRSS / KB_PER_MB, unit: "MB" },
];
if (process.argv.includes("--json")) process.stdout.write(`${JSON.stringify({ machine, figures })}\n`);
else {
  process.stdout.write(`${machine}\n\n`);
  for (const { what, value, unit } of figures)
    process.stdout.write(`${what.padEnd(52)} ${value.toPrecision(4).padStart(8)} ${unit}\n`);
}
