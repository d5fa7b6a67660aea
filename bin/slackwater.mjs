#!/usr/bin/env node
/**
 * The command `slackwater`. Plain JavaScript that loads on Node 18 or later: where the Node that runs it is too old
 * for the rest of the house, it hands over to one that is not.
 */
import { fileURLToPath } from "node:url";
import { endWithNpm } from "../scripts/end-with-npm.mjs";
import { handOver } from "../scripts/hand-over.mjs";
import { isModern, modernNode } from "../scripts/modern-node.mjs";

endWithNpm();
if (isModern(process.versions.node)) {
  // What was compiled once is kept, for this process and its threads.
  const { enableCompileCache } = await import("node:module");
  enableCompileCache();
  await import("../src/cli/main.ts");
} else {
  try {
    handOver(modernNode(), [fileURLToPath(import.meta.url), ...process.argv.slice(2)]);
  } catch (error) {
    console.error(error.message);
    process.exitCode = 1;
  }
}
