import type { DrillReport, Site } from "./contract/index.ts";
import type { DrillOptions, Engine } from "./engine-port.ts";

/** A drill id taken apart: `part.mode+part.mode@circumstance`. */
export interface DrillId {
  readonly faultIds: readonly string[];
  readonly circumstance: string;
}

/** Null where the text is not a drill id. One fault or two: more are not rehearsed. */
export function readDrillId(id: string): DrillId | null {
  const match = /^([^@+\s]+\.[^@+\s]+(?:\+[^@+\s]+\.[^@+\s]+)?)@([^@+\s]+)$/.exec(id);
  if (match === null) return null;
  return { faultIds: match[1].split("+"), circumstance: match[2] };
}

/** Computes drills with their traces and keeps the last few, since a timeline is opened, left and opened again. */
export interface DrillShelf {
  /** `edition` names the version of the site, so that a changed site is never answered from an old one. */
  take(site: Site, edition: number, id: DrillId, stepMin: number): Promise<DrillReport>;
}

export function openDrillShelf({
  engine,
  seed,
  keeps,
}: {
  engine: Pick<Engine, "drill">;
  seed: number;
  keeps: number;
}): DrillShelf {
  const kept = new Map<string, Promise<DrillReport>>();
  return {
    take(site, edition, id, stepMin) {
      const key = `${edition} ${id.faultIds.join("+")}@${id.circumstance} ${stepMin}`;
      const options: DrillOptions = { seed, stepMin };
      const report = kept.get(key) ?? engine.drill(site, id.faultIds, id.circumstance, options);
      kept.delete(key); // putting it back makes it the newest
      kept.set(key, report);
      report.catch(() => kept.get(key) === report && kept.delete(key)); // a failure is tried again, not remembered
      if (kept.size > keeps) kept.delete(kept.keys().next().value as string);
      return report;
    },
  };
}
