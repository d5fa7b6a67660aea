/**
 * A copy of a site that is quick to read. Frozen lists, and objects that came from another thread, are read through slow
 * paths of the engine: in a worker the surroundings of the water took four times as long. Objects made from JSON are not.
 */
import type { Site } from "../site/index.ts";
import { DefectError } from "./must-find.ts";

export function quickCopy(site: Site): Site {
  const copy: Site = JSON.parse(JSON.stringify(site, refuseEndless));
  return copy;
}

/** JSON has no word for Infinity and NaN; a site has no use for them. */
function refuseEndless(key: string, value: unknown): unknown {
  if (typeof value !== "number" || Number.isFinite(value)) return value;
  throw new DefectError(
    "defect/endless-number",
    `A site holds the number ${value} as '${key}'`,
    "leave it out or use null",
  );
}
