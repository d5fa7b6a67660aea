import { useState } from "react";
import type { DrillResult, Remedy, VerdictKind } from "../../server/contract/index.ts";
import { drillAddress, Link } from "../app/router.tsx";
import { knownNow } from "../app/store.ts";
import type { Finding } from "../board/findings-of.ts";
import { marginText } from "../board/margin.ts";
import { VERDICTS } from "../board/order.ts";
import { apply, stepsHere, takeAway, useDraft } from "../draft/draft-store.ts";
import { asSentence, figure, span } from "../parts/format.ts";
import { Glyph, VerdictGlyph } from "../parts/glyphs.tsx";
import { Marked } from "../parts/names.tsx";
import { remedyWords } from "../words/remedies.ts";
import { words } from "../words.ts";
import { editInWords } from "./edit-words.ts";
import { type Effect, effectOf } from "./effect.ts";
import { EffectShown } from "./effect-shown.tsx";
import type { Step } from "./steps.ts";
import { titleInside } from "./title-inside.ts";

interface Seen {
  /** What changes have been seen to do when each was tried by itself. */
  readonly seen: ReadonlyMap<string, Effect>;
  /** The drills of the file as it is. */
  readonly drills: readonly DrillResult[];
}

/** A change to make, the findings that it aims at, and other ways to meet them. */
export function StepItem({ step, seen, drills }: { readonly step: Step } & Seen) {
  const { remedy, findings, others } = step;
  return (
    <li>
      <VerdictGlyph verdict={worstOf(findings)} />
      <div className="step">
        <RemedyBlock remedy={remedy} findings={findings} others={others} seen={seen} drills={drills} level="h2" />
      </div>
    </li>
  );
}

function worstOf(findings: readonly Finding[]): VerdictKind {
  const verdicts = findings.flatMap(({ drills }) => drills.map(({ verdict }) => verdict));
  return VERDICTS.find((verdict) => verdicts.includes(verdict)) ?? "not simulated";
}

/** One change: what and why, what it costs, the choice to try it, what it did. */
function RemedyBlock({
  remedy,
  findings,
  others,
  seen,
  drills,
  level: Heading,
}: {
  readonly remedy: Remedy;
  readonly findings: readonly Finding[];
  readonly others: readonly Remedy[];
  readonly level: "h2" | "h4";
} & Seen) {
  const draft = useDraft();
  const [refusal, setRefusal] = useState("");
  const [busy, setBusy] = useState(false);
  const here = draft === null ? null : stepsHere(draft);
  const mine = inDraft(remedy, here);
  const trial = mine === null ? null : (draft?.trial ?? null);
  const known = seen.get(remedy.id) ?? null;
  // What is tried already is not hidden when the page is opened again.
  const [opens] = useState(() => others.some((other) => inDraft(other, here) !== null));
  const tryOrTake = async (): Promise<void> => {
    setBusy(true);
    const outcome =
      mine === null ? await apply(remedyWords.done(titleInside(remedy.title)), remedy.edits) : await takeAway(mine);
    setBusy(false);
    setRefusal(outcome.made ? "" : remedyWords.refused(outcome.message));
  };
  return (
    <>
      <div className="offer">
        <div>
          <Heading className="act">
            <Marked text={remedy.title} />
          </Heading>
          <p className="sm">
            <Marked text={asSentence(remedy.why)} />
          </p>
          <p className="sm effort">{effortInWords(remedy)}</p>
          {remedy.caution !== null && (
            <p className="sm caution">
              <Glyph name="notice" />
              <span>{asSentence(remedy.caution)}</span>
            </p>
          )}
        </div>
        <button
          className="btn noprint"
          type="button"
          aria-label={mine === null ? remedyWords.tryItSpoken(remedy.title) : remedyWords.putBackSpoken(remedy.title)}
          aria-disabled={busy}
          onClick={() => !busy && void tryOrTake()}
        >
          {mine === null ? remedyWords.tryIt : remedyWords.putBack}
        </button>
      </div>
      {refusal !== "" && (
        <p className="sm refusal" role="alert">
          {refusal}
        </p>
      )}
      {mine !== null && (
        <div className="tried">
          <p className="sm">
            <b>{remedyWords.inDraft}</b>
            {(here?.length ?? 0) > 1 && `. ${remedyWords.together(here?.length ?? 0)}`}
          </p>
          {trial === null || trial.drills.length === 0 ? (
            <p className="sm">{remedyWords.effect.waiting}</p>
          ) : (
            <EffectShown effect={effectOf(remedy, drills, trial.drills, trial.answer.state === "done")} compares />
          )}
          <Changes remedy={remedy} />
        </div>
      )}
      {mine === null && known !== null && <EffectShown effect={known} compares={false} />}
      <details className="takes" open={opens}>
        <summary>
          {findings.length === 0
            ? remedyWords.detailsAlone
            : remedyWords.details(findings.length, figure(findings.length), others.length)}
        </summary>
        <div>
          <p className="lab">{remedyWords.needs}</p>
          <p className="sm">
            <Marked text={asSentence(remedy.needs)} />
          </p>
          {mine === null && <Changes remedy={remedy} />}
          {findings.length > 0 && (
            <>
              <p className="lab">{remedyWords.aims}</p>
              <Aims findings={findings} />
            </>
          )}
          {others.length > 0 && (
            <>
              <h3 className="lab">{remedyWords.others}</h3>
              <ul className="others">
                {others.map((other) => (
                  <li key={other.id}>
                    <RemedyBlock remedy={other} findings={[]} others={[]} seen={seen} drills={drills} level="h4" />
                  </li>
                ))}
              </ul>
            </>
          )}
        </div>
      </details>
    </>
  );
}

/** The step of the draft by which a change was made; null where it was not. */
function inDraft(remedy: Remedy, here: ReturnType<typeof stepsHere>) {
  const edits = JSON.stringify(remedy.edits);
  return here?.find((one) => one.edits !== null && JSON.stringify(one.edits) === edits) ?? null;
}

/** Rough money and minutes, in words: no figure here is measured. */
function effortInWords({ costEUR, minutesOnce, minutesPerMonth }: Remedy): string {
  const cost =
    costEUR.high === 0 ? remedyWords.nothingToBuy : remedyWords.roughly(figure(costEUR.low), figure(costEUR.high));
  return asSentence(
    [
      cost,
      remedyWords.once(span(minutesOnce)),
      remedyWords.monthly(minutesPerMonth, span(Math.abs(minutesPerMonth))),
    ].join(", "),
  );
}

/** The change of the description: part, key, what was written and what will be. */
function Changes({ remedy }: { readonly remedy: Remedy }) {
  const written = knownNow().site?.written ?? null;
  const say = remedyWords.edit;
  return (
    <>
      <p className="lab">{remedyWords.changes}</p>
      <ul className="changes sm">
        {remedy.edits.map((edit) => {
          const { part, key, was, becomes } = editInWords(edit, written);
          return (
            <li key={`${part} ${key} ${becomes}`}>
              <span className="of">
                <Marked text={part} />
                {key !== "" && `, ${key}`}
              </span>
              <span className="becomes">
                <Marked text={becomes ?? say.out} />
              </span>
              <span className="was">
                {was !== null ? say.was(was) : key === "" ? (becomes === null ? "" : say.isNew) : say.notWritten}
              </span>
            </li>
          );
        })}
      </ul>
    </>
  );
}

const FIRST_FINDINGS = 8;

function Aims({ findings }: { readonly findings: readonly Finding[] }) {
  const [all, setAll] = useState(false);
  const shown = all ? findings : findings.slice(0, FIRST_FINDINGS);
  const rest = findings.length - shown.length;
  return (
    <>
      <ul className="aims sm">
        {shown.map(({ key, text, drills: [worst, ...more] }) => (
          <li key={key}>
            <VerdictGlyph verdict={worst.verdict} />
            <Link to={drillAddress(worst.id)}>
              <Marked text={asSentence(text)} />
            </Link>
            <span className="nb">
              {words.verdicts[worst.verdict]}, {marginText(worst)}
              {more.length > 0 && `, ${remedyWords.moreFindings(figure(more.length))}`}
            </span>
          </li>
        ))}
      </ul>
      {rest > 0 && (
        <button className="textual sm" type="button" onClick={() => setAll(true)}>
          {words.findings.more(figure(rest))}
        </button>
      )}
    </>
  );
}
