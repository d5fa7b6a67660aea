/** Two versions of a real site side by side, rehearsed by the true engine. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it, vi } from "vitest";
import type { RehearsalAnswer, RehearsalReport } from "../../src/server/contract/index.ts";
import { expectAccessible } from "./fixtures/axe.ts";
import { realEngine, SHED, SHED_WATCHED } from "./fixtures/real.ts";
import { ON_PHONE, type Stage, setStage } from "./fixtures/stage.ts";

const OTHER = "/compare?with=shed-watched.yaml";
const PATIENCE = { timeout: 100_000 };

let stage: Stage;
let page: Page;
let open: RehearsalReport;

beforeAll(async () => {
  stage = await setStage({
    engine: realEngine,
    files: {
      "shed.yaml": SHED,
      "shed-watched.yaml": SHED_WATCHED,
      "torn.yaml": "site: [",
      "elsewhere.yaml": SHED.replace("  day:", "  noon:"),
    },
  });
  const ask = async () =>
    ((await (await fetch(`${stage.server.address}/api/rehearsal`)).json()) as RehearsalAnswer).report;
  open = await vi.waitUntil(ask, { ...PATIENCE, interval: 300 });
  page = await stage.open(OTHER);
  await page.locator("table.counts").waitFor(PATIENCE);
});
afterAll(() => stage.strike());

const pairs = () => page.locator("li.pair");
const numbers = (texts: readonly string[]) => texts.map((text) => Number(text.trim() || "0"));

it("one sentence says what is better, what is worse and how many of the unseen are left", async () => {
  expect(await page.locator("h1").textContent()).toMatch(
    /^\d+ verdicts are better, none is worse; \d+ of the 15 unseen are left\.$|^\d+ verdicts are better, none is worse; none of the unseen is left\.$/,
  );
});

it("the flow of verdicts adds up to the tallies of both sides, and the table says the same", async () => {
  const rows = page.locator(".flow tbody tr");
  const counts = page.locator("table.counts tbody tr");
  let all = 0;
  for (let i = 0; i < (await rows.count()); i++) {
    const from = numbers(await rows.nth(i).locator("td").allTextContents()).reduce((sum, count) => sum + count, 0);
    expect(from).toBe(numbers(await counts.nth(i).locator("td").allTextContents())[0]);
    all += from;
  }
  expect(all).toBe(open.drills.length);
});

it("each drill that moved has its row before above its row after, and leads to its timeline", async () => {
  expect(await pairs().count()).toBeGreaterThan(2);
  const boxes = await pairs()
    .first()
    .locator(".plot svg")
    .evaluateAll((pictures) => pictures.map((picture) => picture.getBoundingClientRect().toJSON() as DOMRect));
  expect(boxes).toHaveLength(2);
  expect(boxes[0].left).toBe(boxes[1].left);
  expect(boxes[0].width).toBe(boxes[1].width);
  expect(boxes[0].bottom).toBeLessThanOrEqual(boxes[1].top);
  const link = pairs().first().getByRole("link");
  expect(await link.getAttribute("aria-label")).toMatch(/^Timeline of .+, before: unseen, nobody told$/);
  await link.focus();
  await page.keyboard.press("Enter");
  await expect.poll(() => page.url()).toContain("/drill?id=");
  await page.goBack();
  await page.locator("table.counts").waitFor(PATIENCE);
});

it("worse and better are both told, and the choice of one leaves only its rows", async () => {
  await expect.poll(() => page.getByRole("heading", { name: /worse$/ }).count()).toBe(1);
  await expect.poll(() => page.getByRole("heading", { name: /better$/ }).count()).toBe(1);
  const count = await pairs().count();
  await page.getByRole("button", { name: "worse", exact: true }).click();
  await expect.poll(() => pairs().count()).toBe(0);
  expect(page.url()).toContain("show=worse");
  await page.getByRole("button", { name: "Show all" }).click();
  await expect.poll(() => pairs().count()).toBe(count);
  await page.getByRole("combobox", { name: "Part" }).selectOption("hub");
  await expect.poll(() => page.locator("h3.grp").allTextContents()).toEqual([expect.stringMatching(/^hub/)]);
  await page.getByRole("combobox", { name: "Part" }).selectOption("");
});

it("the same stands in a table for those who do not see the picture", async () => {
  await page.getByText("Show as table").click();
  const rows = page.locator(".moves-table tbody tr");
  expect(await rows.count()).toBeGreaterThanOrEqual(await pairs().count());
  expect(await rows.first().textContent()).toMatch(/better/);
  await expectAccessible(page);
});

it("a phone has the same in its own order, and nothing runs off it", async () => {
  const phone = await stage.open(OTHER, ON_PHONE);
  await phone.locator("li.pair").first().waitFor(PATIENCE);
  await phone.locator("table.counts").waitFor(PATIENCE);
  await expectAccessible(phone);
  await phone.setViewportSize({ width: 320, height: 640 });
  expect(await phone.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  await phone.context().close();
});

it("a file that can not be read says where, and one that shares no drill says so", async () => {
  await page.goto(`${stage.server.address}/compare?with=torn.yaml`);
  expect(await page.getByRole("alert").textContent()).toContain("torn.yaml can’t be read.");
  expect(await page.locator("h1").textContent()).toBe("There is nothing to compare with.");
  await page.getByRole("combobox", { name: "Compare" }).selectOption("elsewhere.yaml");
  await expect.poll(() => page.locator("h1").textContent(), PATIENCE).toMatch(/no drill in common/);
});

it("what is not there is told with what it would take", async () => {
  await page.goto(`${stage.server.address}/compare?with=draft`);
  await expect.poll(() => page.locator("h1").textContent()).toBe("Nothing is changed that is not kept.");
  await page.goto(`${stage.server.address}/compare?with=before`);
  await expect.poll(() => page.locator("h1").textContent()).toBe("No version before this one is known to this page.");
  await page.goto(`${stage.server.address}/compare?with=nowhere.yaml`);
  await expect.poll(() => page.locator("h1").textContent()).toMatch(/no site file called nowhere\.yaml/);
  await page.goto(`${stage.server.address}/`);
  await page.getByRole("link", { name: "Compare two versions" }).click();
  await expect.poll(() => page.locator("h1").textContent()).toBe("Choose two versions to lay side by side.");
});

it("no page threw an error or broke the content policy", () => {
  expect(stage.complaints).toEqual([]);
});
