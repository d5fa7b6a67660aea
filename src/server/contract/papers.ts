/** What server and web say to each other about the papers and the journal. */
import type { Papers } from "../../planning/index.ts";
import { fail, list, object, text } from "./parse.ts";

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

/** Body of POST /api/journal/take-back: the entry that was a mistake. */
export interface EntryToTakeBack {
  readonly id: string;
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

/** What came in to be recorded, or what is wrong with it. */
export function parseResult(value: unknown): ResultToRecord {
  const result = object(value, "result");
  for (const key of ["trial", "on", "note", "by"]) text(result, key, "result");
  if (typeof result.held !== "boolean") fail("result.held", result.held, "true or false");
  if (!/^\d{4}-\d\d-\d\d$/.test(result.on as string) || Number.isNaN(Date.parse(result.on as string)))
    fail("result.on", result.on, "a day like 2026-11-25");
  return value as ResultToRecord;
}

export function parseEntryToTakeBack(value: unknown): EntryToTakeBack {
  text(object(value, "entry"), "id", "entry");
  return value as EntryToTakeBack;
}
