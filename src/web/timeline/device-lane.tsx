import type { DrillReport } from "../../server/contract/index.ts";
import { figure } from "../parts/format.ts";
import { words } from "../words.ts";
import { isNumber, stepPath } from "./curve-path.ts";
import { LaneName, Note, type Plot } from "./lane-frame.tsx";
import type { Curve } from "./quantities.ts";
import type { Run } from "./run.ts";

/** The power of one device, or whether it runs. Hatched where it is part of the fault: nobody meant it to be so. */
export function DeviceLane({
  plot,
  curve,
  report,
  run,
  top,
  height,
}: {
  readonly plot: Plot;
  readonly curve: Curve;
  readonly report: DrillReport;
  readonly run: Run;
  readonly top: number;
  readonly height: number;
}) {
  const { x, left, right, fromMin, endMin, narrow, width } = plot;
  const values = run.truth(curve.key).map((value) => value * curve.factor);
  const times = report.trace.t_min;
  const most = Math.max(curve.factor, ...values.filter(isNumber));
  const y = (value: number): number => top + height - (value / most) * (height - 4);
  const outline = stepPath(times, values, x, y, endMin, fromMin);
  const isFaulty = report.faults.some(({ part }) => part === curve.part);
  const inWatts = curve.unit === words.units.W;
  return (
    <g>
      <path d={`M${left} ${y(0)}H${right}`} stroke="var(--hair)" />
      <LaneName
        plot={plot}
        top={top}
        name={curve.part}
        note={inWatts ? `${words.quantity.power}, ${words.units.W}` : words.quantity.on}
      />
      {inWatts && (
        <>
          <Note x={narrow ? width : left - 8} y={y(most) + 6} anchor="end">
            {figure(most)}
          </Note>
          {!narrow && (
            <Note x={left - 8} y={y(0) + 3} anchor="end">
              0
            </Note>
          )}
        </>
      )}
      {isFaulty && outline !== "" && <path d={`${outline}V${y(0)}H${left}Z`} fill="url(#p-fog)" opacity="0.55" />}
      <path d={outline} fill="none" stroke="var(--ink)" strokeWidth={isBusy(outline, right - left) ? 0.6 : 1.5} />
    </g>
  );
}

/** Switches so often that its strokes would run together. */
function isBusy(outline: string, width: number): boolean {
  return outline.split("V").length > width / 5;
}
