/**
 * `npm run pictures [-- NAME ...]`: takes the pictures of the guide and of the README from the running app, all or those whose
 * names begin so. Starts the demo school itself and waits for its rehearsal. Needs Debian's Chromium, or CHROMIUM with its path.
 */
import { spawn } from "node:child_process";
import { statSync } from "node:fs";
import { chromium } from "playwright-core";
import { ensureChromium } from "./browser.mjs";
import { inCheckout } from "./paths.mjs";
import { ensureWebBuild } from "./web-build.mjs";

const SITE = "examples/alder-row-school.yaml";
/** A night that shows most of what a timeline can: sleep, messages, a way to the place, and harm that was averted. */
const DRILL = "/drill?id=mains.cut-4-h%40night";
const WIDE = { viewport: { width: 1440, height: 900 } };
const LOW = { viewport: { width: 1440, height: 560 } };
const FRONT = { viewport: { width: 1600, height: 1000 } };
const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
const GUIDE = ["docs", "guide", "pictures"];
const README = ["docs", "pictures"];
/** All pictures together stay below this, so that a clone stays small. */
const MOST_BYTES = 2_500_000;

/**
 * Every picture: its name, what is opened, how large, and what is done before it is taken. To add one, add a line.
 *
 * @type {readonly {
 *   name: string, path: string, ready: string, size: object, folder?: readonly string[], scheme?: "light" | "dark",
 *   locale?: string, before?: (page: import("playwright-core").Page) => Promise<unknown>,
 *   of?: string,
 * }[]}
 * `ready` is shown when the page is there; `of` takes only that part of the page.
 */
const PICTURES = [
  { name: "board-wide-light", path: "/", ready: "a.row", size: FRONT, folder: README },
  { name: "drill-wide-light", path: DRILL, ready: "svg.lanes", size: FRONT, folder: README },
  { name: "board-late", path: "/?verdict=late", ready: "a.row", size: WIDE, of: ".board", before: tenRows },
  { name: "board-phone", path: "/", ready: "a.row", size: PHONE },
  { name: "board-phone-dark", path: "/", ready: "a.row", size: PHONE, scheme: "dark" },
  { name: "drill-later", path: DRILL, ready: "svg.lanes", size: WIDE, of: ".chart", before: helpLater },
  { name: "drill-phone", path: DRILL, ready: "svg.lanes", size: PHONE },
  { name: "site", path: "/site?part=reef-heater-1", ready: ".sheet h2", size: WIDE },
  { name: "site-phone", path: "/site?part=lagoon-temp", ready: ".sheet h2", size: PHONE },
  { name: "site-change", path: "/site?part=reef-heater-1", ready: ".field.edit", size: WIDE, before: halveHeater },
  { name: "papers-proving", path: "/papers/proving", ready: ".trial", size: LOW },
  { name: "papers-key-holder", path: "/papers/key-holder", ready: ".key-sheet", size: WIDE },
  { name: "findings", path: "/findings", ready: "ol.steps > li", size: LOW },
  { name: "pairs", path: "/pairs", ready: "main h1", size: WIDE, before: rehearsePairs },
  { name: "units", path: DRILL, ready: "svg.lanes", size: LOW, locale: "en-US" },
];

/** Taken last: the program is ended before it. */
const OFFLINE = { name: "offline-phone", path: "/", ready: "a.row", size: PHONE };

/** A few rows say as much as sixty. */
function tenRows(page) {
  return page.evaluate(() => {
    for (const row of [...document.querySelectorAll(".board li")].slice(10)) row.remove();
  });
}

/** The change is tried with all drills that it can touch, which takes as long as a rehearsal. Nothing is kept. */
async function halveHeater(page) {
  const power = page.getByRole("textbox", { name: "power", exact: true });
  await power.fill("150 W");
  await power.press("Enter");
  await page.getByText("drills tried again,").waitFor({ timeout: 240_000 });
  await page.waitForFunction(() => !/\d of \d/.test(document.querySelector(".strip")?.textContent ?? ""), undefined, {
    timeout: 240_000,
  });
}

/** A button begins it; the matrix is there when they are done. */
async function rehearsePairs(page) {
  await page.getByRole("button", { name: "Rehearse the pairs" }).click();
  await page.getByRole("grid").waitFor({ timeout: 240_000 });
}

async function helpLater(page) {
  const slider = page.getByRole("slider", { name: "Help comes later" });
  await slider.focus();
  await page.keyboard.press("End");
  await slider.scrollIntoViewIfNeeded();
}

/** Starts the program on any free port; resolves with its address once everything is rehearsed. */
async function startSchool() {
  const child = spawn(process.execPath, [inCheckout("bin", "slackwater.mjs"), "serve", SITE, "--port", "0"], {
    cwd: inCheckout(),
    stdio: ["ignore", "pipe", "inherit"],
  });
  const address = await new Promise((resolve, reject) => {
    child.stdout.setEncoding("utf8").on("data", (text) => {
      const found = /http:\/\/\S+/.exec(text);
      if (found) resolve(found[0]);
    });
    child.once("exit", (code) => reject(new Error(`The program ended by itself, with code ${code}.`)));
  });
  for (;;) {
    const { state, problem } = await (await fetch(`${address}/api/rehearsal`)).json();
    if (state === "done") break;
    if (state === "failed") throw new Error(problem);
    await new Promise((resolve) => setTimeout(resolve, 500));
  }
  const end = () =>
    new Promise((resolve) => {
      child.once("exit", resolve);
      child.kill("SIGTERM");
    });
  return { address, end };
}

async function openPage(browser, address, { path, ready, size, scheme = "light", locale = "en-GB" }) {
  const context = await browser.newContext({
    ...size,
    deviceScaleFactor: 1,
    colorScheme: scheme,
    locale,
    reducedMotion: "reduce",
    serviceWorkers: "block",
    bypassCSP: true,
  });
  const page = await context.newPage();
  await page.goto(address + path);
  await page.locator(ready).first().waitFor();
  // When it was rehearsed and how long that took differs from time to time; a picture should differ only where the app does.
  await page.addStyleTag({ content: ".head .word { visibility: hidden }" });
  await page.evaluate(() => document.fonts.ready);
  return page;
}

async function take(page, { name, folder = GUIDE, of }) {
  const path = inCheckout(...folder, `${name}.png`);
  await (of === undefined ? page.screenshot({ path }) : page.locator(of).screenshot({ path }));
  const { size } = statSync(path);
  console.log(`${[...folder, name].join("/")}.png, ${Math.round(size / 1000)} kB`);
  return size;
}

const wanted = process.argv.slice(2);
const isWanted = ({ name }) => wanted.length === 0 || wanted.some((begin) => name.startsWith(begin));
ensureWebBuild();
const school = await startSchool();
const browser = await chromium.launch({
  executablePath: ensureChromium(),
  args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run", "--disable-sync"],
});
let bytes = 0;
for (const picture of PICTURES.filter(isWanted)) {
  const page = await openPage(browser, school.address, picture);
  await picture.before?.(page);
  bytes += await take(page, picture);
  await page.context().close();
}
const last = isWanted(OFFLINE) ? await openPage(browser, school.address, OFFLINE) : null;
await school.end();
if (last !== null) {
  await last.locator(".note").first().waitFor();
  bytes += await take(last, OFFLINE);
}
await browser.close();
if (bytes > MOST_BYTES) {
  console.error(`The pictures take ${bytes} bytes, more than ${MOST_BYTES}: take fewer, or smaller parts.`);
  process.exitCode = 1;
}
