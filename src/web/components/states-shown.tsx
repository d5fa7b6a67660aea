import type { DrillResult, RehearsalAnswer, SiteAnswer } from "../../server/contract/index.ts";
import { Notes, type NotesActs } from "../app/notes.tsx";
import type { Known } from "../app/store.ts";
import { drillsOf } from "../app/store.ts";
import { BoardAxis } from "../board/axis.tsx";
import { Key } from "../board/key.tsx";
import { ordered, VERDICTS } from "../board/order.ts";
import { Row, type RowSize } from "../board/row.tsx";
import { now } from "../parts/clock.ts";
import { figure } from "../parts/format.ts";
import { boardScale } from "../parts/scale.ts";
import { COARSE, NARROW, useMedia, useWidth } from "../parts/use-width.ts";
import { componentWords } from "../words/components.ts";
import { words } from "../words.ts";

const { problem } = componentWords;

const CALM: Known = {
  site: null,
  rehearsal: null,
  report: null,
  before: null,
  partial: [],
  silentSince: null,
  failure: null,
  outdated: false,
};
const AT_REST: RehearsalAnswer = {
  state: "done",
  version: 1,
  done: 412,
  total: 412,
  secondsLeft: null,
  finishedAt: null,
  report: null,
  partial: [],
  from: 0,
  problem: null,
};
const UNREAD: SiteAnswer = {
  file: problem.file,
  site: null,
  errors: [
    { file: problem.file, where: problem.where, message: problem.message, hint: problem.hint, line: 31, column: 9 },
  ],
  readAt: null,
  settled: null,
  others: [],
  text: "",
  etag: "",
  written: null,
  defaults: [],
};
/** The buttons of samples do nothing. */
const NO_ACTS: NotesActs = { readAgain: nothing, rehearse: nothing, stop: nothing, load: nothing };
function nothing(): void {}

function Sample({ known }: { readonly known: Partial<Known> }) {
  return <Notes known={{ ...CALM, ...known }} acts={NO_ACTS} />;
}

/** One row of the open site for each verdict that it has, worst first. */
export function RowsShown({ known }: { readonly known: Known }) {
  const drills = ordered(drillsOf(known));
  const samples = VERDICTS.flatMap((verdict) => drills.find((drill) => drill.verdict === verdict) ?? []);
  return samples.length === 0 ? <p className="quiet">{componentWords.noRows}</p> : <RowSamples drills={samples} />;
}

function RowSamples({ drills }: { readonly drills: readonly DrillResult[] }) {
  const [box, width] = useWidth<HTMLDivElement>();
  const narrow = useMedia(NARROW);
  const coarse = useMedia(COARSE);
  const size: RowSize = {
    x: boardScale(width),
    width,
    height: narrow ? 26 : coarse ? 47 : 25,
    bar: narrow ? 10 : 9,
  };
  return (
    <>
      <div className="board">
        <div className="cols axis">
          <div className="h" />
          <span className="sd h">{words.board.column.part}</span>
          <div className="plot" ref={box}>
            {width > 0 && <BoardAxis x={size.x} width={width} height={narrow ? 28 : 32} sparse={narrow} />}
          </div>
          <span className="sd h num">{words.board.column.margin}</span>
          <span className="sd h last">{words.board.column.verdict}</span>
        </div>
        <ul>
          {drills.map((drill, i) => (
            <Row key={drill.id} drill={drill} isChosen={i === 1} onOpen={nothing} size={size} />
          ))}
        </ul>
      </div>
      <div className="key2 sm">
        <b>{words.board.howToRead}</b>
        <Key />
      </div>
    </>
  );
}

export function EmptyShown() {
  return (
    <div className="empty">
      <p className="say">{words.empty.headline("Alder Row School")}</p>
      <p className="then">{words.empty.note}</p>
      <button className="btn main" type="button">
        {words.work.rehearse}
      </button>
    </div>
  );
}

export function LoadingShown() {
  return <p className="quiet">{words.work.loading}</p>;
}

export function WorkShown() {
  return (
    <>
      <Sample known={{ rehearsal: { ...AT_REST, state: "at work", done: 180, secondsLeft: 22 } }} />
      {[1, 2, 3].map((row) => (
        <div className="wait" key={row} aria-hidden="true">
          <i />
          <i />
          <i />
        </div>
      ))}
    </>
  );
}

export function PartialShown() {
  return (
    <>
      <p className="first">{words.work.soFar(figure(180), figure(412))}</p>
      <Sample known={{ rehearsal: { ...AT_REST, state: "stopped", done: 180 } }} />
    </>
  );
}

export function WrongShown() {
  return (
    <>
      <Sample known={{ site: UNREAD }} />
      <Sample known={{ rehearsal: { ...AT_REST, state: "failed", problem: problem.rehearsal } }} />
      <Sample known={{ failure: problem.page }} />
    </>
  );
}

export function OfflineShown() {
  return (
    <>
      <Sample known={{ silentSince: now() }} />
      <Sample known={{ outdated: true }} />
    </>
  );
}
