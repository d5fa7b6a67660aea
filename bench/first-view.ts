/**
 * How soon the board is useful: from asking for the page to the first drawn row, in a fresh browser before a server that has
 * rehearsed the demo school. `npm run tool -- node bench/first-view.ts`, after `npm run tool -- vite build`.
 */
import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { engineOnThreads } from "../src/cli/engine.ts";
import { startServer } from "../src/server/index.ts";

const VISITS = 7;
const FLAGS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"];

const folder = mkdtempSync(join(tmpdir(), "slackwater-first-view-"));
const file = join(folder, "school.yaml");
copyFileSync("examples/alder-row-school.yaml", file);
const server = await startServer({ file, port: 0, engine: engineOnThreads(() => undefined) });
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: FLAGS });
try {
  const first = await browser.newPage();
  await first.goto(server.address);
  await first.getByText(/^rehearsed /).waitFor({ timeout: 300_000 });
  await first.close();
  const times: number[] = [];
  let scriptKB = 0;
  for (let visit = 0; visit < VISITS; visit++) {
    const context = await browser.newContext({ viewport: { width: 1600, height: 1000 }, serviceWorkers: "block" });
    const page = await context.newPage();
    const began = performance.now();
    await page.goto(server.address, { waitUntil: "commit" });
    await page.locator("a.row .plot svg").first().waitFor();
    times.push(performance.now() - began);
    scriptKB = await page.evaluate(() =>
      performance
        .getEntriesByType("resource")
        .filter(({ name }) => name.endsWith(".js"))
        .reduce(
          (sum, entry) => sum + (entry as unknown as { readonly encodedBodySize: number }).encodedBodySize / 1000,
          0,
        ),
    );
    await context.close();
  }
  times.sort((a, b) => a - b);
  const shown = times.map((ms) => ms.toFixed(0)).join(", ");
  console.log(`load of the machine ${loadavg()[0].toFixed(1)}`);
  console.log(
    `to the first row of the board, ${VISITS} first visits: ${shown} ms; script ${scriptKB.toFixed(0)} kB on the wire`,
  );
} finally {
  await browser.close();
  await server.close();
  rmSync(folder, { recursive: true });
}
