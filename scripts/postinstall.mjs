/** After `npm ci`: makes sure that `npx slackwater` can run on this machine. A modern Node makes this a no-op. */
import { modernNode } from "./modern-node.mjs";

try {
  modernNode();
} catch (error) {
  // The packages are in place all the same, so the install stands; the command repeats this sentence when it is run.
  console.error(error.message);
}
