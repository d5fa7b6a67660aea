import type { DrillReport } from "../../server/contract/index.ts";
import { wallClock } from "../parts/clock.ts";
import { bare, span, unitShown } from "../parts/format.ts";
import { Name } from "../parts/names.tsx";
import { clockTicks } from "../parts/scale.ts";
import { words } from "../words.ts";
import { isNumber } from "./curve-path.ts";
import type { Curve } from "./quantities.ts";
import type { Run } from "./run.ts";
import type { Window } from "./window.ts";

const MOST_ROWS = 24;

/** The curves as numbers, at evenly spaced moments of the shown span. */
export function FigureTable({
  report,
  run,
  curves,
  window: { fromMin, endMin },
}: {
  readonly report: DrillReport;
  readonly run: Run;
  readonly curves: readonly Curve[];
  readonly window: Window;
}) {
  const times = report.trace.t_min;
  const moments = clockTicks(endMin, MOST_ROWS, fromMin).map((min) => indexAt(times, min));
  return (
    <details className="table scroll">
      <summary>{words.drill.table}</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.drill.tableTime}</th>
            <th scope="col">{words.drill.tableClock}</th>
            {curves.map((curve) => (
              <Heads key={curve.key} curve={curve} />
            ))}
          </tr>
        </thead>
        <tbody>
          {[...new Set(moments)].map((i) => (
            <tr key={i}>
              <th scope="row">{span(times[i])}</th>
              <td>{wallClock(report.starts, times[i]).clock}</td>
              {curves.map((curve) => (
                <Cells key={curve.key} curve={curve} report={report} run={run} at={i} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

function Heads({ curve }: { readonly curve: Curve }) {
  const unit = curve.unit === "" ? "" : `, ${unitShown(curve.unit)}`;
  return (
    <>
      {curve.sensedOnly !== true && (
        <th scope="col">
          {curve.name} <Name id={curve.part} />
          {unit}, {words.drill.lines.truth}
        </th>
      )}
      {curve.sensors.map((sensor) => (
        <th key={sensor} scope="col">
          {sensor}
          {curve.sensedOnly === true && `, ${curve.name}`}
          {unit}
        </th>
      ))}
      {curve.sensedOnly !== true && <th scope="col">{words.drill.lines.unattended}</th>}
    </>
  );
}

function Cells({
  curve,
  report,
  run,
  at,
}: {
  readonly curve: Curve;
  readonly report: DrillReport;
  readonly run: Run;
  readonly at: number;
}) {
  const show = (value: number | null | undefined): string =>
    isNumber(value) ? bare(value * curve.factor, curve.unit, curve.digits) : words.drill.unknown;
  return (
    <>
      {curve.sensedOnly !== true && <td>{show(run.truth(curve.key)[at])}</td>}
      {curve.sensors.map((sensor) => (
        <td key={sensor}>
          {show(
            run.delayMin === 0 || report.trace.t_min[at] <= (report.minutes.acting ?? 0)
              ? report.trace.sensed[sensor][at]
              : null,
          )}
        </td>
      ))}
      {curve.sensedOnly !== true && (
        <td>
          {show(
            report.unattended.trace.truth[curve.key]?.[indexAt(report.unattended.trace.t_min, report.trace.t_min[at])],
          )}
        </td>
      )}
    </>
  );
}

/** Index of the last moment not after the given one. */
function indexAt(times: readonly number[], min: number): number {
  let low = 0;
  let high = times.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (times[middle] <= min) low = middle;
    else high = middle - 1;
  }
  return low;
}
