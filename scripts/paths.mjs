/** Where things are in this checkout. */
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

export const root = dirname(dirname(fileURLToPath(import.meta.url)));

/** @param {...string} parts path below the checkout, e.g. "dist", "web" */
export function inCheckout(...parts) {
  return join(root, ...parts);
}
