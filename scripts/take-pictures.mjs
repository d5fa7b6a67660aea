/**
 * Takes the pictures of the documentation from the running app: `node scripts/take-pictures.mjs ADDRESS FOLDER [DRILL]`.
 * Needs Debian's Chromium, or CHROMIUM with its path.
 */
import { chromium } from "playwright-core";

const [address, folder, drill] = process.argv.slice(2);
if (!address || !folder) {
  process.stderr.write("Usage: node scripts/take-pictures.mjs ADDRESS FOLDER [DRILL]\n");
  process.exit(2);
}
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
  ],
});
const pages = {
  board: "/",
  site: "/site",
  findings: "/findings",
  ...(drill ? { drill: `/drill?id=${encodeURIComponent(drill)}` } : {}),
};
const sizes = { wide: { width: 1600, height: 1000 }, phone: { width: 390, height: 844 } };
for (const [size, viewport] of Object.entries(sizes)) {
  for (const colorScheme of ["light", "dark"]) {
    const page = await browser.newPage({ viewport, colorScheme });
    for (const [name, path] of Object.entries(pages)) {
      await page.goto(`${address}${path}`);
      await page.waitForSelector("main h1");
      await page.waitForTimeout(name === "drill" ? 6000 : 800);
      await page.screenshot({ path: `${folder}/${name}-${size}-${colorScheme}.png` });
    }
    await page.close();
  }
}
await browser.close();
