/**
 * The two schools, whole: what was mended must show. The longest test of the house, minutes, for it tries every fault of both
 * places in every circumstance.
 */
import { readFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { beforeAll, describe, expect, it } from "vitest";
import {
  type DrillMinutes,
  type DrillResult,
  drillGrid,
  type Judged,
  judgeInReach,
  judgeToHorizon,
  planPairs,
  planSingles,
  type RehearsalReport,
  Rehearser,
  rehearse,
  Stage,
} from "../src/drills/index.ts";
import type { Site } from "../src/site/index.ts";
import { siteOf } from "./sites.ts";

const LONG_MS = 45 * 60_000;

function school(name: string): Site {
  return siteOf(readFileSync(new URL(`../examples/${name}.yaml`, import.meta.url), "utf8"));
}

async function rehearsed(name: string): Promise<RehearsalReport> {
  return rehearse(school(name), { seed: 1, threads: availableParallelism(), pairs: false, nowS: () => 0 });
}

function named(drills: readonly DrillResult[], verdict: DrillResult["verdict"]): string[] {
  return drills.filter((drill) => drill.verdict === verdict).map((drill) => drill.id);
}

describe("Alder Row School", () => {
  let asBuilt: RehearsalReport;
  let mended: RehearsalReport;

  beforeAll(async () => {
    asBuilt = await rehearsed("alder-row-school");
    mended = await rehearsed("alder-row-school-mended");
  }, LONG_MS);

  it("as built shows its weak places: faults unseen, faults late", () => {
    expect(asBuilt.complete).toBe(true);
    expect(asBuilt.summary.unseen).toBeGreaterThan(50);
    expect(asBuilt.summary.late).toBeGreaterThan(10);
    expect(asBuilt.summary["handed over"]).toBeGreaterThan(0);
    expect(asBuilt.summary.absorbed).toBeGreaterThan(0);
  });

  it("mended leaves nothing unseen, and fewer than half as many late", () => {
    expect(mended.complete).toBe(true);
    expect(named(mended.drills, "unseen")).toEqual([]);
    expect(mended.summary.late).toBeLessThan(asBuilt.summary.late / 2);
    expect(mended.summary.handled).toBeGreaterThan(asBuilt.summary.handled);
  });

  it("lives through every circumstance without harm where nothing fails", () => {
    expect(asBuilt.plain_life).toEqual([]);
    expect(mended.plain_life).toEqual([]);
  });

  it("says for every late or unseen drill what would change it", () => {
    for (const drill of [...asBuilt.drills, ...mended.drills]) {
      if (drill.verdict !== "late" && drill.verdict !== "unseen") continue;
      expect(drill.finding, drill.id).not.toBeNull();
      expect(drill.would_help.length, drill.id).toBeGreaterThan(0);
    }
  });
});

describe("a sample of Alder Row School", () => {
  const stage = new Stage(school("alder-row-school"), 1);
  const everywhere = stage.model.systems.map((system) => system.index);
  const singles = planSingles(stage.model).filter((_, place) => place % 31 === 11);
  const pairs = planPairs(stage.model).drills.filter((_, place) => place % 311 === 100);

  /** Step of the drill's grid up to a minute. */
  function stepMin(minute: number): number {
    const grid = drillGrid(60);
    const after = grid.findIndex((tS) => tS >= minute * 60 - 1);
    return (grid[Math.max(1, after)] - grid[Math.max(1, after) - 1]) / 60;
  }

  function far(a: number | null, b: number | null): boolean {
    if (a === null || b === null) return a !== b;
    return Math.abs(a - b) > stepMin(Math.max(a, b));
  }

  /** The verdict where it differs, and times that differ by more than a step, by name. */
  function differences(a: DrillResult, b: DrillResult, besides: readonly (keyof DrillMinutes)[] = []): string[] {
    const names = (Object.keys(a.minutes) as (keyof DrillMinutes)[]).filter((name) => !besides.includes(name));
    const times = names.filter((name) => far(a.minutes[name], b.minutes[name]));
    return [
      ...times.map((name) => `${a.id} ${name}: ${a.minutes[name]}, ${b.minutes[name]}`),
      ...(a.verdict === b.verdict ? [] : [`${a.id}: ${a.verdict}, ${b.verdict}`]),
    ];
  }

  /** Whether the first sign shows in a system that was not simulated in the other setting: its thermostats keep their own time. */
  function showsElsewhere({ course }: Judged, systems: readonly number[]): boolean {
    const part = course.signWhat?.split(".")[0];
    const own = systems.flatMap((index) => [
      ...stage.model.systems[index].bodies,
      ...stage.model.systems[index].stores,
    ]);
    const devices = systems.flatMap((index) => stage.model.systems[index].devices);
    const { site } = stage.model;
    const ids = [
      ...own.map((place) => site.bodies[place].id),
      ...devices.map((place) => site.devices[place].id),
      "floor",
    ];
    return part !== undefined && !ids.includes(part);
  }

  it(
    "has the same verdicts and times, to one step, where no course stops before the horizon",
    () => {
      for (const { faults, circumstance } of singles) {
        const stopped = judgeInReach(stage, faults, circumstance);
        expect(differences(stopped.result, judgeToHorizon(stopped.setting, faults).result)).toEqual([]);
      }
    },
    LONG_MS,
  );

  it(
    "has the same verdicts and times, to one step, where the whole site is simulated besides",
    () => {
      for (const { faults, circumstance } of singles) {
        const limited = judgeInReach(stage, faults, circumstance);
        const whole = judgeToHorizon(stage.setting(circumstance, everywhere), faults);
        const besides = showsElsewhere(whole, limited.setting.systems) ? (["sign"] as const) : [];
        expect(differences(limited.result, whole.result, besides)).toEqual([]);
      }
    },
    LONG_MS,
  );

  it(
    "has the same pairs where each is run, to the horizon and with the whole site",
    () => {
      const rehearser = new Rehearser(stage);
      for (const drill of pairs) {
        const whole = judgeToHorizon(stage.setting(drill.circumstance, everywhere), drill.faults);
        const besides = showsElsewhere(whole, drill.systems) ? (["sign"] as const) : [];
        expect(differences(rehearser.run(drill), whole.result, besides)).toEqual([]);
      }
    },
    LONG_MS,
  );
});
