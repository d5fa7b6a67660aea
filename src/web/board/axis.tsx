import { BOARD_TICKS, type Scale } from "../parts/scale.ts";
import { words } from "../words.ts";

/** The border of a chart: black and white by turns at every labelled moment. A phone has room for fewer of them. */
export function BoardAxis({
  x,
  width,
  height,
  sparse,
}: {
  readonly x: Scale;
  readonly width: number;
  readonly height: number;
  readonly sparse: boolean;
}) {
  const last = BOARD_TICKS.length - 1;
  return (
    <svg
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      preserveAspectRatio="none"
      role="img"
      aria-label={words.board.axis}
    >
      {BOARD_TICKS.slice(0, last).map(({ min }, i) => (
        <rect
          key={min}
          x={x(min)}
          y={height - 5}
          width={x(BOARD_TICKS[i + 1].min) - x(min)}
          height="4"
          fill={i % 2 === 0 ? "var(--ink)" : "var(--paper)"}
          stroke="var(--ink)"
        />
      ))}
      {BOARD_TICKS.filter(({ dense }) => !(sparse && dense)).map(({ min, label }) => (
        <text
          key={min}
          x={x(min)}
          y={height - 11}
          textAnchor={min === 0 ? "start" : min === BOARD_TICKS[last].min ? "end" : "middle"}
        >
          {label}
        </text>
      ))}
    </svg>
  );
}
