import type { ReactNode } from "react";
import type { DrillResult } from "../../server/contract/index.ts";
import { drillAddress, Link } from "../app/router.tsx";
import { isShort, marginText } from "../board/margin.ts";
import type { RowSize } from "../board/row.tsx";
import { RowPicture } from "../board/row-picture.tsx";
import type { Move } from "../draft/moved.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { Name, partsOf } from "../parts/names.tsx";
import { asTold } from "../parts/told.ts";
import { compareWords } from "../words/compare.ts";
import { words } from "../words.ts";

/** A drill before and after, on the same axis: the coasts lie under each other, and one sees which way they went. */
export function Pair({
  move,
  size,
  open,
}: {
  readonly move: Move;
  readonly size: RowSize;
  /** Which side is of the open file, and so has a timeline. */
  readonly open: "before" | "after";
}) {
  const { before, after } = move;
  return (
    <li className="pair" data-id={after.id}>
      <DrillWords drill={after} />
      <SideRow drill={before} side={compareWords.before} size={size} opens={open === "before"} />
      <SideRow drill={after} side={compareWords.after} size={size} opens={open === "after"} />
    </li>
  );
}

/** What fails, where and when. */
export function DrillWords({ drill }: { readonly drill: DrillResult }) {
  const parts = partsOf(drill);
  return (
    <div className="drill-words">
      <p className="f">{asTold(drill.name)}</p>
      <p className="sm">
        {parts.map((part, i) => (
          <span key={part}>
            {i > 0 && ` ${words.board.and} `}
            {part === "*" ? words.board.wholeSite : <Name id={part} />}
          </span>
        ))}
        {drill.system !== null && !parts.includes(drill.system) && (
          <>
            , <Name id={drill.system} />
          </>
        )}
        , {drill.circumstance}
      </p>
    </div>
  );
}

function SideRow({
  drill,
  side,
  size,
  opens,
}: {
  readonly drill: DrillResult;
  readonly side: string;
  readonly size: RowSize;
  readonly opens: boolean;
}) {
  const margin = marginText(drill);
  const spoken = drill.margin_min === null ? margin : words.margin.spoken(margin);
  const verdict = words.verdicts[drill.verdict];
  const cells = (
    <>
      <span className="which sd">{side}</span>
      <span className="plot">{size.width > 0 && <RowPicture drill={drill} {...size} />}</span>
      <span className={isShort(drill) ? "m neg" : "m"}>{margin}</span>
      <span className="v">
        <VerdictGlyph verdict={drill.verdict} />
        <span>{verdict}</span>
      </span>
    </>
  );
  return opens ? (
    <Link
      className="side"
      to={drillAddress(drill.id)}
      aria-label={compareWords.openSide(side, asTold(drill.name), verdict, spoken)}
    >
      {cells}
    </Link>
  ) : (
    <Spoken label={compareWords.side(side, verdict, spoken)}>{cells}</Spoken>
  );
}

/** A row that leads nowhere: read as one sentence, not cell by cell. */
function Spoken({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    <div className="side">
      <span className="vh">{label}</span>
      <span className="cells" aria-hidden="true">
        {children}
      </span>
    </div>
  );
}
