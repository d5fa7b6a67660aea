/**
 * Draws the icons of the installed app from the one mark, src/web/parts/mark.svg: `node scripts/make-icons.mjs`.
 * Run it when the mark changes, and commit what it writes. Needs Debian's Chromium, or CHROMIUM with its path.
 */
import { readFileSync } from "node:fs";
import { chromium } from "playwright-core";
import { ensureChromium } from "./browser.mjs";
import { inCheckout } from "./paths.mjs";

/** A mask may cut all but the middle four fifths, so there the mark is drawn smaller on the same paper. */
const icons = [
  { name: "icon-192.png", size: 192, share: 0.86 },
  { name: "icon-512.png", size: 512, share: 0.86 },
  { name: "icon-maskable-512.png", size: 512, share: 0.62 },
  { name: "apple-touch-icon.png", size: 180, share: 0.72 },
];

const mark = readFileSync(inCheckout("src", "web", "parts", "mark.svg"), "utf8");
const paper = /<rect[^>]*fill="(#\w+)"/.exec(mark)?.[1] ?? "#fff";
const browser = await chromium.launch({
  executablePath: ensureChromium(),
  args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"],
});
for (const { name, size, share } of icons) {
  const page = await browser.newPage({ viewport: { width: size, height: size }, deviceScaleFactor: 1 });
  const inner = Math.round(size * share);
  await page.setContent(
    `<style>body{margin:0;background:${paper};display:grid;place-items:center;height:100vh}svg{width:${inner}px;height:${inner}px}</style>${mark}`,
  );
  await page.screenshot({ path: inCheckout("src", "web", "public", name) });
  await page.close();
}
await browser.close();
