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

const part = (id: string) => page.locator(`.place-picture [data-part="${id}"]`);
const heading = () => page.locator(".sheet h2").textContent();

it("a pressed part shows what it is, in at most six fields, and what it can do, worst first", async () => {
  page = await stage.open("/site");
  await part("heater-2").click();
  await eventually(heading).toBe("heater-2");
  expect(await page.locator(".sheet .lead").textContent()).toBe("heater, in lagoon sump");
  expect(await page.locator(".sheet .field").count()).toBeLessThanOrEqual(6);
  expect(await page.locator(".sheet dl").textContent()).toMatch(/power\s*300\sW/);
  const margins = await page.locator(".faults li .nb").allTextContents();
  expect(margins.length).toBeGreaterThan(0);
  await page.locator(".faults li a").first().click();
  await eventually(() => page.url()).toContain("/drill?id=");
});

it("arrow keys go from part to part and Enter chooses one", async () => {
  page = await stage.open("/site?part=heater-2");
  await part("heater-2").focus();
  await page.keyboard.press("ArrowRight");
  const next = await page.evaluate(() => document.activeElement?.getAttribute("data-part"));
  expect(next).not.toBe("heater-2");
  await page.keyboard.press("Enter");
  await eventually(heading).toBe(next);
  expect(page.url()).toContain(`part=${next}`);
});

it("only one part is in the way of the tab key", async () => {
  page = await stage.open("/site");
  await part("heater-2").waitFor();
  expect(await page.locator('.place-picture a[tabindex="0"]').count()).toBe(1);
});

it("layers of water, power, messages and people come and go", async () => {
  page = await stage.open("/site");
  await part("ring-a").waitFor();
  expect(await part("keeper").count()).toBe(0);
  await page.getByRole("checkbox", { name: "messages" }).check();
  await eventually(() => page.locator(".place-picture path.msg").count()).toBeGreaterThan(0);
  expect(await part("keeper").count()).toBe(0);
  await page.getByRole("checkbox", { name: "people" }).check();
  await eventually(() => part("keeper").count()).toBe(1);
  expect(await part("caretaker").getAttribute("aria-label")).toMatch(/person caretaker, after 10.min, by call/);
  await page.getByRole("checkbox", { name: "power" }).uncheck();
  await eventually(() => part("ring-a").count()).toBe(0);
  await page.getByRole("checkbox", { name: "water" }).uncheck();
  await eventually(() => page.locator(".place-picture .wet").count()).toBe(0);
});

it("everything in the picture is in the list as well", async () => {
  page = await stage.open("/site");
  await page.getByRole("checkbox", { name: "messages" }).check();
  await page.getByRole("checkbox", { name: "people" }).check();
  await part("keeper").waitFor();
  const drawn = await page
    .locator(".place-picture [data-part]")
    .evaluateAll((parts) => parts.map((each) => each.getAttribute("data-part") ?? ""));
  await page.getByText("All parts as a list").click();
  const listed = await page
    .locator(".parts-list a")
    .evaluateAll((links) => links.map((link) => new URL((link as HTMLAnchorElement).href).searchParams.get("part")));
  expect(drawn.filter((id) => !listed.includes(id))).toEqual([]);
});

it("a part chosen in the list is marked in the picture", async () => {
  page = await stage.open("/site");
  await page.getByText("All parts as a list").click();
  await page.locator(".parts-list a", { hasText: "skimmer-1" }).click();
  await eventually(heading).toBe("skimmer-1");
  expect(await part("skimmer-1").getAttribute("aria-current")).toBe("true");
});

it("a phone shows one system at a time", async () => {
  page = await stage.open("/site", ON_PHONE);
  await part("heater-1").waitFor();
  expect(await part("heater-2").count()).toBe(0);
  await page.getByRole("button", { name: "Lagoon" }).click();
  await part("heater-2").waitFor();
  expect(await part("heater-1").count()).toBe(0);
});
