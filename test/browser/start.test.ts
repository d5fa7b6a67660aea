/** From nothing to verdicts: the real reader of site files and the real engine, in a folder where no site file is yet. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { AxeBuilder } from "@axe-core/playwright";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from "vitest";
import { engineOnThreads } from "../../src/cli/engine.ts";
import { type RunningServer, startServer } from "../../src/server/index.ts";
import { loadSite } from "../../src/site/index.ts";
import { eventually, LAUNCH, ON_PHONE, WIDE } from "./fixtures/stage.ts";

let browser: Browser;
let folder: string;
let server: RunningServer;
let complaints: string[];

beforeAll(async () => {
  browser = await chromium.launch(LAUNCH);
});
afterAll(() => browser.close());

beforeEach(async () => {
  complaints = [];
  folder = mkdtempSync(join(tmpdir(), "slackwater-start-"));
  server = await startServer({
    file: join(folder, "my-place.yaml"),
    port: 0,
    engine: engineOnThreads(() => undefined),
  });
});
afterEach(async () => {
  for (const context of browser.contexts()) await context.close();
  await server.close();
  rmSync(folder, { recursive: true });
});

async function open(path: string, options: BrowserContextOptions = {}): Promise<Page> {
  const context = await browser.newContext({
    viewport: WIDE,
    timezoneId: "Europe/Lisbon",
    locale: "en-GB",
    serviceWorkers: "block",
    ...options,
  });
  const page = await context.newPage();
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  await page.goto(server.address + path);
  return page;
}

const progress = (page: Page) => page.locator(".start .first");
const next = (page: Page) => page.getByRole("button", { name: "Next" });

/** The real engine takes its time, and more of it on a busy machine. */
const verdicts = (page: Page): Promise<void> => page.locator("a.row").nth(5).waitFor({ timeout: 100_000 });

async function goOn(page: Page, to: number): Promise<void> {
  await next(page).click();
  await eventually(() => progress(page).textContent()).toContain(`${to} of 7`);
}

it("with the keyboard alone, from an empty folder by conversation to the first verdicts", async () => {
  const page = await open("/");
  await eventually(() => page.url()).toContain("/start");
  await page.getByLabel("Name of the place").waitFor();
  const { keyboard } = page;
  await page.getByLabel("Name of the place").focus();
  await keyboard.press("ControlOrMeta+a");
  await keyboard.type("Kitchen reef");
  await keyboard.press("Enter");
  await eventually(() => progress(page).textContent()).toBe("2 of 7, water and life");
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("H1");
  await keyboard.press("Tab");
  await keyboard.press("ControlOrMeta+a");
  await keyboard.type("40 gal");
  await eventually(() => page.getByLabel("Water in the sump").inputValue()).toBe("8 gal");
  for (const step of [3, 4, 5, 6, 7]) {
    // From the head of the step through its fields to the button, as someone without a mouse does.
    if (step === 3) await keyboard.press("Enter");
    else await tabTo(page, "Next");
    if (step !== 3) await keyboard.press("Enter");
    await eventually(() => progress(page).textContent()).toContain(`${step} of 7`);
  }
  await tabTo(page, "Rehearse this place");
  await keyboard.press("Enter");
  await eventually(() => new URL(page.url()).pathname).toBe("/");
  await verdicts(page);
  expect(await page.locator(".head .place").textContent()).toContain("Kitchen reef");
  const text = readFileSync(join(folder, "my-place.yaml"), "utf8");
  const { site } = loadSite(text, "my-place.yaml");
  expect(site).toMatchObject({ name: "Kitchen reef", zone: "Europe/Lisbon" });
  expect(text).toContain("volume: 40 gal");
  expect(complaints).toEqual([]);
});

async function tabTo(page: Page, name: string): Promise<void> {
  for (let presses = 0; presses < 60; presses++) {
    await page.keyboard.press("Tab");
    if ((await page.evaluate(() => document.activeElement?.textContent)) === name) return;
  }
  throw new Error(`60 presses of Tab have not come to "${name}"`);
}

it("a slip is told at its field in the loader's words, is not lost, and holds Next until it is put right", async () => {
  const page = await open("/start");
  await goOn(page, 2);
  const volume = page.getByLabel("Water in it");
  await volume.fill("200");
  await next(page).click();
  const wrong = page.getByText("'200' has no unit. Write a volume like 620 L");
  await wrong.waitFor();
  expect(await progress(page).textContent()).toContain("2 of 7");
  expect(await volume.getAttribute("aria-invalid")).toBe("true");
  expect(await volume.evaluate((field) => field === document.activeElement)).toBe(true);
  expect(await volume.inputValue()).toBe("200");
  await volume.fill("200 L");
  await eventually(() => wrong.count()).toBe(0);
  await goOn(page, 3);
  await page.getByRole("button", { name: "Back" }).click();
  expect(await volume.inputValue()).toBe("200 L");
});

it("what was answered is there again after the page was loaded anew, at the same step", async () => {
  const page = await open("/start");
  await page.getByLabel("Tanks", { exact: true }).selectOption("3");
  await goOn(page, 2);
  await page.getByLabel("Name of the tank").nth(2).fill("Nursery");
  await page.getByRole("radio", { name: "small-polyp corals" }).nth(2).check();
  await eventually(() => page.locator(".sketch svg").count()).toBe(3);
  await page.reload();
  expect(await progress(page).textContent()).toContain("2 of 7");
  expect(await page.getByLabel("Name of the tank").nth(2).inputValue()).toBe("Nursery");
  expect(await page.getByRole("radio", { name: "small-polyp corals" }).nth(2).isChecked()).toBe(true);
});

it("an example is opened and rehearsed from the first step", async () => {
  const page = await open("/start");
  await page.getByRole("button", { name: "first-tank.yaml" }).click();
  await verdicts(page);
  expect(readdirSync(folder)).toEqual(["first-tank.yaml"]);
});

it("a file from elsewhere is told with its line where it is wrong, and opened where it is right", async () => {
  const page = await open("/start");
  const chooser = page.getByLabel("A site file from elsewhere");
  const text = "site: Shelf\nsystems:\n  tank:\n    bodies:\n      display: { volume: 60 W }\n";
  await chooser.setInputFiles({ name: "shelf.yaml", mimeType: "text/yaml", buffer: Buffer.from(text) });
  const told = page.getByRole("alert");
  await told.waitFor();
  expect(await told.textContent()).toContain("shelf.yaml:5:26 display.volume: '60 W' is an electrical power");
  expect(readdirSync(folder)).toEqual([]);
  const huge = join(folder, "huge.yaml");
  writeFileSync(huge, "#".repeat(5_000_001));
  await chooser.setInputFiles(huge);
  await eventually(() => told.textContent()).toContain("more than 5\u00a0MB are not read");
  const right = Buffer.from(text.replace("60 W", "60 L"));
  await chooser.setInputFiles({ name: "shelf.yaml", mimeType: "text/yaml", buffer: right });
  await eventually(() => page.locator(".head .place").textContent()).toContain("Shelf");
  await eventually(() => new URL(page.url()).pathname).toBe("/");
});

it("the way to a new place stands beside the name of the open one, and the open file stays as it is", async () => {
  const text = "site: Shelf\nsystems:\n  tank:\n    bodies:\n      display: { volume: 60 L }\n";
  writeFileSync(join(folder, "my-place.yaml"), text);
  const page = await open("/start");
  await eventually(() => page.locator(".head .place").textContent()).toContain("Shelf");
  await page.getByRole("link", { name: "New place" }).click();
  await page.getByLabel("Name of the place").fill("Attic");
  for (const step of [2, 3, 4, 5, 6, 7]) await goOn(page, step);
  await page.getByRole("button", { name: "Rehearse this place" }).click();
  await eventually(() => page.locator(".head .place").textContent()).toContain("Attic");
  expect(readdirSync(folder).sort()).toEqual(["attic.yaml", "my-place.yaml"]);
  expect(readFileSync(join(folder, "my-place.yaml"), "utf8")).toBe(text);
});

/** Each kind of field, and a slip, stands in one of these. */
const LOOKED_THROUGH = [1, 2, 6, 7];

it.each([
  ["wide", { viewport: WIDE }, LOOKED_THROUGH],
  ["phone", ON_PHONE, LOOKED_THROUGH],
  ["320 px", { viewport: { width: 320, height: 640 } }, []],
] as const)(
  "axe finds nothing, %s, in both themes, and no step runs off the side",
  async (_, options, lookedThrough) => {
    // Without motion, so that no colour is looked at while it turns into another.
    const page = await open("/start", { ...options, reducedMotion: "reduce" });
    await page.getByLabel("Tanks", { exact: true }).selectOption("2");
    for (let step = 1; step <= 7; step++) {
      await page
        .locator(".so-far li")
        .nth(step === 7 ? 5 : step - 1)
        .waitFor();
      if (step === 2) {
        await page.getByLabel("Water in it").first().fill("two buckets");
        await next(page).click();
        await page.locator(".ask-wrong").waitFor();
      }
      if (step === 6) await page.getByRole("button", { name: "Add a person" }).click();
      if (step === 7) await page.locator(".start summary").click();
      for (const colorScheme of ["light", "dark"] as const) {
        if (!lookedThrough.some((each) => each === step)) continue;
        await page.emulateMedia({ colorScheme });
        expect(await complaintsOfAxe(page), `step ${step}, ${colorScheme}`).toEqual([]);
      }
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(over, `px that step ${step} is too wide`).toBeLessThanOrEqual(0);
      if (step === 2) await page.getByLabel("Water in it").first().fill("60 L");
      if (step < 7) await goOn(page, step + 1);
    }
    expect(complaints).toEqual([]);
  },
);

async function complaintsOfAxe(page: Page): Promise<readonly string[]> {
  const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
  const { violations } = await new AxeBuilder({ page }).withTags(tags).analyze();
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)} ${failureSummary}`),
  );
}
