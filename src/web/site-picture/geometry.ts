import type { Body, Device, Sensor } from "../../server/contract/index.ts";

/** Shapes of the picture, px. Inside a system y = 0 is the stand that the displays are on; above it is negative. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Label {
  readonly text: string;
  readonly x: number;
  /** Baseline. */
  readonly y: number;
  readonly anchor: "start" | "middle" | "end";
  /** What it is written on: water and paper need halos of their own. */
  readonly on: "water" | "paper";
  /** A thin line from the part to its label, where they stand apart. */
  readonly leader?: { readonly x: number; readonly from: number; readonly to: number };
}

/** A device or sensor in its place. `x`, `y` are the middle of its symbol. */
export interface Spot {
  readonly part: Device | Sensor;
  readonly x: number;
  readonly y: number;
  /** Size of its symbol. */
  readonly width: number;
  readonly height: number;
  readonly label: Label | null;
  /** What it reads in the settled life, under its label. */
  readonly reading?: string;
  readonly tier: "upper" | "lower";
}

/** A body of water with its glass. `waterY` is its surface. */
export interface Vessel extends Box {
  readonly body: Body;
  readonly waterY: number;
  readonly tier: "upper" | "lower" | "store";
  readonly hasRock: boolean;
  /** What stands in it: its name, and its water. */
  readonly caption: { readonly id: string; readonly x: number; readonly y: number; readonly large: boolean } | null;
  readonly note: Label | null;
}

export interface Pipe {
  readonly id: string;
  readonly d: string;
  readonly arrow: { readonly x: number; readonly y: number; readonly way: "up" | "down" | "left" | "right" } | null;
  readonly label: Label | null;
  /** What the label names, where it can be chosen: the pump, or the flow. */
  readonly partId: string | null;
}

export const SIZES = { name: 19, device: 13, sounding: 12 } as const;

/** Rough width of a text, px: only to decide what has room. */
export function textWidth(text: string, size: number = SIZES.device): number {
  return text.length * size * 0.535;
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
