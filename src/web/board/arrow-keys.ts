import type { KeyboardEvent } from "react";

const STEPS: Readonly<Record<string, (at: number, count: number) => number>> = {
  ArrowDown: (at, count) => Math.min(at + 1, count - 1),
  ArrowUp: (at) => Math.max(at - 1, 0),
  PageDown: (at, count) => Math.min(at + PAGE, count - 1),
  PageUp: (at) => Math.max(at - PAGE, 0),
  Home: () => 0,
  End: (_, count) => count - 1,
};
/** Rows that a page key passes. */
const PAGE = 15;

/**
 * Up and down between rows, first and last, left and right from group to group, and the slash to the search, without leaving the
 * keyboard's own order. Only while a row has the focus.
 */
export function moveByArrows(event: KeyboardEvent<HTMLElement>): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const board = event.currentTarget.closest(".board");
  if (event.key === "/") {
    event.preventDefault();
    document.querySelector<HTMLElement>("input.find")?.focus();
    return;
  }
  if (event.key === "ArrowLeft" || event.key === "ArrowRight") {
    moveByGroup(event, board, event.key === "ArrowRight" ? 1 : -1);
    return;
  }
  const step = STEPS[event.key];
  if (step === undefined) return;
  const rows = [...(board?.querySelectorAll<HTMLElement>("a.row") ?? [])];
  const at = rows.indexOf(event.currentTarget);
  if (at < 0) return;
  event.preventDefault();
  rows[step(at, rows.length)].focus();
}

/** To the first row of the next group; back to the first of this one, then of the one before. */
function moveByGroup(event: KeyboardEvent<HTMLElement>, board: Element | null, way: 1 | -1): void {
  const firsts = [...(board?.querySelectorAll<HTMLElement>("h2.grp + ul > li:first-child > a.row") ?? [])];
  const here = firsts.findLastIndex(
    (first) =>
      first === event.currentTarget ||
      (first.compareDocumentPosition(event.currentTarget) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0,
  );
  const isFirst = firsts[here] === event.currentTarget;
  const target = firsts[way === 1 || isFirst ? here + way : here];
  if (target === undefined) return;
  event.preventDefault();
  target.focus();
}
