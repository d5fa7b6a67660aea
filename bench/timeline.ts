/**
 * How smoothly a timeline of 14 days by 20 curves is read and slid, in a real browser without a graphics card; and what a curve costs
 * against one that draws every point. `npm run tool -- node bench/timeline.ts`, after `npm run tool -- vite build`.
 */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { type CDPSession, chromium, type Page } from "playwright-core";
import { startServer } from "../src/server/index.ts";
import { linearScale } from "../src/web/parts/scale.ts";
import { curvePath } from "../src/web/timeline/curve-path.ts";
import { fixtureEngine, fixtureReader } from "../test/browser/fixtures/engine.ts";
import { resultsOf } from "../test/browser/fixtures/results.ts";
import { school } from "../test/browser/fixtures/sites.ts";
import { drillReport } from "../test/browser/fixtures/traces.ts";

const DAYS = 14;
const CURVES = 20;
const MOVES = 180;
/** Frames of 60 Hz, ms; one that takes longer than one and a half was dropped. */
const FRAME_MS = 1000 / 60;
const LONG_TASK_MS = 50;

const site = school();
const drill = resultsOf(site).find(
  ({ verdict, margin_min, faults }) =>
    verdict === "handed over" && faults.length === 1 && (margin_min ?? 0) > 20 && (margin_min ?? 0) < 360,
);
if (drill === undefined) throw new Error("the invented results have no drill that is handed over in time");
const report = drillReport(site, drill, 5, DAYS * 1440);

/** The same curves as one `L` a point, as a plain chart draws them. */
function everyPoint(times: readonly number[], values: readonly number[]): string {
  const x = linearScale(150, 1100, DAYS * 1440);
  return times.map((t, i) => `${i === 0 ? "M" : "L"}${x(t).toFixed(1)} ${(100 - values[i]).toFixed(1)}`).join("");
}

function medianMs(work: () => void): number {
  const times = Array.from({ length: 15 }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  });
  return times.sort((a, b) => a - b)[7];
}

function pathsInNode(): void {
  const keys = Object.keys(report.trace.truth).slice(0, CURVES);
  const x = linearScale(150, 1100, DAYS * 1440);
  const times = report.trace.t_min;
  const length = (make: (key: string) => string) => keys.reduce((sum, key) => sum + make(key).length, 0);
  const ours = (key: string) => curvePath(times, report.trace.truth[key], x, (value) => 100 - value, DAYS * 1440);
  const plain = (key: string) => everyPoint(times, report.trace.truth[key]);
  const oursMs = medianMs(() => length(ours));
  const plainMs = medianMs(() => length(plain));
  console.log(
    `paths of ${keys.length} curves of ${times.length} points: ${oursMs.toFixed(1)} ms and ${kB(length(ours))}, with every point ` +
      `${plainMs.toFixed(1)} ms and ${kB(length(plain))} (time ${(oursMs / plainMs).toFixed(2)}, size ${(length(ours) / length(plain)).toFixed(2)})`,
  );
}

function kB(characters: number): string {
  return `${Math.round(characters / 1024)} kB`;
}

interface Frames {
  readonly deltas: readonly number[];
  readonly longTasks: readonly number[];
  /** Work of the page's main thread, ms. */
  readonly workMs: number;
  readonly moves: number;
}

/** In the page: notes the time of every frame and of every long task. */
const WATCH = `(() => {
  const kept = { deltas: [], longTasks: [], on: true };
  window.kept = kept;
  let last = performance.now();
  const frame = (now) => {
    kept.deltas.push(now - last);
    last = now;
    if (kept.on) requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) kept.longTasks.push(duration);
  }).observe({ type: "longtask" });
})()`;
const UNWATCH = `(() => {
  window.kept.on = false;
  return { deltas: window.kept.deltas.slice(2), longTasks: window.kept.longTasks };
})()`;

/** Frame times and long tasks while something goes on. */
async function during(page: Page, session: CDPSession, act: () => Promise<number>): Promise<Frames> {
  await page.evaluate(WATCH);
  const before = await taskMs(session);
  const moves = await act();
  const workMs = (await taskMs(session)) - before;
  const kept = await page.evaluate<Pick<Frames, "deltas" | "longTasks">>(UNWATCH);
  return { ...kept, workMs, moves };
}

async function taskMs(session: CDPSession): Promise<number> {
  const { metrics } = await session.send("Performance.getMetrics");
  return 1000 * (metrics.find(({ name }) => name === "TaskDuration")?.value ?? 0);
}

function say(what: string, { deltas, longTasks, workMs, moves }: Frames): void {
  const sorted = [...deltas].sort((a, b) => a - b);
  const at = (share: number) =>
    (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0).toFixed(1);
  const dropped = deltas.filter((delta) => delta > 1.5 * FRAME_MS).length;
  console.log(
    `${what}: ${moves} moves, ${deltas.length} frames, median ${at(0.5)} ms, 95 of 100 within ${at(0.95)} ms, longest ${at(1)} ms, ` +
      `${dropped} over ${(1.5 * FRAME_MS).toFixed(0)} ms; ${longTasks.length} tasks over ${LONG_TASK_MS} ms; ` +
      `${(workMs / Math.max(1, moves)).toFixed(1)} ms of work a move`,
  );
}

async function openPage(page: Page, address: string): Promise<void> {
  await page.goto(`${address}/drill?id=${encodeURIComponent(drill?.id ?? "")}`);
  await page.locator("svg.lanes").first().waitFor();
  await page.getByRole("button", { name: /^Whole run/ }).click();
  await page.getByText("Quantities shown").click();
  const boxes = page.locator(".choices input");
  for (let i = 0; (await page.locator("svg.lanes .lane-name").count()) < CURVES + 6; i++) {
    if (i >= (await boxes.count())) break;
    if (!(await boxes.nth(i).isChecked())) await boxes.nth(i).check();
  }
  await page.getByText("Quantities shown").click();
  await page.evaluate("scrollTo(0, 0)");
}

async function inBrowser(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "slackwater-bench-"));
  const file = join(folder, "school.yaml");
  writeFileSync(file, "school");
  const engine = { ...fixtureEngine(), drill: async () => report };
  const readSite = fixtureReader({ school }, async () => "school");
  const server = await startServer({ file, port: 0, engine, readSite });
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--headless", "--no-sandbox", "--disable-gpu"],
  });
  try {
    const page = await browser.newPage({ viewport: { width: 1600, height: 1000 } });
    const session = await page.context().newCDPSession(page);
    await session.send("Performance.enable");
    await openPage(page, server.address);
    const lanes = await page.locator("svg.lanes .lane-name").count();
    console.log(`${lanes} lanes over ${DAYS} days, points every 5 min, 1600 x 1000 px, no graphics card`);
    const box = await page.locator(".reader").boundingBox();
    if (box === null) throw new Error("the timeline has no place on the page");
    const scrub = async () => {
      for (let i = 0; i < MOVES; i++) await page.mouse.move(box.x + 170 + ((i * 5) % 900), 500);
      return MOVES;
    };
    say(
      "at rest",
      await during(page, session, async () => {
        await page.waitForTimeout(1500);
        return 1;
      }),
    );
    say("reading, by pointer", await during(page, session, scrub));
    await page.getByRole("slider", { name: /Help comes later/ }).focus();
    say(
      "help comes later",
      await during(page, session, async () => press(page, ["ArrowRight", "ArrowLeft"], MOVES / 3)),
    );
    await page.locator(".reader").focus();
    say("closer and wider", await during(page, session, async () => press(page, ["+", "+", "-", "-"], MOVES / 3)));
  } finally {
    await browser.close();
    await server.close();
    rmSync(folder, { recursive: true });
  }
}

async function press(page: Page, keys: readonly string[], count: number): Promise<number> {
  for (let i = 0; i < count; i++) await page.keyboard.press(keys[i % keys.length]);
  return count;
}

console.log(`load of the machine ${loadavg()[0].toFixed(1)}`);
pathsInNode();
await inBrowser();
