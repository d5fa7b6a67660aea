import { useState } from "react";
import type { PairCell } from "../../server/contract/index.ts";
import { marginText } from "../board/margin.ts";
import { figure } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { Name } from "../parts/names.tsx";
import { pairWords } from "../words/pairs.ts";
import { words } from "../words.ts";
import { cellWords } from "./cell-words.ts";
import { pairsIn } from "./matrix-model.ts";

/** Lines of the list that a page opens with, and of the table. */
const FIRST = 12;
const TABLE_ROWS = 400;

/** Where there is no room for a matrix: the worst fields as a list. */
export function WorstCells({
  cells,
  onOpen,
}: {
  readonly cells: readonly PairCell[];
  readonly onOpen: (at: Pick<PairCell, "first" | "trigger">) => void;
}) {
  const [all, setAll] = useState(false);
  const shown = all ? cells.slice(0, TABLE_ROWS) : cells.slice(0, FIRST);
  return (
    <>
      <h2 className="pair-worst">{pairWords.worstCells}</h2>
      <ul className="pair-cells">
        {shown.map((cell) => (
          <li key={`${cell.first} ${cell.trigger}`}>
            <button type="button" onClick={() => onOpen(cell)}>
              <VerdictGlyph verdict={cell.worst.verdict} />
              <span>
                <b>
                  <Name id={cell.first} />
                  {pairWords.joined}
                  <Name id={cell.trigger} />
                </b>
                <span className="sm">{cellWords(cell)}</span>
              </span>
            </button>
          </li>
        ))}
      </ul>
      {shown.length < Math.min(cells.length, TABLE_ROWS) && (
        <button className="btn fold" type="button" onClick={() => setAll(true)}>
          {pairWords.otherCells(figure(Math.min(cells.length, TABLE_ROWS) - shown.length))}
        </button>
      )}
    </>
  );
}

/** The same fields as numbers. */
export function PairTable({ cells }: { readonly cells: readonly PairCell[] }) {
  const { column } = pairWords;
  const [open, setOpen] = useState(false);
  return (
    <details className="table scroll" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{pairWords.table}</summary>
      {open && (
        <table>
          <thead>
            <tr>
              {[column.first, column.trigger, column.together, column.fails].map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
              {COUNTED.map((verdict) => (
                <th key={verdict} scope="col">
                  {words.verdicts[verdict]}
                </th>
              ))}
              {[column.derived, column.left, column.worst, column.margin].map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {cells.slice(0, TABLE_ROWS).map((cell) => (
              <tr key={`${cell.first} ${cell.trigger}`}>
                <th scope="row">
                  <Name id={cell.first} />
                </th>
                <td>
                  <Name id={cell.trigger} />
                </td>
                <td>
                  {figure(cell.only_together)} / {figure(pairsIn(cell))}
                </td>
                <td>{figure(cell.fails)}</td>
                {COUNTED.map((verdict) => (
                  <td key={verdict}>{figure(cell.counts[verdict] ?? 0)}</td>
                ))}
                <td>{figure(cell.derived)}</td>
                <td>{figure(cell.left_out.reversed + cell.left_out.open + cell.left_out.not_run)}</td>
                <td>{words.verdicts[cell.worst.verdict]}</td>
                <td>{marginText(cell.worst)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </details>
  );
}

const COUNTED = ["unseen", "late", "handed over", "handled", "absorbed", "not simulated"] as const;
