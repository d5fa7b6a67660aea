import { useEffect, useState } from "react";
import type { DrillResult } from "../../server/contract/index.ts";
import { address, drillAddress, Link } from "../app/router.tsx";
import type { Known } from "../app/store.ts";
import { figure, span } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { Marked, useNames } from "../parts/names.tsx";
import { asTold } from "../parts/told.ts";
import { draftWords } from "../words/draft.ts";
import { words } from "../words.ts";
import { type Draft, isChanged, keep, putBack, stopTrial, tryOnceMore, useDraft } from "./draft-store.ts";
import { stepsSince } from "./history.ts";
import { gain, type Move, type Moves, movesOf } from "./moved.ts";

const SHOWN = 3;

/** At the foot of the page while there are changes that are not kept: what they do to the verdicts, and the choice. */
export function ChangeStrip({ known }: { readonly known: Known }) {
  const draft = useDraft();
  const changed = isChanged(draft);
  const [kept, setKept] = useState(false);
  const keeping = draft?.keeping ?? false;
  useEffect(() => {
    if (keeping) setKept(true);
    else if (changed) setKept(false);
  }, [keeping, changed]);
  return (
    <>
      <p className="vh" role="status">
        {!changed && kept ? draftWords.keptAs : ""}
      </p>
      {changed && <Strip draft={draft} known={known} />}
    </>
  );
}

function Strip({ draft, known }: { readonly draft: Draft; readonly known: Known }) {
  const moves = movesOfTrial(draft, known.report?.drills ?? []);
  const state = draft.trial?.answer.state;
  return (
    <section className="strip noprint" aria-label={draftWords.region}>
      <div className="what">
        <h2>
          <Marked text={titleOf(draft)} />
        </h2>
        <p className="sm">
          <Progress draft={draft} moves={moves} />
        </p>
      </div>
      <div className="moves">{moves !== null && <MovesShown moves={moves} />}</div>
      <div className="choice">
        {draft.failure !== null && (
          <p className="sm err-line" role="alert">
            {draft.failure}
          </p>
        )}
        <button className="btn" type="button" onClick={putBack}>
          {draftWords.putBack}
        </button>
        <button
          className="btn main"
          type="button"
          disabled={draft.keeping || draft.theirs !== null}
          onClick={() => void keep()}
        >
          {draft.keeping ? draftWords.keeping : draftWords.keep}
        </button>
      </div>
      <p className="vh" role="status">
        {state === "done" && moves !== null ? draftWords.announce(draftWords.moved(moves.verdicts.length)) : ""}
      </p>
    </section>
  );
}

/** What the trial of the draft has found so far; null before it has found anything. */
export function movesOfTrial(draft: Draft, before: readonly DrillResult[]): Moves | null {
  const trial = draft.trial;
  if (trial === null || before.length === 0 || trial.drills.length === 0) return null;
  return movesOf(before, trial.drills, trial.answer.state === "done");
}

function titleOf(draft: Draft): string {
  const steps = stepsSince(draft.history, draft.fileText);
  const last = draft.history.steps[draft.history.at].label;
  if (steps === null) return draftWords.walkedBack;
  return steps.length === 1 ? draftWords.title(last) : draftWords.several(steps.length, last);
}

function Progress({ draft, moves }: { readonly draft: Draft; readonly moves: Moves | null }) {
  const trial = draft.trial?.answer;
  if (trial === undefined) return draftWords.waiting;
  const again = (
    <button className="textual" type="button" onClick={tryOnceMore}>
      {draftWords.tryAgain}
    </button>
  );
  switch (trial.state) {
    case "at work":
      return (
        <>
          {trial.total === 0 ? draftWords.begins : draftWords.atWork(figure(trial.done), figure(trial.total))},{" "}
          {draftWords.soFar(moves?.verdicts.length ?? 0)}.{" "}
          <button className="textual" type="button" onClick={stopTrial}>
            {draftWords.stop}
          </button>
        </>
      );
    case "done":
      return [
        draftWords.tried(figure(trial.report?.drills.length ?? 0)),
        ...(moves === null ? [] : [draftWords.moved(moves.verdicts.length)]),
        ...(moves !== null && moves.come.length > 0 ? [draftWords.come(moves.come.length)] : []),
        ...(moves !== null && moves.gone.length > 0 ? [draftWords.gone(moves.gone.length)] : []),
      ].join(", ");
    case "failed":
      return (
        <>
          {draftWords.failed} {trial.problem} {again}
        </>
      );
    default:
      return (
        <>
          {draftWords.stopped}, {draftWords.soFar(moves?.verdicts.length ?? 0)}. {again}
        </>
      );
  }
}

/** The moves that tell most, one of each fault, and a worse one among them wherever there is one. */
function telling(moves: Moves): readonly Move[] {
  const seen = new Set<string>();
  const each = moves.verdicts.filter(({ after, better }) => {
    const key = `${after.name} ${after.faults[0]?.part ?? ""} ${better}`;
    const isNew = !seen.has(key);
    seen.add(key);
    return isNew;
  });
  const shown = each.slice(0, SHOWN);
  const worse = each.find(({ better }) => !better);
  if (worse === undefined || shown.includes(worse)) return shown;
  return [...shown.slice(0, SHOWN - 1), worse];
}

function MovesShown({ moves }: { readonly moves: Moves }) {
  const shown = telling(moves);
  const more = moves.verdicts.length - shown.length;
  return (
    <>
      {shown.map((move) => (
        <MoveShown key={move.after.id} move={move} />
      ))}
      <div className="rest">
        <b>{more > 0 ? draftWords.moreMoves(more) : draftWords.others(figure(moves.same + moves.margins.length))}</b>
        <span className="sm">
          {more > 0 ? (
            <Link to={address("/compare", { with: "draft" })}>{draftWords.compare}</Link>
          ) : moves.margins.length + moves.verdicts.length + moves.come.length > 0 ? (
            <>
              {draftWords.stay}. <Link to={address("/compare", { with: "draft" })}>{draftWords.compare}</Link>
            </>
          ) : (
            draftWords.stay
          )}
        </span>
      </div>
    </>
  );
}

function MoveShown({ move }: { readonly move: Move }) {
  const { before, after, better } = move;
  const { water } = useNames();
  const part = after.faults[0]?.part ?? "";
  const by = Math.abs(gain(move));
  const both = before.margin_min !== null && after.margin_min !== null && by > 1;
  const how = both
    ? better
      ? draftWords.better(span(by))
      : draftWords.worse(span(by))
    : better
      ? draftWords.betterVerdict
      : draftWords.worseVerdict;
  return (
    <Link
      className="move"
      to={drillAddress(after.id)}
      aria-label={`${asTold(after.name)}, ${water(part) ?? part}, ${after.circumstance}: ${words.verdicts[before.verdict]} ${draftWords.becomes} ${words.verdicts[after.verdict]}, ${how}`}
    >
      <span className="turn">
        <VerdictGlyph verdict={before.verdict} />
        <svg width="14" height="10" aria-hidden="true">
          <path d="M0 5h12M8 1l4 4-4 4" fill="none" stroke="var(--ink-2)" strokeWidth="1.4" />
        </svg>
        <VerdictGlyph verdict={after.verdict} />
        <b>{words.verdicts[after.verdict]}</b>
      </span>
      <span className="sm">
        {asTold(after.name)}, <Marked text={part} />
      </span>
      <span className="sm">{how}</span>
    </Link>
  );
}
