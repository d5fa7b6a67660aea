import "./start.css";
import { type FormEvent, useEffect, useMemo, useRef, useState } from "react";
import type { FirstSite } from "../../server/contract/index.ts";
import { go } from "../app/router.tsx";
import { adoptSite, type Known } from "../app/store.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { startWords as words } from "../words/start.ts";
import { FieldContext } from "./fields.tsx";
import { keepDraft } from "./kept-answers.ts";
import { LastStep } from "./last-step.tsx";
import { OtherWays } from "./other-ways.tsx";
import { SoFar } from "./so-far.tsx";
import { startApi } from "./start-api.ts";
import { Questions, stepOfField } from "./steps.tsx";
import { type Conversation, STEPS, sentenceOf, useConversation } from "./use-conversation.ts";

const LAST = STEPS - 1;

/** From nothing to a first rehearsal: a conversation, one group of questions at a time. */
export function Start({ known }: { readonly known: Known }) {
  const conversation = useConversation();
  if (conversation.start === null) {
    return conversation.failure === null ? (
      <p className="quiet">{words.loading}</p>
    ) : (
      <Failure>{conversation.failure}</Failure>
    );
  }
  return <Talk conversation={conversation} others={known.site?.others ?? []} />;
}

function Talk({ conversation, others }: { readonly conversation: Conversation; readonly others: readonly string[] }) {
  const { start, draft, made, lastGood, failure, ask, goTo } = conversation;
  const { step } = draft;
  const [askedAt, setAskedAt] = useState<number | null>(null);
  const [isKeeping, setKeeping] = useState(false);
  const [refusal, setRefusal] = useState<string | null>(null);
  const head = useFocusOnChange(step);
  const form = useRef<HTMLFormElement>(null);
  const look = useMemo(
    () => ({ usual: (made ?? lastGood)?.usual ?? {}, errors: made?.errors ?? [], isAsked: askedAt === step }),
    [made, lastGood, askedAt, step],
  );

  async function onward(event: FormEvent): Promise<void> {
    event.preventDefault();
    setRefusal(null);
    const answer = await ask();
    if (answer === null) return;
    if (step === LAST) {
      if (answer.site !== null) await keep();
      return;
    }
    const wrong = wrongField(answer, step);
    setAskedAt(step);
    if (wrong === null) goTo(step + 1);
    else form.current?.querySelector<HTMLElement>(`[id="${wrong}"]`)?.focus();
  }

  async function keep(): Promise<void> {
    setKeeping(true);
    try {
      const opened = await startApi.keep(draft.answers);
      keepDraft(null);
      adoptSite(opened);
      go("/");
    } catch (error) {
      setRefusal(sentenceOf(error));
      setKeeping(false);
    }
  }

  const { what, ask: question } = words.steps[step];
  return (
    <FieldContext value={look}>
      <div className="start">
        <div>
          <p className="first">{words.progress(step + 1, STEPS, what)}</p>
          <h1 className="say" ref={head} tabIndex={-1}>
            {question}
          </h1>
          {step === 0 && <p className="then">{words.intro}</p>}
          <form ref={form} onSubmit={(event) => void onward(event)}>
            {step === LAST ? <LastStep conversation={conversation} /> : <Questions conversation={conversation} />}
            {failure !== null && <Failure>{failure}</Failure>}
            {refusal !== null && <Failure>{refusal}</Failure>}
            <div className="ask-on">
              <button className="btn main" type="submit" disabled={isKeeping}>
                {step === LAST ? words.rehearse : words.next}
              </button>
              {step > 0 && (
                <button className="btn" type="button" onClick={() => goTo(step - 1)}>
                  {words.back}
                </button>
              )}
              {step === 0 && draft.furthest > 0 && <BeginAnew onSure={conversation.beginAnew} />}
              <span className="sd" role="status">
                {isKeeping ? words.keeping : words.kept}
              </span>
            </div>
          </form>
          {step === 0 && <OtherWays examples={start.examples} others={others} />}
        </div>
        <SoFar conversation={conversation} />
      </div>
    </FieldContext>
  );
}

/** Asks once more in its own place before it forgets everything. */
function BeginAnew({ onSure }: { readonly onSure: () => void }) {
  const [isAsking, setAsking] = useState(false);
  return (
    <button
      className="textual"
      type="button"
      onClick={() => (isAsking ? onSure() : setAsking(true))}
      onBlur={() => setAsking(false)}
    >
      {isAsking ? words.forget : words.again}
    </button>
  );
}

function Failure({ children }: { readonly children: string }) {
  return (
    <p className="err" role="alert">
      <Glyph name="notice" />
      <span>{children}</span>
    </p>
  );
}

/** The first field of a step with something wrong in it; null where all can be read. */
function wrongField(made: FirstSite, step: number): string | null {
  return made.errors.find(({ field }) => field !== "" && stepOfField(field) === step)?.field ?? null;
}

/** The head of a new step takes the focus, so that reading and tabbing begin there. */
function useFocusOnChange(step: number) {
  const head = useRef<HTMLHeadingElement>(null);
  const shown = useRef(step);
  useEffect(() => {
    if (shown.current === step) return;
    shown.current = step;
    head.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
  }, [step]);
  return head;
}
