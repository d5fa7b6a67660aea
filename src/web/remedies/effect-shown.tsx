import { address, drillAddress, Link } from "../app/router.tsx";
import type { Move } from "../draft/moved.ts";
import { figure } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { Marked, partsOf } from "../parts/names.tsx";
import { compareWords } from "../words/compare.ts";
import { draftWords } from "../words/draft.ts";
import { remedyWords } from "../words/remedies.ts";
import { words } from "../words.ts";
import type { Effect } from "./effect.ts";

const say = remedyWords.effect;
/** What became worse is shown first, and never left out. */
const SHOWN_WORSE = 3;
const SHOWN_BETTER = 3;

/** One of each kind of fault before all others: the same by day and by night tells no more. */
function kindsFirst(moves: readonly Move[]): readonly Move[] {
  const kinds = moves.filter(({ after }, i) => moves.findIndex((other) => other.after.name === after.name) === i);
  return [...kinds, ...moves.filter((move) => !kinds.includes(move))];
}

/** What a change was seen to do, in words, with the drills that tell most of it. */
export function EffectShown({ effect, compares }: { readonly effect: Effect; readonly compares: boolean }) {
  const { better, worse, aimed, closed, opened, whole } = effect;
  const sentence = [
    say.moved(better.length, worse.length, figure(better.length), figure(worse.length)),
    say.aims(aimed, closed, figure(aimed), figure(closed)),
    say.opened(opened, figure(opened)),
  ]
    .filter((words) => words !== "")
    .join("; ");
  const shown = [
    ...worse.slice(0, SHOWN_WORSE).map((move) => ({ move, way: compareWords.way.worse })),
    ...kindsFirst(better)
      .slice(0, SHOWN_BETTER)
      .map((move) => ({ move, way: compareWords.way.better })),
  ];
  return (
    <div className="effect">
      <p className="sm">
        <b>{whole ? say.seen : say.soFar}</b>: {sentence}.{" "}
        {compares && <Link to={address("/compare", { with: "draft" })}>{say.compare}</Link>}
      </p>
      <ul className="sm">
        {shown.map(({ move: { before, after }, way }) => (
          <li key={after.id}>
            <span className="turn">
              <VerdictGlyph verdict={before.verdict} />
              <svg width="14" height="10" aria-hidden="true">
                <path d="M0 5h12M8 1l4 4-4 4" fill="none" stroke="var(--ink-2)" strokeWidth="1.4" />
              </svg>
              <VerdictGlyph verdict={after.verdict} />
            </span>
            <span>
              {way}: <Link to={drillAddress(before.id)}>{after.name}</Link>, <Marked text={partsOf(after).join(", ")} />
              , {after.circumstance}, {words.verdicts[before.verdict]} {draftWords.becomes}{" "}
              {words.verdicts[after.verdict]}
            </span>
          </li>
        ))}
      </ul>
    </div>
  );
}
