import fc from "fast-check";
import { expect, it } from "vitest";
import { asSentence, digitsFor, figure, joinUnits, measure, signedSpan, span, workTime } from "./format.ts";

/** As read: no-break and thin spaces as spaces. */
const plain = (text: string): string => text.replace(/[\u00a0\u2009]/g, " ");

it.each([
  [0, "0 min"],
  [0.2, "12 s"],
  [0.999, "1 min"],
  [38, "38 min"],
  [59.6, "1 h"],
  [65, "1 h 05 min"],
  [275, "4 h 35 min"],
  [1439.7, "1 d"],
  [5400, "3 d 18 h"],
  [2879, "2 d"],
  [20_160, "14 d"],
])("span() of %d minutes is %s", (minutes, words) => {
  expect(plain(span(minutes))).toBe(words);
});

it("span() never says sixty minutes, twenty-four hours or more than two parts", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 40_000, noNaN: true }), (minutes) => {
      const words = plain(span(minutes));
      expect(words).not.toMatch(/\b60 (s|min)\b|\b24 h\b/);
      expect(words.match(/\d+/g)?.length).toBeLessThanOrEqual(2);
    }),
  );
});

it("signedSpan() writes a sign, a space and no hyphen", () => {
  expect(signedSpan(275)).toBe("+\u00a04\u00a0h\u00a035\u00a0min");
  expect(signedSpan(-38)).toBe("\u2212\u00a038\u00a0min");
});

it.each([
  [2380, 0, "2\u2009380"],
  [1_234_567.891, 1, "1\u2009234\u2009567.9"],
  [-0.04, 1, "0.0"],
  [-3.25, 2, "\u22123.25"],
  [999, 0, "999"],
])("figure() of %d with %d digits is %j", (value, digits, words) => {
  expect(figure(value, digits)).toBe(words);
});

it("measure() keeps a figure and its unit on one line, and leaves out a unit that is none", () => {
  expect(measure(25.43, "°C", 1)).toBe("25.4\u00a0°C");
  expect(measure(8.151, "", 2)).toBe("8.15");
});

it.each([
  [5, 0],
  [1, 0],
  [0.5, 1],
  [0.2, 1],
  [0.05, 2],
])("digitsFor() grid lines %d apart is %d", (step, digits) => {
  expect(digitsFor(step)).toBe(digits);
});

it("asSentence() begins with a large letter and ends once", () => {
  expect(asSentence("deputy reads it")).toBe("Deputy reads it.");
  expect(asSentence(" Is it read?")).toBe("Is it read?");
  expect(asSentence("")).toBe("");
});

it("joinUnits() leaves no line end between a figure and its unit, and words alone", () => {
  expect(joinUnits("after 4 h 47 min, 25.5 °C and 3 hubs")).toBe(
    "after 4\u00a0h\u00a047\u00a0min, 25.5\u00a0°C and 3 hubs",
  );
});

it("workTime() counts seconds up to two minutes", () => {
  expect(plain(workTime(93.9))).toBe("94 s");
  expect(plain(workTime(0.2))).toBe("1 s");
  expect(plain(workTime(200))).toBe("3 min");
});
