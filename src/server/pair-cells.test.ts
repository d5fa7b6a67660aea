import fc from "fast-check";
import { expect, it } from "vitest";
import { censusOf, pairResultsOf } from "../../test/browser/fixtures/results.ts";
import { school } from "../../test/browser/fixtures/sites.ts";
import type { DrillResult, VerdictKind } from "./contract/index.ts";
import { byHarm, cellsOf, failsIn, pairsOf, pairsSummary } from "./pair-cells.ts";

const site = school();
const drills = pairResultsOf(site);
const census = censusOf(site);

function drill(ids: readonly string[], verdict: VerdictKind, harmEarly: number | null): DrillResult {
  const faults = ids.map((id) => ({ part: id.split(".")[0], mode: id.split(".")[1] }));
  const minutes = { ...drills[0].minutes, harm_early: harmEarly };
  return { ...drills[0], id: `${ids.join("+")}@away`, circumstance: "away", faults, verdict, minutes };
}

it("a part that waits unseen fails nobody until something is harmed by it", () => {
  expect(failsIn(drill(["a.dead"], "unseen", null))).toBe(false);
  expect(failsIn(drill(["a.dead"], "unseen", 20))).toBe(true);
  expect(failsIn(drill(["a.dead"], "handed over", 20))).toBe(false);
});

it("a failing pair is marked only where neither of its faults fails alone", () => {
  const bad = drill(["a.dead", "b.stops"], "late", 30);
  const dead = drill(["a.dead"], "unseen", null);
  const mark = (...alone: readonly DrillResult[]) => pairsOf([...alone, bad])[0].only_together;
  expect(mark(dead, drill(["b.stops"], "handed over", 90))).toBe(true);
  expect(mark(dead, drill(["b.stops"], "late", 30))).toBe(false);
  expect(mark(drill(["a.dead"], "unseen", 900), drill(["b.stops"], "absorbed", null))).toBe(false);
  expect(mark(dead)).toBeNull();
});

it("the cells count every pair once, by verdict, and those left out beside them", () => {
  const pairs = pairsOf(drills);
  const cells = cellsOf(pairs, census);
  const sum = (of: (cell: (typeof cells)[number]) => number) => cells.reduce((total, cell) => total + of(cell), 0);
  expect(sum(({ counts }) => Object.values(counts).reduce((a, b) => a + b, 0))).toBe(pairs.length);
  expect(pairs).toHaveLength(census.planned);
  const summary = pairsSummary(pairs, census, cells, 1);
  expect(summary?.only_together).toBe(sum(({ only_together }) => only_together));
  expect(summary?.fails).toBe(sum(({ fails }) => fails));
  for (const { fails, only_together, left_out } of cells) {
    expect(only_together).toBeLessThanOrEqual(fails);
    expect(left_out.not_run).toBe(0);
  }
});

it("cells with pairs that fail only together stand first, then those that fail, and each shows its worst", () => {
  const cells = cellsOf(pairsOf(drills), census);
  const rank = cells.map(({ only_together, fails }) => (only_together > 0 ? 0 : fails > 0 ? 1 : 2));
  expect(rank).toEqual([...rank].sort((a, b) => a - b));
  expect(rank[0]).toBe(0);
  for (const cell of cells) if (cell.fails > 0) expect(["late", "unseen"]).toContain(cell.worst.verdict);
});

it("a rehearsal that was stopped says how many pairs of a cell were not run", () => {
  const some = pairsOf(drills).filter((_, i) => i % 3 === 0);
  const cells = cellsOf(some, census);
  const planned = new Map(census.cells.map((count) => [`${count.first} ${count.trigger}`, count.planned]));
  for (const cell of cells) {
    const run = Object.values(cell.counts).reduce((a, b) => a + b, 0);
    expect(run + cell.left_out.not_run).toBe(planned.get(`${cell.first} ${cell.trigger}`));
  }
});

it("the order of pairs does not hang on the order of the results", () => {
  const pairs = pairsOf(drills);
  const sorted = [...pairs].sort(byHarm);
  fc.assert(
    fc.property(fc.shuffledSubarray([...pairs], { minLength: pairs.length }), (shuffled) => {
      expect(shuffled.sort(byHarm)).toEqual(sorted);
    }),
    { numRuns: 5 },
  );
});
