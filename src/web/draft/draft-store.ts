/**
 * The draft: changes to the site that are made and tried, and not yet kept. There is one for the open file; it outlives a
 * reload of the page and a file that somebody else changes meanwhile, and becomes the file only when the person says so.
 */
import { useSyncExternalStore } from "react";
import type { EditAnswer, Site, SiteAnswer, SiteEdit } from "../../server/contract/index.ts";
import { api } from "../app/api.ts";
import { followTrial, type TrialSoFar } from "../app/follow-trial.ts";
import { knownNow, learnSite, onNews } from "../app/store.ts";
import { draftWords } from "../words/draft.ts";
import { begun, extended, type History, moved, type Step, stepsSince, textOf } from "./history.ts";
import { remember, remembered } from "./remembered.ts";

export interface Draft {
  readonly file: string;
  readonly history: History;
  /** What the text that stands describes; null while it is the file itself, or not known yet. */
  readonly answer: EditAnswer | null;
  /** The file's text and its name, as last heard. */
  readonly fileText: string;
  readonly etag: string;
  /** The file was changed by someone else while there were changes here. */
  readonly theirs: SiteAnswer | null;
  readonly trial: TrialSoFar | null;
  /** Why keeping failed, in a sentence. */
  readonly failure: string | null;
  readonly keeping: boolean;
}

/** What came of a change: made, or refused with the reasons, and then nothing has changed. */
export type Outcome =
  | { readonly made: true }
  | { readonly made: false; readonly answer: EditAnswer | null; readonly message: string };

const TRY_AFTER_MS = 350;

let draft: Draft | null = null;
const listeners = new Set<() => void>();
let waiting: ReturnType<typeof setTimeout> | null = null;
/** The trial that waits or is at work. */
let trying: AbortController | null = null;

function change(news: Partial<Draft>): void {
  if (draft === null) return;
  draft = { ...draft, ...news };
  if (news.history !== undefined || news.fileText !== undefined) remember(draft);
  for (const listener of listeners) listener();
}

export function useDraft(): Draft | null {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => draft,
  );
}

/** Whether the text that stands is other than the file. */
export function isChanged(one: Draft | null): one is Draft {
  return one !== null && textOf(one.history) !== one.fileText;
}

/** The site to show: as it would be with the changes, else as it is. */
export function siteShown(one: Draft | null, answer: SiteAnswer): Site | null {
  return (isChanged(one) ? one.answer?.site : null) ?? answer.site;
}

/** Follows the open file. Call once. */
export function followDraft(): void {
  onNews(follow);
  addEventListener("keydown", undoByKey);
}

function follow(): void {
  const answer = knownNow().site;
  if (answer === null || answer.text === null) return;
  if (draft === null || draft.file !== answer.file) {
    open(answer, answer.text);
    return;
  }
  if (answer.text === draft.fileText) {
    // Whoever had changed the file has put it back.
    if (draft.theirs !== null) change({ theirs: null, etag: answer.etag });
    return;
  }
  const clean = !isChanged(draft);
  if (answer.text === textOf(draft.history)) {
    change({ fileText: answer.text, etag: answer.etag, theirs: null });
    stopTrying();
  } else if (clean) {
    const history = extended(draft.history, { label: draftWords.fromFile, edits: null, text: answer.text });
    change({ history, answer: null, fileText: answer.text, etag: answer.etag, theirs: null, trial: null });
  } else change({ theirs: answer });
}

function open(answer: SiteAnswer, text: string): void {
  stopTrying();
  const kept = remembered(answer.file);
  const fresh: Draft = {
    file: answer.file,
    history: begun(text, draftWords.asFound),
    answer: null,
    fileText: text,
    etag: answer.etag,
    theirs: null,
    trial: null,
    failure: null,
    keeping: false,
  };
  if (kept === null || textOf(kept.history) === text) {
    draft = fresh;
    change({ history: kept?.history ?? fresh.history });
    return;
  }
  // What was begun before the page was left goes on; where the file has moved on since, both are shown.
  const same = kept.fileText === text;
  draft = { ...fresh, history: kept.history, fileText: same ? text : kept.fileText, theirs: same ? null : answer };
  change({ history: draft.history });
  void describe();
}

/** Makes changes on the draft, all or none. A change that leaves no place to describe is refused. */
export async function apply(label: string, edits: readonly SiteEdit[]): Promise<Outcome> {
  if (draft === null) return { made: false, answer: null, message: draftWords.noText };
  const from = draft;
  const answer = await attempt(() => api.edit(textOf(from.history), edits));
  if (typeof answer === "string") return { made: false, answer: null, message: answer };
  if (answer.problem !== null)
    return { made: false, answer, message: `${answer.problem.message}; ${answer.problem.hint}` };
  if (answer.site === null) return { made: false, answer, message: answer.errors[0]?.message ?? "" };
  if (draft === null || draft.file !== from.file) return { made: false, answer: null, message: draftWords.noText };
  // Another change may have been made while this one was on its way: then it is made on top of that one.
  if (draft.history !== from.history) return apply(label, edits);
  if (answer.text === textOf(from.history)) return { made: true };
  change({ history: extended(from.history, { label, edits, text: answer.text }), answer, failure: null });
  tryAgain();
  return { made: true };
}

/** What the changes would come to, without making them: for messages while someone types. */
export async function check(edits: readonly SiteEdit[]): Promise<EditAnswer | null> {
  if (draft === null) return null;
  const text = textOf(draft.history);
  const answer = await attempt(() => api.edit(text, edits));
  return typeof answer === "string" ? null : answer;
}

export const undo = (): void => walk(-1);
export const redo = (): void => walk(1);

function walk(by: -1 | 1): void {
  if (draft === null) return;
  const history = moved(draft.history, by);
  if (history.at === draft.history.at) return;
  change({ history, answer: null, failure: null });
  void describe();
}

/** Back to the file, by as many steps as it takes; "redo" brings each back. */
export function putBack(): void {
  if (draft === null) return;
  const back = draft.history.steps.findLastIndex(
    ({ text }, i) => i <= (draft?.history.at ?? 0) && text === draft?.fileText,
  );
  const { history, fileText } = draft;
  const home =
    back >= 0
      ? { ...history, at: back }
      : extended(history, { label: draftWords.fromFile, edits: null, text: fileText });
  change({ history: home, answer: null, failure: null });
  stopTrying();
}

/** The steps since the file, that are made and not kept; null where they do not lead from it. */
export function stepsHere(one: Draft): readonly Step[] | null {
  return stepsSince(one.history, one.fileText);
}

/** Takes one change away and makes those after it once more without it. "Undo" brings it back. */
export async function takeAway(step: Step): Promise<Outcome> {
  const steps = draft === null ? null : stepsHere(draft);
  if (draft === null || steps === null) return { made: false, answer: null, message: draftWords.noText };
  const others = steps.filter((one) => one !== step);
  if (others.some(({ edits }) => edits === null)) return { made: false, answer: null, message: draftWords.movedOn };
  if (others.length === 0) {
    putBack();
    return { made: true };
  }
  const from = draft;
  let history = extended(from.history, { label: draftWords.fromFile, edits: null, text: from.fileText });
  let answer: EditAnswer | null = null;
  for (const other of others) {
    const text = textOf(history);
    const made = await attempt(() => api.edit(text, other.edits ?? []));
    if (typeof made === "string") return { made: false, answer: null, message: made };
    if (made.problem !== null || made.site === null)
      return { made: false, answer: made, message: made.problem?.message ?? made.errors[0]?.message ?? "" };
    answer = made;
    history = extended(history, { ...other, text: made.text });
  }
  if (draft === null || draft.history !== from.history)
    return { made: false, answer: null, message: draftWords.movedOn };
  change({ history, answer, failure: null });
  tryAgain();
  return { made: true };
}

/** Makes the draft the file. */
export async function keep(): Promise<void> {
  if (!isChanged(draft) || draft.keeping) return;
  const { history, etag } = draft;
  const text = textOf(history);
  change({ keeping: true, failure: null });
  const answer = await attempt(() => api.keep(text, etag));
  change({ keeping: false });
  if (typeof answer === "string") change({ failure: answer });
  else if ("current" in answer) change({ theirs: answer.current });
  else {
    change({ fileText: answer.text ?? text, etag: answer.etag, theirs: null });
    stopTrying();
    learnSite(answer);
  }
}

/** Gives up what is here for what is in the file; it stays a step to go back to. */
export function takeTheirs(): void {
  const theirs = draft?.theirs ?? null;
  if (draft === null || theirs === null || theirs.text === null) return;
  const history = extended(draft.history, { label: draftWords.fromFile, edits: null, text: theirs.text });
  change({ history, answer: null, fileText: theirs.text, etag: theirs.etag, theirs: null, failure: null });
  stopTrying();
}

/** Makes the same changes once more, on the file as it is now. */
export async function putOnTop(): Promise<Outcome> {
  const theirs = draft?.theirs ?? null;
  const steps = draft === null ? null : stepsSince(draft.history, draft.fileText);
  if (draft === null || theirs?.text == null || steps === null)
    return { made: false, answer: null, message: draftWords.noText };
  const edits = steps.flatMap((step) => step.edits ?? []);
  const text = theirs.text;
  const answer = await attempt(() => api.edit(text, edits));
  if (typeof answer === "string") return { made: false, answer: null, message: answer };
  if (answer.problem !== null || answer.site === null)
    return { made: false, answer, message: answer.problem?.message ?? answer.errors[0]?.message ?? "" };
  const history = extended(extended(draft.history, { label: draftWords.fromFile, edits: null, text }), {
    label: draftWords.onTop,
    edits,
    text: answer.text,
  });
  change({ history, answer, fileText: text, etag: theirs.etag, theirs: null, failure: null });
  tryAgain();
  return { made: true };
}

/** Whether the changes here can be made once more on another text. */
export function canPutOnTop(one: Draft): boolean {
  const steps = stepsSince(one.history, one.fileText);
  return one.theirs?.errors.length === 0 && steps?.every(({ edits }) => edits !== null) === true;
}

/** Learns what the text that stands describes, and tries it. */
async function describe(): Promise<void> {
  if (!isChanged(draft)) {
    stopTrying();
    return;
  }
  const { history } = draft;
  const answer = await attempt(() => api.edit(textOf(history), []));
  if (draft === null || draft.history !== history) return;
  if (typeof answer === "string") change({ failure: answer });
  else {
    change({ answer });
    tryAgain();
  }
}

function stopTrying(): void {
  giveUp();
  if (draft !== null && draft.trial !== null) change({ trial: null });
}

/** Gives up the trial that waits or is at work: nobody wants its answer any more. */
function giveUp(): void {
  if (waiting !== null) clearTimeout(waiting);
  waiting = null;
  trying?.abort();
  trying = null;
}

/** Rehearses the draft, a moment after the last change. */
function tryAgain(): void {
  giveUp();
  const mine = new AbortController();
  trying = mine;
  waiting = setTimeout(() => void rehearse(mine), TRY_AFTER_MS);
}

async function rehearse(mine: AbortController): Promise<void> {
  if (!isChanged(draft) || mine.signal.aborted) return;
  const text = textOf(draft.history);
  const problem = await attempt(() =>
    followTrial(
      () => api.tryText(text),
      (trial) => !mine.signal.aborted && change({ trial }),
      mine.signal,
    ),
  );
  if (typeof problem === "string" && !mine.signal.aborted) change({ failure: problem });
}

/** Stops the rehearsal of the draft; what it has found stays. */
export function stopTrial(): void {
  const trial = draft?.trial ?? null;
  if (trial?.answer.state === "at work") void attempt(() => api.stopTrial(trial.answer.id));
}

/** Rehearses the draft once more after a stop or a failure. */
export function tryOnceMore(): void {
  change({ failure: null });
  tryAgain();
}

async function attempt<T>(action: () => Promise<T>): Promise<T | string> {
  try {
    return await action();
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

function undoByKey(event: KeyboardEvent): void {
  if (!(event.ctrlKey || event.metaKey) || event.altKey || draft === null) return;
  const key = event.key.toLowerCase();
  const isUndo = key === "z" && !event.shiftKey;
  const isRedo = key === "y" || (key === "z" && event.shiftKey);
  // Inside a field the browser undoes what was typed there.
  const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
  if ((!isUndo && !isRedo) || typing) return;
  event.preventDefault();
  walk(isUndo ? -1 : 1);
}
