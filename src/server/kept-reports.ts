import type { RehearsalReport, Site } from "./contract/index.ts";
import type { Engine } from "./engine-port.ts";

/**
 * An engine that remembers its last few rehearsals: the same site and seed give the same report, so that a change which
 * was tried and is then kept, or taken back, need not be rehearsed a second time.
 */
export function keepingReports(engine: Engine, keeps: number): Engine {
  const kept = new Map<string, RehearsalReport>();
  return {
    ...engine,
    async rehearse(site, options) {
      const key = keyOf(site, options.seed);
      const known = options.anew === true ? undefined : kept.get(key);
      if (known !== undefined) {
        options.onProgress({ done: known.drills.length, total: known.drills.length, fresh: known.drills });
        return known;
      }
      const report = await engine.rehearse(site, options);
      if (report.complete) {
        kept.set(key, report);
        if (kept.size > keeps) kept.delete(kept.keys().next().value as string);
      }
      return report;
    },
  };
}

function keyOf(site: Site, seed: number): string {
  return `${seed} ${JSON.stringify(site)}`;
}
