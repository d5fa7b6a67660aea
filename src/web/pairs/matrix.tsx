import { type KeyboardEvent, useRef, useState } from "react";
import { Name, useNames } from "../parts/names.tsx";
import { pairWords } from "../words/pairs.ts";
import { cellWords } from "./cell-words.ts";
import { Field } from "./field.tsx";
import { type Matrix, type PartGroup, partsOf, stepInGrid, WHOLE_SITE } from "./matrix-model.ts";

/** Up to so many columns fields are wide enough for a figure. */
const WIDE_UP_TO = 22;

interface Chosen {
  readonly first: string;
  readonly trigger: string;
}

/** Parts by parts: what failed unseen first down the side, what fails then along the top. */
export function MatrixGrid({
  matrix,
  chosen,
  onOpen,
}: {
  readonly matrix: Matrix;
  readonly chosen: Chosen | null;
  readonly onOpen: (at: Chosen) => void;
}) {
  const { water } = useNames();
  const rows = partsOf(matrix.rows);
  const columns = partsOf(matrix.columns);
  const [at, setAt] = useState({ row: 0, column: 0 });
  const [told, setTold] = useState<Chosen | null>(null);
  const grid = useRef<HTMLTableElement>(null);
  const place = { row: Math.min(at.row, rows.length - 1), column: Math.min(at.column, columns.length - 1) };
  const named = (part: string): string => (part === WHOLE_SITE ? pairWords.wholeSite : (water(part) ?? part));
  const width = columns.length > WIDE_UP_TO ? 26 : 46;

  const onKeyDown = (event: KeyboardEvent<HTMLElement>): void => {
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      onOpen({ first: rows[place.row], trigger: columns[place.column] });
      return;
    }
    const next = stepInGrid(event.key, event.ctrlKey || event.metaKey, place, {
      rows: rows.length,
      columns: columns.length,
    });
    if (next === null) return;
    event.preventDefault();
    setAt(next);
    grid.current?.querySelector<HTMLElement>(`[data-at="${next.row} ${next.column}"]`)?.focus();
  };

  const field = (first: string, trigger: string) => {
    const row = rows.indexOf(first);
    const column = columns.indexOf(trigger);
    const cell = matrix.cell(first, trigger);
    const isChosen = chosen !== null && chosen.first === first && chosen.trigger === trigger;
    return (
      <td
        key={trigger}
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: the table is a grid, its fields are entered by arrow keys
        role="gridcell"
        data-at={`${row} ${column}`}
        tabIndex={row === place.row && column === place.column ? 0 : -1}
        aria-selected={isChosen}
        aria-label={`${named(first)}${pairWords.joined}${named(trigger)}: ${cellWords(cell)}`}
        onFocus={() => {
          setAt({ row, column });
          setTold({ first, trigger });
        }}
        onMouseEnter={() => setTold({ first, trigger })}
        onClick={() => onOpen({ first, trigger })}
        onKeyDown={onKeyDown}
      >
        <Field cell={cell} width={width} height={30} />
      </td>
    );
  };

  return (
    <div className="pair-matrix">
      <section className="scroll-x" aria-label={pairWords.grid}>
        {/* biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: see above */}
        <table role="grid" aria-label={pairWords.grid} ref={grid}>
          <thead>
            <tr>
              <th className="corner" rowSpan={2} scope="col">
                <span className="lab">{pairWords.columns}</span>
                <span className="lab">{pairWords.rows}</span>
              </th>
              {matrix.columns.map((group) => (
                <th key={group.system ?? ""} className="sys" scope="colgroup" colSpan={group.parts.length}>
                  <GroupName group={group} />
                </th>
              ))}
            </tr>
            <tr>
              {matrix.columns.map(({ parts }) =>
                parts.map((part, i) => (
                  <th key={part} className={i === 0 ? "part edge" : "part"} scope="col">
                    <span>
                      <PartName id={part} />
                    </span>
                  </th>
                )),
              )}
            </tr>
          </thead>
          {matrix.rows.map((group) => (
            <tbody key={group.system ?? ""}>
              <tr>
                <th className="sys" scope="rowgroup" colSpan={1 + columns.length}>
                  <GroupName group={group} />
                </th>
              </tr>
              {group.parts.map((first) => (
                <tr key={first}>
                  <th className="part" scope="row">
                    <PartName id={first} />
                  </th>
                  {columns.map((trigger) => field(first, trigger))}
                </tr>
              ))}
            </tbody>
          ))}
        </table>
      </section>
      <p className="told" aria-hidden="true">
        {told === null ? (
          pairWords.hint
        ) : (
          <>
            <b>
              <PartName id={told.first} />
              {pairWords.joined}
              <PartName id={told.trigger} />
            </b>{" "}
            {cellWords(matrix.cell(told.first, told.trigger))}
          </>
        )}
      </p>
    </div>
  );
}

function PartName({ id }: { readonly id: string }) {
  return id === WHOLE_SITE ? <span>{pairWords.wholeSite}</span> : <Name id={id} />;
}

function GroupName({ group }: { readonly group: PartGroup }) {
  if (group.system === undefined) return <span>{pairWords.systems}</span>;
  return group.system === null ? <span>{pairWords.wholeSite}</span> : <Name id={group.system} />;
}
