/** Runs the installed tools (compiler, formatter, test runner, bundler) under a modern Node. */
import { spawnSync } from "node:child_process";
import { delimiter, dirname } from "node:path";
import { modernNode } from "./modern-node.mjs";
import { inCheckout, root } from "./paths.mjs";

/** The environment in which `node` is modern and every installed tool is found by its name. */
export function toolEnvironment() {
  const path = [dirname(modernNode()), inCheckout("node_modules", ".bin"), process.env.PATH ?? ""];
  return { ...process.env, PATH: path.join(delimiter) };
}

/**
 * @param {readonly string[]} command name and arguments, e.g. ["tsc", "--noEmit"]
 * @param {NodeJS.ProcessEnv} [extra] further environment variables
 * @returns {number} its exit code
 */
export function runTool([name, ...args], extra = {}) {
  const done = spawnSync(name, args, {
    cwd: root,
    stdio: "inherit",
    env: { ...toolEnvironment(), ...extra },
    shell: process.platform === "win32",
  });
  if (done.error) console.error(`Cannot run ${name}: ${done.error.message}. Run npm ci, then try again.`);
  return done.status ?? 1;
}
