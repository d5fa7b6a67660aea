/**
 * Tries several changes one after the other, each by itself on the file as it is, and keeps what was seen for as long as
 * file and rehearsal are the same.
 */
import { useSyncExternalStore } from "react";
import type { RehearsalReport, Remedy } from "../../server/contract/index.ts";
import { api } from "../app/api.ts";
import { followTrial } from "../app/follow-trial.ts";
import { remedyWords } from "../words/remedies.ts";
import { type Effect, effectOf } from "./effect.ts";

export interface Survey {
  /** The rehearsal that effects are seen against; what was seen against another one is forgotten. */
  readonly report: RehearsalReport | null;
  readonly seen: ReadonlyMap<string, Effect>;
  readonly running: {
    readonly remedy: Remedy;
    /** Counts from 1. */
    readonly place: number;
    readonly of: number;
    readonly done: number;
    readonly total: number;
  } | null;
  /** Why it ended before its end, in a sentence. */
  readonly ended: string | null;
}

const NONE: Survey = { report: null, seen: new Map(), running: null, ended: null };
let survey: Survey = NONE;
let abort: AbortController | null = null;
const listeners = new Set<() => void>();

function change(news: Partial<Survey>): void {
  survey = { ...survey, ...news };
  for (const listener of listeners) listener();
}

/** What was seen against this rehearsal. */
export function useSurvey(report: RehearsalReport | null): Survey {
  const known = useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => survey,
  );
  return known.report === report ? known : NONE;
}

export function stopSurvey(): void {
  abort?.abort();
}

/** @param text the file that was rehearsed */
export async function runSurvey(remedies: readonly Remedy[], text: string, report: RehearsalReport): Promise<void> {
  abort?.abort();
  const mine = new AbortController();
  abort = mine;
  const seen = survey.report === report ? survey.seen : new Map<string, Effect>();
  change({ report, seen, running: null, ended: null });
  try {
    for (const [index, remedy] of remedies.entries()) {
      const ended = await tryOne(remedy, { place: index + 1, of: remedies.length, text, report, signal: mine.signal });
      if (mine !== abort) return;
      if (ended !== null) {
        change({ running: null, ended });
        return;
      }
    }
    change({ running: null });
  } catch (error) {
    if (mine === abort) change({ running: null, ended: error instanceof Error ? error.message : String(error) });
  }
}

/** Null once its effect is known, or it cannot be put into the file and is passed over; else why there is no going on. */
async function tryOne(
  remedy: Remedy,
  {
    place,
    of,
    text,
    report,
    signal,
  }: {
    readonly place: number;
    readonly of: number;
    readonly text: string;
    readonly report: RehearsalReport;
    readonly signal: AbortSignal;
  },
): Promise<string | null> {
  change({ running: { remedy, place, of, done: 0, total: 0 } });
  const edited = await api.edit(text, remedy.edits);
  if (edited.problem !== null || edited.site === null) return null;
  let ended: string | null = null;
  await followTrial(
    () => api.tryText(edited.text),
    ({ answer, drills }) => {
      if (survey.report !== report) return;
      const { state, done, total } = answer;
      if (state === "done")
        change({ seen: new Map([...survey.seen, [remedy.id, effectOf(remedy, report.drills, drills, true)]]) });
      else if (state === "at work") change({ running: { remedy, place, of, done, total } });
      else
        ended = signal.aborted
          ? remedyWords.survey.stopped(place - 1, of)
          : (answer.problem ?? remedyWords.survey.gaveWay);
    },
    signal,
  );
  return ended;
}
