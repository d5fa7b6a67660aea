import type { VerdictKind } from "../../server/contract/index.ts";
import { figure } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { words } from "../words.ts";
import { VERDICTS } from "./order.ts";

/** What was not simulated is no verdict on the site: the foot of the board speaks of it. */
const TALLIED = VERDICTS.filter((verdict) => verdict !== "not simulated");

/** Glyph, count and word of each verdict among all drills. Pressing one shows only its rows; pressing it again shows all. */
export function Tally({
  counts,
  pressed,
  onPress,
}: {
  readonly counts: ReadonlyMap<VerdictKind, number>;
  readonly pressed: VerdictKind | null;
  readonly onPress: (verdict: VerdictKind | null) => void;
}) {
  return (
    <fieldset className="tally" aria-label={words.board.tally}>
      {TALLIED.map((verdict) => (
        <button
          key={verdict}
          type="button"
          aria-pressed={pressed === verdict}
          onClick={() => onPress(pressed === verdict ? null : verdict)}
        >
          <span className="n">
            <VerdictGlyph verdict={verdict} />
            {figure(counts.get(verdict) ?? 0)}
          </span>{" "}
          <span className="wd sm">{words.verdicts[verdict]}</span>
        </button>
      ))}
    </fieldset>
  );
}
