/** The parts of the draft that need no browser: its steps, what a change moves, and how two texts differ. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { resultsOf } from "../../../test/browser/fixtures/results.ts";
import { school } from "../../../test/browser/fixtures/sites.ts";
import { begun, extended, type History, moved, stepsSince, textOf } from "./history.ts";
import { lineDifference } from "./line-difference.ts";
import { movesOf } from "./moved.ts";

const step = (text: string) => ({ label: text, edits: [], text });
const walked = (texts: readonly string[]): History =>
  texts.reduce((history, text) => extended(history, step(text)), begun("file", "found"));

describe("steps", () => {
  it("are walked back and forth, and a new one takes the place of those that were undone", () => {
    const two = walked(["a", "b"]);
    const back = moved(two, -1);
    expect(textOf(back)).toBe("a");
    expect(textOf(moved(back, 1))).toBe("b");
    const other = extended(back, step("c"));
    expect(other.steps.map(({ text }) => text)).toEqual(["file", "a", "c"]);
    expect(textOf(moved(other, 1))).toBe("c");
  });

  it("before the first and after the last there is nothing", () => {
    expect(textOf(moved(begun("file", "found"), -1))).toBe("file");
    expect(textOf(moved(begun("file", "found"), 1))).toBe("file");
  });

  it("since the file are those after it, and none are known where the file was walked back from", () => {
    const history = walked(["a", "b"]);
    expect(stepsSince(history, "file")?.map(({ text }) => text)).toEqual(["a", "b"]);
    expect(stepsSince(history, "a")?.map(({ text }) => text)).toEqual(["b"]);
    expect(stepsSince(moved(history, -1), "b")).toBeNull();
  });

  it("are kept to so many, and the one that stands is always among them", () => {
    const long = walked(Array.from({ length: 300 }, (_, i) => `text ${i}`));
    expect(long.steps.length).toBe(100);
    expect(textOf(long)).toBe("text 299");
    const huge = extended(begun("x", "found"), step("y".repeat(5_000_000)));
    expect(textOf(huge).length).toBe(5_000_000);
  });
});

describe("what a change moves", () => {
  const before = resultsOf(school());

  it("is nothing where nothing changed", () => {
    const moves = movesOf(before, before, true);
    expect(moves).toMatchObject({ verdicts: [], margins: [], come: [], gone: [], same: before.length });
  });

  it("tells better from worse, the longest way first, and what came and went", () => {
    const [first, second, third, ...rest] = before;
    const after = [
      { ...first, verdict: "absorbed" as const },
      { ...second, verdict: "unseen" as const },
      { ...third, id: "new.part@day" },
      ...rest,
    ];
    const start = [{ ...first, verdict: "late" as const }, { ...second, verdict: "late" as const }, third, ...rest];
    const moves = movesOf(start, after, true);
    expect(moves.verdicts.map(({ after: { id }, better }) => [id, better])).toEqual([
      [first.id, true],
      [second.id, false],
    ]);
    expect(moves.come.map(({ id }) => id)).toEqual(["new.part@day"]);
    expect(moves.gone.map(({ id }) => id)).toEqual([third.id]);
  });

  it("counts no drill as gone while the trial is at work", () => {
    expect(movesOf(before, before.slice(0, 3), false).gone).toEqual([]);
  });

  it("and its way back mirror each other", () => {
    const turned = before.map((drill, i) => (i % 3 === 0 ? { ...drill, verdict: "handled" as const } : drill));
    const there = movesOf(before, turned, true);
    const back = movesOf(turned, before, true);
    expect(back.verdicts.length).toBe(there.verdicts.length);
    const betterThere = there.verdicts.filter(({ better }) => better).map(({ after }) => after.id);
    const worseBack = back.verdicts.filter(({ better }) => !better).map(({ after }) => after.id);
    // Steps of equal rank are neither better nor worse, so only those that really improved must have worsened.
    for (const id of betterThere) expect(worseBack).toContain(id);
  });
});

describe("the difference of two texts", () => {
  const lines = fc.array(fc.constantFrom("a", "b", "c", "d"), { maxLength: 30 }).map((all) => all.join("\n"));

  it("holds every line of both that they do not share, in their order", () => {
    fc.assert(
      fc.property(lines, lines, (a, b) => {
        const shown = lineDifference(a, b);
        const count = (where: string) =>
          shown.filter((line) => line.where === where).reduce((sum, line) => sum + line.count, 0);
        const alike = count("same") + count("skipped");
        expect(alike + count("a")).toBe(a.split("\n").length);
        expect(alike + count("b")).toBe(b.split("\n").length);
      }),
    );
  });

  it("of a text with itself is only what they share", () => {
    expect(lineDifference("x\ny\nz", "x\ny\nz")).toEqual([{ where: "skipped", text: "", count: 3 }]);
  });

  it("shows a line around what differs", () => {
    expect(lineDifference("1\n2\n3\n4\n5", "1\n2\nthree\n4\n5").map(({ where, text }) => `${where} ${text}`)).toEqual([
      "skipped ",
      "same 2",
      "a 3",
      "b three",
      "same 4",
      "skipped ",
    ]);
  });
});
