import { wallClock } from "../parts/clock.ts";
import { measure } from "../parts/format.ts";
import { clockTicks } from "../parts/scale.ts";
import type { Plot } from "./lane-frame.tsx";

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
  const { x, right, left, endMin, narrow } = plot;
  const ticks = clockTicks(endMin, narrow ? 5 : 11);
  const step = ticks[1] ?? endMin;
  const inDays = step >= DAY_MIN;
  const ends = [...ticks.slice(1), endMin];
  return (
    <g>
      {ticks.map((min, i) => (
        <rect
          key={min}
          x={x(min)}
          y={bottom - 8}
          width={Math.max(0, x(ends[i]) - x(min))}
          height="4"
          fill={i % 2 === 0 ? "var(--ink)" : "var(--paper)"}
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
              {sinceFault(min, step, endMin)}
            </text>
            {!narrow && (
              <text x={at} y={bottom - 28} textAnchor={anchor} className="sounding">
                {inDays ? wallClock(starts, min).day : wallClock(starts, min).clock}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

/** "8 h", "1.5 h", "2 d", "30 min": one unit along the whole axis. */
function sinceFault(min: number, step: number, endMin: number): string {
  if (step >= DAY_MIN) return measure(min / DAY_MIN, "d");
  if (endMin < HOURS_FROM_MIN) return measure(min, "min");
  return measure(min / 60, "h", Number.isInteger(min / 60) ? 0 : step % 30 === 0 ? 1 : 2);
}
