/** All views in both themes, wide and on a phone: axe finds nothing, nothing runs off a phone, no policy is broken. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { expectAccessible } from "./fixtures/axe.ts";
import { resultsOf } from "./fixtures/results.ts";
import { school } from "./fixtures/sites.ts";
import { eventually, ON_PHONE, type Stage, setStage, WIDE } from "./fixtures/stage.ts";

const drill = resultsOf(school()).find(({ verdict, faults }) => verdict === "handed over" && faults.length === 1);

interface View {
  readonly name: string;
  readonly path: string;
  /** Shown when the view is there. */
  readonly ready: string;
  readonly prepare?: (page: Page) => Promise<unknown>;
}

const openAll = (page: Page): Promise<void> =>
  page.evaluate(() => {
    for (const each of document.querySelectorAll("details")) each.open = true;
  });

const VIEWS: readonly View[] = [
  { name: "board", path: "/", ready: "a.row" },
  {
    name: "grouped board",
    path: "/?group=fault&verdict=late&order=told&when=night",
    ready: "a.row",
    prepare: openAll,
  },
  { name: "findings", path: "/findings", ready: "ol.findings li" },
  { name: "comparison of nothing", path: "/compare", ready: "h1" },
  { name: "timeline", path: `/drill?id=${encodeURIComponent(drill?.id ?? "")}`, ready: "svg.lanes", prepare: openAll },
  { name: "site", path: "/site?part=heater-2", ready: ".sheet h2", prepare: openAll },
  {
    name: "site with messages",
    path: "/site",
    ready: ".place-picture",
    prepare: (page) => page.getByRole("checkbox", { name: "messages" }).check(),
  },
  { name: "pairs before they are rehearsed", path: "/pairs", ready: ".pairs h1" },
  {
    name: "pairs",
    path: "/pairs?system=coral-nursery",
    ready: ".pairs h1",
    prepare: async (page) => {
      const start = page.getByRole("button", { name: "Rehearse the pairs", exact: true });
      if ((await start.count()) > 0) await start.click();
      await page.locator(".field-key, .pair-cells").first().waitFor();
      await page.locator("[role=gridcell], .pair-cells button").first().click();
      await page.locator(".pair-list li").first().waitFor();
    },
  },
  { name: "page of parts and states", path: "/components", ready: ".specimen a.row", prepare: openAll },
  { name: "no such page", path: "/nowhere", ready: "h1" },
];

const SIZES = [
  { size: "wide", options: { viewport: WIDE } },
  { size: "phone", options: ON_PHONE },
] as const;

let stage: Stage;

beforeAll(async () => {
  stage = await setStage();
});
afterAll(() => stage.strike());

const cases = VIEWS.flatMap((view) => SIZES.map(({ size, options }) => ({ view, size, options })));

it.each(cases.map((each) => [each.view.name, each.size, each] as const))(
  "axe finds nothing on the %s, %s, in both themes",
  async (_name, size, { view, options }) => {
    const page = await stage.open(view.path, { ...options, colorScheme: "light" });
    await page.locator(view.ready).first().waitFor();
    await view.prepare?.(page);
    await expectAccessible(page);
    if (size === "phone") {
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(over, "px that the page is wider than the phone").toBeLessThanOrEqual(0);
    }
    await page.context().close();
  },
);

it.each(VIEWS.map((view) => [view.name, view] as const))(
  "the %s fits a width of 320 px, as at four hundred percent",
  async (_, view) => {
    const page = await stage.open(view.path, { viewport: { width: 320, height: 640 } });
    await page.locator(view.ready).first().waitFor();
    await view.prepare?.(page);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(over).toBeLessThanOrEqual(0);
    await page.context().close();
  },
);

it("the switch turns the theme and the browser keeps it", async () => {
  const page = await stage.open("/", { colorScheme: "light" });
  const ground = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  const before = await ground();
  await page.getByRole("button", { name: "Light or dark" }).click();
  await eventually(ground).not.toBe(before);
  const after = await ground();
  await page.reload();
  await eventually(ground).toBe(after);
  await page.context().close();
});

it("nothing moves for those who asked for less motion", async () => {
  const page = await stage.open("/", { reducedMotion: "reduce" });
  const times = await page.evaluate(() => {
    const style = getComputedStyle(document.documentElement);
    return [style.getPropertyValue("--quick"), style.getPropertyValue("--settle")];
  });
  expect(times.map((time) => Number.parseFloat(time))).toEqual([0, 0]);
  await page.context().close();
});

it("the board prints across A4 without its switches, drawn for the sheet", async () => {
  const page = await stage.open("/", ON_PHONE);
  await page.locator("a.row").first().waitFor();
  await page.emulateMedia({ media: "print" });
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  expect(await page.locator(".thumbs").isVisible()).toBe(false);
  const plot = await page.locator("a.row .plot svg").first().getAttribute("width");
  expect(Number(plot)).toBeGreaterThan(700);
  await page.context().close();
});

it("no view broke the content policy or threw an error", () => {
  expect(stage.complaints).toEqual([]);
});
