/** Rehearsals of texts, kept in a folder where one is named. */
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type DrillResult, ENGINE, rehearse } from "../../src/drills/index.ts";
import { formatSiteError, loadSite } from "../../src/site/index.ts";

export function keptRehearsals(
  folder: string | null,
  threads: number,
): (text: string) => Promise<readonly DrillResult[]> {
  if (folder !== null) mkdirSync(folder, { recursive: true });
  return async (text) => {
    const name = createHash("sha256").update(`${ENGINE}\n${text}`).digest("hex").slice(0, 24);
    const file = folder === null ? null : join(folder, `${name}.json`);
    if (file !== null && existsSync(file)) return JSON.parse(readFileSync(file, "utf8"));
    const { site, errors } = loadSite(text, "changed.yaml");
    if (site === null) throw new Error(errors.map((error) => formatSiteError(error)).join("\n"));
    const { drills } = await rehearse(site, {
      seed: 1,
      threads,
      pairs: false,
      nowS: () => performance.now() / 1000,
    });
    if (file !== null) writeFileSync(file, JSON.stringify(drills));
    return drills;
  };
}
