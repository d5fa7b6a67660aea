import type { ReactNode } from "react";
import type { Papers } from "../../server/contract/index.ts";
import { dayWords } from "../parts/clock.ts";
import { papersWords } from "../words/papers.ts";
import { words } from "../words.ts";

/** The head of a paper: what it is, of which place, from which day, and the one sentence that it says. */
export function PaperHead({
  papers,
  name,
  say,
}: {
  readonly papers: Papers;
  readonly name: string;
  readonly say: ReactNode;
}) {
  return (
    <header className="paper-head">
      <div className="paper-title">
        <h1>{words.frame.paper[name]}</h1>
        <p className="sm">
          {papers.site}, {papersWords.made(dayWords(papers.madeAt, papers.zone))}
        </p>
        <PrintButton />
      </div>
      <p className="say">{say}</p>
    </header>
  );
}

export function PrintButton() {
  return (
    <button className="btn noprint" type="button" onClick={() => print()}>
      {papersWords.print}
    </button>
  );
}

export interface Column<Row> {
  readonly name: ReactNode;
  /** For ears and for the rows of a phone, where the name is a drawing. */
  readonly label?: string;
  readonly num?: boolean;
  readonly cell: (row: Row) => ReactNode;
}

/**
 * A table on paper and on a wide screen; on a phone each row stands by itself with its columns named. The roles are said because a
 * phone's layout would take them away.
 */
export function Table<Row>({
  name,
  columns,
  rows,
  keyOf,
}: {
  readonly name: string;
  readonly columns: readonly Column<Row>[];
  readonly rows: readonly Row[];
  readonly keyOf: (row: Row) => string;
}) {
  const label = (column: Column<Row>): string => column.label ?? (typeof column.name === "string" ? column.name : "");
  return (
    // biome-ignore-start lint/a11y/noRedundantRoles: see above
    <table className="rows" role="table" aria-label={name}>
      <thead role="rowgroup">
        <tr role="row">
          {columns.map((column) => (
            <th key={label(column)} role="columnheader" scope="col" className={column.num ? "num" : undefined}>
              {column.name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {rows.map((row) => (
          <tr key={keyOf(row)} role="row">
            {columns.map((column, place) =>
              place === 0 ? (
                <th key={label(column)} role="rowheader" scope="row">
                  {column.cell(row)}
                </th>
              ) : (
                <td
                  key={label(column)}
                  role="cell"
                  className={column.num ? "num" : undefined}
                  data-label={label(column)}
                >
                  {column.cell(row)}
                </td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
    // biome-ignore-end lint/a11y/noRedundantRoles: see above
  );
}

/** A section whose head stays with what follows it. */
export function Section({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <section className="paper-section">
      <h2>{title}</h2>
      {children}
    </section>
  );
}

export function Sentences({ of }: { readonly of: readonly string[] }) {
  return (
    <ul className="sentences">
      {of.map((sentence) => (
        <li key={sentence}>{sentence}</li>
      ))}
    </ul>
  );
}
