import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { resultsOf } from "./fixtures/results.ts";
import { school } from "./fixtures/sites.ts";
import { eventually, ON_PHONE, type Stage, setStage } from "./fixtures/stage.ts";

const site = school();
/** Handed over with less than six hours to spare, so that help can come too late inside what was computed. */
const drill = resultsOf(site).find(
  ({ verdict, margin_min, faults }) =>
    verdict === "handed over" && faults.length === 1 && (margin_min ?? 0) > 20 && (margin_min ?? 0) < 360,
);
if (drill === undefined) throw new Error("the fixture has no drill that is handed over in time for this test");
const path = `/drill?id=${encodeURIComponent(drill.id)}`;

let stage: Stage;
let page: Page;

beforeAll(async () => {
  stage = await setStage();
});
afterEach(() => page.context().close());
afterAll(() => stage.strike());

const later = () => page.getByRole("slider", { name: /Help comes later/ });
const reader = () => page.getByRole("slider", { name: "Read all curves at one moment" });
const shownTime = () => page.locator(".window-controls [role=status]").textContent();

/** What a press of a button leaves on the disk. */
async function saved(name: string): Promise<{ readonly file: string; readonly bytes: Buffer }> {
  const button = page.getByRole("group", { name: "Save what is shown" }).getByRole("button", { name, exact: true });
  const [download] = await Promise.all([page.waitForEvent("download"), button.click()]);
  return { file: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

const verdict = () => page.locator(".verdict .pair").first().textContent();
const margin = () => page.locator(".verdict .pair").nth(1).textContent();

it("a drill shows its name, place, verdict and margin", async () => {
  page = await stage.open(path);
  await eventually(() => page.locator("h1").textContent()).toBe(drill.name);
  expect(await verdict()).toContain("handed over");
  expect(await margin()).toMatch(/\+\s\d/);
  expect(await page.locator(".crumb").textContent()).toMatch(/\d+ of 1\s212/);
});

it("help that comes later moves the act, the margin and at last the verdict", async () => {
  page = await stage.open(path);
  const slider = later();
  await slider.focus();
  const actBefore = await page.locator("path.act").getAttribute("d");
  const marginBefore = await margin();
  await page.keyboard.press("ArrowRight");
  await eventually(() => page.locator("path.act").getAttribute("d")).not.toBe(actBefore);
  expect(await margin()).not.toBe(marginBefore);
  expect(await slider.getAttribute("aria-valuetext")).toMatch(/^by 30\smin: /);
  await page.keyboard.press("End");
  await eventually(verdict).toContain("late");
  expect(await margin()).toContain("\u2212");
  await page.keyboard.press("Home");
  await eventually(verdict).toContain("handed over");
  expect(await slider.getAttribute("aria-valuetext")).toMatch(/^as rehearsed: handed over/);
});

it("the thumb lies under the act and can be dragged", async () => {
  page = await stage.open(path);
  const slider = later();
  const box = await slider.boundingBox();
  if (box === null) throw new Error("the slider has no place on the page");
  const act = await page.locator("path.act").boundingBox();
  expect(Math.abs((act?.x ?? 0) - (box.x + 10))).toBeLessThan(2);
  await page.mouse.move(box.x + 10, box.y + 22);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width - 10, box.y + 22, { steps: 5 });
  await page.mouse.up();
  await eventually(verdict).toContain("late");
});

it("the reasons are at most six sentences, with all events behind a press", async () => {
  page = await stage.open(path);
  const reasons = page.locator(".why-list li");
  await reasons.first().waitFor();
  const few = await reasons.count();
  expect(few).toBeLessThanOrEqual(6);
  await page.getByRole("button", { name: /^Show all \d+ events$/ }).click();
  expect(await reasons.count()).toBeGreaterThan(few);
});

it("any quantity of any body can be shown, and its figures as a table", async () => {
  page = await stage.open(path);
  await page.getByText("Quantities shown").click();
  const lanes = () => page.locator("svg.lanes .lane-name").allTextContents();
  const box = page.getByRole("group", { name: "lagoon sump" }).getByRole("checkbox", { name: "pH" });
  await box.check();
  await eventually(async () => (await lanes()).includes("pH")).toBe(true);
  await page.getByText("Show as table").click();
  expect(await page.locator("table thead").textContent()).toMatch(/pH lagoon sump/);
  expect(await page.locator("table tbody tr").count()).toBeGreaterThan(5);
  await box.uncheck();
  await eventually(async () => (await lanes()).includes("pH")).toBe(false);
});

it("a sensor can be shown by itself, and is told apart from what is true", async () => {
  page = await stage.open(path);
  await page.getByText("Quantities shown").click();
  const group = page.getByRole("group", { name: "lagoon sump" });
  const truth = group.getByRole("checkbox", { name: "temperature", exact: true });
  const sensor = group.getByRole("checkbox", { name: "sump-temp-2, temperature" });
  await page.getByText("Show as table").click();
  const head = () => page.locator("table thead").textContent();
  await sensor.setChecked(true);
  await truth.setChecked(false);
  await eventually(head).toContain("sump-temp-2, temperature, °C");
  expect(await head()).not.toContain("temperature lagoon sump");
  await truth.check();
  await eventually(head).toContain("temperature lagoon sump, °C, true");
  expect(await head()).toContain("sump-temp-2");
});

it("the arrow keys read all lanes at one moment, and Escape puts the reading away", async () => {
  page = await stage.open(path);
  await reader().focus();
  await page.keyboard.press("End");
  const end = await reader().getAttribute("aria-valuetext");
  await page.keyboard.press("Home");
  const home = await reader().getAttribute("aria-valuetext");
  expect(home).toMatch(/^0\smin after the fault, \d\d:\d\d\. .*temperature .* \d+\.\d\s°C true/);
  expect(end).not.toBe(home);
  await page.keyboard.press("ArrowRight");
  await eventually(() => reader().getAttribute("aria-valuetext")).not.toBe(home);
  expect(await page.locator(".reader .cursor").count()).toBe(1);
  await page.keyboard.press("Escape");
  await eventually(() => page.locator(".reader .cursor").count()).toBe(0);
});

it("plus and minus look closer and wider at the moment that is read, and 0 shows the whole run", async () => {
  page = await stage.open(path);
  await reader().focus();
  await page.keyboard.press("0");
  const whole = await shownTime();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("+");
  await eventually(shownTime).not.toBe(whole);
  await page.keyboard.press("+");
  expect(await page.locator(".reader .cursor").count()).toBe(1);
  await page.keyboard.press("-");
  await page.keyboard.press("-");
  await eventually(shownTime).toBe(whole);
});

it("a drag over a span looks closer at it, the buttons lead on, and the whole run is one press away", async () => {
  page = await stage.open(path);
  const box = await reader().boundingBox();
  if (box === null) throw new Error("the reader has no place on the page");
  const whole = page.getByRole("button", { name: /^Whole run/ });
  await whole.click();
  const before = await shownTime();
  await page.mouse.move(box.x + 400, box.y + 200);
  expect(await page.locator(".reader .cursor").count()).toBe(1);
  await page.mouse.down();
  await page.mouse.move(box.x + 600, box.y + 210, { steps: 4 });
  await page.mouse.up();
  await eventually(shownTime).not.toBe(before);
  const closer = await shownTime();
  await page.getByRole("button", { name: "Later", exact: true }).click();
  await eventually(shownTime).not.toBe(closer);
  await page.getByRole("button", { name: "Earlier", exact: true }).click();
  await eventually(shownTime).toBe(closer);
  await whole.click();
  await eventually(shownTime).toBe(before);
});

it("where the act lies outside of what is shown, the page says so and leads to it", async () => {
  page = await stage.open(path);
  await reader().focus();
  await page.keyboard.press("End");
  for (let i = 0; i < 4; i++) await page.keyboard.press("+");
  await eventually(() => later().count()).toBe(0);
  await page.getByRole("button", { name: "Show it" }).click();
  await eventually(() => later().count()).toBe(1);
});

it("what is shown is saved as an SVG that stands by itself and as a PNG, named by its drill", async () => {
  page = await stage.open(path, { colorScheme: "dark" });
  const svg = await saved("SVG");
  const text = svg.bytes.toString("utf8");
  expect(svg.file).toBe(`${drill.id.replace("@", "_")}.svg`);
  expect(text).toContain(drill.name);
  expect(text).toContain("font/woff2;base64,");
  expect(text).not.toMatch(/var\(--|class=/);
  expect(text).toContain("#f6f5ef");
  const isWell = await page.evaluate(
    (xml) => new DOMParser().parseFromString(xml, "image/svg+xml").querySelector("parsererror") === null,
    text.replace(/<style>.*<\/style>/s, ""), // this page may parse no style of its own
  );
  expect(isWell).toBe(true);
  const png = await saved("PNG");
  expect(png.file).toMatch(/\.png$/);
  expect(png.bytes.subarray(1, 4).toString()).toBe("PNG");
  expect(png.bytes.readUInt32BE(16)).toBeGreaterThan(2000);
  expect(stage.complaints).toEqual([]);
});

it("the table that is saved has UTC and local time, units in its heads, and true and sensed apart", async () => {
  page = await stage.open(path);
  const { file, bytes } = await saved("CSV");
  const [head, first, ...rest] = bytes.toString("utf8").trimEnd().split("\r\n");
  expect(file).toMatch(/\.csv$/);
  expect(head).toMatch(/^UTC,local time,since the fault \[min\],true temperature of [\w-]+ \[°C\]/);
  expect(head).toContain("sensed temperature by");
  expect(first).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:00\.000Z,\d{4}-\d\d-\d\dT\d\d:\d\d:00[+-]\d\d:\d\d,0,/);
  expect(rest.length).toBeGreaterThan(100);
});

it("rules that could have noticed the harm say why they did not", async () => {
  const unseen = resultsOf(site).find((result) => result.verdict === "unseen" && result.minutes.acting === null);
  page = await stage.open(`/drill?id=${encodeURIComponent(unseen?.id ?? "")}`);
  await eventually(() => page.locator(".silent-list").textContent()).toMatch(/did not fire: .* needs above 27\.2/);
});

it("a drill that nobody ended has no slider and says so", async () => {
  const unseen = resultsOf(site).find((result) => result.verdict === "unseen" && result.minutes.acting === null);
  page = await stage.open(`/drill?id=${encodeURIComponent(unseen?.id ?? "")}`);
  await eventually(() => page.locator(".no-later").textContent()).toContain("Nobody came");
  expect(await later().count()).toBe(0);
});

it("a drill that does not exist says what was asked for and leads back", async () => {
  page = await stage.open(`/drill?id=${encodeURIComponent("heater-1.explodes@night")}`);
  await eventually(() => page.getByRole("alert").textContent()).toContain('no drill "heater-1.explodes@night"');
  await page.getByRole("link", { name: "Go to the drills" }).click();
  await page.locator("a.row").first().waitFor();
});

it("on a phone the slider stays in reach of the thumb above the views", async () => {
  page = await stage.open(path, ON_PHONE);
  const slider = later();
  await slider.waitFor();
  const box = await slider.boundingBox();
  const views = await page.locator(".thumbs").boundingBox();
  expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThanOrEqual((views?.y ?? 0) + 1);
  expect(box?.height).toBeGreaterThanOrEqual(44);
});
