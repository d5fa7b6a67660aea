/** Once loaded, the page stays when the program is gone; and it never stays older than the program. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { afterEach, expect, it } from "vitest";
import { eventually, type Stage, setStage } from "./fixtures/stage.ts";

let stage: Stage;
let page: Page;

afterEach(() => stage.strike());

const rows = () => page.locator("a.row").count();
const isKept = () =>
  page.evaluate(async () => {
    const answers = await caches.open("answers");
    const kept = await Promise.all(["/api/site", "/api/rehearsal"].map((path) => answers.match(path)));
    return navigator.serviceWorker.controller !== null && kept.every((answer) => answer !== undefined);
  });

it("loaded once, the board is there after a reload without the program, and says since when", async () => {
  stage = await setStage();
  page = await stage.open("/", { serviceWorkers: "allow" });
  await eventually(rows).toBeGreaterThan(10);
  await eventually(isKept).toBe(true);
  const shown = await page.locator("h1").textContent();
  await stage.server.close();
  await page.reload();
  await eventually(rows).toBeGreaterThan(10);
  expect(await page.locator("h1").textContent()).toBe(shown);
  await eventually(() => page.locator(".note").allTextContents()).toEqual([
    expect.stringMatching(/^No word from the program since \d\d:\d\d\. What you see is from then\.$/),
  ]);
  // Another view of the same page needs the program as little.
  await page.goto(`${stage.server.address}/site?part=heater-2`);
  await eventually(() => page.locator(".sheet h2").textContent()).toBe("heater-2");
});

it("the app can be installed: it has a name, a start and icons of the sizes that are asked for", async () => {
  stage = await setStage();
  page = await stage.open("/");
  const manifest = (await (await page.request.get(`${stage.server.address}/manifest.webmanifest`)).json()) as {
    readonly name: string;
    readonly start_url: string;
    readonly theme_color: string;
    readonly icons: readonly { readonly src: string; readonly sizes: string }[];
  };
  expect(manifest).toMatchObject({ name: "Slackwater", start_url: "/", display: "standalone" });
  expect(manifest.theme_color).toMatch(/^#[0-9a-f]{6}$/);
  const sizes = await page.evaluate(
    (icons) =>
      Promise.all(
        icons.map(async ({ src }) => {
          const image = await createImageBitmap(await (await fetch(src)).blob());
          return `${image.width}x${image.height}`;
        }),
      ),
    manifest.icons,
  );
  expect(sizes).toEqual(manifest.icons.map((icon) => icon.sizes));
  expect(stage.complaints).toEqual([]);
});

it("when the program comes back newer, an open page says so, and a pressed button loads the newer one", async () => {
  const folder = mkdtempSync(join(tmpdir(), "slackwater-pages-"));
  cpSync(fileURLToPath(new URL("../../dist/web", import.meta.url)), folder, { recursive: true });
  stage = await setStage({ pages: folder });
  page = await stage.open("/", { serviceWorkers: "allow" });
  await eventually(isKept).toBe(true);
  await stage.restart(() => {
    const html = join(folder, "index.html");
    const script = /assets\/index-[\w-]+\.js/.exec(readFileSync(html, "utf8"))?.[0] ?? "";
    cpSync(join(folder, script), join(folder, "assets/newer.js"));
    writeFileSync(html, readFileSync(html, "utf8").replace(script, "assets/newer.js"));
  });
  await page.getByRole("button", { name: "Load the newer page" }).click();
  await eventually(() => page.locator("script[type=module]").getAttribute("src")).toContain("newer.js");
  await eventually(rows).toBeGreaterThan(10);
  expect(await page.getByRole("button", { name: "Load the newer page" }).count()).toBe(0);
  rmSync(folder, { recursive: true });
});
