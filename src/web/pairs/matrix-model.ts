import type { PairCell, Site, VerdictKind } from "../../server/contract/index.ts";

export type Show = "together" | "fails" | "all";
export const SHOWS: readonly Show[] = ["together", "fails", "all"];
/** More fields than this are not drawn: a browser holds some thousands easily. */
export const MOST_FIELDS = 4000;

/** Stands for the whole site among systems. */
export const WHOLE_SITE = "*";

/** Parts of one system, of the whole site (null), or systems in place of parts (undefined). */
export interface PartGroup {
  readonly system: string | null | undefined;
  readonly parts: readonly string[];
}

export interface Matrix {
  readonly rows: readonly PartGroup[];
  readonly columns: readonly PartGroup[];
  cell(first: string, trigger: string): PairCell | undefined;
}

/** What the field of a cell shows, from worst to calm. */
export type FieldKind = "together" | "alone" | "held" | "calm" | "untried";

export function kindOf(cell: PairCell | undefined): FieldKind {
  if (cell === undefined) return "untried";
  if (cell.only_together > 0) return "together";
  if (cell.fails > 0) return "alone";
  const { verdict } = cell.worst;
  return verdict === "handed over" || verdict === "handled" || verdict === "late" ? "held" : "calm";
}

/** Two systems, of which the first parts and the others are taken. */
export interface Within {
  readonly first: string;
  readonly trigger: string;
}

/** The cells that fit what was chosen, in the same order. */
export function fitting(
  cells: readonly PairCell[],
  show: Show,
  system: string | null,
  systemOf: (part: string) => string | null,
  within: Within | null = null,
): readonly PairCell[] {
  return cells.filter(
    (cell) =>
      (within === null ||
        ((systemOf(cell.first) ?? WHOLE_SITE) === within.first &&
          (systemOf(cell.trigger) ?? WHOLE_SITE) === within.trigger)) &&
      (show === "all" || (show === "fails" ? cell.fails > 0 : cell.only_together > 0)) &&
      (system === null || systemOf(cell.first) === system || systemOf(cell.trigger) === system),
  );
}

/**
 * Rows and columns of the cells that are shown, grouped by system in the order of the site, in each the worst first. Their other
 * cells stand between them, so that every field of the grid can be read.
 *
 * @param shown Worst first; names the rows and columns.
 * @param all   Where the fields come from.
 */
export function matrixOf(
  shown: readonly PairCell[],
  all: readonly PairCell[],
  site: Site,
  systemOf: (part: string) => string | null,
): Matrix {
  const byParts = new Map(all.map((cell) => [keyOf(cell.first, cell.trigger), cell]));
  const group = (parts: readonly string[]): readonly PartGroup[] =>
    [null, ...site.systems.map(({ id }) => id)]
      .map((system) => ({ system, parts: parts.filter((part) => systemOf(part) === system) }))
      .filter((each) => each.parts.length > 0);
  return {
    rows: group([...new Set(shown.map(({ first }) => first))]),
    columns: group([...new Set(shown.map(({ trigger }) => trigger))]),
    cell: (first, trigger) => byParts.get(keyOf(first, trigger)),
  };
}

/** For a site that is too large for its parts: systems by systems, each field the sum of its cells and the worst of them. */
export function overviewOf(
  shown: readonly PairCell[],
  all: readonly PairCell[],
  site: Site,
  systemOf: (part: string) => string | null,
): Matrix {
  const sums = new Map<string, PairCell>();
  const named = (part: string): string => systemOf(part) ?? WHOLE_SITE;
  for (const cell of all) {
    const here = { ...cell, first: named(cell.first), trigger: named(cell.trigger) };
    const key = keyOf(here.first, here.trigger);
    const known = sums.get(key);
    sums.set(key, known === undefined ? here : sumOf(known, here));
  }
  const order = [WHOLE_SITE, ...site.systems.map(({ id }) => id)];
  const group = (of: (cell: PairCell) => string): readonly PartGroup[] => {
    const here = new Set(shown.map((cell) => named(of(cell))));
    return [{ system: undefined, parts: order.filter((system) => here.has(system)) }];
  };
  return {
    rows: group(({ first }) => first),
    columns: group(({ trigger }) => trigger),
    cell: (first, trigger) => sums.get(keyOf(first, trigger)),
  };
}

/** The first is the worse: cells come worst first. */
function sumOf(a: PairCell, b: PairCell): PairCell {
  const counts: Partial<Record<VerdictKind, number>> = { ...a.counts };
  for (const [verdict, count] of Object.entries(b.counts) as [VerdictKind, number][])
    counts[verdict] = (counts[verdict] ?? 0) + count;
  return {
    ...a,
    counts,
    fails: a.fails + b.fails,
    only_together: a.only_together + b.only_together,
    derived: a.derived + b.derived,
    left_out: {
      reversed: a.left_out.reversed + b.left_out.reversed,
      open: a.left_out.open + b.left_out.open,
      not_run: a.left_out.not_run + b.left_out.not_run,
    },
  };
}

function keyOf(first: string, trigger: string): string {
  return `${first} ${trigger}`;
}

export function partsOf(groups: readonly PartGroup[]): readonly string[] {
  return groups.flatMap(({ parts }) => parts);
}

/** Which system each part belongs to; null for what serves the whole site. */
export function systemsOfParts(site: Site): (part: string) => string | null {
  const systems = new Map<string, string>();
  for (const { id } of site.systems) systems.set(id, id);
  for (const { id, system } of [...site.bodies, ...site.flows]) systems.set(id, system);
  for (const { id, system } of site.devices) if (system !== null) systems.set(id, system);
  const put = (id: string, at: string | undefined): void => {
    const system = at === undefined ? undefined : systems.get(at);
    if (system !== undefined) systems.set(id, system);
  };
  for (const { id, at } of site.sensors) put(id, at);
  for (const { id, when, act } of site.rules) put(id, when.all[0]?.sensor ?? act[0]?.device);
  return (part) => systems.get(part) ?? null;
}

/** The place in the grid that a key leads to from another; null for keys that lead nowhere. */
export function stepInGrid(
  key: string,
  withControl: boolean,
  { row, column }: { readonly row: number; readonly column: number },
  { rows, columns }: { readonly rows: number; readonly columns: number },
): { readonly row: number; readonly column: number } | null {
  const to = (nextRow: number, nextColumn: number) => ({
    row: Math.min(Math.max(nextRow, 0), rows - 1),
    column: Math.min(Math.max(nextColumn, 0), columns - 1),
  });
  switch (key) {
    case "ArrowUp":
      return to(row - 1, column);
    case "ArrowDown":
      return to(row + 1, column);
    case "ArrowLeft":
      return to(row, column - 1);
    case "ArrowRight":
      return to(row, column + 1);
    case "Home":
      return to(withControl ? 0 : row, 0);
    case "End":
      return to(withControl ? rows - 1 : row, columns - 1);
    case "PageUp":
      return to(row - 5, column);
    case "PageDown":
      return to(row + 5, column);
    default:
      return null;
  }
}

/** The part with which most of the pairs begin that fail only together, and how many do. */
export function busiestFirst(cells: readonly PairCell[]): { readonly part: string; readonly count: number } | null {
  const counts = new Map<string, number>();
  for (const { first, only_together } of cells) counts.set(first, (counts.get(first) ?? 0) + only_together);
  let best: { part: string; count: number } | null = null;
  for (const [part, count] of counts) if (count > (best?.count ?? 0)) best = { part, count };
  return best;
}

export function pairsIn({ counts }: PairCell): number {
  return Object.values(counts).reduce((sum, count) => sum + (count ?? 0), 0);
}

/** The worst verdict of a cell as it is drawn: of what nobody is told, but nothing is harmed by, none. */
export function glyphOf(cell: PairCell): VerdictKind | null {
  const kind = kindOf(cell);
  return kind === "calm" ? null : cell.worst.verdict;
}
