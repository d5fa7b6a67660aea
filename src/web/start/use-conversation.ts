import { useCallback, useEffect, useRef, useState } from "react";
import type { FirstSite, FirstSiteAnswers, FirstSiteStart } from "../../server/contract/index.ts";
import { startWords as words } from "../words/start.ts";
import { type Draft, keepDraft, keptDraft } from "./kept-answers.ts";
import { startApi } from "./start-api.ts";

export const STEPS = words.steps.length;
/** The program is asked when nobody has typed for so long, ms. */
const PAUSE_MS = 200;

export interface Conversation {
  readonly start: FirstSiteStart;
  readonly draft: Draft;
  /** What the program made of the answers last; null until it has answered once. */
  readonly made: FirstSite | null;
  /** The last that could be read, so that a slip leaves the picture standing. */
  readonly lastGood: FirstSite | null;
  /** Why the program could not be asked. */
  readonly failure: string | null;
  change(changes: Partial<FirstSiteAnswers>): void;
  goTo(step: number): void;
  beginAnew(): void;
  /** Asks at once, for what stands there now. */
  ask(): Promise<FirstSite | null>;
}

/** The answers, kept in this browser, and what the program makes of them while they are given. */
export function useConversation(): Conversation | { readonly start: null; readonly failure: string | null } {
  const [start, setStart] = useState<FirstSiteStart | null>(null);
  const [draft, setDraft] = useState<Draft | null>(() => keptDraft(STEPS));
  const [made, setMade] = useState<FirstSite | null>(null);
  const [lastGood, setLastGood] = useState<FirstSite | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const asking = useRef<AbortController | null>(null);
  const latest = useRef<Promise<FirstSite | null>>(Promise.resolve(null));
  const pause = useRef<ReturnType<typeof setTimeout>>(undefined);
  const answers = draft?.answers ?? null;

  useEffect(() => {
    startApi.begin().then(
      (begun) => {
        setStart(begun);
        setDraft((kept) => kept ?? beginning(begun));
      },
      (error: unknown) => setFailure(sentenceOf(error)),
    );
  }, []);

  const ask = useCallback((): Promise<FirstSite | null> => {
    clearTimeout(pause.current);
    asking.current?.abort();
    if (answers === null) return Promise.resolve(null);
    const mine = new AbortController();
    asking.current = mine;
    const asked = startApi.make(answers, mine.signal).then(
      (answer) => {
        // Whoever waits for an answer that was overtaken gets the one that overtook it.
        if (mine.signal.aborted) return latest.current;
        setMade(answer);
        if (answer.site !== null) setLastGood(answer);
        setFailure(null);
        return answer;
      },
      (error: unknown) => {
        if (mine.signal.aborted) return latest.current;
        setFailure(sentenceOf(error));
        return null;
      },
    );
    latest.current = asked;
    return asked;
  }, [answers]);

  useEffect(() => {
    // The first question need not wait: nobody has typed yet.
    pause.current = setTimeout(() => void ask(), asking.current === null ? 0 : PAUSE_MS);
    return () => clearTimeout(pause.current);
  }, [ask]);

  useEffect(() => {
    if (draft !== null) keepDraft(draft);
  }, [draft]);

  if (start === null || draft === null) return { start: null, failure };
  return {
    start,
    draft,
    made,
    lastGood,
    failure,
    ask,
    change: (changes) => setDraft((now) => now && { ...now, answers: { ...now.answers, ...changes } }),
    goTo: (step) => setDraft((now) => now && { ...now, step, furthest: Math.max(now.furthest, step) }),
    beginAnew: () => {
      keepDraft(null);
      setDraft(beginning(start));
    },
  };
}

function beginning({ answers }: FirstSiteStart): Draft {
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return { answers: { ...answers, zone: answers.zone ?? zone }, step: 0, furthest: 0 };
}

export function sentenceOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
