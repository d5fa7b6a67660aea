import type { ReactNode } from "react";
import type { Scale } from "../parts/scale.ts";

/** What all lanes share: the time axis, the edges of the plot, and whether names stand beside or above. */
export interface Plot {
  readonly x: Scale;
  readonly left: number;
  readonly right: number;
  readonly width: number;
  readonly fromMin: number;
  readonly endMin: number;
  readonly narrow: boolean;
}

/** Width of the names at the left of a wide timeline, px. */
export const GUTTER = 150;

/** Rough width of a text in px, for deciding whether it has room. */
export function textWidth(text: string, size = 12): number {
  return text.length * size * 0.54;
}

/** The name of a lane: beside it on a wide page, above it on a narrow one. `top` is the upper edge of the plot. */
export function LaneName({
  plot,
  top,
  name,
  note,
  wet,
}: {
  readonly plot: Plot;
  readonly top: number;
  readonly name: string;
  readonly note?: string;
  readonly wet?: boolean;
}) {
  if (plot.narrow) {
    return (
      <text x={0} y={top - 5} className="halo">
        {name}
        {note !== undefined && note !== "" && `, ${note}`}
      </text>
    );
  }
  return (
    <>
      <text x={0} y={top + 14} className="lane-name">
        {name}
      </text>
      {note !== undefined && (
        <text x={0} y={top + 31} className={wet === true ? "lane-note w" : "lane-note"}>
          {note}
        </text>
      )}
    </>
  );
}

/** A line of text on the plot with paper around it, so that lines may pass under it. */
export function Note({
  x,
  y,
  anchor = "start",
  className = "",
  children,
}: {
  readonly x: number;
  readonly y: number;
  readonly anchor?: "start" | "middle" | "end";
  readonly className?: string;
  readonly children: ReactNode;
}) {
  return (
    <text x={x} y={y} textAnchor={anchor} className={`halo ${className}`}>
      {children}
    </text>
  );
}

/** Room that something takes on the picture, px. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The room of a line of text at its baseline. */
export function boxOf({
  text,
  x,
  y,
  anchor,
}: {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly anchor: "start" | "end";
}): Box {
  const width = textWidth(text, 13);
  return {
    left: anchor === "end" ? x - width : x,
    right: anchor === "end" ? x : x + width,
    top: y - 12,
    bottom: y + 4,
  };
}

/** Whether two boxes touch. */
export function meets(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
