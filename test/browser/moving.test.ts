/** Parts of the picture moved by hand, by finger and by key, on a real file, which is written only when that is kept. */
import { readFileSync } from "node:fs";
import type { CDPSession, Locator, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from "vitest";
import { expectAccessible } from "./fixtures/axe.ts";
import { eventually, ON_PHONE, type Stage, setStage, WIDE } from "./fixtures/stage.ts";

const SCHOOL = readFileSync(new URL("../../examples/alder-row-school.yaml", import.meta.url), "utf8");

let stage: Stage;
let page: Page;

beforeAll(async () => {
  stage = await setStage({ files: { "school.yaml": SCHOOL } });
});
beforeEach(() => stage.write(SCHOOL));
afterEach(async () => {
  await page.context().close();
  expect(stage.complaints).toEqual([]);
});
afterAll(() => stage.strike());

const part = (id: string) => page.locator(`.place-picture [data-part="${id}"]`);
const target = (id: string) => page.locator(`[data-target="${id}"]`);
const strip = () => page.getByRole("region", { name: "Changes not yet kept" });
const foot = () => page.locator(".moving-foot").textContent();
const focused = () => page.evaluate(() => document.activeElement?.getAttribute("data-target") ?? null);
const nearness = () => page.locator(".place-picture").getAttribute("data-nearness").then(Number);

/** The middle of what is drawn there, on the screen. */
async function middleOf(one: Locator): Promise<{ readonly x: number; readonly y: number }> {
  const box = await one.boundingBox();
  if (box === null) throw new Error("It is not drawn");
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

async function openAt(id: string, options = {}): Promise<void> {
  page = await stage.open(`/site?part=${id}`, options);
  await part(id).waitFor();
  await page.locator(".sheet h2").waitFor();
}

async function dragOver(from: Locator, to: Locator): Promise<void> {
  const a = await middleOf(from);
  const b = await middleOf(to);
  await page.mouse.move(a.x, a.y);
  await page.mouse.down();
  await page.mouse.move(a.x + 12, a.y - 12, { steps: 2 });
  await page.mouse.move(b.x, b.y, { steps: 3 });
}

it("a sensor is dragged into another water: one step of the draft, in words, and the file is written on Keep", async () => {
  await openAt("reef-temp");
  await dragOver(part("reef-temp").locator(".hit"), part("lagoon-display").locator(".glass"));
  await page.locator(".ghost").waitFor();
  expect(await target("reef-calcium-can").count()).toBe(0);
  expect(await target("reef-sump").count()).toBe(0);
  await page.mouse.up();
  await strip().getByText("reef-temp moves to").waitFor();
  await page.locator(".sheet .lead", { hasText: "lagoon display" }).waitFor();
  expect(page.url()).toContain("part=reef-temp");
  expect(stage.read()).toBe(SCHOOL);
  await strip().getByRole("button", { name: "Keep" }).click();
  await strip().waitFor({ state: "detached" });
  expect(stage.read()).toBe(
    SCHOOL.replace(
      "reef-temp: { measures: temperature, in: reef-sump",
      "reef-temp: { measures: temperature, in: lagoon-display",
    ),
  );
});

it("a plug alone goes onto another circuit", async () => {
  await openAt("lagoon-heater");
  await dragOver(page.locator('[data-plug="lagoon-heater"]'), part("ring-lab").locator("text").first());
  expect(await target("lagoon-display").count()).toBe(0);
  await page.mouse.up();
  await strip().getByText("lagoon-heater is plugged into ring-lab").waitFor();
});

it("M, arrow keys and Enter move a part too, and say so; the focus stays on it", async () => {
  await openAt("reef-heater-1");
  await part("reef-heater-1").focus();
  await page.keyboard.press("m");
  await eventually(focused).toBe("reef-display");
  expect(await foot()).toContain("Where to with reef-heater-1?");
  await page.keyboard.press("ArrowRight");
  await eventually(focused).not.toBe("reef-display");
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("Enter");
  await strip().getByText("reef-heater-1 moves to").waitFor();
  await eventually(foot).toMatch(/reef-heater-1 moves to reef display\./);
  await eventually(() => page.evaluate(() => document.activeElement?.getAttribute("data-part"))).toBe("reef-heater-1");
  expect(stage.read()).toBe(SCHOOL);
});

it("Escape leaves everything as it was, in the hand and by keys", async () => {
  await openAt("reef-heater-1");
  await dragOver(part("reef-heater-1").locator(".hit"), part("lagoon-display").locator(".glass"));
  await page.locator(".ghost").waitFor();
  await page.keyboard.press("Escape");
  await page.locator(".ghost").waitFor({ state: "detached" });
  await page.mouse.up();
  await part("reef-heater-1").focus();
  await page.keyboard.press("m");
  await eventually(focused).toBe("reef-display");
  await page.keyboard.press("Escape");
  await target("reef-display").waitFor({ state: "detached" });
  await eventually(foot).toContain("Left as it was");
  expect(await strip().count()).toBe(0);
});

it("what the check refuses is told at the foot of the picture in its words, and nothing moves", async () => {
  await openAt("reef-top-off");
  await part("reef-top-off").focus();
  await page.keyboard.press("m");
  await page.getByRole("combobox", { name: "Places" }).selectOption("lagoon-sump");
  await page.getByRole("button", { name: "Put it there" }).click();
  await eventually(foot).toContain("Nothing was changed");
  expect(await foot()).toMatch(/It stops at 90.L, but lagoon sump runs over at 66.L\./);
  expect(await strip().count()).toBe(0);
});

it("C joins two waters of a system by a new pump in the lower one", async () => {
  stage.write(
    SCHOOL.replace(
      "      reef-barrel:",
      "      reef-tray: { role: frag, volume: 60 L, holds: { salt: 35 ppt } }\n      reef-barrel:",
    ),
  );
  page = await stage.open("/site?part=reef-tray");
  await part("reef-tray").waitFor();
  await part("reef-tray").focus();
  await page.keyboard.press("c");
  await target("reef-sump").click();
  await strip().getByText("reef-tray-return lifts water from").waitFor();
  await part("reef-tray-return").first().waitFor();
});

it("a finger takes a part after a long press and lets it go over another water", async () => {
  await openAt("reef-heater-1", { ...ON_PHONE, viewport: WIDE });
  const fingers = await page.context().newCDPSession(page);
  const from = await middleOf(part("reef-heater-1").locator(".hit"));
  await touch(fingers, "touchStart", from);
  await page.locator(".place-picture.is-moving").waitFor();
  const to = await middleOf(part("lagoon-display").locator(".glass"));
  await touch(fingers, "touchMove", { x: from.x + 20, y: from.y });
  await touch(fingers, "touchMove", to);
  await page.locator(".target.over").waitFor();
  await touch(fingers, "touchEnd");
  await strip().getByText("reef-heater-1 moves to").waitFor();
});

async function touch(
  fingers: CDPSession,
  type: "touchStart" | "touchMove" | "touchEnd",
  at?: { x: number; y: number },
) {
  await fingers.send("Input.dispatchTouchEvent", { type, touchPoints: at === undefined ? [] : [at] });
}

it("plus, minus and 0 bring the picture nearer, farther and whole; a plain wheel scrolls the page", async () => {
  await openAt("reef-heater-1");
  await part("reef-heater-1").focus();
  await page.keyboard.press("+");
  await eventually(nearness).toBeCloseTo(1.4);
  await page.keyboard.press("+");
  await page.keyboard.press("-");
  await eventually(nearness).toBeCloseTo(1.4);
  const before = await page.locator(".place-picture .near").getAttribute("transform");
  await page.keyboard.press("Shift+ArrowRight");
  await eventually(() => page.locator(".place-picture .near").getAttribute("transform")).not.toBe(before);
  await page.keyboard.press("0");
  await eventually(nearness).toBe(1);
  await page.getByRole("button", { name: "Nearer" }).click();
  await eventually(nearness).toBeCloseTo(1.4);
  await page.getByRole("button", { name: "The whole picture" }).click();
  await eventually(nearness).toBe(1);
  const { x, y } = await middleOf(page.locator(".place-picture"));
  await page.mouse.move(x, Math.min(y, 600));
  await page.mouse.wheel(0, 120);
  await eventually(() => page.evaluate(() => scrollY)).toBeGreaterThan(0);
  expect(await nearness()).toBe(1);
  await page.keyboard.down("Control");
  await page.mouse.wheel(0, -120);
  await page.keyboard.up("Control");
  await eventually(nearness).toBeGreaterThan(1);
});

it.each([
  ["wide", { viewport: WIDE }],
  ["phone", ON_PHONE],
] as const)(
  "axe finds nothing while a part is being moved and the ladder is on show, %s, in both themes",
  async (_, options) => {
    await openAt("reef-heater-1", options);
    await page.getByRole("checkbox", { name: "people" }).check();
    await part("reef-heater-1").focus();
    await page.keyboard.press("m");
    await eventually(focused).toBe("reef-display");
    await expectAccessible(page);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(over).toBeLessThanOrEqual(0);
  },
);

it("no label of the picture lies over another in the browser's own measure", async () => {
  await openAt("reef-heater-1");
  for (const layer of ["messages", "people"]) await page.getByRole("checkbox", { name: layer }).check();
  const covered = await page.evaluate(() => {
    const texts = [...document.querySelectorAll<SVGTextElement>(".place-picture text")].filter(
      (text) => text.textContent !== "",
    );
    const boxes = texts.map((text) => {
      const { left, right, bottom, height } = text.getBoundingClientRect();
      // Of the line's box only what letters take.
      return {
        text: text.textContent,
        left: left + 0.5,
        right: right - 0.5,
        top: bottom - height * 0.8,
        bottom: bottom - height * 0.22,
      };
    });
    return boxes.flatMap((a, i) =>
      boxes
        .slice(i + 1)
        .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
        .map((b) => `${a.text} and ${b.text}`),
    );
  });
  expect(covered).toEqual([]);
});
