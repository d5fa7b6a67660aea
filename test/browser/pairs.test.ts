import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { eventually, ON_PHONE, type Stage, setStage } from "./fixtures/stage.ts";

let stage: Stage;
let page: Page;

beforeAll(async () => {
  stage = await setStage();
});
afterEach(() => page.context().close());
afterAll(() => stage.strike());

const fields = () => page.getByRole("gridcell");
const focused = () => page.evaluate(() => document.activeElement?.getAttribute("aria-label") ?? "");

it("before the pairs are rehearsed the page says what they are, and rehearses them when asked", async () => {
  page = await stage.open("/");
  await page.getByRole("link", { name: "Pairs of faults" }).click();
  await eventually(() => page.locator("h1").textContent()).toBe("No pair of faults has been tried.");
  stage.setPace({ batch: 30, pauseMs: 60 });
  await page.getByRole("button", { name: "Rehearse the pairs" }).click();
  await page.getByRole("progressbar", { name: "rehearsal of pairs" }).waitFor();
  stage.setPace({ batch: Number.POSITIVE_INFINITY, pauseMs: 0 });
  await eventually(() => page.locator("h1").textContent()).toMatch(
    /^Look at .+ first: \d+ of the [\d\s]+ pairs that come to harm only together begin with it, unseen\.$/,
  );
  expect(await page.locator(".foot").textContent()).toMatch(/left out, since neither of the two waits unseen/);
});

it("only parts with a pair that harms only together are shown at first, all that were tried when asked", async () => {
  page = await stage.open("/pairs");
  await fields().first().waitFor();
  const few = await fields().count();
  expect(await page.locator('[role=gridcell][aria-label*="though neither fault does alone"]').count()).toBeGreaterThan(
    0,
  );
  await page.getByRole("button", { name: "all that were tried" }).click();
  await eventually(() => fields().count()).toBeGreaterThan(few);
  expect(page.url()).toContain("show=all");
});

it("one field is in the way of the tab key, arrow keys walk the grid, Enter opens a field and its pairs lead to their timelines", async () => {
  page = await stage.open("/pairs");
  await fields().first().waitFor();
  expect(await page.locator('[role=gridcell][tabindex="0"]').count()).toBe(1);
  await fields().first().focus();
  const first = await focused();
  await page.keyboard.press("ArrowRight");
  const right = await focused();
  expect(right).not.toBe(first);
  await page.keyboard.press("ArrowDown");
  expect(await focused()).not.toBe(right);
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("Home");
  expect(await focused()).toBe(first);
  expect(await page.locator(".told").textContent()).toContain(first.split(": ")[1].slice(0, 30));
  await page.locator('[role=gridcell][aria-label*="though neither fault does alone"]').first().focus();
  const opened = (await focused()).split(":")[0];
  await page.keyboard.press("Enter");
  const list = page.locator("#pair-list-head");
  await eventually(() => list.textContent()).toBe(opened);
  expect(await page.evaluate(() => document.activeElement?.id)).toBe("pair-list-head");
  await page.locator(".pair-list li a").first().click();
  await eventually(() => page.url()).toContain("/drill?id=");
  await page.locator("svg.lanes").first().waitFor();
  await page.locator(".crumb").getByRole("link", { name: "Pairs of faults" }).click();
  await eventually(() => list.textContent()).toBe(opened);
});

it("the fields stand in a table as numbers as well", async () => {
  page = await stage.open("/pairs");
  await page.getByText("Show as table").click();
  await eventually(() => page.locator(".table tbody tr").count()).toBeGreaterThan(0);
  expect(await page.locator(".table thead").textContent()).toContain("harm only together");
});

it("on a phone a list of the worst stands in place of the matrix", async () => {
  page = await stage.open("/pairs", ON_PHONE);
  const worst = page.locator(".pair-cells button");
  await worst.first().waitFor();
  expect(await fields().count()).toBe(0);
  const name = await worst.first().locator("b").textContent();
  await worst.first().click();
  await eventually(() => page.locator("#pair-list-head").textContent()).toBe(name);
});

it("what was rehearsed is forgotten when the site changes", async () => {
  page = await stage.open("/pairs");
  await fields().first().waitFor();
  stage.write("one");
  await eventually(() => page.locator("h1").textContent()).toBe("No pair of faults has been tried.");
});
