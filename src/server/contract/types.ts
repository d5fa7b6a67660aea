/** What the web app and the server say to each other. The only room of the house that `web/` may import. */
export type { DrillEvent, DrillReport, DrillResult, RehearsalReport, Trace, VerdictKind } from "../../drills/index.ts";
export type {
  Battery,
  Body,
  Circuit,
  Circumstance,
  DefaultUsed,
  Described,
  Device,
  FieldFacts,
  Flow,
  Hub,
  Link,
  Person,
  Room,
  RuleSpec,
  Sensor,
  Site,
  SiteEdit,
  System,
  TimeWindow,
  WrittenValue,
} from "../../site/index.ts";

import type { DrillResult, RehearsalReport } from "../../drills/index.ts";
import type { DefaultUsed, Described, FieldFacts, Site, SiteEdit, WrittenValue } from "../../site/index.ts";

/** One thing wrong in a site file, and what would be right. Line and column count from 1. */
export interface SiteProblem {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  /** The key it stands at, e.g. "heater-1.on". */
  readonly where: string;
  readonly message: string;
  readonly hint: string;
}

/** Levels and flows of the settled normal life, for the picture of the site. */
export interface SettledLife {
  readonly bodies: Readonly<
    Record<string, { readonly volumeL: number; readonly temperatureC: number; readonly salinity: number }>
  >;
  readonly flowsLPerH: Readonly<Record<string, number>>;
}

/** GET /api/site: the checked description that is open, or why it could not be read. */
export interface SiteAnswer {
  /** Name of the open file, without its folder. */
  readonly file: string;
  /** The last version that could be read; null where there has been none. With no errors: the file is still to be written. */
  readonly site: Site | null;
  /** What is wrong with the file as it stands now; empty where it could be read. */
  readonly errors: readonly SiteProblem[];
  /** When `site` was read, ISO; null where it never was. */
  readonly readAt: string | null;
  readonly settled: SettledLife | null;
  /** The text of the file as it stands; null where it could not be had. Edits are made on it. */
  readonly text: string | null;
  /** Names this very text: goes back as If-Match with what is to be kept. */
  readonly etag: string;
  /** The text as plain values, each as a person wrote it; null where it is no YAML. */
  readonly written: WrittenValue | null;
  /** What the file leaves out and the loader filled in, those that matter most first. */
  readonly defaults: readonly DefaultUsed[];
  /** Site files that can be opened, by name. */
  readonly others: readonly string[];
}

/** POST /api/site/edit: changes to make on a text. Nothing is written to the file. */
export interface EditQuestion {
  readonly text: string;
  readonly edits: readonly SiteEdit[];
}

/** The text after the changes, and what it describes. */
export interface EditAnswer {
  readonly text: string;
  /** Null where the text describes no place; `errors` says why. */
  readonly site: Site | null;
  readonly errors: readonly SiteProblem[];
  readonly written: WrittenValue | null;
  readonly defaults: readonly DefaultUsed[];
  /** The change that could not be made, and then none was; null where all were. */
  readonly problem: { readonly index: number; readonly message: string; readonly hint: string } | null;
}

/** PUT /api/site, refused because the file is not the one that the changes were made on (412). */
export interface KeepConflict extends Problem {
  /** The file as it stands now. */
  readonly current: SiteAnswer;
}

/** GET /api/trials/ID: another version of the site, rehearsed beside the open one. */
export interface TrialAnswer {
  readonly id: string;
  readonly state: RehearsalState;
  readonly done: number;
  readonly total: number;
  readonly secondsLeft: number | null;
  readonly problem: string | null;
  /** Name of what is tried, where it is a file. */
  readonly file: string | null;
  readonly site: Site | null;
  readonly settled: SettledLife | null;
  readonly errors: readonly SiteProblem[];
  /** Once it is done. */
  readonly report: RehearsalReport | null;
  /** Drills from the index asked for on; none once it is done. */
  readonly drills: readonly DrillResult[];
  readonly from: number;
}

/** GET /api/fields: what a form may ask about each kind of part. */
export type FieldsAnswer = Readonly<Record<Described, readonly FieldFacts[]>>;

export type RehearsalState = "none" | "at work" | "done" | "stopped" | "failed";

/** GET /api/rehearsal and each message of the event stream /api/rehearsal/live. */
export interface RehearsalAnswer {
  readonly state: RehearsalState;
  /** Grows whenever a rehearsal begins or the open site changes: tells the web app to read both again. */
  readonly version: number;
  readonly done: number;
  readonly total: number;
  readonly secondsLeft: number | null;
  readonly finishedAt: string | null;
  /** The last report that was brought to an end; while at work the one before. Left out (null) of stream messages. */
  readonly report: RehearsalReport | null;
  /** Drills of the run at work or stopped, from the index `from` on. */
  readonly partial: readonly DrillResult[];
  /** How many drills of this run came in earlier messages of the same stream; 0 outside the stream. */
  readonly from: number;
  readonly problem: string | null;
}

/** Body of every answer that is an error (RFC 9457). */
export interface Problem {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
}
