/** Input that nobody means well with, or that went wrong: it is told clearly, runs nothing and loses nothing. */
import { afterEach, expect, it } from "vitest";
import { type Stage, setStage, WIDE } from "./fixtures/stage.ts";

const stages: Stage[] = [];
afterEach(async () => {
  for (const stage of stages.splice(0)) await stage.strike();
});

async function stageOf(text: string): Promise<Stage> {
  const stage = await setStage({ files: { "site.yaml": text } });
  stages.push(stage);
  return stage;
}

const TANK = "systems:\n  tank:\n    bodies:\n      display: { volume: 180 L }\n";

it("markup and writing from right to left in names and words are shown as text", async () => {
  const stage = await stageOf(
    `site: "<img src=x onerror=alert(1)> \u202eמדרסה"\nsystems:\n  חממה:\n    bodies:\n      ماء: { volume: 180 L }\ndevices:\n  سخان: { kind: heater, in: ماء }\nsensors:\n  t: { measures: temperature, in: ماء }\nrules:\n  r: { when: { t: above 28 degC }, notice: urgent, says: "<b>hot</b><script>alert(2)</script>" }\n`,
  );
  const page = await stage.open("/site?part=سخان");
  let alerts = 0;
  page.on("dialog", (dialog) => {
    alerts += 1;
    void dialog.dismiss();
  });
  await page.locator('a.part[data-part="سخان"]').waitFor();
  await page.getByText("<img src=x onerror=alert(1)>").first().waitFor();
  await page.goto(`${stage.server.address}/site?part=r`);
  expect(await page.getByRole("textbox", { name: "says" }).inputValue()).toContain("<script>");
  expect(alerts).toBe(0);
  expect(stage.complaints).toEqual([]);
});

it("a file of more than five megabytes is refused by its size, and the page says what to do", async () => {
  const stage = await stageOf(`site: Large\n${TANK}${"# filler, filler\n".repeat(310_000)}`);
  const page = await stage.open("/");
  await page.getByText("more than 5000000 are not read; split the place into several sites").waitFor();
});

it("what is no number, or too large for one, is told with its line, all at once", async () => {
  const stage = await stageOf(
    `site: Numbers\n${TANK.replace("180 L", "NaN L")}      sump: { volume: 1e400 L }\n      can: { volume: 9e20 L, holds: fresh }\n`,
  );
  const page = await stage.open("/");
  await page.getByText("'NaN L' does not begin with a number").waitFor();
  await page.getByText("'1e400 L' is too large to be a number").waitFor();
  await page.getByText("'9e20 L' is more than").waitFor();
});

it("a number that is none, typed into a field, is told there and stays there", async () => {
  const stage = await stageOf(
    `site: Numbers\n${TANK}devices:\n  heater: { kind: heater, in: display, power: 100 W }\n`,
  );
  const page = await stage.open("/site?part=heater");
  const power = page.getByRole("textbox", { name: "power" });
  for (const typed of ["NaN", "1e999 W", "-5 W", "Infinity W", "<script>", "🐠".repeat(400)]) {
    await power.fill(typed);
    await power.press("Enter");
    await page.locator(".field.wrong .problem").waitFor();
    expect(await power.inputValue()).toBe(typed);
  }
  expect(stage.read()).toContain("power: 100 W");
  expect(stage.complaints).toEqual([]);
});

it("a place of nearly two thousand devices opens, can be changed and kept", async () => {
  const devices = Array.from({ length: 1900 }, (_, i) => `  d-${i}: { kind: wave-pump, in: display }\n`).join("");
  const stage = await stageOf(`site: Many\n${TANK}devices:\n${devices}`);
  const page = await stage.open("/site?part=d-1234", { viewport: WIDE });
  const flow = page.getByRole("textbox", { name: "flow" });
  await flow.waitFor({ timeout: 60_000 });
  await flow.fill("1500 L/h");
  await flow.press("Enter");
  await page.getByRole("button", { name: "Keep" }).click({ timeout: 60_000 });
  await page.getByRole("region", { name: "Changes not yet kept" }).waitFor({ state: "detached", timeout: 60_000 });
  expect(stage.read()).toContain("d-1234: { kind: wave-pump, in: display, flow: 1500 L/h }");
});

it("more than two thousand parts are refused with what to do", async () => {
  const devices = Array.from({ length: 2100 }, (_, i) => `  d-${i}: { kind: wave-pump, in: display }\n`).join("");
  const stage = await stageOf(`site: Too many\n${TANK}devices:\n${devices}`);
  const page = await stage.open("/");
  await page.getByText("more than 2000 are not read; split the place into several sites").waitFor();
});

it("the script of the first view stays under 350 kB as it goes over the wire", async () => {
  const stage = await stageOf(`site: Small\n${TANK}`);
  const page = await stage.open("/", { serviceWorkers: "block" });
  await page.locator("main h1").waitFor();
  const bytes = await page.evaluate(() =>
    performance
      .getEntriesByType("resource")
      .filter(({ name }) => name.endsWith(".js"))
      .reduce((sum, entry) => sum + (entry as PerformanceResourceTiming).encodedBodySize, 0),
  );
  expect(bytes).toBeGreaterThan(10_000);
  expect(bytes).toBeLessThan(350_000);
});
