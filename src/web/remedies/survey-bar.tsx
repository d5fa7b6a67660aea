import type { RehearsalReport, Remedy } from "../../server/contract/index.ts";
import { knownNow } from "../app/store.ts";
import { useDraft } from "../draft/draft-store.ts";
import { figure } from "../parts/format.ts";
import { Marked } from "../parts/names.tsx";
import { WorkBar } from "../parts/work-bar.tsx";
import { remedyWords } from "../words/remedies.ts";
import { runSurvey, type Survey, stopSurvey } from "./survey.ts";

const say = remedyWords.survey;
/** So many changes are tried at one press: each takes about as long as a rehearsal. */
const MOST = 10;

/** The press that tries what stands first, one change after the other, and how far that is. */
export function SurveyBar({
  survey,
  remedies,
  report,
}: {
  readonly survey: Survey;
  readonly remedies: readonly Remedy[];
  readonly report: RehearsalReport;
}) {
  const draft = useDraft();
  const { running, ended, seen } = survey;
  // One trial is at work at a time: the change at the foot goes first.
  const busy = draft?.trial?.answer.state === "at work";
  const first = remedies.filter(({ id }) => !seen.has(id)).slice(0, MOST);
  const begin = (): void => {
    const text = knownNow().site?.text ?? null;
    if (text !== null && !busy) void runSurvey(first, text, report);
  };
  return (
    <div className="survey noprint">
      {running === null ? (
        first.length > 0 && (
          <>
            <button className="btn" type="button" aria-disabled={busy} onClick={begin}>
              {say.begin(first.length)}
            </button>
            <p className="sm">{busy ? say.busy : (ended ?? say.hint)}</p>
          </>
        )
      ) : (
        <div className="going">
          <p>
            <Marked text={say.running(figure(running.place), figure(running.of), running.remedy.title)} />
            {running.total > 0 && say.drills(figure(running.done), figure(running.total))}.{" "}
            <button className="textual" type="button" onClick={stopSurvey}>
              {say.stop}
            </button>
          </p>
          <WorkBar
            done={running.place - 1 + (running.total === 0 ? 0 : running.done / running.total)}
            total={running.of}
            label={say.bar}
          />
        </div>
      )}
      <p className="vh" role="status">
        {running === null && seen.size > 0 ? say.done(seen.size) : ""}
      </p>
    </div>
  );
}
