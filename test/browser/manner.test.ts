/** Units at a switch, marks and dates by the browser's locale. */
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { resultsOf } from "./fixtures/results.ts";
import { school } from "./fixtures/sites.ts";
import { eventually, ON_PHONE, type Stage, setStage } from "./fixtures/stage.ts";

const drill = resultsOf(school()).find(
  ({ verdict, faults }) => verdict === "handed over" && faults.length === 1 && faults[0].mode === "stays-on",
);
const path = `/drill?id=${encodeURIComponent(drill?.id ?? "")}`;
const plain = (text: string | null): string => (text ?? "").replace(/[\u00a0\u2009]/g, " ");

let stage: Stage;
let page: Page;

beforeAll(async () => {
  stage = await setStage();
});
afterEach(() => page.context().close());
afterAll(() => stage.strike());

const unitsSwitch = () => page.getByRole("button", { name: /units in use/ });
const sheet = async () => plain(await page.locator(".sheet dl").textContent());
const lanes = async () => plain(await page.locator("svg.lanes[role=img]").textContent());

it("a browser from the United States is met in its units, order of dates and clock", async () => {
  page = await stage.open(path, { locale: "en-US" });
  await page.locator("svg.lanes[role=img]").waitFor();
  expect(await lanes()).toContain("°F");
  expect(await lanes()).not.toContain("°C");
  expect(await lanes()).toMatch(/\d:\d\d [ap]m/);
  expect(plain(await page.locator(".title p").textContent())).toMatch(
    /[A-Z][a-z]{2} [A-Z][a-z]{2,3} \d+, \d+:\d\d [ap]m/,
  );
  expect(await page.locator(".crumb").textContent()).toContain("of 1,212");
  await page.goto(`${stage.server.address}/site?part=lagoon-sump`);
  await eventually(sheet).toMatch(/water\s*[\d.]+ gal/);
});

it("the switch turns every unit on the page, and the browser keeps it", async () => {
  page = await stage.open("/site?part=lagoon-display", { locale: "en-GB" });
  await eventually(sheet).toMatch(/temperature\s*2\d\.\d °C/);
  await unitsSwitch().click();
  await eventually(sheet).toMatch(/temperature\s*7\d\.\d °F/);
  const drawn = plain(await page.locator(".place-picture").textContent());
  expect(drawn).toMatch(/\d gal/);
  expect(drawn).not.toMatch(/\d L\b|°C/);
  await page.reload();
  await eventually(sheet).toMatch(/temperature\s*7\d\.\d °F/);
  await page.goto(stage.server.address + path);
  await eventually(lanes).toMatch(/temperature[^°]*°F/);
  await page.getByRole("button", { name: /units in use/ }).click();
  await eventually(lanes).not.toContain("°F");
});

it("a browser from Germany reads decimal commas and points between thousands", async () => {
  page = await stage.open(path, { locale: "de-DE" });
  await page.locator("svg.lanes[role=img]").waitFor();
  expect(await lanes()).toMatch(/\d,\d °C/);
  expect(await lanes()).not.toMatch(/\d\.\d/);
  expect(await page.locator(".crumb").textContent()).toContain("of 1.212");
});

it("on a phone the switch is as large as a thumb, and the page no wider than the screen", async () => {
  page = await stage.open("/", { ...ON_PHONE, viewport: { width: 320, height: 640 }, locale: "en-US" });
  const box = await unitsSwitch().boundingBox();
  expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(44);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
});
