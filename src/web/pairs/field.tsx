import type { PairCell } from "../../server/contract/index.ts";
import { verdictToken } from "../parts/glyphs.tsx";
import { type FieldKind, glyphOf, kindOf } from "./matrix-model.ts";

interface Size {
  readonly width: number;
  readonly height: number;
}

/** One field of the matrix: its ground says whether the two harm only together, its glyph the worst verdict, its figure how many. */
export function Field({ cell, width, height }: { readonly cell: PairCell | undefined } & Size) {
  const kind = kindOf(cell);
  const verdict = cell === undefined ? null : glyphOf(cell);
  const count = kind === "together" ? (cell?.only_together ?? 0) : 0;
  const hasFigure = count > 1 && width >= 40;
  const size = kind === "alone" ? 11 : 16;
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <FieldGround kind={kind} width={width} height={height} clear={hasFigure ? 38 : 19} />
      {verdict !== null && (
        <svg
          x={(hasFigure ? width * 0.36 : width / 2) - size / 2}
          y={height / 2 - size / 2}
          width={size}
          height={size}
          viewBox="0 0 16 16"
          aria-hidden="true"
          className={kind === "alone" ? "field-alone" : `v-${verdictToken(verdict)}`}
        >
          <use href={`#g-${verdictToken(verdict)}`} />
        </svg>
      )}
      {hasFigure && (
        <text x={width * 0.64} y={height / 2 + 4.5} className="field-count">
          {count}
        </text>
      )}
    </svg>
  );
}

/** Sand on land: harm only together. Hatch: harm, but one is enough. A dot: no harm. Bare paper: not tried. */
export function FieldGround({
  kind,
  width,
  height,
  clear = 0,
}: { readonly kind: FieldKind /** Width kept free of sand in the middle, px. */; readonly clear?: number } & Size) {
  if (kind === "together")
    return (
      <>
        <rect width={width} height={height} fill="var(--land)" />
        <rect width={width} height={height} fill="url(#p-sand)" opacity="0.55" />
        <rect x={(width - clear) / 2} y={height / 2 - 10} width={clear} height="20" fill="var(--land)" opacity="0.85" />
      </>
    );
  if (kind === "alone") return <rect width={width} height={height} fill="url(#p-land)" opacity="0.8" />;
  return kind === "calm" ? <circle cx={width / 2} cy={height / 2} r="1.4" fill="var(--ink-3)" /> : null;
}
