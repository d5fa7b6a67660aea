import { memo } from "react";
import type { DrillResult } from "../../server/contract/index.ts";
import { drillAddress, Link } from "../app/router.tsx";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { useManner } from "../parts/manner.ts";
import { Name, partsOf, useNames } from "../parts/names.tsx";
import type { Scale } from "../parts/scale.ts";
import { asTold } from "../parts/told.ts";
import { words } from "../words.ts";
import { moveByArrows } from "./arrow-keys.ts";
import { isShort, marginText } from "./margin.ts";
import { RowPicture } from "./row-picture.tsx";

export interface RowSize {
  readonly x: Scale;
  readonly width: number;
  readonly height: number;
  readonly bar: number;
}

/** One drill: a link whose name says all that its picture shows. */
export const Row = memo(function Row({
  drill,
  isChosen,
  onOpen,
  size,
}: {
  readonly drill: DrillResult;
  readonly isChosen: boolean;
  readonly onOpen: (id: string) => void;
  readonly size: RowSize;
}) {
  useManner();
  const { water } = useNames();
  const name = asTold(drill.name);
  const parts = partsOf(drill);
  const where = drill.system === null ? "" : (water(drill.system) ?? drill.system);
  const margin = marginText(drill);
  const spoken = words.board.row(
    name,
    parts.map((part) => water(part) ?? part).join(` ${words.board.and} `),
    where,
    drill.circumstance,
    words.verdicts[drill.verdict],
    drill.margin_min === null ? margin : words.margin.spoken(margin),
  );
  return (
    <li data-id={drill.id}>
      <Link
        className="cols row"
        to={drillAddress(drill.id)}
        aria-label={spoken}
        aria-current={isChosen || undefined}
        onClick={() => onOpen(drill.id)}
        onKeyDown={moveByArrows}
      >
        <span className="f" title={name}>
          {name}
        </span>
        <span className="p">
          <span className="parts">
            {parts.map((part, i) => (
              <span key={part}>
                {i > 0 && ` ${words.board.and} `}
                <Name id={part} />
              </span>
            ))}
          </span>
          {drill.system !== null && !parts.includes(drill.system) && (
            <>
              ,&nbsp;
              <Name id={drill.system} />
            </>
          )}
          ,&nbsp;{drill.circumstance}
        </span>
        <span className="plot">{size.width > 0 && <RowPicture drill={drill} {...size} />}</span>
        <span className={isShort(drill) ? "m neg" : "m"}>{margin}</span>
        <span className={drill.flips_in_band ? "v unsure" : "v"}>
          <VerdictGlyph verdict={drill.verdict} />
          <span>{words.verdicts[drill.verdict]}</span>
        </span>
      </Link>
    </li>
  );
});
