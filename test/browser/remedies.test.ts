/** Findings and what to do about them, with a real file and the true engine: what is previewed is what is got. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it, vi } from "vitest";
import type { RehearsalAnswer, RehearsalReport, TrialAnswer } from "../../src/server/contract/index.ts";
import { expectAccessible } from "./fixtures/axe.ts";
import { realEngine, SHED } from "./fixtures/real.ts";
import { PHONE, type Stage, setStage, WIDE } from "./fixtures/stage.ts";

const WATCH = /A watch outside the house/;
/** A rehearsal of the shed takes some seconds, on a busy machine many. */
const MOST_TRIALS = 30;
const PATIENCE = { timeout: 100_000 };

let stage: Stage;
let page: Page;

beforeAll(async () => {
  stage = await setStage({ files: { "shed.yaml": SHED }, engine: realEngine });
  await vi.waitUntil(report, { ...PATIENCE, interval: 300 });
  page = await stage.open("/findings");
  await step(WATCH).waitFor(PATIENCE);
});
afterAll(() => stage.strike());

async function report(): Promise<RehearsalReport | null> {
  const answer = (await (await fetch(`${stage.server.address}/api/rehearsal`)).json()) as RehearsalAnswer;
  return answer.state === "done" ? answer.report : null;
}

/** The report of the last change that was tried. */
async function lastTrial(): Promise<RehearsalReport | null> {
  let last: RehearsalReport | null = null;
  for (let id = 1; id <= MOST_TRIALS; id++) {
    const answer = await fetch(`${stage.server.address}/api/trials/${id}`);
    if (answer.ok) last = ((await answer.json()) as TrialAnswer).report ?? last;
  }
  return last;
}

const step = (title: RegExp) =>
  page.locator("ol.steps > li").filter({ has: page.getByRole("heading", { name: title }) });
const verdictsOf = (drills: RehearsalReport["drills"] | undefined) =>
  Object.fromEntries((drills ?? []).map(({ id, verdict, margin_min }) => [id, [verdict, margin_min]]));
const inFile = () => stage.read();

it("the page begins with what to do first, and each change says why, what it costs and what it asks for", async () => {
  // The shed has no top-off: harm that needs no fault is said first.
  expect(await page.locator("h1").textContent()).toMatch(/^Without any fault/);
  expect(await page.locator(".then").textContent()).toMatch(/^Against faults, do this first: /);
  const text = (await step(WATCH).textContent()) ?? "";
  expect(text).toMatch(/Roughly 0 to 60.EUR, 40.min to put in place, 3.min a month to keep up\./);
  await step(WATCH).locator("summary").click();
  expect(await step(WATCH).getByText("What changes in the description").isVisible()).toBe(true);
  expect(await step(WATCH).locator(".changes").textContent()).toMatch(/after 20\smin, tells keeper, tested 1 month/);
  expect(await step(WATCH).locator(".aims li").count()).toBeGreaterThan(2);
});

it("several changes are tried one after the other, and what was seen stays", async () => {
  const before = inFile();
  await page.getByRole("button", { name: /^Try the first \d+ one after the other$/ }).click();
  await page.getByText(/^Trying 1 of \d+, /).waitFor();
  await step(/.*/).locator(".effect").first().waitFor(PATIENCE);
  expect(await step(/.*/).locator(".effect").first().textContent()).toMatch(/^Seen: .+/);
  await page.getByRole("button", { name: "Stop" }).click();
  await page.getByText(/^Stopped after \d+ of \d+\./).waitFor();
  await page.goto(`${stage.server.address}/findings`);
  expect(inFile()).toBe(before);
});

it("a change that is tried by keyboard alone moves verdicts before it is kept, and is put back as easily", async () => {
  await step(WATCH).waitFor();
  await page.getByRole("button", { name: /^Try it: A watch outside/ }).focus();
  await page.keyboard.press("Enter");
  await step(WATCH)
    .getByText(/^Seen: /)
    .waitFor(PATIENCE);
  const seen = (await step(WATCH).locator(".effect").textContent()) ?? "";
  expect(seen).toMatch(/\d+ better, none worse; .*drills that it aims at have no finding any more/);
  expect(await page.getByRole("region", { name: "Changes not yet kept" }).textContent()).toMatch(
    /\d+ verdicts? moves?/,
  );
  expect(inFile()).toBe(SHED);
  await page.getByRole("button", { name: /^Put back: A watch outside/ }).focus();
  await page.keyboard.press("Enter");
  await expect.poll(() => page.getByRole("region", { name: "Changes not yet kept" }).count()).toBe(0);
});

it("of two changes one is put back, and the other stays", async () => {
  await page.getByRole("button", { name: /^Try it: A watch outside/ }).click();
  await page.getByRole("button", { name: /^Put back: A watch outside/ }).waitFor();
  await page.getByRole("button", { name: /^Try it: A notice when display-temp/ }).click();
  await page.getByText("All 2 changes at the foot together").first().waitFor();
  await page.getByRole("button", { name: /^Put back: A notice when display-temp/ }).click();
  await page.getByRole("button", { name: /^Try it: A notice when display-temp/ }).waitFor();
  expect(await page.getByRole("button", { name: /^Put back: A watch outside/ }).count()).toBe(1);
  await step(WATCH)
    .getByText(/^Seen: /)
    .waitFor(PATIENCE);
});

it("axe finds nothing on what was tried, wide and on a phone, and nothing runs off it", async () => {
  await page.evaluate(() => {
    for (const each of document.querySelectorAll("details")) each.open = true;
  });
  await expectAccessible(page);
  await page.setViewportSize(PHONE);
  await expectAccessible(page);
  await page.setViewportSize({ width: 320, height: 640 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  await page.setViewportSize(WIDE);
});

it("what was previewed is what the board says once the change is kept, and only the change is in the file", async () => {
  const previewed = verdictsOf((await lastTrial())?.drills);
  const before = verdictsOf((await report())?.drills);
  expect(previewed).not.toEqual(before);
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await expect.poll(async () => verdictsOf((await report())?.drills), PATIENCE).toEqual(previewed);
  // The change has closed what it aimed at, and so it is no longer offered.
  await expect.poll(() => step(WATCH).count(), PATIENCE).toBe(0);
  const kept = inFile().split("\n");
  expect(SHED.split("\n").filter((line) => !kept.includes(line))).toEqual([]);
  expect(kept.some((line) => line.startsWith("silence-watch:"))).toBe(true);
  await page.goto(`${stage.server.address}/`);
  await page.locator("a.row").first().waitFor();
  for (const verdict of ["unseen", "absorbed"]) {
    const count = Object.values(previewed).filter(([kind]) => kind === verdict).length;
    expect(await page.getByRole("button", { name: new RegExp(`^${count} ${verdict}$`) }).count(), verdict).toBe(1);
  }
});

it("no page threw an error or broke the content policy", () => {
  expect(stage.complaints).toEqual([]);
});
