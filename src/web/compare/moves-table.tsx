import { marginText } from "../board/margin.ts";
import type { Move } from "../draft/moved.ts";
import { figure } from "../parts/format.ts";
import { Name, partsOf } from "../parts/names.tsx";
import { asTold } from "../parts/told.ts";
import { compareWords } from "../words/compare.ts";
import { words } from "../words.ts";

const say = compareWords.table;
/** A table of thousands of rows is no answer to anybody. */
const MOST_ROWS = 600;

/** The moved drills in plain words and figures. */
export function MovesTable({
  groups,
}: {
  readonly groups: {
    readonly worse: readonly Move[];
    readonly better: readonly Move[];
    readonly neither: readonly Move[];
    readonly margins: readonly Move[];
  };
}) {
  const { worse, better, neither, margins } = groups;
  const rows = [
    ...worse.map((move) => ({ move, way: compareWords.way.worse })),
    ...better.map((move) => ({ move, way: compareWords.way.better })),
    ...neither.map((move) => ({ move, way: compareWords.way.neither })),
    ...margins.map((move) => ({ move, way: move.better ? compareWords.way.better : compareWords.way.worse })),
  ];
  return (
    <details className="moves-table noprint">
      <summary>{say.show}</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys */}
      <section className="scroll" tabIndex={0} aria-label={say.show}>
        <table>
          <thead>
            <tr>
              {[say.fault, say.part, say.when, say.way, say.before, say.marginBefore, say.after, say.marginAfter].map(
                (head) => (
                  <th scope="col" key={head}>
                    {head}
                  </th>
                ),
              )}
            </tr>
          </thead>
          <tbody>
            {rows.slice(0, MOST_ROWS).map(({ move: { before, after }, way }) => (
              <tr key={after.id}>
                <th scope="row">{asTold(after.name)}</th>
                <td>
                  {partsOf(after).map((part, i) => (
                    <span key={part}>
                      {i > 0 && ` ${words.board.and} `}
                      <Name id={part} />
                    </span>
                  ))}
                </td>
                <td>{after.circumstance}</td>
                <td>{way}</td>
                <td>{words.verdicts[before.verdict]}</td>
                <td>{marginText(before)}</td>
                <td>{words.verdicts[after.verdict]}</td>
                <td>{marginText(after)}</td>
              </tr>
            ))}
          </tbody>
        </table>
        {rows.length > MOST_ROWS && <p className="sm">{say.first(figure(MOST_ROWS), figure(rows.length))}</p>}
      </section>
    </details>
  );
}
