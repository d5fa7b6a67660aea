/**
 * How fast the engine is on this machine: simulated days a second for one system and for a site, nanoseconds a step and body,
 * drills a second. Seeded; every figure is the best and the median of several runs, since other work only ever slows them.
 *
 * Run: `npm run tool -- node bench/engine.ts [--json]`
 */
import { judgeInReach, planSingles, rehearse, Stage } from "../src/drills/index.ts";
import type { Site } from "../src/site/index.ts";
import { advance, restore, stepCount } from "../src/twin/index.ts";
import { machine, siteAt } from "./common.ts";

const RUNS = 7;
const DAYS = 14;
const DAY_S = 86_400;

interface Figure {
  readonly what: string;
  readonly best: number;
  readonly median: number;
  readonly unit: string;
}

function seconds(work: () => void): number {
  const start = performance.now();
  work();
  return (performance.now() - start) / 1000;
}

function summary(what: string, unit: string, values: readonly number[], higherIsBetter: boolean): Figure {
  const sorted = [...values].sort((a, b) => (higherIsBetter ? b - a : a - b));
  return { what, unit, best: sorted[0], median: sorted[Math.floor(sorted.length / 2)] };
}

/** Simulated days a second, and nanoseconds a step and body, of plain life. */
function plainLife(name: string, site: Site, systems: (stage: Stage) => number[]): Figure[] {
  const stage = new Stage(site, 1);
  const simulated = systems(stage);
  const setting = stage.setting(site.circumstances[0], simulated);
  const bodies = simulated.reduce((sum, index) => sum + stage.model.systems[index].waters.length, 0);
  const daysPerS: number[] = [];
  const nsPerStep: number[] = [];
  for (let run = 0; run < RUNS; run++) {
    restore(setting.twin, setting.start);
    const before = stepCount(setting.twin);
    const took = seconds(() => advance(setting.twin, DAYS * DAY_S));
    const steps = stepCount(setting.twin) - before;
    daysPerS.push(DAYS / took);
    nsPerStep.push((took * 1e9 * simulated.length) / steps / bodies);
  }
  return [
    summary(`${name}: simulated days a second`, "d/s", daysPerS, true),
    summary(`${name}: time a step and body`, "ns", nsPerStep, false),
  ];
}

/** Drills a second on one thread, over a sample of every kind. */
function drillsPerSecond(site: Site): Figure {
  const stage = new Stage(site, 1);
  const sample = planSingles(stage.model).filter((_, place) => place % 10 === 0);
  for (const { circumstance, systems } of sample) stage.setting(circumstance, systems);
  const rates = Array.from({ length: 3 }, () => {
    const took = seconds(() => {
      for (const { faults, circumstance } of sample) judgeInReach(stage, faults, circumstance);
    });
    return sample.length / took;
  });
  return summary(`drills a second on one thread (sample of ${sample.length})`, "1/s", rates, true);
}

async function wholeRehearsal(site: Site, threads: number): Promise<Figure> {
  const report = await rehearse(site, { seed: 1, threads, pairs: false, nowS: () => performance.now() / 1000 });
  return {
    what: `all ${report.drills.length} singles, ${threads} threads`,
    unit: "s",
    best: report.elapsed_s,
    median: report.elapsed_s,
  };
}

const school = siteAt("examples/alder-row-school.yaml");
const first = siteAt("examples/first-tank.yaml");
const figures: Figure[] = [
  ...plainLife("one tank", first, () => [0]),
  ...plainLife("the reef of the school", school, () => [0]),
  ...plainLife("the whole school", school, (stage) => stage.model.systems.map((system) => system.index)),
  drillsPerSecond(school),
  await wholeRehearsal(school, 1),
  await wholeRehearsal(school, 2),
];
if (process.argv.includes("--json")) process.stdout.write(`${JSON.stringify({ machine, figures })}\n`);
else {
  process.stdout.write(`${machine}\n\n`);
  for (const { what, best, median, unit } of figures) {
    process.stdout.write(
      `${what.padEnd(52)} best ${best.toPrecision(4).padStart(8)} ${unit}, median ${median.toPrecision(4)}\n`,
    );
  }
}
