/**
 * The two vessels over fourteen days: how far from the reference, and how long it takes, by the twin's integrator and by a
 * textbook in the same process.
 *
 * Run: `npm run tool -- node bench/ode.ts`
 */
import { runByTextbook } from "./baseline/two-vessels.ts";
import { machine } from "./common.ts";
import { type Pace, reference, runTwoVessels, scores } from "./ode/run.ts";

const RUNS = 21;
const WARM_UP = 5;
/** Fixed steps of the textbook: 6 s, about the longest that is stable behind the weir. */
const TEXTBOOK_STEPS_AN_HOUR = 600;
const PACES: readonly Pace[] = [
  { mostH: 0.25, firstH: 0.005, growth: 1 },
  { mostH: 0.17, firstH: 0.005, growth: 1 },
  { mostH: 0.1, firstH: 0.003, growth: 0.7 },
  { mostH: 0.05, firstH: 0.002, growth: 0.5 },
];

function medianMs(work: () => void, runs: number): number {
  const times: number[] = [];
  for (let run = 0; run < runs + Math.min(runs - 1, WARM_UP); run++) {
    const start = performance.now();
    work();
    times.push(performance.now() - start);
  }
  return times.slice(-runs).sort((a, b) => a - b)[Math.floor(runs / 2)];
}

function worstSwitchS(found: readonly number[]): number {
  const { heaterTimesA } = reference();
  return Math.max(...heaterTimesA.map((wanted, place) => Math.abs((found[place] ?? Number.NaN) - wanted) * 3600));
}

console.log(`${machine}
`);
const textbookMs = medianMs(() => runByTextbook(TEXTBOOK_STEPS_AN_HOUR), 1);
const textbook = scores("A", runByTextbook(TEXTBOOK_STEPS_AN_HOUR));
console.log(
  `textbook, steps of 6 s    score ${textbook.all.toFixed(2)}, chemistry ${textbook.chemistry.toFixed(2)}, ${textbookMs.toFixed(0)} ms`,
);
for (const variant of ["A", "B"] as const)
  for (const pace of PACES) {
    const outcome = runTwoVessels(variant, pace);
    const { all, chemistry } = scores(variant, outcome.days);
    const ms = medianMs(() => runTwoVessels(variant, pace), RUNS);
    const { heater, topUp, fan } = outcome.counts;
    const phase = variant === "A" ? `, heater within ${worstSwitchS(outcome.heaterTimes).toFixed(1)} s` : "";
    console.log(
      `${variant}, at most ${(pace.mostH * 60).toFixed(0).padStart(2)} min: score ${all.toFixed(3)}, chemistry ${chemistry.toFixed(3)}, ` +
        `${ms.toFixed(2)} ms (${(textbookMs / ms).toFixed(0)} x), ${outcome.slopes} slopes, ` +
        `switchings ${heater}, ${topUp}, ${fan}${phase}`,
    );
  }
