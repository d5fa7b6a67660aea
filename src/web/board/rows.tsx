import { type RefObject, useCallback, useLayoutEffect, useMemo, useRef, useState } from "react";
import type { DrillResult, Site, VerdictKind } from "../../server/contract/index.ts";
import { figure } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { Name } from "../parts/names.tsx";
import { boardScale } from "../parts/scale.ts";
import { COARSE, useMedia, useWidth } from "../parts/use-width.ts";
import { boardWords } from "../words/board.ts";
import { words } from "../words.ts";
import { BoardAxis } from "./axis.tsx";
import { isFiltered, NO_CHOICE, questionOf } from "./choice.ts";
import { Search } from "./filters.tsx";
import { type BoardChoice, chosen, folded, type Group, grouped, reordered } from "./order.ts";
import { Row, type RowSize } from "./row.tsx";
import { savedPlace, savePlace } from "./saved-place.ts";
import { useTravel } from "./travel.ts";

/** Rows that one press unfolds: a browser holds some hundreds of pictures easily, and ten thousand not. */
const UNFOLD = 400;
/** Most dashed places held for rows that are still at work. */
const WAITING_ROWS = 6;

interface Props {
  readonly site: Site;
  /** All drills, in order. */
  readonly drills: readonly DrillResult[];
  readonly choice: BoardChoice;
  readonly onChoose: (change: Partial<BoardChoice>) => void;
  readonly narrow: boolean;
  readonly headlineId: string | null;
  /** Drills that are still to come. */
  readonly waiting: number;
}

/** The rows under their sticky axis, and what is said under them. */
export function Rows({ site, drills, choice, onChoose, narrow, headlineId, waiting }: Props) {
  const [axisBox, width] = useWidth<HTMLDivElement>();
  const coarse = useMedia(COARSE);
  const size = useMemo<RowSize>(
    () => ({ x: boardScale(width), width, height: narrow ? 26 : coarse ? 47 : 25, bar: narrow ? 10 : 9 }),
    [width, narrow, coarse],
  );
  const { groupBy, order } = choice;
  const question = questionOf(choice);
  const [unfolded, setUnfolded] = useState(() => ({ question, rows: rowsBefore() }));
  const rowsUnfolded = unfolded.question === question ? unfolded.rows : 0;

  // biome-ignore lint/correctness/useExhaustiveDependencies: the question is the choice, and stays the same while it does
  const fitting = useMemo(() => reordered(chosen(drills, choice), order), [drills, question]);
  const shown = useMemo(
    () => (rowsUnfolded === 0 ? folded(fitting, order) : fitting.slice(0, rowsUnfolded)),
    [fitting, order, rowsUnfolded],
  );
  const groups = useMemo(() => grouped(shown, groupBy, site), [shown, groupBy, site]);
  const holder = useRef<HTMLDivElement>(null);
  useTravel(holder, shown, question);
  useWayBack(holder);
  const onOpen = useCallback(
    (id: string): void =>
      savePlace({
        id,
        search: location.search,
        rows: rowsUnfolded,
        scrolledPx: scrollY,
        walk: groups.flatMap((group) => group.drills.map((drill) => drill.id)),
      }),
    [groups, rowsUnfolded],
  );

  const marked = savedPlace()?.id ?? (isFiltered(choice) || groupBy !== "none" ? null : headlineId);
  const rest = fitting.length - shown.length;
  const nextRows = rowsUnfolded + (rowsUnfolded === 0 ? Math.max(UNFOLD, shown.length) : UNFOLD);
  const { column } = words.board;
  return (
    <>
      <section className="board" aria-label={words.board.name}>
        <div className="cols axis">
          <div className="h">{!narrow && <Search choice={choice} onChoose={onChoose} />}</div>
          <span className="sd h">{column.part}</span>
          <div className="plot" ref={axisBox}>
            {width > 0 && <BoardAxis x={size.x} width={width} height={narrow ? 28 : 32} sparse={narrow} />}
          </div>
          <span className="sd h num">{column.margin}</span>
          <span className="sd h last">{column.verdict}</span>
        </div>
        <div ref={holder}>
          {groups.map((group) => (
            <GroupOfRows
              key={group.key ?? ""}
              group={group}
              headed={groupBy !== "none"}
              groupBy={groupBy}
              marked={marked}
              size={size}
              onOpen={onOpen}
            />
          ))}
          {Array.from({ length: Math.min(waiting, WAITING_ROWS) }, (_, i) => `waiting ${i}`).map((key) => (
            <div className="wait" key={key} aria-hidden="true">
              <i />
              <i />
              <i />
            </div>
          ))}
        </div>
      </section>
      {fitting.length === 0 && (
        <p className="quiet">
          {words.empty.noMatch}{" "}
          <button className="textual" type="button" onClick={() => onChoose(NO_CHOICE)}>
            {words.empty.showAll}
          </button>
        </p>
      )}
      {rest > 0 && (
        <button className="btn fold noprint" type="button" onClick={() => setUnfolded({ question, rows: nextRows })}>
          {nextRows >= fitting.length
            ? words.board.more(figure(rest))
            : words.board.moreOf(figure(nextRows - shown.length), figure(rest))}
        </button>
      )}
      <Foot shown={shown} drills={drills} choice={choice} onChoose={onChoose} folds={rest > 0 && rowsUnfolded === 0} />
    </>
  );
}

function GroupOfRows({
  group,
  headed,
  groupBy,
  marked,
  size,
  onOpen,
}: {
  readonly group: Group;
  readonly headed: boolean;
  readonly groupBy: BoardChoice["groupBy"];
  readonly marked: string | null;
  readonly size: RowSize;
  readonly onOpen: (id: string) => void;
}) {
  return (
    <>
      {headed && (
        <h2 className="grp">
          <GroupName group={group} groupBy={groupBy} />
          <span className="sd">{words.board.inGroup(figure(group.drills.length))}</span>
        </h2>
      )}
      <ul>
        {group.drills.map((drill) => (
          <Row key={drill.id} drill={drill} isChosen={drill.id === marked} onOpen={onOpen} size={size} />
        ))}
      </ul>
    </>
  );
}

function GroupName({ group, groupBy }: { readonly group: Group; readonly groupBy: BoardChoice["groupBy"] }) {
  if (group.key === null) return <span>{words.board.wholeSite}</span>;
  if (groupBy === "kind") return <span>{words.kinds[group.key] ?? group.key}</span>;
  if (groupBy === "verdict") {
    const verdict = group.key as VerdictKind;
    return (
      <span className="grp-verdict">
        <VerdictGlyph verdict={verdict} /> {words.verdicts[verdict]}
      </span>
    );
  }
  return groupBy === "system" || groupBy === "part" ? <Name id={group.key} /> : <span>{group.key}</span>;
}

/** Rows that were unfolded when a drill was opened from this very board. */
function rowsBefore(): number {
  const place = savedPlace();
  return place !== null && place.search === location.search ? place.rows : 0;
}

/** Coming back from a drill, the page stands where it stood, and the keyboard is on the row. */
function useWayBack(holder: RefObject<HTMLElement | null>): void {
  useLayoutEffect(() => {
    const place = savedPlace();
    if (place === null || place.search !== location.search) return;
    scrollTo(0, place.scrolledPx);
    const row = holder.current?.querySelector<HTMLElement>(`[data-id="${CSS.escape(place.id)}"] a`);
    row?.focus({ preventScroll: true });
    if (row !== null && row !== undefined && !isInView(row)) row.scrollIntoView({ block: "center" });
  }, [holder]);
}

function isInView(element: HTMLElement): boolean {
  const { top, bottom } = element.getBoundingClientRect();
  return top >= 0 && bottom <= innerHeight;
}

function Foot({
  shown,
  drills,
  choice,
  onChoose,
  folds,
}: Pick<Props, "drills" | "choice" | "onChoose"> & {
  readonly shown: readonly DrillResult[];
  readonly folds: boolean;
}) {
  const whyFold = choice.order === "margin" ? words.board.whyFold : boardWords.whyOrder;
  const why = [isFiltered(choice) ? words.board.whyFilter : "", folds ? whyFold : ""]
    .filter((part) => part !== "")
    .join(", ");
  const all = figure(drills.length);
  const count =
    shown.length === drills.length
      ? words.board.shownAll(all)
      : words.board.shownSome(figure(shown.length), all, why || words.board.whyFirst);
  const untried = drills.filter((drill) => drill.verdict === "not simulated").length;
  return (
    <p className="foot sd">
      <span>
        {count} {words.board.reading}
        {shown.some((drill) => drill.flips_in_band) && ` ${words.board.unsure}`}
        {untried > 0 && choice.verdict === null && (
          <>
            {" "}
            <button className="textual" type="button" onClick={() => onChoose({ verdict: "not simulated" })}>
              {words.board.untried(figure(untried), untried)}
            </button>
          </>
        )}
        {choice.verdict === "not simulated" && (
          <>
            {" "}
            <button className="textual" type="button" onClick={() => onChoose({ verdict: null })}>
              {words.empty.showAll}
            </button>
          </>
        )}
      </span>
      <span className="nb">{words.board.estimate}</span>
    </p>
  );
}
