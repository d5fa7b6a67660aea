import type { SiteAnswer } from "../../server/contract/index.ts";
import { Theirs } from "../draft/theirs.tsx";
import { clockHere, momentWords } from "../parts/clock.ts";
import { figure, workTime } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { WorkBar } from "../parts/work-bar.tsx";
import { words } from "../words.ts";
import { drillsOf, type Known, movedBy, readAgain, startRehearsal, stopRehearsal } from "./store.ts";

/** More problems than this are counted, not listed. */
const LISTED_PROBLEMS = 3;

/** What the buttons of the notes do. */
export interface NotesActs {
  readonly readAgain: () => void;
  readonly rehearse: () => void;
  readonly stop: () => void;
  readonly load: () => void;
}

const ASK_THE_PROGRAM: NotesActs = {
  readAgain: () => void readAgain(),
  rehearse: () => void startRehearsal(),
  stop: () => void stopRehearsal(),
  load: () => location.reload(),
};

/** The lines under the neatline: what is wrong, what is at work. None of them on a calm day. */
export function Notes({ known, acts = ASK_THE_PROGRAM }: { readonly known: Known; readonly acts?: NotesActs }) {
  const { site, rehearsal, silentSince, failure, outdated } = known;
  return (
    <>
      {silentSince !== null && (
        <p className="note sm" role="status">
          {words.trouble.offline(clockHere(silentSince))}
        </p>
      )}
      {outdated && (
        <div className="note" role="status">
          <p>{words.trouble.outdated}</p>
          <button className="btn" type="button" onClick={acts.load}>
            {words.trouble.loadNewer}
          </button>
        </div>
      )}
      {site !== null && site.errors.length > 0 && <SiteTrouble answer={site} />}
      <Theirs />
      {failure !== null && silentSince === null && (
        <div className="note" role="alert">
          <Trouble title={words.trouble.pageFailed}>{failure}</Trouble>
          <button className="btn" type="button" onClick={acts.readAgain}>
            {words.trouble.tryAgain}
          </button>
        </div>
      )}
      {rehearsal?.state === "at work" && <AtWork known={known} acts={acts} />}
      {rehearsal?.state === "stopped" && <Stopped known={known} acts={acts} />}
      {rehearsal?.state === "failed" && (
        <div className="note" role="alert">
          <Trouble title={words.trouble.rehearsalFailed}>
            {rehearsal.problem}
            {known.report !== null && ` ${words.trouble.rehearsalKept}`}
          </Trouble>
          <button className="btn" type="button" onClick={acts.rehearse}>
            {words.work.again}
          </button>
        </div>
      )}
      <Announcer known={known} />
    </>
  );
}

function Trouble({ title, children }: { readonly title: string; readonly children: React.ReactNode }) {
  return (
    <div className="err">
      <Glyph name="notice" />
      <div>
        <b>{title}</b>
        <div>{children}</div>
      </div>
    </div>
  );
}

function SiteTrouble({ answer }: { readonly answer: SiteAnswer }) {
  const { errors, site, readAt } = answer;
  const shown = errors.slice(0, LISTED_PROBLEMS);
  const rest = errors.length - shown.length;
  const after =
    site === null || readAt === null
      ? words.trouble.noneGood
      : words.trouble.lastGood(momentWords(readAt, site.zone, words.frame));
  return (
    <div className="note" role="alert">
      <Trouble title={words.trouble.siteUnread}>
        <ul>
          {shown.map((problem) => (
            <li key={`${problem.line}:${problem.column} ${problem.where}`}>
              <span className="nb">
                {fileName(problem.file)}:{problem.line}
              </span>{" "}
              {problem.where}: {problem.message}
              {problem.hint !== "" && `; ${problem.hint}`}
            </li>
          ))}
          {rest > 0 && <li>{words.trouble.moreErrors(rest)}</li>}
        </ul>
        {after}
      </Trouble>
    </div>
  );
}

function fileName(path: string): string {
  return path.split(/[\\/]/).at(-1) ?? path;
}

/** Words with a count and the time left, a plain bar, and the way to stop. */
function AtWork({ known, acts }: { readonly known: Known; readonly acts: NotesActs }) {
  const { done, total, secondsLeft } = known.rehearsal ?? { done: 0, total: 0, secondsLeft: null };
  const moved = movedBy(known);
  return (
    <div className="note work">
      <p>
        {total === 0 ? words.work.starting : words.work.progress(figure(done), figure(total))}
        {total > 0 && secondsLeft !== null && words.work.left(workTime(secondsLeft))}
        {total > 0 && ". "}
        {moved > 0 && `${words.board.moved(moved)}. `}
        <button className="textual" type="button" onClick={acts.stop}>
          {words.work.stop}
        </button>
      </p>
      <WorkBar done={done} total={total} label={words.work.bar} />
    </div>
  );
}

function Stopped({ known, acts }: { readonly known: Known; readonly acts: NotesActs }) {
  const { done, total } = known.rehearsal ?? { done: 0, total: 0 };
  return (
    <div className="note">
      <p>{words.work.stopped(figure(done), figure(total))}</p>
      <button className="btn" type="button" onClick={acts.rehearse}>
        {words.work.again}
      </button>
    </div>
  );
}

/** Says the end of a rehearsal to those who do not see the board change; its progress would only interrupt them. */
function Announcer({ known }: { readonly known: Known }) {
  const finished = known.rehearsal?.state === "done" && known.report !== null;
  return (
    <p className="vh" role="status">
      {finished ? words.work.finished(figure(drillsOf(known).length)) : ""}
    </p>
  );
}
