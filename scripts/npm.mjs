/** Runs npm: the very one that started us, if one did, or else the first on the path. */
import { spawnSync } from "node:child_process";
import { root } from "./paths.mjs";

/**
 * npm's own words go to standard error, so that a command whose standard output is data stays clean.
 *
 * @param {readonly string[]} args e.g. ["ci"]
 * @throws {Error} when npm cannot be started or fails
 */
export function runNpm(args) {
  const startedBy = process.env.npm_execpath ?? "";
  const viaNode = startedBy.endsWith("npm-cli.js");
  const done = spawnSync(viaNode ? process.execPath : "npm", viaNode ? [startedBy, ...args] : args, {
    cwd: root,
    stdio: ["ignore", 2, 2],
    shell: !viaNode && process.platform === "win32",
  });
  if (done.error) throw new Error(`Cannot start npm: ${done.error.message}. Install npm, then try again.`);
  if (done.status !== 0) {
    throw new Error(
      `"npm ${args.join(" ")}" ended with code ${done.status}. Its own words are above; fix that, then try again.`,
    );
  }
}
