import { type ReactNode, useMemo } from "react";
import { address, go } from "../app/router.tsx";
import { BoardAxis } from "../board/axis.tsx";
import { Key } from "../board/key.tsx";
import { tally } from "../board/order.ts";
import type { RowSize } from "../board/row.tsx";
import { figure } from "../parts/format.ts";
import { useNames } from "../parts/names.tsx";
import { boardScale } from "../parts/scale.ts";
import { NARROW, useMedia, useWidth } from "../parts/use-width.ts";
import { compareWords } from "../words/compare.ts";
import { words } from "../words.ts";
import { type CompareChoice, type Difference, differenceOf, fitting, partsIn, type Way } from "./difference.ts";
import { CountsTable, FlowPicture } from "./flow-picture.tsx";
import { MovesTable } from "./moves-table.tsx";
import { FoldedSection, Lone, MovedSection, Pairs } from "./pairs.tsx";
import { PlainLives } from "./plain-lives.tsx";
import type { Sides } from "./sides.ts";

const WAYS: readonly Way[] = ["all", "worse", "better"];
const EVERYTHING: CompareChoice = { way: "all", part: null };
/** A list of so many margins is shown open. */
const SHORT = 6;

interface Props {
  readonly sides: Sides;
  /** Drills of the version that is being tried; 0 while it is not known. */
  readonly total: number;
  readonly query: URLSearchParams;
  readonly chooser: ReactNode;
  /** How far the other version is, where the page has it rehearsed. */
  readonly work?: ReactNode;
}

export function Compared({ sides, total, query, chooser, work }: Props) {
  const { before, after, whole } = sides;
  const difference = useMemo(
    () => differenceOf(before.drills, after.drills, whole),
    [before.drills, after.drills, whole],
  );
  const { common, come, gone, flow } = difference;
  const tried = after.drills.length > 0;
  return (
    <>
      <div className="compare-work">{work}</div>
      <div className="compare-top">
        <div>
          {!whole && tried && (
            <p className="first">
              {compareWords.say.soFar(figure(after.drills.length), total === 0 ? "…" : figure(total))}
            </p>
          )}
          <h1 className="say">{sentence(sides, difference)}</h1>
          <p className="then">
            {compareWords.sides(before.name, after.name)}{" "}
            {whole && common > 0 && `${compareWords.common(figure(common), come.length, gone.length)}.`}
            {whole && common === 0 && compareWords.say.nothingNote}
          </p>
          {chooser}
          {tried && whole && <CountsTable before={tally(before.drills)} after={tally(after.drills)} />}
        </div>
        {common > 0 && <FlowPicture flow={flow} common={common} />}
      </div>
      {tried && <Moved sides={sides} difference={difference} query={query} />}
      <p className="vh" role="status">
        {whole ? compareWords.work.finished : ""}
      </p>
    </>
  );
}

function sentence({ before, after, whole }: Sides, { better, worse, margins, come, gone, common }: Difference): string {
  const { say } = compareWords;
  if (common === 0) return whole ? say.nothing : say.nothingYet;
  const counted = (moves: readonly unknown[]) => ({ count: moves.length, shown: figure(moves.length) });
  const unseen = (drills: Sides["before"]["drills"]): number =>
    drills.filter(({ verdict }) => verdict === "unseen").length;
  // How many are left can be said once all are tried.
  const wasUnseen = whole ? unseen(before.drills) : 0;
  const isUnseen = whole ? unseen(after.drills) : 0;
  if (better.length + worse.length > 0)
    return say.moved(counted(better), counted(worse), {
      before: wasUnseen,
      after: isUnseen,
      shownBefore: figure(wasUnseen),
      shownAfter: figure(isUnseen),
    });
  if (margins.length === 0) return say.still(come.length, gone.length);
  const larger = margins.filter((move) => move.better).length;
  const smaller = margins.length - larger;
  return say.stillMargins(larger, smaller, figure(larger), figure(smaller));
}

function Moved({
  sides,
  difference,
  query,
}: {
  readonly sides: Sides;
  readonly difference: Difference;
  readonly query: URLSearchParams;
}) {
  const narrow = useMedia(NARROW);
  const [axisBox, width] = useWidth<HTMLDivElement>();
  const size = useMemo<RowSize>(
    () => ({ x: boardScale(width), width, height: narrow ? 24 : 25, bar: 9 }),
    [width, narrow],
  );
  const { worse, better, neither, margins, come, gone } = difference;
  const moved = useMemo(() => [...worse, ...better, ...neither, ...margins], [worse, better, neither, margins]);
  const choice = readChoice(query);
  const choose = (change: Partial<CompareChoice>): void => {
    const next = { ...choice, ...change };
    go(
      address("/compare", {
        with: query.get("with"),
        show: next.way === "all" ? null : next.way,
        part: next.part,
      }),
      "replace",
    );
  };
  const fits = {
    worse: fitting(worse, choice),
    better: fitting(better, choice),
    neither: choice.way === "all" ? fitting(neither, choice) : [],
    margins: fitting(margins, choice),
  };
  const open = sides.before.isOpen ? "before" : "after";
  const { column } = words.board;
  const none = fits.worse.length + fits.better.length + fits.neither.length + fits.margins.length === 0;
  return (
    <>
      {moved.length > 0 && <Filters choice={choice} parts={partsIn(moved)} onChoose={choose} />}
      <section className="compare" aria-label={compareWords.rows}>
        {/* always there, so that its width is known when the first drill moves */}
        <div className="pair-cols axis" hidden={moved.length === 0}>
          <span className="sd h">{column.fault}</span>
          <span />
          <div className="plot" ref={axisBox}>
            {width > 0 && <BoardAxis x={size.x} width={width} height={narrow ? 28 : 32} sparse={narrow} />}
          </div>
          <span className="sd h num">{column.margin}</span>
          <span className="sd h last">{column.verdict}</span>
        </div>
        {choice.way !== "better" && (choice.part === null || fits.worse.length > 0) && (
          <MovedSection
            title={compareWords.worse(fits.worse.length, figure(fits.worse.length))}
            moves={fits.worse}
            size={size}
            open={open}
          />
        )}
        {choice.way !== "worse" && (choice.part === null || fits.better.length > 0) && (
          <MovedSection
            title={compareWords.better(fits.better.length, figure(fits.better.length))}
            moves={fits.better}
            size={size}
            open={open}
          />
        )}
        {fits.neither.length > 0 && (
          <FoldedSection title={compareWords.neither(figure(fits.neither.length))} short={false}>
            <Pairs moves={fits.neither} size={size} open={open} />
          </FoldedSection>
        )}
        {fits.margins.length > 0 && (
          <FoldedSection
            title={compareWords.margins(fits.margins.length, figure(fits.margins.length))}
            short={worse.length + better.length === 0 && fits.margins.length <= SHORT}
          >
            <Pairs moves={fits.margins} size={size} open={open} />
          </FoldedSection>
        )}
      </section>
      {none && moved.length > 0 && (choice.way !== "all" || choice.part !== null) && (
        <p className="quiet">
          {compareWords.filter.none}{" "}
          <button className="textual" type="button" onClick={() => choose(EVERYTHING)}>
            {compareWords.filter.showAll}
          </button>
        </p>
      )}
      {choice.way === "all" && choice.part === null && (
        <>
          <Lone title={compareWords.come(come.length, figure(come.length))} drills={come} />
          <Lone title={compareWords.gone(gone.length, figure(gone.length))} drills={gone} />
          <PlainLives before={sides.before.plainLife} after={sides.after.plainLife} />
        </>
      )}
      {moved.length > 0 && (
        <>
          <MovesTable groups={fits} />
          <div className="key-line sm">
            <b>{words.board.howToRead}</b>
            <Key />
          </div>
        </>
      )}
      <p className="foot sd">
        <span>{words.board.reading}</span>
        <span className="nb">{words.board.estimate}</span>
      </p>
    </>
  );
}

function readChoice(query: URLSearchParams): CompareChoice {
  const way = query.get("show") as Way;
  return { way: WAYS.includes(way) ? way : "all", part: query.get("part") };
}

function Filters({
  choice,
  parts,
  onChoose,
}: {
  readonly choice: CompareChoice;
  readonly parts: readonly string[];
  readonly onChoose: (change: Partial<CompareChoice>) => void;
}) {
  const { water } = useNames();
  const say = compareWords.filter;
  return (
    <div className="compare-filters noprint">
      <fieldset className="seg" aria-label={say.name}>
        {WAYS.map((way) => (
          <button key={way} type="button" aria-pressed={choice.way === way} onClick={() => onChoose({ way })}>
            {say[way]}
          </button>
        ))}
      </fieldset>
      <select
        className="btn"
        aria-label={say.part}
        value={choice.part ?? ""}
        onChange={(event) => onChoose({ part: event.target.value || null })}
      >
        <option value="">{say.allParts}</option>
        {parts.map((part) => (
          <option key={part} value={part}>
            {water(part) ?? part}
          </option>
        ))}
      </select>
    </div>
  );
}
