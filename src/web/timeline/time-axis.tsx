import { wallClock } from "../parts/clock.ts";
import { measure, span } from "../parts/format.ts";
import { clockStep, clockTicks } from "../parts/scale.ts";
import { type Plot, textWidth } from "./lane-frame.tsx";

const HOUR_MIN = 60;
const DAY_MIN = 1440;
/** Axes at least this long count in hours, min. */
const HOURS_FROM_MIN = 166;

/** The graduated border: hours since the fault in ink, clock time in soundings above it. */
export function TimeAxis({
  plot,
  bottom,
  starts,
}: {
  readonly plot: Plot;
  readonly bottom: number;
  readonly starts: string;
}) {
  const { x, right, left, fromMin, endMin, narrow } = plot;
  const most = narrow ? 5 : 11;
  const ticks = clockTicks(endMin, most, fromMin);
  const step = clockStep(endMin - fromMin, most);
  const inDays = step >= DAY_MIN;
  const clockOf = (min: number): string => {
    const { day, clock } = wallClock(starts, min);
    return inDays ? day : clock;
  };
  const roomy = withRoom(ticks, (min) => ({ at: x(min), size: textWidth(clockOf(min)), left, right }));
  const edges = [...new Set([fromMin, ...ticks, endMin])];
  return (
    <g>
      {edges.slice(0, -1).map((min, i) => (
        <rect
          key={min}
          x={x(min)}
          y={bottom - 8}
          width={Math.max(0, x(edges[i + 1]) - x(min))}
          height="4"
          fill={Math.floor(min / step + 1e-9) % 2 === 0 ? "var(--ink)" : "var(--paper)"}
          stroke="var(--ink)"
        />
      ))}
      {ticks.map((min) => {
        const at = x(min);
        const anchor = at < left + 12 ? "start" : at > right - 22 ? "end" : "middle";
        if (narrow && at > right - 22 && at < right - 1) return null;
        return (
          <g key={min}>
            <text x={at} y={bottom - 14} textAnchor={anchor} className="ink">
              {sinceFault(min, step, endMin - fromMin)}
            </text>
            {!narrow && roomy.has(min) && (
              <text x={at} y={bottom - 28} textAnchor={anchor} className="sounding">
                {clockOf(min)}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

/** Least room between two names of moments, px. */
const GAP = 8;

/** The moments whose names stand clear of the one before. */
function withRoom(
  ticks: readonly number[],
  place: (min: number) => { readonly at: number; readonly size: number; readonly left: number; readonly right: number },
): ReadonlySet<number> {
  const kept = new Set<number>();
  let free = Number.NEGATIVE_INFINITY;
  for (const min of ticks) {
    const { at, size, left, right } = place(min);
    const from = at < left + 12 ? at : at > right - 22 ? at - size : at - size / 2;
    if (from < free) continue;
    kept.add(min);
    free = from + size + GAP;
  }
  return kept;
}

/** "8 h", "1.5 h", "2 d", "30 min": one unit along the whole axis. */
function sinceFault(min: number, step: number, shownMin: number): string {
  if (step >= DAY_MIN) return measure(min / DAY_MIN, "d");
  if (step < HOUR_MIN && min >= HOUR_MIN) return span(min);
  if (shownMin < HOURS_FROM_MIN) return measure(min, "min");
  return measure(min / HOUR_MIN, "h", Number.isInteger(min / HOUR_MIN) ? 0 : step % 30 === 0 ? 1 : 2);
}
