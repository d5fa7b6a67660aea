import type { ReactNode } from "react";
import { type Known, startRehearsal } from "../app/store.ts";
import { figure, workTime } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { WorkBar } from "../parts/work-bar.tsx";
import { compareWords } from "../words/compare.ts";
import type { FileTrial } from "./file-trial.ts";

const say = compareWords.work;
/** More problems than this are counted by the page of that file, once it is open. */
const LISTED_PROBLEMS = 3;

/** One sentence what is missing, one what it would take, and the choice of another comparison. */
export function Nothing({
  title,
  note,
  chooser,
  children,
}: {
  readonly title: string;
  readonly note?: string;
  readonly chooser: ReactNode;
  readonly children?: ReactNode;
}) {
  return (
    <div className="empty">
      <h1 className="say">{title}</h1>
      <p className="then">
        {note} {children}
      </p>
      {chooser}
    </div>
  );
}

/** The open file has no report yet: it is at work, or waits for a word. */
export function NotRehearsed({ known, chooser }: { readonly known: Known; readonly chooser: ReactNode }) {
  const state = known.rehearsal?.state;
  const idle = state === "none" || state === "stopped" || state === "failed";
  if (state === undefined || state === "done") return <p className="quiet">{compareWords.empty.loading}</p>;
  return (
    <div className="empty">
      <h1 className="say">{compareWords.empty.notRehearsed}</h1>
      {chooser}
      {idle && (
        <button className="btn main" type="button" onClick={() => void startRehearsal()}>
          {compareWords.empty.rehearse}
        </button>
      )}
    </div>
  );
}

/** How far the other file is, and what went wrong with it. */
export function FileAtWork({ file, fileTrial }: { readonly file: string; readonly fileTrial: FileTrial }) {
  const { trial, failure, stop, again } = fileTrial;
  const answer = trial?.answer;
  const tryAgain = (
    <button className="btn" type="button" onClick={again}>
      {say.again}
    </button>
  );
  if (failure !== null || answer?.state === "failed") {
    const errors = answer?.errors ?? [];
    return (
      <div className="note" role="alert">
        <div className="err">
          <Glyph name="notice" />
          <div>
            <b>{errors.length > 0 ? say.unread(file) : say.failed}</b>
            {errors.length > 0 ? (
              <ul>
                {errors.slice(0, LISTED_PROBLEMS).map((problem) => (
                  <li key={`${problem.line}:${problem.column} ${problem.where}`}>
                    <span className="nb">
                      {file}:{problem.line}
                    </span>{" "}
                    {problem.where}: {problem.message}
                    {problem.hint !== "" && `; ${problem.hint}`}
                  </li>
                ))}
              </ul>
            ) : (
              <div>{failure ?? answer?.problem}</div>
            )}
          </div>
        </div>
        {tryAgain}
      </div>
    );
  }
  if (answer?.state === "stopped")
    return (
      <div className="note">
        <p>{say.stopped(figure(trial?.drills.length ?? 0), figure(answer.total))}</p>
        {tryAgain}
      </div>
    );
  if (answer?.state === "done") return null;
  return (
    <div className="note work">
      <p>
        {answer === undefined || answer.total === 0
          ? say.begins(file)
          : say.trying(file, figure(answer.done), figure(answer.total))}
        {answer?.secondsLeft != null && say.left(workTime(answer.secondsLeft))}.{" "}
        <button className="textual" type="button" onClick={stop}>
          {say.stop}
        </button>
      </p>
      <WorkBar done={answer?.done ?? 0} total={answer?.total ?? 0} label={say.bar} />
    </div>
  );
}
