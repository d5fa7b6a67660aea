/**
 * The two schools, whole: what was mended must show. The longest test of the house, minutes, for it tries every fault of both
 * places in every circumstance.
 */
import { readFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { beforeAll, describe, expect, it } from "vitest";
import { type DrillResult, type RehearsalReport, rehearse } from "../src/drills/index.ts";
import { siteOf } from "./sites.ts";

const LONG_MS = 45 * 60_000;

async function rehearsed(name: string): Promise<RehearsalReport> {
  const site = siteOf(readFileSync(new URL(`../examples/${name}.yaml`, import.meta.url), "utf8"));
  return rehearse(site, { seed: 1, threads: availableParallelism(), pairs: false, nowS: () => 0 });
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
