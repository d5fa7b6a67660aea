import { useEffect, useRef, useState } from "react";
import type { PairCell, PairDrill } from "../../server/contract/index.ts";
import { drillAddress, Link } from "../app/router.tsx";
import { isShort, marginText } from "../board/margin.ts";
import { asSentence, figure } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { Marked, Name } from "../parts/names.tsx";
import { asTold } from "../parts/told.ts";
import { pairWords } from "../words/pairs.ts";
import { words } from "../words.ts";
import { cellWords, leftOutWords } from "./cell-words.ts";
import { usePairCell } from "./use-pairs.ts";

/** Pairs of a field that are listed at once. */
const FIRST = 24;

/** The pairs of one field, worst first, each a link to its timeline. */
export function CellList({
  first,
  trigger,
  cell,
  onClose,
}: {
  readonly first: string;
  readonly trigger: string;
  readonly cell: PairCell | undefined;
  readonly onClose: () => void;
}) {
  const loading = usePairCell(first, trigger);
  const head = useRef<HTMLHeadingElement>(null);
  const [all, setAll] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another field is another list, and the eye goes there
  useEffect(() => head.current?.focus(), [first, trigger]);
  const drills = loading.state === "here" ? loading.cell.drills : [];
  const shown = all ? drills : drills.slice(0, FIRST);
  return (
    <section className="pair-list" aria-labelledby="pair-list-head">
      <div className="pair-head">
        <h2 id="pair-list-head" ref={head} tabIndex={-1}>
          <Name id={first} />
          {pairWords.joined}
          <Name id={trigger} />
        </h2>
        <button className="textual" type="button" onClick={onClose}>
          {pairWords.list.close}
        </button>
      </div>
      <p className="sm">
        {cellWords(cell)} {cell !== undefined && leftOutWords(cell)}
      </p>
      {loading.state === "loading" && <p className="quiet">{pairWords.list.loading}</p>}
      {loading.state === "failed" && cell !== undefined && <p className="quiet">{loading.why}</p>}
      <ul>
        {shown.map((drill) => (
          <PairLine key={drill.id} drill={drill} />
        ))}
      </ul>
      {shown.length < drills.length && (
        <button className="btn fold" type="button" onClick={() => setAll(true)}>
          {pairWords.list.more(figure(drills.length - shown.length))}
        </button>
      )}
    </section>
  );
}

/** One pair; among pairs of other parts with their names, and without what is told where it is opened. */
export function PairLine({ drill, withParts = false }: { readonly drill: PairDrill; readonly withParts?: boolean }) {
  const { list } = pairWords;
  const note = drill.only_together === true ? list.together : drill.fails ? list.alone : null;
  return (
    <li>
      <VerdictGlyph verdict={drill.verdict} />
      <div>
        <Link to={drillAddress(drill.id)}>{asTold(drill.name)}</Link>
        <p className="sm">
          {words.verdicts[drill.verdict]}, <span className={isShort(drill) ? "nb neg" : "nb"}>{marginText(drill)}</span>
          {note !== null && `, ${note}`}
        </p>
        {withParts && (
          <p className="sm">
            <Name id={drill.first} />
            {pairWords.joined}
            <Name id={drill.trigger} />
          </p>
        )}
        {drill.derived !== null && !withParts && (
          <p className="sd">
            {list.derived}: <Marked text={asSentence(drill.derived)} />
          </p>
        )}
      </div>
    </li>
  );
}
