/**
 * How fast the carbonate system is solved on one core of this machine, beside a plain textbook solver in the same process:
 * constants by powers of ten, pH by halving. Seeded, a million waters over the whole range of tanks; every figure is the best
 * and the median of several runs, since other work only ever slows them.
 *
 * Run: `npm run tool -- node bench/carbonate.ts [--json]`
 */
import {
  acidBaseConstants,
  CARBONATE_SIZE,
  carbonateConstants,
  phTotalFromHydrogen,
  solveHydrogen,
} from "../src/science/index.ts";
import { type TextbookConstants, textbookConstants, textbookPh } from "./baseline/carbonate.ts";
import { machine } from "./common.ts";

const POINTS = 1_000_000;
/** The textbook gets fewer, or it would take a minute. */
const TEXTBOOK_POINTS = 50_000;
/** As many waters as a large site has bodies; so many rows of constants are at hand. */
const ROWS = 256;
const RUNS = 9;
/** What a body's alkalinity moves between two looks of the simulator, mol/kg. */
const MOVE = 1e-7;

interface Waters {
  readonly temperatureC: Float64Array;
  readonly salinity: Float64Array;
  readonly alkalinity: Float64Array;
  readonly dic: Float64Array;
}

interface Figure {
  readonly what: string;
  readonly bestPerS: number;
  readonly medianPerS: number;
  /** How many times the textbook's speed at the same work, best against best. */
  readonly timesTextbook: number;
}

/** Numbers from 0 to 1, the same ones each time (xorshift). */
function seeded(): () => number {
  let state = 0x9e3779b9;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 4_294_967_296;
  };
}

/** 10 to 35 degrees C, S 20 to 42, alkalinity 1000 to 6000 and carbon 800 to 5500 umol/kg, each by itself. */
function waters(): Waters {
  const random = seeded();
  const between = (low: number, high: number) =>
    Float64Array.from({ length: POINTS }, () => low + (high - low) * random());
  return {
    temperatureC: between(10, 35),
    salinity: between(20, 42),
    alkalinity: between(1e-3, 6e-3),
    dic: between(0.8e-3, 5.5e-3),
  };
}

/** Points a second of some work, best and median. */
function rate(points: number, runs: number, work: (points: number) => number): { best: number; median: number } {
  let sink = work(points);
  const rates = Array.from({ length: runs }, () => {
    const start = performance.now();
    sink += work(points);
    return (points * 1000) / (performance.now() - start);
  }).sort((a, b) => b - a);
  if (!Number.isFinite(sink)) throw new Error("a water without pH");
  return { best: rates[0], median: rates[Math.floor(runs / 2)] };
}

const { temperatureC, salinity, alkalinity, dic } = waters();
const constants = new Float64Array(CARBONATE_SIZE);
const rows = Array.from({ length: ROWS }, (_, row) => {
  const filled = new Float64Array(CARBONATE_SIZE);
  carbonateConstants(temperatureC[row], salinity[row], filled);
  return filled;
});
const textbookRows: TextbookConstants[] = rows.map((_, row) => textbookConstants(temperatureC[row], salinity[row]));
const solved = Float64Array.from({ length: POINTS }, (_, i) => solveHydrogen(rows[i % ROWS], alkalinity[i], dic[i], 0));

const work = {
  textbookAnew: (points: number) => {
    let sum = 0;
    for (let i = 0; i < points; i++)
      sum += textbookPh(textbookConstants(temperatureC[i], salinity[i]), alkalinity[i], dic[i]);
    return sum;
  },
  textbookGiven: (points: number) => {
    let sum = 0;
    for (let i = 0; i < points; i++) sum += textbookPh(textbookRows[i % ROWS], alkalinity[i], dic[i]);
    return sum;
  },
  anew: (points: number) => {
    let sum = 0;
    for (let i = 0; i < points; i++) {
      acidBaseConstants(temperatureC[i], salinity[i], constants);
      sum += phTotalFromHydrogen(solveHydrogen(constants, alkalinity[i], dic[i], 0));
    }
    return sum;
  },
  given: (points: number) => {
    let sum = 0;
    for (let i = 0; i < points; i++)
      sum += phTotalFromHydrogen(solveHydrogen(rows[i % ROWS], alkalinity[i], dic[i], 0));
    return sum;
  },
  warm: (points: number) => {
    let sum = 0;
    for (let i = 0; i < points; i++) sum += solveHydrogen(rows[i % ROWS], alkalinity[i] + MOVE, dic[i], solved[i]);
    return sum;
  },
};

function worstDifference(): number {
  let worst = 0;
  for (let i = 0; i < TEXTBOOK_POINTS; i++) {
    acidBaseConstants(temperatureC[i], salinity[i], constants);
    const ours = phTotalFromHydrogen(solveHydrogen(constants, alkalinity[i], dic[i], 0));
    const theirs = textbookPh(textbookConstants(temperatureC[i], salinity[i]), alkalinity[i], dic[i]);
    worst = Math.max(worst, Math.abs(ours - theirs));
  }
  return worst;
}

function figure(what: string, ours: (points: number) => number, textbook: { best: number }): Figure {
  const { best, median } = rate(POINTS, RUNS, ours);
  return { what, bestPerS: best, medianPerS: median, timesTextbook: best / textbook.best };
}

const textbookAnew = rate(TEXTBOOK_POINTS, 3, work.textbookAnew);
const textbookGiven = rate(TEXTBOOK_POINTS, 3, work.textbookGiven);
const figures: Figure[] = [
  { what: "textbook, constants anew", bestPerS: textbookAnew.best, medianPerS: textbookAnew.median, timesTextbook: 1 },
  {
    what: "textbook, constants given",
    bestPerS: textbookGiven.best,
    medianPerS: textbookGiven.median,
    timesTextbook: 1,
  },
  figure("constants anew for each point", work.anew, textbookAnew),
  figure("constants given, no starting point", work.given, textbookGiven),
  figure("constants given, from the last solution", work.warm, textbookGiven),
];
const worst = worstDifference();
if (process.argv.includes("--json"))
  process.stdout.write(`${JSON.stringify({ machine, points: POINTS, worstPhDifference: worst, figures })}\n`);
else {
  process.stdout.write(`${machine}; on one of them, ${POINTS} waters\n\n`);
  for (const { what, bestPerS, medianPerS, timesTextbook } of figures) {
    const [best, median] = [bestPerS, medianPerS].map((perS) => (perS / 1e6).toFixed(3).padStart(7));
    process.stdout.write(
      `${what.padEnd(42)} best ${best} million a second, median ${median}; ${timesTextbook.toFixed(0).padStart(3)} times the textbook\n`,
    );
  }
  process.stdout.write(`\nlargest difference in pH over ${TEXTBOOK_POINTS} waters: ${worst.toExponential(1)}\n`);
}
