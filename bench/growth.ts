/**
 * How the cost grows on this machine: with the bodies of water of a site, with the faults that are tried, with the days that are
 * simulated. Seeded; every point is the best of several runs, since other work only ever slows them. Each curve is held against
 * the straight line through its largest point, and the power with which it grows is fitted.
 *
 * Run: `npm run tool -- node bench/growth.ts [--json] [--write]`; `--write` draws docs/performance/*.svg and renews the figures
 * in docs/performance.md.
 */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { machine, siteAt } from "./common.ts";
import { type Curve, type Growth, inProportion, inWords, power, slope, written } from "./growth/curve.ts";
import { draw, type Made } from "./growth/draw.ts";
import { costOfBodies, costOfDays, costOfFaults } from "./growth/measure.ts";
import { withGrowth } from "./growth/page.ts";

const PAGE = new URL("../docs/performance.md", import.meta.url);
const PICTURES = new URL("../docs/performance/", import.meta.url);

function write(growths: readonly Growth[], made: Made): void {
  const page = withGrowth(readFileSync(PAGE, "utf8"), growths, made);
  mkdirSync(PICTURES, { recursive: true });
  for (const growth of growths) writeFileSync(new URL(`${growth.file}.svg`, PICTURES), draw(growth, made));
  writeFileSync(PAGE, page);
}

function tell(growth: Growth, curve: Curve): string {
  const points = curve.points.map(({ amount, cost }) => {
    const line = inProportion(curve, amount);
    return `  ${written(amount).padStart(4)} ${growth.amounts} ${written(cost).padStart(7)} ${growth.costUnit}, in proportion ${written(line).padStart(7)}\n`;
  });
  return `${inWords(growth, curve)}\n${points.join("")}\n`;
}

const school = siteAt("examples/alder-row-school.yaml");
const growths = [costOfBodies(), costOfFaults(school), costOfDays(school)];
const made: Made = { date: new Date().toISOString().slice(0, 10), machine };
if (process.argv.includes("--write")) write(growths, made);
if (process.argv.includes("--json")) {
  const figures = growths.map((growth) => ({
    ...growth,
    curves: growth.curves.map((curve) => ({ ...curve, power: power(curve.points), slope: slope(curve.points) })),
  }));
  process.stdout.write(`${JSON.stringify({ ...made, figures })}\n`);
} else {
  process.stdout.write(`${machine}\n\n`);
  for (const growth of growths) for (const curve of growth.curves) process.stdout.write(tell(growth, curve));
}
