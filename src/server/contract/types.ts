/** What the web app and the server say to each other. The only room of the house that `web/` may import. */
export type { DrillEvent, DrillReport, DrillResult, RehearsalReport, Trace, VerdictKind } from "../../drills/index.ts";
export type {
  Battery,
  Body,
  Circuit,
  Circumstance,
  Device,
  Flow,
  Hub,
  Link,
  Person,
  Room,
  RuleSpec,
  Sensor,
  Site,
  System,
  TimeWindow,
} from "../../site/index.ts";

import type { DrillResult, RehearsalReport } from "../../drills/index.ts";
import type { Site } from "../../site/index.ts";

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
  /** The last version that could be read; null where there has been none. */
  readonly site: Site | null;
  /** What is wrong with the file as it stands now; empty where it could be read. */
  readonly errors: readonly SiteProblem[];
  /** When `site` was read, ISO; null where it never was. */
  readonly readAt: string | null;
  readonly settled: SettledLife | null;
  /** Site files that can be opened, by name. */
  readonly others: readonly string[];
}

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
