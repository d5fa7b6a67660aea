import { type ReactNode, useState } from "react";
import type { DrillResult } from "../../server/contract/index.ts";
import { marginText } from "../board/margin.ts";
import type { RowSize } from "../board/row.tsx";
import type { Move } from "../draft/moved.ts";
import { figure } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { Name } from "../parts/names.tsx";
import { compareWords } from "../words/compare.ts";
import { words } from "../words.ts";
import { byPart } from "./difference.ts";
import { DrillWords, Pair } from "./pair.tsx";

/** More pairs than this are folded: a pair is as high as four rows of the board. */
const FIRST = 40;
const NEXT = 200;
/** A list of so many is shown open. */
const SHORT = 12;

interface PairsProps {
  readonly moves: readonly Move[];
  readonly size: RowSize;
  readonly open: "before" | "after";
}

/** One way in which verdicts moved: its head, then its pairs by part. */
export function MovedSection({
  title,
  ...rest
}: PairsProps & {
  readonly title: string;
}) {
  return (
    <section className="moved">
      <h2>{title}</h2>
      <Pairs {...rest} />
    </section>
  );
}

/** What matters less is folded under its head. */
export function FoldedSection({
  title,
  short,
  children,
}: {
  readonly title: string;
  readonly short: boolean;
  readonly children: ReactNode;
}) {
  return (
    <details className="folded" open={short}>
      <summary>
        <h2>{title}</h2>
      </summary>
      {children}
    </details>
  );
}

export function Pairs({ moves, size, open }: PairsProps) {
  const [shown, setShown] = useState(FIRST);
  const rest = moves.length - shown;
  return (
    <>
      {byPart(moves.slice(0, shown)).map(({ part, moves: members }) => (
        <div key={part}>
          <h3 className="grp">
            {part === "*" ? words.board.wholeSite : <Name id={part} />}
            <span className="sd">{compareWords.shownIn(figure(members.length))}</span>
          </h3>
          <ul>
            {members.map((move) => (
              <Pair key={move.after.id} move={move} size={size} open={open} />
            ))}
          </ul>
        </div>
      ))}
      {rest > 0 && (
        <button className="btn fold noprint" type="button" onClick={() => setShown(shown + NEXT)}>
          {compareWords.more(figure(rest))}
        </button>
      )}
    </>
  );
}

/** Drills that only one of the two has. */
export function Lone({ title, drills }: { readonly title: string; readonly drills: readonly DrillResult[] }) {
  const [all, setAll] = useState(false);
  if (drills.length === 0) return null;
  const shown = all ? drills : drills.slice(0, FIRST);
  const rest = drills.length - shown.length;
  return (
    <FoldedSection title={title} short={drills.length <= SHORT}>
      <ul>
        {shown.map((drill) => (
          <li className="lone" key={drill.id}>
            <DrillWords drill={drill} />
            <span className="v">
              <VerdictGlyph verdict={drill.verdict} />
              <span>{words.verdicts[drill.verdict]}</span>
            </span>
            <span className="m">{marginText(drill)}</span>
          </li>
        ))}
      </ul>
      {rest > 0 && (
        <button className="btn fold noprint" type="button" onClick={() => setAll(true)}>
          {compareWords.more(figure(rest))}
        </button>
      )}
    </FoldedSection>
  );
}
