import { widthInEms } from "./letter-widths.ts";
import type { Box, Label } from "./shapes.ts";

export const SIZES = { name: 19, device: 13, sounding: 12 } as const;

/** Width of a text, px. */
export function textWidth(text: string, size: number = SIZES.device): number {
  return widthInEms(text) * size;
}

/** Share of the size of type above and below the baseline. */
const ABOVE = 0.76;
const UNDER = 0.22;

/** What a label covers. */
export function boxOf({ text, x, y, anchor }: Pick<Label, "text" | "x" | "y" | "anchor">, size: number): Box {
  const width = textWidth(text, size);
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { x: left, y: y - size * ABOVE, width, height: size * (ABOVE + UNDER) };
}

export function overlap(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

export function contains(box: Box, x: number, y: number): boolean {
  return x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height;
}

export interface Stagger {
  /** Distance between neighbours, px. */
  readonly slot: number;
  /** How far the outermost labels reach beyond the row of slots, px. */
  readonly overhang: number;
}

/**
 * How closely things with labels centred under them can stand when the labels take turns on so many lines.
 *
 * Two labels of the same line are `rows` slots apart, so those are the ones that must not touch.
 */
export function staggered(labels: readonly string[], rows: number, leastSlot: number): Stagger {
  const widths = labels.map((label) => textWidth(label));
  const needs = widths.map((width, i) => (i + rows < widths.length ? ((width + widths[i + rows]) / 2 + 10) / rows : 0));
  const slot = Math.max(leastSlot, ...needs);
  const overhang = Math.max(
    0,
    ...widths.map((width, i) => width / 2 - (Math.min(i, widths.length - 1 - i) + 0.5) * slot),
  );
  return { slot, overhang };
}

/** Picks for each label the nearest of a few lines on which nothing is in its way. */
export function lines(labels: readonly { readonly from: number; readonly to: number }[]): readonly number[] {
  const taken: { readonly line: number; readonly from: number; readonly to: number }[] = [];
  return labels.map(({ from, to }) => {
    let line = 0;
    while (taken.some((other) => other.line === line && other.from < to + 8 && from < other.to + 8)) line += 1;
    taken.push({ line, from, to });
    return line;
  });
}

export const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
