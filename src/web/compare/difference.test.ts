import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { resultsOf } from "../../../test/browser/fixtures/results.ts";
import { oneTank } from "../../../test/browser/fixtures/sites.ts";
import type { DrillResult, VerdictKind } from "../../server/contract/index.ts";
import { tally, VERDICTS } from "../board/order.ts";
import { byPart, differenceOf, fitting, flowOf, partsIn } from "./difference.ts";

const model = resultsOf(oneTank())[0];
const drill = (id: string, verdict: VerdictKind, margin: number | null = null): DrillResult => ({
  ...model,
  id,
  faults: [{ part: id.split(".")[0], mode: "stops" }],
  verdict,
  margin_min: margin,
});
const verdict = fc.constantFrom(...VERDICTS);
/** Two rehearsals that share some drills. */
const twoSides = fc
  .uniqueArray(fc.record({ n: fc.nat(60), before: fc.option(verdict), after: fc.option(verdict) }), {
    selector: ({ n }) => n,
  })
  .map((entries) => ({
    before: entries.flatMap(({ n, before }) => (before === null ? [] : [drill(`p${n}.stops@day`, before)])),
    after: entries.flatMap(({ n, after }) => (after === null ? [] : [drill(`p${n}.stops@day`, after)])),
  }));

describe("the flow of verdicts", () => {
  it("counts every drill that both have once, and rows and columns add up to their tallies", () => {
    fc.assert(
      fc.property(twoSides, ({ before, after }) => {
        const ids = new Set(after.map(({ id }) => id));
        const common = before.filter(({ id }) => ids.has(id));
        const known = new Set(common.map(({ id }) => id));
        const { verdicts, counts } = flowOf(before, after);
        const was = tally(common);
        const is = tally(after.filter(({ id }) => known.has(id)));
        for (const [i, kind] of verdicts.entries()) {
          expect(counts[i].reduce((sum, count) => sum + count, 0)).toBe(was.get(kind) ?? 0);
          expect(counts.reduce((sum, row) => sum + row[i], 0)).toBe(is.get(kind) ?? 0);
        }
        expect(counts.flat().reduce((sum, count) => sum + count, 0)).toBe(common.length);
      }),
    );
  });

  it("has what moved right of the stair better and what moved left of it worse", () => {
    fc.assert(
      fc.property(twoSides, ({ before, after }) => {
        const { flow, better, worse } = differenceOf(before, after, true);
        const simulated = flow.verdicts.filter((kind) => kind !== "not simulated").length;
        let right = 0;
        let left = 0;
        for (let i = 0; i < simulated; i++)
          for (let j = 0; j < simulated; j++) {
            if (j > i) right += flow.counts[i][j];
            if (j < i) left += flow.counts[i][j];
          }
        expect([better.length, worse.length]).toEqual([right, left]);
      }),
    );
  });

  it("has a place for what was not simulated only where there is some", () => {
    expect(flowOf([drill("a.x@day", "late")], [drill("a.x@day", "handled")]).verdicts).toHaveLength(5);
    expect(flowOf([drill("a.x@day", "late")], [drill("a.x@day", "not simulated")]).verdicts).toHaveLength(6);
  });
});

describe("the difference of two rehearsals", () => {
  it("tells every drill once: better, worse, neither, another margin, new, gone or the same", () => {
    fc.assert(
      fc.property(twoSides, ({ before, after }) => {
        const { better, worse, neither, margins, come, gone, common } = differenceOf(before, after, true);
        const moved = [...better, ...worse, ...neither, ...margins].map((move) => move.after.id);
        const told = [...moved, ...come.map(({ id }) => id), ...gone.map(({ id }) => id)];
        expect(new Set(told).size).toBe(told.length);
        expect(common + come.length).toBe(after.length);
        expect(common + gone.length).toBe(before.length);
      }),
    );
  });

  it("puts what is worst now first among the worse, and what was worst before first among the better", () => {
    const before = [drill("a.x@day", "handled"), drill("b.x@day", "handled"), drill("c.x@day", "handed over", 5)];
    const after = [drill("a.x@day", "handed over", 60), drill("b.x@day", "unseen"), drill("c.x@day", "absorbed")];
    const { worse, better } = differenceOf(before, after, true);
    expect(worse.map((move) => move.after.id)).toEqual(["b.x@day", "a.x@day"]);
    expect(better.map((move) => move.after.id)).toEqual(["c.x@day"]);
  });

  it("takes no drill for gone while the other side is still being tried", () => {
    const before = [drill("a.x@day", "late"), drill("b.x@day", "late")];
    const after = [drill("a.x@day", "late")];
    expect(differenceOf(before, after, false).gone).toEqual([]);
    expect(differenceOf(before, after, true).gone).toHaveLength(1);
  });

  it("calls it neither better nor worse where one side could not be simulated", () => {
    const { better, worse, neither } = differenceOf(
      [drill("a.x@day", "late")],
      [drill("a.x@day", "not simulated")],
      true,
    );
    expect([better.length, worse.length, neither.length]).toEqual([0, 0, 1]);
  });
});

describe("the list of moves", () => {
  const { better, margins } = differenceOf(
    [drill("a.x@day", "late"), drill("b.x@day", "late"), drill("a.y@day", "late"), drill("c.x@day", "handled", 9)],
    [
      drill("a.x@day", "handled"),
      drill("b.x@day", "handled"),
      drill("a.y@day", "handled"),
      drill("c.x@day", "handled", 4),
    ],
    true,
  );
  it("stands together by part, in the order of the first of each", () => {
    expect(byPart(better).map(({ part, moves }) => [part, moves.length])).toEqual([
      ["a", 2],
      ["b", 1],
    ]);
  });
  it("keeps the way and the part that were chosen", () => {
    expect(partsIn([...better, ...margins])).toEqual(["a", "b", "c"]);
    expect(fitting(better, { way: "worse", part: null })).toEqual([]);
    expect(fitting(margins, { way: "worse", part: null })).toHaveLength(1);
    expect(fitting(better, { way: "all", part: "a" })).toHaveLength(2);
  });
});
