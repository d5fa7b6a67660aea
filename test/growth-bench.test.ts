/** The bench that says how the cost grows: its site, its fit, its plots and its page. What it measures is not held to any time. */
import { describe, expect, it } from "vitest";
import { type Curve, type Growth, inProportion, inWords, power, slope } from "../bench/growth/curve.ts";
import { draw, ticks } from "../bench/growth/draw.ts";
import { spread } from "../bench/growth/measure.ts";
import { withGrowth } from "../bench/growth/page.ts";
import { BODIES_A_SYSTEM, MOST_SYSTEMS, repeatedSite } from "../bench/growth/repeated-site.ts";
import { Stage } from "../src/drills/index.ts";

const made = { date: "2026-05-13", machine: "Abacus & <Sons>, 2 threads" };
const FROM = "<!-- growth: from here to the next mark `bench/growth.ts --write` writes -->";
const TO = "<!-- growth ends -->";

function curveOf(cost: (amount: number) => number): Curve {
  return { name: "a life", points: [1, 2, 5, 10].map((amount) => ({ amount, cost: cost(amount) })) };
}

function growthOf(...curves: Curve[]): Growth {
  return { file: "days", title: "Days", amounts: "days", costUnit: "s", costOf: "in all", runs: 3, curves };
}

describe("the site that is repeated", () => {
  it("passes the check in every size, with as many bodies as it says", () => {
    for (let systems = 1; systems <= MOST_SYSTEMS; systems++)
      expect(repeatedSite(systems).bodies.length).toBe(systems * BODIES_A_SYSTEM);
  });

  it("lives through every circumstance without harm", () => {
    const stage = new Stage(repeatedSite(2), 1);
    for (const circumstance of stage.model.site.circumstances)
      expect(stage.setting(circumstance, [0, 1]).normal.harm.early, circumstance.id).toBe(Number.POSITIVE_INFINITY);
  });
});

it("a sample of any length comes from all over the plan, and nothing in it twice", () => {
  const plan = Array.from({ length: 972 }, (_, place) => place);
  expect(spread(plan).toSorted((a, b) => a - b)).toEqual(plan);
  for (const length of [10, 50, 200]) {
    const sample = [0, ...spread(plan).slice(0, length), 972].toSorted((a, b) => a - b);
    const gaps = sample.slice(1).map((place, index) => place - sample[index]);
    expect(Math.max(...gaps)).toBeLessThan((3 * 972) / length);
  }
});

describe("how a cost grows", () => {
  it("finds the power and the price of each further piece again", () => {
    expect(power(curveOf((days) => 3 * days ** 1.5).points)).toBeCloseTo(1.5, 12);
    expect(slope(curveOf((days) => 7 + 3 * days).points)).toBeCloseTo(3, 12);
    expect(
      inProportion(
        curveOf((days) => days ** 2),
        5,
      ),
    ).toBe(50);
  });

  it("says in words whether it is in proportion", () => {
    const said = (curve: Curve) => inWords(growthOf(curve), curve);
    expect(said(curveOf((days) => 0.02 * days))).toBe(
      "A life costs 0.02 to 0.2 s in all for 1 to 10 days: it grows in proportion (with the power 1.00 of the days), by 20 ms for each.",
    );
    expect(said(curveOf((days) => days ** 2))).toBe(
      "A life costs 1 to 100 s in all for 1 to 10 days: it grows faster than in proportion, with the power 2.00 of the days " +
        "(2.00 between the two largest), and 10 times the days cost 100 times as much.",
    );
  });
});

describe("a plot", () => {
  it("has axes in round steps that reach the largest point", () => {
    expect(ticks(60)).toEqual([0, 20, 40, 60]);
    expect(ticks(5.53)).toEqual([0, 2, 4, 6]);
    expect(ticks(33.7)).toEqual([0, 10, 20, 30, 40]);
  });

  it("draws every point and one line of proportion a curve, in light and dark, with date and machine", () => {
    const growth = growthOf(
      curveOf((days) => days),
      curveOf((days) => 2 * days),
    );
    const picture = draw(growth, made);
    expect(picture.match(/<circle /g)?.length).toBe(4 + 1);
    expect(picture.match(/<rect class="c1"/g)?.length).toBe(4 + 1);
    expect(picture.match(/class="dashed/g)?.length).toBe(2);
    expect(picture).toContain("prefers-color-scheme:dark");
    expect(picture).toContain("2026-05-13");
    expect(picture).toContain("Abacus &amp; &lt;Sons>");
    expect(picture).not.toMatch(/NaN|undefined|Infinity/);
  });
});

it("renews the figures on the page and leaves the rest as it was", () => {
  const growth = growthOf(curveOf((days) => days));
  const page = withGrowth(`before\n\n${FROM}\nold\n${TO}\nafter\n`, [growth], made);
  expect(page.startsWith(`before\n\n${FROM}\n\nMeasured on 2026-05-13`)).toBe(true);
  expect(page.endsWith(`${TO}\nafter\n`)).toBe(true);
  expect(page).not.toContain("old");
  expect(page).toContain("(performance/days.svg)");
  expect(page).toContain(
    "| days | 1 | 2 | 5 | 10 |\n| --- | --- | --- | --- | --- |\n| a life, s in all | 1 | 2 | 5 | 10 |",
  );
  expect(withGrowth(page, [growth], made)).toBe(page);
  expect(() => withGrowth("no marks", [growth], made)).toThrow("needs");
});
