/** All papers of a site at a moment. */
import type { RehearsalReport } from "../../drills/index.ts";
import type { DefaultUsed, Site } from "../../site/index.ts";
import type { JournalLine } from "./journal.ts";
import { keyHolderSheet } from "./key-holder.ts";
import { provingList } from "./proving.ts";
import { reportPaper } from "./report.ts";
import { setUpSheet } from "./set-up.ts";
import type { Papers } from "./types.ts";

export interface PapersOf {
  /** As its file says, without the journal. */
  readonly site: Site;
  readonly defaults: readonly DefaultUsed[];
  readonly journal: readonly JournalLine[];
  /** Lines of the journal that could not be read, in words. */
  readonly unread: readonly string[];
  /** The last whole rehearsal; null where there is none. */
  readonly rehearsal: { readonly report: RehearsalReport; readonly finishedAt: string | null } | null;
  readonly nowMs: number;
}

export function makePapers({ site, defaults, journal, unread, rehearsal, nowMs }: PapersOf): Papers {
  return {
    site: site.name,
    zone: site.zone,
    madeAt: new Date(nowMs).toISOString(),
    setUp: setUpSheet(site),
    proving: provingList(site, journal, unread, nowMs),
    report: rehearsal === null ? null : reportPaper(site, rehearsal.report, defaults, rehearsal.finishedAt),
    keyHolders: site.people.map((person) => keyHolderSheet(site, person, rehearsal?.report ?? null)),
  };
}
