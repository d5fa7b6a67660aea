import type { DrillReport } from "../../server/contract/index.ts";
import { bare, digitsFor, figure, measure, unitShown } from "../parts/format.ts";
import { gridValues } from "../parts/scale.ts";
import { asTold } from "../parts/told.ts";
import { shown } from "../parts/units.ts";
import { curvePath, isNumber, stepPath } from "./curve-path.ts";
import { LaneName, Note, type Plot } from "./lane-frame.tsx";
import type { Curve } from "./quantities.ts";
import type { Run } from "./run.ts";

interface Props {
  readonly plot: Plot;
  readonly curve: Curve;
  readonly report: DrillReport;
  readonly run: Run;
  /** Name of the body of water. */
  readonly body: string;
  /** A body of water, and no room or floor. */
  readonly isWet: boolean;
  readonly top: number;
  readonly height: number;
  /** Room kept free of curves at the upper edge, px: the names of the harm ground stand there. */
  readonly headroom: number;
}

/** One quantity of one body: what was true, what the rules saw, and what would have been with nobody acting. */
export function WaterLane({ plot, curve, report, run, body, isWet, top, height, headroom }: Props) {
  const { x, left, right, endMin, narrow, width } = plot;
  const { t_min: times, sensed } = report.trace;
  const truth = run.truth(curve.key);
  const unattended = report.unattended.trace;
  const free = unattended.truth[curve.key] ?? [];
  const readings = curve.sensors.map((id) => ({
    id,
    values: run.delayMin === 0 ? sensed[id] : upTo(sensed[id], times, report.minutes.acting),
  }));
  const thresholds = report.thresholds.filter(({ sensor }) => curve.sensors.includes(sensor));
  const range = rangeOf(
    curve,
    [truth, free, ...readings.map(({ values }) => values)],
    times,
    endMin,
    thresholds.map(({ value }) => value),
  );
  const y = (value: number): number =>
    top + height - ((value - range.low) / (range.high - range.low)) * (height - headroom);
  // Grid lines are round in the reader's unit; the curves themselves stay in the engine's.
  const { toShown, toEngine } = shown(curve.unit);
  const grid = gridValues(toShown(range.low), toShown(range.high), Math.max(2, Math.min(5, Math.floor(height / 44))));
  const gridY = (value: number): number => y(toEngine(value));
  const digits = digitsFor(grid.step);
  const extreme = extremeOf(times, truth, endMin, curve.notable);
  const shownThresholds = thresholds.filter(({ value }) => value >= range.low && value <= range.high);
  return (
    <g>
      <path
        d={grid.values.map((value) => `M${left} ${gridY(value).toFixed(1)}H${right}`).join("")}
        stroke="var(--hair)"
      />
      <LaneName
        plot={plot}
        top={top}
        name={curve.name}
        note={curve.unit === "" ? body : `${body}, ${unitShown(curve.unit)}`}
        wet={isWet}
      />
      {grid.values.map((value) => (
        <Note key={value} x={narrow ? width : left - 8} y={gridY(value) + (narrow ? -3 : 4)} anchor="end">
          {figure(value, digits)}
        </Note>
      ))}
      {shownThresholds.map(({ rule, value, text }) => (
        <g key={rule}>
          <path d={`M${left} ${y(value).toFixed(1)}H${right}`} stroke="var(--signal)" strokeDasharray="2 3" />
          <Note x={right - (narrow ? 22 : 6)} y={y(value) - 6} anchor="end" className="signal">
            {narrow ? bare(value, curve.unit, curve.digits) : asTold(text)}
          </Note>
        </g>
      ))}
      <path
        d={curvePath(unattended.t_min, free, x, y, endMin)}
        fill="none"
        stroke="var(--ink-3)"
        strokeWidth="1.5"
        strokeDasharray="5 4"
      />
      {readings.map(({ id, values }) => (
        <path
          key={id}
          d={stepPath(times, values, x, y, endMin)}
          fill="none"
          stroke="var(--signal)"
          strokeWidth="1.25"
        />
      ))}
      <path d={curvePath(times, truth, x, y, endMin)} fill="none" stroke="var(--ink)" strokeWidth="2" />
      {extreme !== null && (
        <>
          <circle
            cx={x(extreme.min)}
            cy={y(extreme.value)}
            r="3.5"
            fill="var(--paper)"
            stroke="var(--ink)"
            strokeWidth="1.75"
          />
          <Note
            x={x(extreme.min) + (x(extreme.min) < left + 60 ? 9 : -9)}
            y={y(extreme.value) + (extreme.isHigh ? -9 : 17)}
            anchor={x(extreme.min) < left + 60 ? "start" : "end"}
            className="peak"
          >
            {narrow ? bare(extreme.value, curve.unit, curve.digits) : measure(extreme.value, curve.unit, curve.digits)}
          </Note>
        </>
      )}
    </g>
  );
}

/** What sensors said in a later run is known only until the act that came later. */
function upTo(
  values: readonly (number | null)[],
  times: readonly number[],
  actMin: number | null,
): readonly (number | null)[] {
  return actMin === null ? values : values.map((value, i) => (times[i] <= actMin ? value : null));
}

interface Range {
  readonly low: number;
  readonly high: number;
}

/** Holds all that is drawn, with some air, and is never so narrow that noise looks like news. */
function rangeOf(
  curve: Curve,
  series: readonly (readonly (number | null)[])[],
  times: readonly number[],
  endMin: number,
  thresholds: readonly number[],
): Range {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const values of series) {
    for (let i = 0; i < values.length && times[i] <= endMin; i++) {
      const value = values[i];
      if (!isNumber(value)) continue;
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
  }
  if (low > high) return { low: 0, high: 1 };
  for (const value of thresholds) {
    if (value < low && low - value < curve.notable) low = value;
    if (value > high && value - high < curve.notable) high = value;
  }
  const least = Math.min(curve.notable * 1.2, Math.max(Math.abs(high) * 0.5, 1e-3));
  const lack = Math.max(0, least - (high - low)) / 2;
  const air = (high - low + 2 * lack) * 0.08;
  const floor = low >= 0 ? 0 : Number.NEGATIVE_INFINITY;
  return { low: Math.max(floor, low - lack - air), high: high + lack + air };
}

export interface Extreme {
  readonly min: number;
  readonly value: number;
  readonly isHigh: boolean;
}

/** Where a curve is furthest from its beginning; null where that is not worth a word. */
export function extremeOf(
  times: readonly number[],
  values: readonly number[],
  endMin: number,
  notable: number,
): Extreme | null {
  let best = -1;
  for (let i = 0; i < values.length && times[i] <= endMin; i++) {
    if (isNumber(values[i]) && (best < 0 || Math.abs(values[i] - values[0]) > Math.abs(values[best] - values[0])))
      best = i;
  }
  if (best < 0 || Math.abs(values[best] - values[0]) < notable * 0.25) return null;
  return { min: times[best], value: values[best], isHigh: values[best] >= values[0] };
}
