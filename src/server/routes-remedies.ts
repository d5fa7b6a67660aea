import type { FastifyInstance } from "fastify";
import { type Remedy, ranked, remediesFor } from "../planning/index.ts";
import type { DrillResult, RemediesAnswer, Site } from "./contract/index.ts";
import type { RehearsalDesk } from "./rehearsal-desk.ts";
import type { SiteDesk } from "./site-desk.ts";

/** What would change the findings of the open site. Some tens of milliseconds for a large one, so it is computed once a report. */
export function addRemedyRoutes(
  app: FastifyInstance,
  { site, rehearsal }: { readonly site: Pick<SiteDesk, "site" | "answer">; readonly rehearsal: RehearsalDesk },
): void {
  const remedies = keptOnce();
  app.get("/api/remedies", async (): Promise<RemediesAnswer> => {
    const { etag } = await site.answer();
    const open = site.site();
    const { report } = rehearsal.answer();
    if (open === null || report === null) return { etag, rehearsed: false, remedies: [] };
    return { etag, rehearsed: true, remedies: remedies(open, report.drills) };
  });
}

/** The last answer, for as long as site and drills are the same. */
function keptOnce(): (site: Site, drills: readonly DrillResult[]) => readonly Remedy[] {
  let last: {
    readonly site: Site;
    readonly drills: readonly DrillResult[];
    readonly remedies: readonly Remedy[];
  } | null = null;
  return (site, drills) => {
    if (last?.site !== site || last.drills !== drills)
      last = { site, drills, remedies: ranked(remediesFor(site, drills), drills) };
    return last.remedies;
  };
}
