/** Findings and what to do about them, with a real file and the true engine: what is previewed is what is got. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it, vi } from "vitest";
import type { RehearsalAnswer, RehearsalReport } from "../../src/server/contract/index.ts";
import { SHED } from "./fixtures/real.ts";
import { type Stage, setStage } from "./fixtures/stage.ts";

const WATCH = /A watch outside the house/;
/** A rehearsal of the shed takes some seconds, on a busy machine many. */
const PATIENCE = { timeout: 100_000 };

let stage: Stage;
let page: Page;

beforeAll(async () => {
  stage = await setStage({ files: { "shed.yaml": SHED } });
  await vi.waitUntil(report, { ...PATIENCE, interval: 300 });
  page = await stage.open("/findings");
  await step(WATCH).waitFor(PATIENCE);
});
afterAll(() => stage.strike());

async function report(): Promise<RehearsalReport | null> {
  const answer = (await (await fetch(`${stage.server.address}/api/rehearsal`)).json()) as RehearsalAnswer;
  return answer.state === "done" ? answer.report : null;
}

const step = (title: RegExp) =>
  page.locator("ol.steps > li").filter({ has: page.getByRole("heading", { name: title }) });
const verdictsOf = (drills: RehearsalReport["drills"] | undefined) =>
  Object.fromEntries((drills ?? []).map(({ id, verdict, margin_min }) => [id, [verdict, margin_min]]));
const inFile = () => readFileSync(stage.file, "utf8");

it("the page begins with what to do first, and each change says why, what it costs and what it asks for", async () => {
  expect(await page.locator("h1").textContent()).toMatch(/^Do this first: /);
  const text = (await step(WATCH).textContent()) ?? "";
  expect(text).toMatch(/Roughly 0 to 60.EUR, 40.min to put in place, 3.min a month to keep up\./);
  await step(WATCH).locator("summary").click();
  expect(await step(WATCH).getByText("What changes in the description").isVisible()).toBe(true);
  expect(await step(WATCH).locator(".changes").textContent()).toContain("after 20 min, tells keeper, tested 1 month");
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

it("what was previewed is what the board says once the change is kept, and only the change is in the file", async () => {
  const trial = await page.evaluate(async () => {
    // The last trial that was begun is the one on show.
    for (let id = 40; id > 0; id--) {
      const answer = await fetch(`/api/trials/${id}`);
      if (answer.ok) return ((await answer.json()) as { report: { drills: [] } | null }).report;
    }
    return null;
  });
  const previewed = verdictsOf(trial?.drills as RehearsalReport["drills"] | undefined);
  const before = verdictsOf((await report())?.drills);
  expect(previewed).not.toEqual(before);
  await page.getByRole("button", { name: "Keep" }).click();
  await expect.poll(async () => verdictsOf((await report())?.drills), PATIENCE).toEqual(previewed);
  // The change has closed what it aimed at, and so it is no longer offered.
  await expect.poll(() => step(WATCH).count(), PATIENCE).toBe(0);
  expect(inFile().startsWith(SHED.trimEnd())).toBe(true);
  expect(inFile()).toContain("silence-watch:");
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
