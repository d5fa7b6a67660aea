import fc from "fast-check";
import { afterEach, expect, it } from "vitest";
import { clockOfDay, dayWords, wallClock } from "./clock.ts";
import { bare, difference, figure, measure } from "./format.ts";
import { mannerOf, setManner } from "./manner.ts";
import { shown, TURNED_UNITS } from "./units.ts";

const plain = (text: string): string => text.replace(/[\u00a0\u2009]/g, " ");
const as = (locale: string): void => setManner(mannerOf(locale));

afterEach(() => as("en-GB"));

it.each([
  ["en-GB", "metric"],
  ["en-US", "us"],
  ["es-PR", "us"],
  ["es-US", "us"],
  ["de-DE", "metric"],
  ["de", "metric"],
  ["en-AU", "metric"],
])("a browser in %s is first guessed to measure in %s units", (locale, units) => {
  expect(mannerOf(locale).units).toBe(units);
});

it.each([
  ["en-GB", "2 380.5", "−3.25"],
  ["en-US", "2,380.5", "−3.25"],
  ["de-DE", "2.380,5", "−3,25"],
  ["fr-FR", "2 380,5", "−3,25"],
  ["ar-EG", "2,380.5", "−3.25"],
])("numbers in %s are written %s and %s", (locale, large, negative) => {
  as(locale);
  expect(plain(figure(2380.5, 1))).toBe(large);
  expect(plain(figure(-3.25, 2))).toBe(negative);
});

it.each([
  ["en-GB", "Sat 15 Aug", "01:40"],
  ["en-US", "Sat Aug 15", "1:40 am"],
  ["de-DE", "Sat 15 Aug", "01:40"],
  ["en-AU", "Sat 15 Aug", "1:40 am"],
])("a drill that starts in the night is dated in %s as %s, %s", (locale, day, clock) => {
  as(locale);
  const start = wallClock("2026-08-15T01:40", 0);
  expect([plain(start.day), plain(start.clock)]).toEqual([day, clock]);
});

it("paper that is read another year names it, in the reader's order", () => {
  expect(dayWords("2026-11-25T23:30:00Z", "Europe/London")).toBe("Wed 25 Nov 2026");
  as("en-US");
  expect(dayWords("2026-11-25T23:30:00Z", "Europe/Berlin")).toBe("Thu Nov 26 2026");
});

it("noon and midnight are told apart on a clock of twelve hours", () => {
  as("en-US");
  expect([0, 719, 720, 1439].map((min) => plain(clockOfDay(min)))).toEqual([
    "12:00 am",
    "11:59 am",
    "12:00 pm",
    "11:59 pm",
  ]);
});

it.each([
  [25.43, "°C", 1, "77.8 °F"],
  [20, "°C", 0, "68 °F"],
  [620, "L", 0, "164 gal"],
  [60, "L", 0, "15.9 gal"],
  [2380, "L/h", 0, "629 gal/h"],
  [380, "g", 0, "13.4 oz"],
  [2, "g a day", 0, "0.07 oz a day"],
  [1.2, "m", 1, "3.9 ft"],
  [380, "m³", 0, "13,420 ft³"],
  [8.2, "dKH", 1, "8.2 dKH"],
  [300, "W", 0, "300 W"],
  [40, "mL a day", 0, "40 mL a day"],
])("%d %s with %d digits is %s in the United States", (value, unit, digits, words) => {
  as("en-US");
  expect(plain(measure(value, unit, digits))).toBe(words);
});

it("a difference in temperature has no zero point", () => {
  as("en-US");
  expect(plain(difference(1, "°C", 1))).toBe("1.8 °F");
  expect(plain(difference(-0.3, "°C", 2))).toBe("−0.54 °F");
});

const unit = fc.constantFrom(...TURNED_UNITS);
const value = fc.double({ min: -1000, max: 100_000, noNaN: true });

it("a value that is turned and turned back is the same", () => {
  as("en-US");
  fc.assert(
    fc.property(unit, value, (name, v) => {
      const { toShown, toEngine } = shown(name);
      expect(toEngine(toShown(v))).toBeCloseTo(v, 6);
    }),
  );
});

it("of two values the larger never looks smaller, whatever the units", () => {
  const near = fc.oneof(value, fc.double({ min: -10, max: 100, noNaN: true }));
  fc.assert(
    fc.property(fc.constantFrom("en-US", "de-DE"), unit, near, near, fc.integer({ min: 0, max: 2 }), (...given) => {
      const [locale, name, a, b, digits] = given;
      as(locale);
      const read = (v: number): number => {
        const text = bare(v, name, digits).replace("\u2212", "-");
        return Number(locale === "de-DE" ? text.replaceAll(".", "").replace(",", ".") : text.replaceAll(",", ""));
      };
      expect(read(Math.min(a, b))).toBeLessThanOrEqual(read(Math.max(a, b)));
    }),
    { numRuns: 500 },
  );
});

it("a digit shown is a digit kept: what is read back lies within half a step of the value", () => {
  as("en-US");
  fc.assert(
    fc.property(unit, fc.double({ min: 0, max: 5000, noNaN: true }), (name, v) => {
      const text = bare(v, name, 1).replaceAll(",", "");
      const step = 10 ** -(text.split(".")[1]?.length ?? 0);
      expect(Math.abs(Number(text.replace("\u2212", "-")) - shown(name).toShown(v))).toBeLessThanOrEqual(step * 0.51);
    }),
  );
});
