import type { KeyboardEvent } from "react";

const STEPS: Readonly<Record<string, (at: number, count: number) => number>> = {
  ArrowDown: (at, count) => Math.min(at + 1, count - 1),
  ArrowUp: (at) => Math.max(at - 1, 0),
  Home: () => 0,
  End: (_, count) => count - 1,
};

/** Up and down between rows, first and last, without leaving the keyboard's own order. */
export function moveByArrows(event: KeyboardEvent<HTMLElement>): void {
  const step = STEPS[event.key];
  if (step === undefined) return;
  const rows = [...(event.currentTarget.closest(".board")?.querySelectorAll<HTMLElement>("a.row") ?? [])];
  const at = rows.indexOf(event.currentTarget);
  if (at < 0) return;
  event.preventDefault();
  rows[step(at, rows.length)].focus();
}
