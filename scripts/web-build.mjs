/** Builds the web app when there is none or when something it may be made of is newer. */
import { readdirSync, statSync } from "node:fs";
import { inCheckout } from "./paths.mjs";
import { runTool } from "./tools.mjs";

/** All of src/, because the contract that the app shares with the server may reach down into any room. */
const madeFrom = ["src", "vite.config.ts", "package-lock.json"];

/** @throws {Error} when the build fails */
export function ensureWebBuild() {
  if (
    newestMs(inCheckout("dist", "web", "index.html")) > Math.max(...madeFrom.map((path) => newestMs(inCheckout(path))))
  )
    return;
  console.error("Building the web app.");
  if (runTool(["vite", "build", "--logLevel", "warn"]) !== 0) {
    throw new Error("The web app could not be built; the reasons are above.");
  }
}

/** Time of the last change at or below a path, ms since 1970; 0 where there is nothing. */
function newestMs(path) {
  const stats = statSync(path, { throwIfNoEntry: false });
  if (stats === undefined) return 0;
  if (!stats.isDirectory()) return stats.mtimeMs;
  // A folder's own time counts too: it moves when a file is taken away.
  return readdirSync(path).reduce((newest, name) => Math.max(newest, newestMs(`${path}/${name}`)), stats.mtimeMs);
}
