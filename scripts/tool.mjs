/** `npm run tool -- vitest run src/science`: any installed tool, or `node` itself, under a modern Node. */
import { ensureDependencies } from "./dependencies.mjs";
import { runTool } from "./tools.mjs";

const command = process.argv.slice(2);
if (command.length === 0) {
  console.error("Say which tool to run, for example: npm run tool -- vitest run src/science");
  process.exitCode = 2;
} else {
  ensureDependencies();
  process.exitCode = runTool(command);
}
