import { memo, useMemo } from "react";
import type { DrillReport } from "../../server/contract/index.ts";
import { bare, digitsFor, figure, measure, unitShown } from "../parts/format.ts";
import { useManner } from "../parts/manner.ts";
import { gridValues } from "../parts/scale.ts";
import { asTold } from "../parts/told.ts";
import { shown } from "../parts/units.ts";
import { curvePath, isNumber, stepPath } from "./curve-path.ts";
import { LaneName, Note, type Plot } from "./lane-frame.tsx";
import type { Curve } from "./quantities.ts";
import type { Run } from "./run.ts";
import type { Window } from "./window.ts";

interface Props {
  readonly plot: Plot;
  readonly curve: Curve;
  readonly report: DrillReport;
  readonly scale: LaneScale;
  /** Name of the body of water. */
  readonly body: string;
  /** A body of water, and no room or floor. */
  readonly isWet: boolean;
  readonly top: number;
  readonly height: number;
  /** Room kept free of curves at the upper edge, px: the names of the harm ground stand there. */
  readonly headroom: number;
}

/** The values of a lane, and how they lie on its height. Shared by the curves and by whoever reads them. */
export interface LaneScale {
  readonly truth: readonly number[];
  readonly free: readonly number[];
  readonly readings: readonly { readonly id: string; readonly values: readonly (number | null)[] }[];
  readonly low: number;
  readonly high: number;
}

export function laneScale(curve: Curve, report: DrillReport, run: Run, { fromMin, endMin }: Window): LaneScale {
  const { t_min: times, sensed } = report.trace;
  const truth = curve.sensedOnly === true ? [] : run.truth(curve.key);
  const free = curve.sensedOnly === true ? [] : (report.unattended.trace.truth[curve.key] ?? []);
  const readings = curve.sensors.map((id) => ({
    id,
    values: run.delayMin === 0 ? sensed[id] : upToAct(sensed[id], times, report.minutes.acting),
  }));
  const limits = report.thresholds.filter(({ sensor }) => curve.sensors.includes(sensor)).map(({ value }) => value);
  const series = [truth, free, ...readings.map(({ values }) => values)];
  return { truth, free, readings, ...rangeOf(curve, series, times, { fromMin, endMin }, limits) };
}

/** Where a value lies in a lane, px. */
export function heightOf(
  { low, high }: Range,
  top: number,
  height: number,
  headroom: number,
): (value: number) => number {
  return (value) => top + height - ((value - low) / (high - low)) * (height - headroom);
}

/** How far under a lowest point its name stands; where the lane ends before that, it stands over the point. */
const UNDER_PX = 17;

/** One quantity of one body: what was true, what the rules saw, and what would have been with nobody acting. */
export const WaterLane = memo(function WaterLane(props: Props) {
  useManner();
  const { plot, curve, report, scale, body, isWet, top, height, headroom } = props;
  const { x, left, right, fromMin, endMin, narrow, width } = plot;
  const { t_min: times } = report.trace;
  const { t_min: freeTimes } = report.unattended.trace;
  const { truth, free, readings, low, high } = scale;
  const thresholds = report.thresholds.filter(({ sensor }) => curve.sensors.includes(sensor));
  const y = useMemo(() => heightOf({ low, high }, top, height, headroom), [low, high, top, height, headroom]);
  const freePath = useMemo(
    () => curvePath(freeTimes, free, x, y, endMin, fromMin),
    [freeTimes, free, x, y, endMin, fromMin],
  );
  const truthPath = useMemo(
    () => curvePath(times, truth, x, y, endMin, fromMin),
    [times, truth, x, y, endMin, fromMin],
  );
  // Grid lines are round in the reader's unit; the curves themselves stay in the engine's.
  const { toShown, toEngine } = shown(curve.unit);
  const grid = gridValues(toShown(low), toShown(high), Math.max(2, Math.min(5, Math.floor(height / 44))));
  const gridY = (value: number): number => y(toEngine(value));
  const digits = digitsFor(grid.step);
  const extreme = extremeOf(times, truth, endMin, curve.notable, fromMin);
  const shownThresholds = thresholds.filter(({ value }) => value >= low && value <= high);
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
      <path d={freePath} fill="none" stroke="var(--ink-3)" strokeWidth="1.5" strokeDasharray="5 4" />
      {readings.map(({ id, values }) => (
        <SensedPath key={id} values={values} times={times} plot={plot} y={y} />
      ))}
      <path d={truthPath} fill="none" stroke="var(--ink)" strokeWidth="2" />
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
            x={x(extreme.min) + (peakIsRight(plot, extreme) ? 9 : -9)}
            y={y(extreme.value) + (extreme.isHigh || y(extreme.value) + UNDER_PX > top + height ? -9 : UNDER_PX)}
            anchor={peakIsRight(plot, extreme) ? "start" : "end"}
            className="peak"
          >
            {peakText(curve, extreme, narrow)}
          </Note>
        </>
      )}
    </g>
  );
});

/** The name of a peak stands at its left, unless there is no room. */
export function peakIsRight({ x, left }: Plot, { min }: Extreme): boolean {
  return x(min) < left + 60;
}

export function peakText(curve: Curve, { value }: Extreme, narrow: boolean): string {
  return narrow ? bare(value, curve.unit, curve.digits) : measure(value, curve.unit, curve.digits);
}

const SensedPath = memo(function SensedPath({
  values,
  times,
  plot,
  y,
}: {
  readonly values: readonly (number | null)[];
  readonly times: readonly number[];
  readonly plot: Plot;
  readonly y: (value: number) => number;
}) {
  const { x, endMin, fromMin } = plot;
  return (
    <path d={stepPath(times, values, x, y, endMin, fromMin)} fill="none" stroke="var(--signal)" strokeWidth="1.25" />
  );
});

/** Readings until the act, by all readings: the same for every later run. */
const untilAct = new WeakMap<readonly (number | null)[], readonly (number | null)[]>();

/** What sensors said in a later run is known only until the act that came later. */
function upToAct(
  values: readonly (number | null)[],
  times: readonly number[],
  actMin: number | null,
): readonly (number | null)[] {
  if (actMin === null) return values;
  const cut = untilAct.get(values) ?? values.map((value, i) => (times[i] <= actMin ? value : null));
  untilAct.set(values, cut);
  return cut;
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
  { fromMin, endMin }: Window,
  thresholds: readonly number[],
): Range {
  const ends = series.map((values) => endsOf(values, times, { fromMin, endMin }));
  let low = Math.min(...ends.map((each) => each.low));
  let high = Math.max(...ends.map((each) => each.high));
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

/** Least and greatest value of each series in the window that was asked for last: most series stay while a slider moves. */
const knownEnds = new WeakMap<readonly (number | null)[], Window & Range>();

function endsOf(values: readonly (number | null)[], times: readonly number[], { fromMin, endMin }: Window): Range {
  const known = knownEnds.get(values);
  if (known !== undefined && known.fromMin === fromMin && known.endMin === endMin) return known;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length && times[i] <= endMin; i++) {
    const value = values[i];
    if (times[i] < fromMin || !isNumber(value)) continue;
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  const found = { fromMin, endMin, low, high };
  knownEnds.set(values, found);
  return found;
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
  fromMin = 0,
): Extreme | null {
  let best = -1;
  for (let i = 0; i < values.length && times[i] <= endMin; i++) {
    if (
      times[i] >= fromMin &&
      isNumber(values[i]) &&
      (best < 0 || Math.abs(values[i] - values[0]) > Math.abs(values[best] - values[0]))
    )
      best = i;
  }
  if (best < 0 || Math.abs(values[best] - values[0]) < notable * 0.25) return null;
  return { min: times[best], value: values[best], isHigh: values[best] >= values[0] };
}
