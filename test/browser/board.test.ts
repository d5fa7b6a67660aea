import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { reportOf } from "./fixtures/results.ts";
import { school } from "./fixtures/sites.ts";
import { eventually, ON_PHONE, type Stage, setStage } from "./fixtures/stage.ts";

const site = school();
const report = reportOf(site);
const VERDICTS = ["unseen", "late", "handed over", "handled", "absorbed"] as const;

let stage: Stage;
let page: Page;

beforeAll(async () => {
  stage = await setStage();
});
afterEach(() =>
  page
    .context()
    .close()
    .catch(() => undefined),
);
afterAll(() => stage.strike());

const rows = () => page.locator("a.row");
const tallied = (verdict: string) => page.getByRole("button", { name: new RegExp(`^[\\d\\s]+ ${verdict}$`) });

it("the page opens with one sentence about what to fix first, and the drill it speaks of is marked", async () => {
  page = await stage.open("/");
  const sentence = await page.locator("h1").textContent();
  expect(sentence).toMatch(/nobody is told before harm/);
  await eventually(() => page.locator('a.row[aria-current="true"]').count()).toBe(1);
  expect(await page.locator('a.row[aria-current="true"]').getAttribute("aria-label")).toContain("unseen, nobody told");
});

it("the tally counts every verdict among all drills, and pressing one shows only its rows", async () => {
  page = await stage.open("/");
  for (const verdict of VERDICTS) {
    await eventually(() => tallied(verdict).textContent()).toContain(String(report.summary[verdict]));
    await tallied(verdict).click();
    const shown = await rows().locator(".v").allTextContents();
    expect(shown.length, verdict).toBeGreaterThan(0);
    expect(new Set(shown.map((text) => text.trim())), verdict).toEqual(new Set([verdict]));
    await tallied(verdict).click();
  }
  expect(new Set(await rows().locator(".v").allTextContents()).size).toBe(VERDICTS.length);
});

it("what was not simulated is told at the foot and can be shown", async () => {
  page = await stage.open("/");
  await page.getByRole("button", { name: /not simulated/ }).click();
  expect(new Set(await rows().locator(".v").allTextContents())).toEqual(new Set(["not simulated"]));
  expect(await rows().locator(".m").first().textContent()).toBe("not tried");
});

it("a system, a grouping and a search leave their rows, and stand in the address", async () => {
  page = await stage.open("/");
  await page.getByRole("button", { name: "Lagoon" }).click();
  await page.getByRole("combobox", { name: "Group by" }).selectOption("circumstance");
  await page.getByRole("searchbox").fill("heater");
  await eventually(() => page.locator("h2.grp").count()).toBe(site.circumstances.length);
  for (const label of await rows().evaluateAll((links) => links.map((link) => link.getAttribute("aria-label") ?? ""))) {
    expect(label).toContain("Lagoon");
    expect(label.toLowerCase()).toContain("heater");
  }
  expect(page.url()).toContain("system=lagoon");
  await page.reload();
  await eventually(() => page.locator("h2.grp").count()).toBe(site.circumstances.length);
  expect(await page.getByRole("searchbox").inputValue()).toBe("heater");
});

it("a search that finds nothing says so and leads back", async () => {
  page = await stage.open("/?find=nothing-like-it");
  await page.getByRole("button", { name: "Show all drills" }).click();
  await eventually(() => rows().count()).toBeGreaterThan(0);
});

it("more than sixty rows are folded, and unfold", async () => {
  page = await stage.open("/");
  await eventually(() => rows().count()).toBeGreaterThan(20);
  expect(await rows().count()).toBeLessThanOrEqual(60);
  await page.getByRole("button", { name: /^Show the/ }).click();
  await eventually(() => rows().count()).toBeGreaterThan(100);
});

it("a row says all that its picture shows", async () => {
  page = await stage.open("/?verdict=handed+over");
  const label = await rows().first().getAttribute("aria-label");
  expect(label).toMatch(/^.+, .+, (day|night|away): handed over, margin plus\s.+(min|h|d|s)$/);
});

it("arrow keys walk the rows, Enter opens one, and the way back leads to it", async () => {
  page = await stage.open("/");
  await rows().first().focus();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowDown");
  const label = await page.evaluate(() => document.activeElement?.getAttribute("aria-label"));
  expect(label).toBe(await rows().nth(2).getAttribute("aria-label"));
  await page.keyboard.press("Enter");
  await eventually(() => page.url()).toContain("/drill?id=");
  await page.goBack();
  await eventually(() => page.locator('a.row[aria-current="true"]').getAttribute("aria-label")).toBe(label);
});

it("the order, the circumstance, the part and the kind of fault can be chosen, and stand in the address", async () => {
  page = await stage.open("/");
  await page.getByRole("combobox", { name: "Order" }).selectOption("harm");
  await eventually(() => page.url()).toContain("order=harm");
  const harms = (await resultsInOrder()).map((id) => harmOf.get(id) ?? Number.MAX_VALUE);
  expect(harms).toEqual([...harms].sort((a, b) => a - b));
  await page.getByRole("combobox", { name: "Circumstance" }).selectOption("night");
  await page.getByRole("combobox", { name: "Part", exact: true }).selectOption("heater-2");
  await page.getByRole("combobox", { name: "Kind of fault" }).selectOption("Heater stops heating");
  await eventually(() => rows().count()).toBe(1);
  await page.reload();
  await eventually(() => rows().count()).toBe(1);
  expect(await rows().first().getAttribute("aria-label")).toMatch(/^Heater stops heating, heater-2, Lagoon, night/);
});

const harmOf = new Map(report.drills.map(({ id, minutes }) => [id, minutes.harm_early]));
const resultsInOrder = () =>
  page.locator("li[data-id]").evaluateAll((items) => items.map((item) => item.getAttribute("data-id") ?? ""));

it("the way back from a drill leads to the same rows, unfolded and chosen as they were, and to its own", async () => {
  page = await stage.open("/?system=lagoon&group=kind");
  await page.getByRole("button", { name: /^Show the/ }).click();
  await eventually(() => rows().count()).toBeGreaterThan(100);
  const count = await rows().count();
  const far = rows().nth(90);
  const label = await far.getAttribute("aria-label");
  await far.click();
  await page.locator(".crumb").getByRole("link", { name: "Drills" }).click();
  await eventually(() => rows().count()).toBe(count);
  expect(page.url()).toContain("system=lagoon&group=kind");
  const focused = await page.evaluate(() => {
    const box = document.activeElement?.getBoundingClientRect();
    return {
      label: document.activeElement?.getAttribute("aria-label"),
      inView: box !== undefined && box.top >= 0 && box.bottom <= innerHeight,
    };
  });
  expect(focused).toEqual({ label, inView: true });
});

it("one drill leads to the next of the rows that it was opened from", async () => {
  page = await stage.open("/?verdict=late");
  await rows().first().waitFor();
  const [first, second] = await resultsInOrder();
  await rows().first().click();
  await eventually(() => new URL(page.url()).searchParams.get("id")).toBe(first);
  await page.getByRole("link", { name: "Next" }).click();
  await eventually(() => new URL(page.url()).searchParams.get("id")).toBe(second);
  await page.getByRole("link", { name: "Previous" }).click();
  await eventually(() => new URL(page.url()).searchParams.get("id")).toBe(first);
});

it("left and right lead from group to group, and the slash to the search", async () => {
  page = await stage.open("/?group=verdict");
  await rows().first().focus();
  await page.keyboard.press("ArrowRight");
  const second = await page.locator("h2.grp + ul").nth(1).locator("a.row").first().getAttribute("aria-label");
  expect(await page.evaluate(() => document.activeElement?.getAttribute("aria-label"))).toBe(second);
  await page.keyboard.press("ArrowLeft");
  expect(await page.evaluate(() => document.activeElement?.getAttribute("aria-label"))).toBe(
    await rows().first().getAttribute("aria-label"),
  );
  await page.keyboard.press("/");
  await page.keyboard.type("heater");
  await eventually(() => page.url()).toContain("find=heater");
});

it("the tab key reaches, in reading order, the skip link, the views, the tally, the filters and the rows", async () => {
  page = await stage.open("/");
  await rows().first().waitFor();
  const reached: string[] = [];
  for (let i = 0; i < 60 && !reached.includes("row"); i++) {
    await page.keyboard.press("Tab");
    const what = await page.evaluate(() => {
      const stops = ["skip", "theme", "tally", "filters", "find", "row", "head"];
      return stops.find((stop) => document.activeElement?.closest(`.${stop}`) !== null) ?? "other";
    });
    if (reached[reached.length - 1] !== what) reached.push(what);
  }
  const order = ["skip", "head", "theme", "tally", "filters", "find", "row"];
  expect(reached.filter((what) => order.includes(what))).toEqual(order);
});

it("the findings stand under what to do about them, each with its drill", async () => {
  page = await stage.open("/");
  await page.getByRole("link", { name: /^All .* findings$/ }).click();
  await eventually(() => page.locator("h1").textContent()).toMatch(/^Do this first: /);
  await page.locator("ol.steps > li summary").first().click();
  await page.locator("ol.steps .aims a").first().click();
  await eventually(() => page.url()).toContain("/drill?id=");
});

it("a phone shows the same rows in three lines, with lists in place of words", async () => {
  page = await stage.open("/", ON_PHONE);
  await rows().first().waitFor();
  const box = await rows().first().boundingBox();
  expect(box?.height).toBeGreaterThanOrEqual(88);
  await page.getByRole("combobox", { name: "Group by" }).selectOption("system");
  await eventually(() => page.locator("h2.grp").count()).toBeGreaterThan(1);
  await page.getByRole("combobox", { name: "System" }).selectOption("lagoon");
  await eventually(() => page.locator("h2.grp").count()).toBe(1);
});

it("harm that needs no fault is said before all faults", async () => {
  const kitchen = await setStage({ word: "one" });
  page = await kitchen.open("/");
  await eventually(() => page.locator("h1").textContent()).toMatch(
    /^In plain life top-off-tank-1|^In plain life top off tank 1/,
  );
  await page.getByRole("link", { name: /findings?$/ }).click();
  await eventually(() => page.locator("ol.findings > li").first().textContent()).toContain("without any fault");
  await page.context().close();
  await kitchen.strike();
});
