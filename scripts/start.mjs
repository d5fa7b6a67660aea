/**
 * `npm start [-- FILE] [-- --port N]`: from a fresh clone to a running server. Everything imported here must do with
 * Node's own modules, because no package is installed yet when it begins.
 */
import { ensureDependencies } from "./dependencies.mjs";
import { endWithNpm } from "./end-with-npm.mjs";
import { handOver } from "./hand-over.mjs";
import { modernNode } from "./modern-node.mjs";
import { inCheckout, root } from "./paths.mjs";
import { toolEnvironment } from "./tools.mjs";
import { ensureWebBuild } from "./web-build.mjs";

const exampleSite = "examples/alder-row-school.yaml";
const usualPort = "4780";

/** @param {readonly string[]} args what follows `npm start --` */
function serveArguments(args) {
  const startsWithFile = args.length > 0 && !args[0].startsWith("-");
  const hasPort = args.some((arg) => arg === "--port" || arg.startsWith("--port="));
  return [...(startsWithFile ? [] : [exampleSite]), ...args, ...(hasPort ? [] : ["--port", usualPort])];
}

try {
  process.chdir(root);
  const node = modernNode();
  ensureDependencies();
  ensureWebBuild();
  const args = [inCheckout("bin", "slackwater.mjs"), "serve", ...serveArguments(process.argv.slice(2))];
  endWithNpm();
  handOver(node, args, toolEnvironment());
} catch (error) {
  console.error(error.message);
  process.exitCode = 1;
}
