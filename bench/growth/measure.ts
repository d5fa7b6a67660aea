/** The three measurements. Only what is named is on the clock: sites are loaded, settled and have lived their plain life before. */
import { findFault, judgeInReach, judgeToHorizon, planSingles, Stage } from "../../src/drills/index.ts";
import type { Site } from "../../src/site/index.ts";
import { advance, restore } from "../../src/twin/index.ts";
import type { Curve, Growth } from "./curve.ts";
import { BODIES_A_SYSTEM, repeatedSite } from "./repeated-site.ts";

const SEED = 1;
const DAY_S = 86_400;

const SYSTEMS = [1, 2, 3, 4, 6, 8, 10];
/** Days that a site of each size lives. */
const LIFE_DAYS = 10;
const BODIES_RUNS = 7;

const FAULTS = [10, 20, 50, 100, 200];
const FAULTS_RUNS = 3;

/** No further than the grid of a drill goes. */
const DAYS = [1, 2, 5, 10, 20, 40, 60];
const DAYS_RUNS = 5;
/** Harms nobody, so that nothing but its course and the search for who saw it is on the clock. */
const HARMLESS = "reef-wave-1.stops";

type Setting = ReturnType<Stage["setting"]>;

/** Plain life of a site that grows by one system at a time. */
export function costOfBodies(): Growth {
  const settings = SYSTEMS.map((systems) => everywhere(new Stage(repeatedSite(systems), SEED), LIFE_DAYS));
  const bestMs = bestMsOf(
    settings.map((setting) => () => live(setting, LIFE_DAYS)),
    BODIES_RUNS,
  );
  const points = SYSTEMS.map((systems, place) => ({
    amount: systems * BODIES_A_SYSTEM,
    cost: bestMs[place] / LIFE_DAYS,
  }));
  return {
    file: "bodies",
    title: "Cost against bodies of water",
    amounts: "bodies",
    costOf: "a simulated day",
    costUnit: "ms",
    runs: BODIES_RUNS,
    curves: [{ name: "plain life", points }],
  };
}

/** Singles on one thread: time of the first so many of a sample, each at its best. */
export function costOfFaults(site: Site): Growth {
  const stage = new Stage(site, SEED);
  const sample = spread(planSingles(stage.model)).slice(0, Math.max(...FAULTS));
  for (const { circumstance, systems } of sample) stage.setting(circumstance, systems);
  const drills = sample.map(({ faults, circumstance }) => () => {
    judgeInReach(stage, faults, circumstance);
  });
  const bestMs = bestMsOf(drills, FAULTS_RUNS);
  const points = FAULTS.map((faults) => ({
    amount: faults,
    cost: bestMs.slice(0, faults).reduce((sum, ms) => sum + ms, 0) / 1000,
  }));
  return {
    file: "faults",
    title: "Cost against faults tried",
    amounts: "faults tried",
    costOf: "on one thread",
    costUnit: "s",
    runs: FAULTS_RUNS,
    curves: [{ name: "a rehearsal of the demo site", points }],
  };
}

/** Plain life of a whole site, and a drill that goes on to its horizon, over so many days. */
export function costOfDays(site: Site): Growth {
  const stage = new Stage(site, SEED);
  const fault = findFault(site, HARMLESS);
  if ("error" in fault) throw new Error(fault.error);
  const settings = DAYS.map((days) => everywhere(stage, days));
  const plainMs = bestMsOf(
    settings.map((setting, place) => () => live(setting, DAYS[place])),
    DAYS_RUNS,
  );
  const drillMs = bestMsOf(
    settings.map((setting) => () => void judgeToHorizon(setting, [fault])),
    DAYS_RUNS,
  );
  const curve = (name: string, bestMs: readonly number[]): Curve => ({
    name,
    points: DAYS.map((days, place) => ({ amount: days, cost: bestMs[place] })),
  });
  return {
    file: "days",
    title: "Cost against simulated days",
    amounts: "days",
    costOf: "in all",
    costUnit: "ms",
    runs: DAYS_RUNS,
    curves: [curve("plain life of the demo site", plainMs), curve("a drill that never stops early", drillMs)],
  };
}

/** All systems of a site in its first circumstance. */
function everywhere(stage: Stage, days: number): Setting {
  const all = stage.model.systems.map((system) => system.index);
  return stage.setting(stage.model.site.circumstances[0], all, days);
}

function live({ twin, start }: Setting, days: number): void {
  restore(twin, start);
  advance(twin, days * DAY_S);
}

/** Best time of each work, ms. All take turns, so that a slow while of the machine meets none alone; the first turn warms up. */
function bestMsOf(works: readonly (() => void)[], runs: number): number[] {
  const turns = Array.from({ length: runs + 1 }, () => works.map(msOf));
  return works.map((_, place) => Math.min(...turns.slice(1).map((turn) => turn[place])));
}

function msOf(work: () => void): number {
  const startMs = performance.now();
  work();
  return performance.now() - startMs;
}

/**
 * A list in such an order that its first so many, however many, come from all over it: in steps of about the golden section of
 * its length, which are made to share no factor with it, so that each comes once.
 */
export function spread<T>(all: readonly T[]): T[] {
  let step = Math.max(1, Math.round(all.length * 0.618));
  while (commonFactor(step, all.length) > 1) step++;
  return all.map((_, place) => all[(place * step) % all.length]);
}

function commonFactor(a: number, b: number): number {
  return b === 0 ? a : commonFactor(b, a % b);
}
