/** Rehearsals of texts: whole, kept in a folder where one is named, or of some drills only. */
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import {
  circumstanceNamed,
  type DrillResult,
  ENGINE,
  findFault,
  judgeInReach,
  rehearse,
  Stage,
} from "../../src/drills/index.ts";
import { formatSiteError, loadSite, type Site } from "../../src/site/index.ts";

const SEED = 1;

export interface Rehearsals {
  /** All drills of the site that the text describes. */
  readonly whole: (text: string) => Promise<readonly DrillResult[]>;
  /** The same where they are known already, else null. */
  readonly known: (text: string) => readonly DrillResult[] | null;
  /** These drills alone; those of parts that are no longer there are left out. */
  readonly some: (text: string, ids: readonly string[]) => readonly DrillResult[];
}

export function rehearsalsIn(folder: string | null, threads: number): Rehearsals {
  if (folder !== null) mkdirSync(folder, { recursive: true });
  const fileOf = (text: string) => {
    const name = createHash("sha256").update(`${ENGINE}\n${text}`).digest("hex").slice(0, 24);
    return folder === null ? null : join(folder, `${name}.json`);
  };
  const known = (text: string): readonly DrillResult[] | null => {
    const file = fileOf(text);
    return file !== null && existsSync(file) ? JSON.parse(readFileSync(file, "utf8")) : null;
  };
  return {
    known,
    async whole(text) {
      const kept = known(text);
      if (kept !== null) return kept;
      const nowS = () => performance.now() / 1000;
      const { drills } = await rehearse(read(text), { seed: SEED, threads, pairs: false, nowS });
      const file = fileOf(text);
      if (file !== null) writeFileSync(file, JSON.stringify(drills));
      return drills;
    },
    some(text, ids) {
      const site = read(text);
      const stage = new Stage(site, SEED);
      return ids.flatMap((id) => {
        const [faultIds, circumstance] = id.split("@");
        const faults = faultIds.split("+").flatMap((faultId) => {
          const found = findFault(site, faultId);
          return "error" in found ? [] : [found];
        });
        if (faults.length < faultIds.split("+").length) return [];
        return [judgeInReach(stage, faults, circumstanceNamed(site, circumstance)).result];
      });
    },
  };
}

function read(text: string): Site {
  const { site, errors } = loadSite(text, "changed.yaml");
  if (site === null) throw new Error(errors.map((error) => formatSiteError(error)).join("\n"));
  return site;
}
