/** The papers on the screen and on A4, and what is recorded in the proving list. */
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, it } from "vitest";
import { expectAccessible } from "./fixtures/axe.ts";
import { school } from "./fixtures/sites.ts";
import { eventually, ON_PHONE, type Stage, setStage } from "./fixtures/stage.ts";

let stage: Stage;
let page: Page;

beforeAll(async () => {
  stage = await setStage();
});
afterEach(() => page.context().close());
afterAll(() => stage.strike());

interface Printed {
  readonly pages: number;
  /** Width and height of the sheets in points, of each kind once. */
  readonly sheets: readonly string[];
}

/** Prints as a person would: on the sheet that the page asks for. */
async function printed(): Promise<Printed> {
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  const boxes = [...pdf.matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/g)];
  return {
    pages: [...pdf.matchAll(/\/Type\s*\/Page\b/g)].length,
    sheets: [
      ...new Set(boxes.map(([, width, height]) => `${Math.round(Number(width))} x ${Math.round(Number(height))}`)),
    ],
  };
}

const A4_UPRIGHT = "595 x 842";
/** Height of A4 between the margins of papers.css, px at 96 to the inch. */
const BETWEEN_MARGINS_PX = ((297 - 14 - 16) / 25.4) * 96;
/** Width of A4 between them. */
const PAPER_WIDE = { width: Math.round(((210 - 26) / 25.4) * 96), height: 1000 };

it.each([
  ["report", ".rows tbody tr"],
  ["set-up", ".rows tbody tr"],
  ["proving", ".trial"],
])("the %s prints on A4 upright, with no row or trial cut and its heads repeated", async (paper, row) => {
  page = await stage.open(`/papers/${paper}`);
  await page.locator(".paper").waitFor();
  const { pages, sheets } = await printed();
  expect(sheets).toEqual([A4_UPRIGHT]);
  expect(pages).toBeGreaterThan(1);

  await page.emulateMedia({ media: "print" });
  await page.setViewportSize(PAPER_WIDE);
  const rows = await page.locator(row).evaluateAll((each) =>
    each.map((one) => ({
      breaks: getComputedStyle(one).breakInside,
      heightPx: one.getBoundingClientRect().height,
      overPx: one.getBoundingClientRect().right - innerWidth,
    })),
  );
  expect(rows.length).toBeGreaterThan(3);
  expect(new Set(rows.map(({ breaks }) => breaks))).toEqual(new Set(["avoid"]));
  // What must not be cut must fit on a sheet, and nothing may run off its side.
  expect(Math.max(...rows.map(({ heightPx }) => heightPx))).toBeLessThan(BETWEEN_MARGINS_PX);
  expect(Math.max(...rows.map(({ overPx }) => overPx))).toBeLessThanOrEqual(0.5);
  const heads = await page.locator("thead").evaluateAll((each) => each.map((one) => getComputedStyle(one).display));
  expect(new Set([...heads, "table-header-group"]).size).toBe(1);
  for (const gone of [".head", ".thumbs", ".paper-head .btn", ".choice"])
    expect(await page.locator(gone).filter({ visible: true }).count(), gone).toBe(0);
  expect(await page.locator(".paper-title").textContent()).toContain("Alder Row School, made ");
});

// The smallest place comes last: axe looks at it next, and takes long over large ones.
it.each(["school", "twelve", "one"])("each key-holder's sheet of %s is exactly one page", async (word) => {
  stage.write(word);
  page = await stage.open("/papers/key-holder");
  const systems = { school: 3, twelve: 12, one: 1 }[word] ?? 0;
  await eventually(() => page.locator(".normal li").count()).toBe(systems);
  for (const tab of await page.locator(".choice .seg button").all()) {
    await tab.click();
    expect(await printed()).toEqual({ pages: 1, sheets: [A4_UPRIGHT] });
  }
});

const VIEWS = [
  { path: "/papers", ready: ".papers-list" },
  { path: "/papers/report", ready: ".paper .rows" },
  { path: "/papers/set-up", ready: ".paper .rows" },
  { path: "/papers/proving", ready: ".trial" },
  { path: "/papers/key-holder", ready: ".key-sheet" },
] as const;

it.each(
  VIEWS.flatMap(({ path, ready }) => [[path, "wide", ready, {}] as const, [path, "phone", ready, ON_PHONE] as const]),
)("axe finds nothing on %s, %s, in both themes, and it fits a width of 320 px", async (path, _size, ready, options) => {
  page = await stage.open(path, { ...options, colorScheme: "light" });
  await page.locator(ready).first().waitFor();
  if (path === "/papers/proving") await page.locator(".trial button").first().click();
  await expectAccessible(page);
  await page.setViewportSize({ width: 320, height: 640 });
  const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  expect(over, "px that the page is wider than the window").toBeLessThanOrEqual(0);
});

it("the papers follow when the site file changes under them", async () => {
  page = await stage.open("/papers/key-holder");
  await eventually(() => page.locator(".normal li").count()).toBe(1);
  stage.write("school");
  await eventually(() => page.locator(".normal li").count()).toBe(3);
});

it("no other view prints upright, also where the papers were read before", async () => {
  page = await stage.open("/papers/set-up");
  await page.locator(".paper").waitFor();
  await page.evaluate(() => {
    history.pushState(null, "", "/nowhere");
    dispatchEvent(new Event("popstate"));
  });
  await page.locator(".paper").waitFor({ state: "detached" });
  expect((await printed()).sheets).toEqual(["842 x 595"]);
});

it("on a phone the sheet begins with whom to call, each a full row", async () => {
  page = await stage.open("/papers/key-holder?person=caretaker", ON_PHONE);
  const rows = page.locator(".calls li");
  await rows.first().waitFor();
  const boxes = await rows.evaluateAll((each) => each.map((one) => one.getBoundingClientRect()));
  expect(boxes.length).toBeGreaterThan(1);
  for (const box of boxes) expect(box.width).toBeGreaterThan(340);
  expect(boxes[0].top).toBeLessThan(500);
});

it("a recorded result changes the age that is shown, and can be taken back", async () => {
  page = await stage.open("/papers/proving");
  const trial = page.locator(".trial", { hasText: "Battery shelf-battery" });
  const age = () => trial.locator(".age").textContent();
  await eventually(age).toBe("never proved");
  const dueBefore = await page.locator(".paper .say").textContent();
  await trial.getByRole("button", { expanded: false }).click();
  await trial.getByLabel("held", { exact: true }).check();
  await trial.getByLabel("tried by").fill("keeper");
  await trial.getByLabel("note").fill("ran for half an hour");
  await trial.getByRole("button", { name: "Record" }).click();
  await eventually(age).toBe("held today");
  expect(await trial.locator(".last").textContent()).toContain("by keeper, ran for half an hour");
  await eventually(() => page.locator(".paper .say").textContent()).not.toBe(dueBefore);
  // The rehearsal follows: the age is that of the open site.
  await page.goto(`${stage.server.address}/site?part=shelf-battery`);
  await eventually(() => page.locator(".sheet dl").textContent()).toMatch(/last tried\s*0/);

  await page.goto(`${stage.server.address}/papers/proving`);
  await page.getByRole("button", { name: "all", exact: true }).click();
  await trial.getByRole("button", { name: "Take back" }).click();
  await eventually(age).toBe("never proved");
});

it("a result that did not hold says so, and comes first when the page is opened again", async () => {
  page = await stage.open("/papers/proving");
  const trial = page.locator(".trial", { hasText: "Sensor leak-3" });
  await trial.getByRole("button", { expanded: false }).click();
  await trial.getByLabel("did not hold").check();
  await trial.getByRole("button", { name: "Record" }).click();
  await eventually(() => trial.locator(".age").textContent()).toBe("did not hold today");
  await page.reload();
  await eventually(() => page.locator(".trial h2").first().textContent()).toContain("leak-3");
});

it("no paper broke the content policy or threw an error", async () => {
  page = await stage.open("/papers");
  await page.locator(".papers-list").waitFor();
  expect(stage.complaints).toEqual([]);
});

it("the list of papers leads to each of them", async () => {
  page = await stage.open("/papers");
  for (const name of ["Report", "Set-up sheet", "Proving list", "Key-holder\u2019s sheet"]) {
    await page.getByRole("link", { name, exact: true }).click();
    await eventually(() => page.title()).toContain(name);
    await page.getByRole("link", { name: "Papers", exact: true }).first().click();
    await page.locator(".papers-list").waitFor();
  }
  expect(await page.locator(".head .place").textContent()).toContain(school().name);
});
