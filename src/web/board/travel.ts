import { type RefObject, useLayoutEffect, useRef } from "react";

/**
 * Rows travel to their new place when a verdict moves, instead of jumping there.
 *
 * @param holder   Contains the rows: elements with `data-id`.
 * @param order    Travel happens when this changes ...
 * @param question ... while this stays the same: a filter is a new question, and its answer just appears.
 */
export function useTravel(holder: RefObject<HTMLElement | null>, order: unknown, question: string): void {
  const before = useRef<{
    readonly order: unknown;
    readonly question: string;
    readonly tops: ReadonlyMap<string, number>;
  } | null>(null);
  useLayoutEffect(() => {
    const element = holder.current;
    if (element === null) return;
    const tops = topsOf(element);
    if (before.current !== null && before.current.question === question && before.current.order !== order)
      travel(element, before.current.tops, tops);
    before.current = { order, question, tops };
  }, [holder, order, question]);
}

function topsOf(element: HTMLElement): Map<string, number> {
  const origin = element.getBoundingClientRect().top;
  const rows = [...element.querySelectorAll<HTMLElement>("[data-id]")];
  return new Map(rows.map((row) => [row.dataset.id ?? "", row.getBoundingClientRect().top - origin]));
}

function travel(element: HTMLElement, from: ReadonlyMap<string, number>, to: ReadonlyMap<string, number>): void {
  const style = getComputedStyle(document.documentElement);
  const duration = Number.parseFloat(style.getPropertyValue("--settle"));
  if (!(duration > 0)) return;
  for (const row of element.querySelectorAll<HTMLElement>("[data-id]")) {
    const id = row.dataset.id ?? "";
    const way = (from.get(id) ?? 0) - (to.get(id) ?? 0);
    if (!from.has(id) || way === 0) continue;
    row.animate([{ transform: `translateY(${way}px)` }, { transform: "none" }], {
      duration,
      easing: style.getPropertyValue("--ease"),
    });
  }
}
