/** What server and web say to each other about the papers and the journal. */
import type { Papers } from "../../planning/index.ts";
import { list, object, text } from "./parse.ts";

export type {
  CountRow,
  KeyHolderSheet,
  Papers,
  ProvingItem,
  ProvingList,
  ReportFinding,
  ReportPaper,
  Rung,
  SetUpSheet,
} from "../../planning/index.ts";

/** Body of POST /api/journal: the result of a trial. */
export interface ResultToRecord {
  readonly trial: string;
  /** Local day at the site on which it was tried, `2026-11-25`. */
  readonly on: string;
  readonly held: boolean;
  readonly note: string;
  readonly by: string;
}

/** Answer of GET /api/papers, and of both that write, with what was written in it. */
export function parsePapers(value: unknown): Papers {
  const papers = object(value, "papers");
  for (const key of ["site", "zone", "madeAt"]) text(papers, key, "papers");
  const setUp = object(papers.setUp, "papers.setUp");
  for (const key of ["sockets", "circuits", "batteries", "hubs", "rules", "notices", "cautions"])
    list(setUp, key, "papers.setUp");
  const proving = object(papers.proving, "papers.proving");
  for (const key of ["items", "unread", "people"]) list(proving, key, "papers.proving");
  list(papers, "keyHolders", "papers");
  if (papers.report !== null) {
    const report = object(papers.report, "papers.report");
    for (const key of ["bySystem", "byCircumstance", "byPerson", "findings", "assumptions", "notSimulated", "cautions"])
      list(report, key, "papers.report");
  }
  return value as Papers;
}
