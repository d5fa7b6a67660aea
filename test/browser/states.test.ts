import type { Page } from "playwright-core";
import { afterEach, expect, it } from "vitest";
import { eventually, type Stage, setStage } from "./fixtures/stage.ts";

let stage: Stage;
let page: Page;

afterEach(() => stage.strike());

const rows = () => page.locator("a.row");

it("before the first rehearsal the page says so and offers it", async () => {
  stage = await setStage({ rehearsesByItself: false });
  page = await stage.open("/");
  await eventually(() => page.locator("h1").textContent()).toBe("No drill has been run for Alder Row School.");
  await page.getByRole("button", { name: "Rehearse" }).click();
  await eventually(() => rows().count()).toBeGreaterThan(10);
  expect(stage.complaints).toEqual([]);
});

it("a rehearsal at work counts, shows what is done so far, and stops when told to", async () => {
  stage = await setStage({ rehearsesByItself: false });
  stage.setPace({ batch: 30, pauseMs: 250 });
  page = await stage.open("/");
  await page.getByRole("button", { name: "Rehearse" }).click();
  await eventually(() => page.locator(".note.work").textContent()).toMatch(/Rehearsing, \d+ of 1\s212 drills/);
  await eventually(() => rows().count()).toBeGreaterThan(0);
  expect(await page.locator(".first").textContent()).toMatch(/^So far, \d+ of/);
  expect(await page.locator(".wait").count()).toBeGreaterThan(0);
  const before = Number(await page.getByRole("progressbar").getAttribute("aria-valuenow"));
  await eventually(async () =>
    Number(await page.getByRole("progressbar").getAttribute("aria-valuenow")),
  ).toBeGreaterThan(before);
  await page.getByRole("button", { name: "Stop" }).click();
  await eventually(() => page.locator(".note").textContent()).toMatch(/Stopped after \d+ of/);
  expect(await rows().count()).toBeGreaterThan(0);
});

it("a rehearsal that fails says what happened and what still stands", async () => {
  stage = await setStage();
  page = await stage.open("/");
  await rows().first().waitFor();
  stage.setPace({ batch: 100, pauseMs: 0, failsWith: "The twin of the lagoon lost its water" });
  await page.getByRole("button", { name: "Rehearse again" }).click();
  await eventually(() => page.getByRole("alert").textContent()).toContain("The twin of the lagoon lost its water");
  expect(await page.getByRole("alert").textContent()).toContain("What was rehearsed before is still on show");
  expect(await rows().count()).toBeGreaterThan(10);
});

it("a site file that breaks is told with file and line while the last good board stays; mended, the page follows by itself", async () => {
  stage = await setStage();
  page = await stage.open("/");
  await rows().first().waitFor();
  stage.write("ringb");
  await eventually(() => page.getByRole("alert").textContent()).toContain("site.yaml:31");
  const told = await page.getByRole("alert").textContent();
  expect(told).toContain("no circuit is called 'ringb'; did you mean 'ring-b'?");
  expect(told).toMatch(/The last good version, of \d\d:\d\d today, is still on show\./);
  expect(await rows().count()).toBeGreaterThan(10);
  stage.write("one");
  await eventually(() => page.getByRole("alert").count()).toBe(0);
  await eventually(() => page.locator(".place").textContent()).toContain("Kitchen");
});

it("a site file that never could be read says what to do", async () => {
  stage = await setStage({ word: "ringb" });
  page = await stage.open("/");
  await eventually(() => page.getByRole("alert").textContent()).toContain("Mend the file and save it");
});

it("when the program falls silent the page says since when, and keeps what it shows", async () => {
  stage = await setStage();
  page = await stage.open("/");
  await rows().first().waitFor();
  await stage.server.close();
  await eventually(() => page.locator(".note").textContent()).toMatch(/No word from the program since \d\d:\d\d\./);
  expect(await rows().count()).toBeGreaterThan(10);
});

it("an address that leads nowhere leads back", async () => {
  stage = await setStage();
  page = await stage.open("/nowhere");
  await page.getByRole("link", { name: "Go to the drills" }).click();
  await rows().first().waitFor();
  expect(new URL(page.url()).pathname).toBe("/");
});
