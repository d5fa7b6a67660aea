import { useMemo } from "react";
import type { PairsAnswer, Site } from "../../server/contract/index.ts";
import { address, go, Link } from "../app/router.tsx";
import { asSentence, figure, workTime } from "../parts/format.ts";
import { Glyph } from "../parts/glyphs.tsx";
import { Marked, Name, useNames } from "../parts/names.tsx";
import { PHONE, useMedia } from "../parts/use-width.ts";
import { WorkBar } from "../parts/work-bar.tsx";
import { pairWords } from "../words/pairs.ts";
import { words } from "../words.ts";
import { CellList, PairLine } from "./cell-list.tsx";
import { PairTable, WorstCells } from "./cells-as-text.tsx";
import { FieldGround } from "./field.tsx";
import { MatrixGrid } from "./matrix.tsx";
import {
  busiestFirst,
  type FieldKind,
  fitting,
  MOST_FIELDS,
  matrixOf,
  overviewOf,
  partsOf,
  SHOWS,
  type Show,
  systemsOfParts,
} from "./matrix-model.ts";
import { usePairs } from "./use-pairs.ts";
import "./pairs.css";

/** Two faults at once: one that waited unseen, then another. Which of them harm only together. */
export default function PairsPage({
  site,
  edition,
  query,
}: {
  readonly site: Site;
  readonly edition: string | null;
  readonly query: URLSearchParams;
}) {
  const { answer, failure, start, stop } = usePairs(edition);
  return (
    <div className="pairs">
      <p className="crumb sm">
        <Link to="/">{pairWords.back}</Link>
        <span>{pairWords.title}</span>
      </p>
      {failure !== null && <Trouble why={failure} />}
      {answer === null && failure === null && <p className="quiet">{pairWords.loading}</p>}
      {answer?.state === "none" && <NothingYet onStart={start} />}
      {answer?.state === "at work" && <AtWork answer={answer} onStop={stop} />}
      {answer?.state === "failed" && <Trouble why={answer.problem ?? ""} onStart={start} />}
      {answer?.state === "stopped" && <Stopped answer={answer} onStart={start} />}
      {answer?.pairs != null && <Found pairs={answer.pairs} site={site} query={query} />}
      {answer?.state === "done" && (
        <p className="again noprint">
          <button className="btn" type="button" onClick={start}>
            {pairWords.again}
          </button>
        </p>
      )}
      <p className="vh" role="status">
        {answer?.state === "done" && pairWords.finished(figure(answer.pairs?.tried ?? 0))}
      </p>
    </div>
  );
}

function NothingYet({ onStart }: { readonly onStart: () => void }) {
  return (
    <div className="empty">
      <h1 className="say">{pairWords.none}</h1>
      <p className="then">{pairWords.noneNote}</p>
      <button className="btn main" type="button" onClick={onStart}>
        {pairWords.start}
      </button>
    </div>
  );
}

function AtWork({ answer, onStop }: { readonly answer: PairsAnswer; readonly onStop: () => void }) {
  const { done, total, secondsLeft } = answer;
  return (
    <div className="pairs-work">
      <h1 className="say">
        {total === 0 ? pairWords.starting : pairWords.progress(figure(done), figure(total))}
        {secondsLeft !== null && pairWords.left(workTime(secondsLeft))}
        {total > 0 && "."}
      </h1>
      <WorkBar done={done} total={total} label={pairWords.bar} />
      <button className="btn" type="button" onClick={onStop}>
        {pairWords.stop}
      </button>
    </div>
  );
}

function Stopped({ answer, onStart }: { readonly answer: PairsAnswer; readonly onStart: () => void }) {
  return (
    <p className="quiet">
      {pairWords.stopped(figure(answer.done), figure(answer.total))}{" "}
      <button className="textual" type="button" onClick={onStart}>
        {pairWords.again}
      </button>
    </p>
  );
}

function Trouble({ why, onStart }: { readonly why: string; readonly onStart?: () => void }) {
  return (
    <div className="err page-err" role="alert">
      <Glyph name="notice" />
      <div>
        <b>{pairWords.failed}</b>
        <p>{why}</p>
        {onStart !== undefined && (
          <button className="btn" type="button" onClick={onStart}>
            {pairWords.again}
          </button>
        )}
      </div>
    </div>
  );
}

type Known = NonNullable<PairsAnswer["pairs"]>;

function Found({
  pairs,
  site,
  query,
}: {
  readonly pairs: Known;
  readonly site: Site;
  readonly query: URLSearchParams;
}) {
  const phone = useMedia(PHONE);
  const systemOf = useMemo(() => systemsOfParts(site), [site]);
  const choice = readChoice(query, pairs);
  const { show, system, rows, columns } = choice;
  const shown = useMemo(() => {
    const within = rows === null || columns === null ? null : { first: rows, trigger: columns };
    return fitting(pairs.cells, show, system, systemOf, within);
  }, [pairs, show, system, rows, columns, systemOf]);
  const parts = useMemo(() => matrixOf(shown, pairs.cells, site, systemOf), [shown, pairs, site, systemOf]);
  const fields = partsOf(parts.rows).length * partsOf(parts.columns).length;
  const isOverview = fields > MOST_FIELDS;
  const matrix = useMemo(
    () => (isOverview ? overviewOf(shown, pairs.cells, site, systemOf) : parts),
    [isOverview, shown, pairs, site, systemOf, parts],
  );
  const choose = (change: Record<string, string | null>): void =>
    go(address("/pairs", { ...Object.fromEntries(query), ...change }), "replace");
  const open = choice.first !== null && choice.trigger !== null;
  const beside = !open && !phone && pairs.worst.length > 0;
  return (
    <>
      <FirstSentence pairs={pairs} />
      <Choices site={site} choice={choice} onChoose={choose} />
      {shown.length === 0 && <p className="quiet">{pairWords.nothing}</p>}
      <div className={open || beside ? "pairs-grid beside" : "pairs-grid"}>
        <div className="pairs-main">
          {shown.length > 0 && !phone && (
            <>
              {isOverview && <p className="sm">{pairWords.tooMany(figure(fields))}</p>}
              {rows !== null && (
                <button
                  className="textual"
                  type="button"
                  onClick={() => choose({ ...CLOSED, rows: null, columns: null })}
                >
                  {pairWords.within}
                </button>
              )}
              <MatrixGrid
                key={`${isOverview} ${rows} ${columns}`}
                matrix={matrix}
                chosen={open ? { first: choice.first ?? "", trigger: choice.trigger ?? "" } : null}
                onOpen={({ first, trigger }) =>
                  choose(isOverview ? { ...CLOSED, rows: first, columns: trigger } : { first, trigger })
                }
              />
              <FieldKey />
            </>
          )}
          {shown.length > 0 && phone && (
            <WorstCells cells={shown} onOpen={({ first, trigger }) => choose({ first, trigger })} />
          )}
        </div>
        {beside && <WorstPairs pairs={pairs} />}
        {open && (
          <CellList
            key={`${choice.first} ${choice.trigger}`}
            first={choice.first ?? ""}
            trigger={choice.trigger ?? ""}
            cell={parts.cell(choice.first ?? "", choice.trigger ?? "")}
            onClose={() => choose(CLOSED)}
          />
        )}
      </div>
      {shown.length > 0 && <PairTable cells={shown} />}
      <Counted pairs={pairs} />
    </>
  );
}

/** While no field is open, the worst pairs that harm only together. */
function WorstPairs({ pairs }: { readonly pairs: Known }) {
  return (
    <section className="pair-list plain" aria-labelledby="pair-list-worst">
      <h2 id="pair-list-worst">{pairWords.list.worst}</h2>
      <ul>
        {pairs.worst.slice(0, 6).map((drill) => (
          <PairLine key={drill.id} drill={drill} withParts />
        ))}
      </ul>
    </section>
  );
}

/** No field is open. */
const CLOSED = { first: null, trigger: null };

interface Choice {
  readonly show: Show;
  readonly system: string | null;
  /** Of a large site: systems whose parts are shown. */
  readonly rows: string | null;
  readonly columns: string | null;
  readonly first: string | null;
  readonly trigger: string | null;
}

/** Where no pair harms only together, the page opens with those that harm at all, or with everything. */
function readChoice(query: URLSearchParams, pairs: Known): Choice {
  const show = query.get("show") as Show;
  const usual: Show = pairs.only_together > 0 ? "together" : pairs.fails > 0 ? "fails" : "all";
  return {
    show: SHOWS.includes(show) ? show : usual,
    system: query.get("system"),
    rows: query.get("rows"),
    columns: query.get("columns"),
    first: query.get("first"),
    trigger: query.get("trigger"),
  };
}

function FirstSentence({ pairs }: { readonly pairs: Known }) {
  const busiest = busiestFirst(pairs.cells);
  if (busiest === null) return <h1 className="say">{pairWords.noneTogether}</h1>;
  const [worst] = pairs.worst;
  return (
    <>
      <h1 className="say">
        {pairWords.lookFirst}
        <b>
          <Name id={busiest.part} />
        </b>
        {pairWords.lookAfter}
        {pairWords.begins(figure(busiest.count), figure(pairs.only_together), pairs.only_together)}
      </h1>
      {worst !== undefined && worst.finding !== null && (
        <p className="then">
          {pairWords.worst} <Marked text={asSentence(worst.finding)} />
        </p>
      )}
    </>
  );
}

function Choices({
  site,
  choice,
  onChoose,
}: {
  readonly site: Site;
  readonly choice: Choice;
  readonly onChoose: (change: Record<string, string | null>) => void;
}) {
  const { water } = useNames();
  return (
    <div className="filters">
      <fieldset className="seg sys" aria-label={pairWords.view}>
        {SHOWS.map((show) => (
          <button
            key={show}
            type="button"
            aria-pressed={choice.show === show}
            onClick={() => onChoose({ ...CLOSED, show })}
          >
            {pairWords.show[show]}
          </button>
        ))}
      </fieldset>
      {site.systems.length > 1 && (
        <select
          className="btn"
          aria-label={pairWords.system}
          value={choice.system ?? ""}
          onChange={(event) => onChoose({ ...CLOSED, system: event.target.value })}
        >
          <option value="">{pairWords.allSystems}</option>
          {site.systems.map(({ id }) => (
            <option key={id} value={id}>
              {water(id)}
            </option>
          ))}
        </select>
      )}
    </div>
  );
}

const KINDS: readonly FieldKind[] = ["together", "alone", "held", "calm", "untried"];

/** How to read a field. */
function FieldKey() {
  return (
    <div className="field-key sm">
      {KINDS.map((kind) => (
        <span key={kind}>
          <svg width="26" height="16" viewBox="0 0 26 16" aria-hidden="true">
            <FieldGround kind={kind} width={26} height={16} />
            {kind === "held" && (
              <svg x="5" width="16" height="16" className="v-handed" aria-hidden="true">
                <use href="#g-handed" />
              </svg>
            )}
            <rect x=".5" y=".5" width="25" height="15" fill="none" stroke="var(--hair)" />
          </svg>
          {pairWords.key[kind]}
        </span>
      ))}
    </div>
  );
}

function Counted({ pairs }: { readonly pairs: Known }) {
  const { census, tried, derived, circumstance } = pairs;
  return (
    <p className="foot sd">
      <span>
        {pairWords.counted(figure(census.pairs), figure(census.faults), figure(tried), circumstance, figure(derived))}{" "}
        {pairWords.open(figure(census.open))} {pairWords.both} {words.board.estimate}
      </span>
    </p>
  );
}
