import { useSyncExternalStore } from "react";
import type { DrillResult, RehearsalAnswer, RehearsalReport, SiteAnswer } from "../../server/contract/index.ts";
import { now } from "../parts/clock.ts";
import { api } from "./api.ts";
import { isOutdated, keepForOffline, keepLastWord, lastWordKept, renewKeeper } from "./offline.ts";

/** What the whole app knows: the site, its rehearsal, and since when the program is silent. */
export interface Known {
  readonly site: SiteAnswer | null;
  readonly rehearsal: RehearsalAnswer | null;
  /** The last report that was brought to an end. */
  readonly report: RehearsalReport | null;
  /** The report before that one, of the version before; null where there was none. */
  readonly before: RehearsalReport | null;
  /** Drills of the run at work or stopped, so far. */
  readonly partial: readonly DrillResult[];
  /** Milliseconds since 1970 of the last word before the silence; null while the program answers. */
  readonly silentSince: number | null;
  /** Why the first answer could not be had. */
  readonly failure: string | null;
  /** The program hands out a newer page than this one. */
  readonly outdated: boolean;
}

let known: Known = {
  site: null,
  rehearsal: null,
  report: null,
  before: null,
  partial: [],
  silentSince: null,
  failure: null,
  outdated: false,
};
let lastWord = 0;
/** The last word is written down for later pages at most once in this time, ms. */
const WRITTEN_EVERY_MS = 10_000;
let lastWritten = 0;
/** When the known report was finished, ISO. */
let reportOf: string | null = null;
const listeners = new Set<() => void>();

function learn(news: Partial<Known>): void {
  known = { ...known, ...news };
  for (const listener of listeners) listener();
}

export function useKnown(): Known {
  return useSyncExternalStore(onNews, knownNow);
}

/** Calls back after each piece of news until the returned function is called. */
export function onNews(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export function knownNow(): Known {
  return known;
}

/** The answer to a change that was kept: the site as it is now. */
export function learnSite(site: SiteAnswer): void {
  learn({ site, failure: null });
}

/** Follows the program until the page is left. */
export function followProgram(): void {
  const stream = api.live({ onMessage: hear, onWord: answered, onSilence: silent });
  addEventListener(
    "pagehide",
    () => {
      stream.close();
      if (known.silentSince === null && lastWord > 0) keepLastWord(now());
    },
    { once: true },
  );
  keepForOffline(() => void readAgain());
}

function hear(message: RehearsalAnswer): void {
  answered();
  const before = known.rehearsal;
  learn({ rehearsal: message, partial: partialAfter(message) });
  if (before === null || before.version !== message.version) void readSite();
  if (message.state === "done" && (known.report === null || before?.finishedAt !== message.finishedAt))
    void readReport();
}

/** A run that is done sends no drills: those of its end stay on show until its report has come. */
function partialAfter({ state, from, partial }: RehearsalAnswer): readonly DrillResult[] {
  if (state === "done") return known.partial;
  return from === 0 ? partial : [...known.partial.slice(0, from), ...partial];
}

function answered(): void {
  lastWord = now();
  if (lastWord - lastWritten >= WRITTEN_EVERY_MS) {
    lastWritten = lastWord;
    keepLastWord(lastWord);
  }
  if (known.silentSince === null) return;
  learn({ silentSince: null });
  void comeBack();
}

function silent(): void {
  if (known.silentSince !== null) return;
  learn({ silentSince: lastWord === 0 ? (lastWordKept() ?? now()) : lastWord });
  if (known.site === null) void showWhatWasKept();
}

/** A program that was silent may have been ended and started anew, with another site and as a newer version. */
async function comeBack(): Promise<void> {
  void renewKeeper();
  await readAgain();
  if (await isOutdated()) learn({ outdated: true });
}

/** Without the program the service worker still has its last answers. */
async function showWhatWasKept(): Promise<void> {
  await readSite();
  await attempt(async () => {
    const answer = await api.rehearsal();
    // What was at work when this was kept is so no more.
    if (known.rehearsal !== null) return;
    reportOf = answer.finishedAt;
    learn({ rehearsal: { ...answer, state: "done" }, report: answer.report });
  });
}

async function readSite(): Promise<void> {
  await attempt(async () => {
    const site = await api.site();
    const isOther = known.site !== null && known.site.file !== site.file;
    learn({ site, failure: null, ...(isOther ? { report: null, before: null } : {}) });
  });
}

async function readReport(): Promise<void> {
  await attempt(async () => {
    const { report, finishedAt } = await api.rehearsal();
    // The same report read again is no newer one: what was before it stays so.
    const isSame = finishedAt === reportOf;
    reportOf = finishedAt;
    learn({ report, before: isSame ? known.before : (known.report ?? known.before), partial: [], failure: null });
  });
}

export async function startRehearsal(): Promise<void> {
  await attempt(api.start);
}

export async function stopRehearsal(): Promise<void> {
  await attempt(api.stop);
}

export async function openSite(name: string): Promise<void> {
  await attempt(async () => learn({ site: await api.open(name), report: null, before: null, partial: [] }));
}

/** Shows a site that the program has just opened in some other way. */
export function adoptSite(site: SiteAnswer): void {
  learn({ site, report: null, before: null, partial: [], failure: null });
}

export async function readAgain(): Promise<void> {
  await readSite();
  if (known.rehearsal?.state === "done") await readReport();
}

/** What fails here is shown where the page would be; a later good answer takes it away. */
async function attempt(action: () => Promise<unknown>): Promise<void> {
  try {
    await action();
  } catch (error) {
    learn({ failure: error instanceof Error ? error.message : String(error) });
  }
}

/**
 * The drills to show: those of the last whole report, with what the run at work has found since put in their place.
 */
export function drillsOf({ report, partial }: Pick<Known, "report" | "partial">): readonly DrillResult[] {
  if (report === null) return partial;
  if (partial.length === 0) return report.drills;
  const fresh = new Map(partial.map((drill) => [drill.id, drill]));
  const kept = report.drills.map((drill) => fresh.get(drill.id) ?? drill);
  const ids = new Set(report.drills.map((drill) => drill.id));
  return [...kept, ...partial.filter((drill) => !ids.has(drill.id))];
}

/** How many drills the run at work has given another verdict than the last report. */
export function movedBy({ report, partial }: Pick<Known, "report" | "partial">): number {
  if (report === null || partial.length === 0) return 0;
  const before = new Map(report.drills.map((drill) => [drill.id, drill.verdict]));
  return partial.filter((drill) => before.has(drill.id) && before.get(drill.id) !== drill.verdict).length;
}
