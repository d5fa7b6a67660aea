import type { DrillReport } from "../../server/contract/index.ts";
import { wallClock } from "../parts/clock.ts";
import { asTold } from "../parts/told.ts";
import { LaneName, Note, type Plot, textWidth } from "./lane-frame.tsx";
import type { Run } from "./run.ts";

type SpanKind = "asleep" | "gone" | "way" | "act" | "other";

interface Span {
  readonly from: number;
  readonly to: number;
  readonly kind: SpanKind;
  readonly label: string;
}

/** What one person does meanwhile: sleeps, is gone, travels, acts. */
export function PersonLane({
  plot,
  person,
  report,
  run,
  top,
}: {
  readonly plot: Plot;
  readonly person: DrillReport["people"][number];
  readonly report: DrillReport;
  readonly run: Run;
  readonly top: number;
}) {
  const { x, fromMin, endMin, narrow } = plot;
  const mid = top + (narrow ? 8 : 10);
  const spans = person.spans
    .map((span) => spanOf(span, run.delayMin, report))
    .filter(({ from, to }) => from < endMin && to > fromMin && to > from)
    .sort((a, b) => a.from - b.from);
  return (
    <g>
      <LaneName plot={plot} top={narrow ? top : top} name={person.person} />
      {spans.map((span) => (
        <SpanBox key={`${span.from} ${span.kind}`} span={span} from={x(span.from)} to={x(span.to)} mid={mid} />
      ))}
      {spans.map((span, i) => (
        <SpanLabel
          key={`${span.from} ${span.kind}`}
          span={span}
          from={x(span.from)}
          to={x(span.to)}
          free={i + 1 < spans.length ? x(spans[i + 1].from) : plot.right}
          mid={mid}
          plot={plot}
        />
      ))}
    </g>
  );
}

/** In a later run the way and the act come later too; sleep and absence stay. */
export function spanOf(
  span: { readonly from_min: number; readonly to_min: number; readonly what: string },
  delayMin: number,
  report: DrillReport,
): Span {
  const kind = kindOf(span.what);
  const actMin = report.minutes.acting;
  const moves = (kind === "way" || kind === "act") && actMin !== null && span.from_min <= actMin + 1;
  const from = span.from_min + (moves ? delayMin : 0);
  const what = asTold(span.what);
  const label = kind === "way" ? "" : kind === "act" ? `${what}, ${wallClock(report.starts, from).clock}` : what;
  return { from, to: span.to_min + (moves ? delayMin : 0), kind, label };
}

function kindOf(what: string): SpanKind {
  if (/asleep|sleep/i.test(what)) return "asleep";
  if (/on the way|travel|drives|comes|on foot/i.test(what)) return "way";
  if (/away|busy|gone|fly|closed|work|class|phone off|out\b/i.test(what)) return "gone";
  if (/on site|at home|in the building|free|awake/i.test(what)) return "other";
  return "act";
}

function SpanBox({
  span,
  from,
  to,
  mid,
}: {
  readonly span: Span;
  readonly from: number;
  readonly to: number;
  readonly mid: number;
}) {
  const width = Math.max(2, to - from);
  const soft = span.kind === "asleep" || span.kind === "gone" || span.kind === "other";
  const chevrons =
    span.kind === "way"
      ? Array.from(
          { length: Math.max(0, Math.floor((width - 5) / 6)) },
          (_, i) => `M${from + 4 + 6 * i} ${mid - 3}l3 3-3 3`,
        ).join("")
      : "";
  return (
    <>
      {span.kind === "asleep" && (
        <rect x={from} y={mid - 8} width={width} height="16" fill="var(--hair)" opacity="0.7" />
      )}
      <rect
        x={from}
        y={mid - 8}
        width={width}
        height="16"
        fill={span.kind === "act" ? "var(--ink)" : span.kind === "way" ? "var(--paper)" : "none"}
        stroke={soft ? "var(--rule)" : "var(--ink)"}
        strokeDasharray={span.kind === "gone" ? "2 3" : undefined}
      />
      {chevrons !== "" && <path d={chevrons} fill="none" stroke="var(--ink)" strokeWidth="1.25" />}
    </>
  );
}

/** Inside its box where it has room; that of an act after it or before it, too. Otherwise not at all. */
function SpanLabel({
  span,
  from,
  to,
  free,
  mid,
  plot,
}: {
  readonly span: Span;
  readonly from: number;
  readonly to: number;
  readonly free: number;
  readonly mid: number;
  readonly plot: Plot;
}) {
  const size = textWidth(span.label) + 10;
  if (span.label === "") return null;
  if (span.kind !== "act")
    return size < to - from ? (
      <text x={from + 6} y={mid + 4}>
        {span.label}
      </text>
    ) : null;
  if (size < free - to - 6)
    return (
      <Note x={to + 8} y={mid + 4} className="strong">
        {span.label}
      </Note>
    );
  return from - plot.left > size ? (
    <Note x={from - 8} y={mid + 4} anchor="end" className="strong">
      {span.label}
    </Note>
  ) : null;
}
