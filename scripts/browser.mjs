/** Finds the browser that the browser tests drive, and on Debian as root installs it when there is none. */
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";

const debianChromium = "/usr/bin/chromium";

/**
 * @returns {string} path of Chromium: $CHROMIUM if set, otherwise Debian's
 * @throws {Error} what to do when there is none
 */
export function ensureChromium() {
  const named = process.env.CHROMIUM;
  if (named) {
    if (existsSync(named)) return named;
    throw new Error(`CHROMIUM names "${named}", which does not exist; set it to the path of a Chromium, or unset it.`);
  }
  if (existsSync(debianChromium)) return debianChromium;
  if (!existsSync("/usr/bin/apt-get")) {
    throw new Error("The browser tests need Chromium: install it and set CHROMIUM to its path.");
  }
  if (process.getuid() !== 0) {
    throw new Error(
      'The browser tests need Chromium: run "sudo apt-get install chromium", or set CHROMIUM to the path of one.',
    );
  }
  console.error("Installing Debian's Chromium for the browser tests.");
  aptGet("update");
  aptGet("install", "--yes", "--no-install-recommends", "chromium");
  return debianChromium;
}

function aptGet(...args) {
  const done = spawnSync("apt-get", ["--quiet=2", ...args], {
    encoding: "utf8",
    env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
  });
  if (done.status === 0) return;
  console.error(done.stdout, done.stderr);
  throw new Error(`"apt-get ${args.join(" ")}" failed; its own words are above.`);
}
