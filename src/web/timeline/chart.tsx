import { memo } from "react";
import type { DrillReport } from "../../server/contract/index.ts";
import { signedSpan, span } from "../parts/format.ts";
import { useManner } from "../parts/manner.ts";
import { useNames } from "../parts/names.tsx";
import { linearScale } from "../parts/scale.ts";
import { words } from "../words.ts";
import { valueAt } from "./curve-path.ts";
import { DeviceLane } from "./device-lane.tsx";
import { type Box, boxOf, GUTTER, meets, Note, type Plot, textWidth } from "./lane-frame.tsx";
import { MessageLane } from "./message-lane.tsx";
import { PersonLane } from "./people-lane.tsx";
import { PhasesLane } from "./phases-lane.tsx";
import type { Curve } from "./quantities.ts";
import type { Run } from "./run.ts";
import { TimeAxis } from "./time-axis.tsx";
import { extremeOf, heightOf, type LaneScale, peakIsRight, peakText, WaterLane } from "./water-lane.tsx";
import { isWithin, type Window } from "./window.ts";

interface Props {
  readonly report: DrillReport;
  readonly run: Run;
  readonly waters: readonly Curve[];
  /** Of each water, in the same order. */
  readonly scales: readonly LaneScale[];
  readonly devices: readonly Curve[];
  readonly plot: Plot;
}

export function plotOf(width: number, { fromMin, endMin }: Window, narrow: boolean): Plot {
  const left = narrow ? 0 : GUTTER;
  const right = narrow ? width : width - 8;
  return { x: linearScale(left, right, endMin, fromMin), left, right, width, fromMin, endMin, narrow };
}

/** All lanes of a drill over one time axis, with its harm ground, its last useful moment and its act through all of them. */
export const Chart = memo(function Chart({ report, run, waters, scales, devices, plot }: Props) {
  useManner();
  const { water } = useNames();
  const { width, narrow, fromMin, endMin } = plot;
  const places = placeLanes(waters.length, devices.length, report.people.length, narrow);
  const name = words.drill.chart(
    waters.map((curve) => `${curve.name} of ${water(curve.part) ?? curve.part}`).join(", "),
    span(endMin - fromMin),
  );
  return (
    <svg
      className="lanes"
      width={width}
      height={places.height}
      viewBox={`0 0 ${width} ${places.height}`}
      role="img"
      aria-label={name}
    >
      <TimeAxis plot={plot} bottom={places.axis} starts={report.starts} />
      <Ground plot={plot} run={run} report={report} top={places.axis} bottom={places.bottom} />
      <PhasesLane plot={plot} report={report} run={run} top={places.axis} />
      {waters.map((curve, i) => (
        <WaterLane
          key={curve.key}
          plot={plot}
          curve={curve}
          report={report}
          scale={scales[i]}
          body={curve.part === FLOOR ? words.drill.allRooms : (water(curve.part) ?? curve.part)}
          isWet={water(curve.part) !== undefined}
          top={places.waters[i]}
          height={places.size.water}
          headroom={headroomOf(i, narrow)}
        />
      ))}
      {devices.map((curve, i) => (
        <DeviceLane
          key={curve.key}
          plot={plot}
          curve={curve}
          report={report}
          run={run}
          top={places.devices[i]}
          height={places.size.device}
        />
      ))}
      <MessageLane plot={plot} report={report} top={places.messages} height={places.size.message} />
      {report.people.map((person, i) => (
        <PersonLane key={person.person} plot={plot} person={person} report={report} run={run} top={places.people[i]} />
      ))}
      <GroundNames
        plot={plot}
        run={run}
        report={report}
        top={waters.length > 0 ? places.waters[0] : places.axis + 40}
      />
      <MarginBracket
        plot={plot}
        run={run}
        report={report}
        y={bracketHeight(report, run, waters[0], scales[0], plot, places)}
      />
    </svg>
  );
});

/** Room kept free of curves at the upper edge of a water lane, px. */
export function headroomOf(lane: number, narrow: boolean): number {
  if (narrow) return PEAK_HEIGHT;
  return lane === 0 ? NAMES_HEIGHT : 0;
}

/** Height of each water lane, px, by how many there are: a page holds about as much picture whatever is chosen. */
function waterHeight(count: number, narrow: boolean): number {
  if (narrow) return count <= 1 ? 190 : 130;
  if (count > 6) return 96;
  return count <= 1 ? 340 : count === 2 ? 190 : 140;
}

/** Upper edges of all lanes, px, from the axis down. Above each stands its name where names have no gutter. */
export type Places = ReturnType<typeof placeLanes>;

export function placeLanes(waters: number, devices: number, people: number, narrow: boolean) {
  const height = {
    water: waterHeight(waters, narrow),
    device: narrow ? 26 : devices > 2 ? 34 : 48,
    message: narrow ? 26 : 46,
    person: narrow ? 17 : 24,
  };
  const axis = narrow ? 34 : 40;
  let bottom = axis + (narrow ? 30 : 40);
  const stack = (count: number, each: number, gapBefore: number): readonly number[] =>
    Array.from({ length: count }, () => {
      const top = bottom + gapBefore;
      bottom = top + each;
      return top;
    });
  const waterTops = stack(waters, height.water, narrow ? 20 : 12);
  const deviceTops = stack(devices, height.device, narrow ? 28 : 20);
  const [messages] = stack(1, height.message, narrow ? 28 : 24);
  const peopleTops = stack(people, height.person, narrow ? 19 : 4);
  return {
    axis,
    waters: waterTops,
    devices: deviceTops,
    messages,
    people: peopleTops,
    size: height,
    bottom: bottom + 2,
    height: bottom + 6,
  };
}

/** Harm, the last useful moment and the act, through all lanes. */
function Ground({
  plot,
  run,
  report,
  top,
  bottom,
}: {
  readonly plot: Plot;
  readonly run: Run;
  readonly report: DrillReport;
  readonly top: number;
  readonly bottom: number;
}) {
  const { x, right, endMin } = plot;
  const isShown = (min: number | null): min is number => min !== null && isWithin(plot, min);
  const { harmEarlyMin: early, harmLikelyMin: likely, harmLateMin: late, actMin: act } = run;
  const last = report.last_useful;
  const height = bottom - top;
  const sandEnd = likely === null ? right : x(likely);
  const inTime = run.verdict !== "late" && run.verdict !== "unseen";
  return (
    <g>
      {early !== null && early < endMin && (
        <>
          <rect x={x(early)} y={top} width={right - x(early)} height={height} fill="var(--land)" opacity="0.55" />
          <rect x={x(early)} y={top} width={sandEnd - x(early)} height={height} fill="url(#p-sand)" opacity="0.38" />
          {late !== null && late < endMin && (
            <rect x={x(late)} y={top} width={right - x(late)} height={height} fill="url(#p-land)" opacity="0.6" />
          )}
        </>
      )}
      {isShown(likely) && <path d={`M${x(likely)} ${top}V${bottom}`} stroke="var(--coast)" strokeWidth="1.75" />}
      {isShown(last) && <path d={`M${x(last)} ${top}V${bottom}`} stroke="var(--ink)" strokeWidth="1.25" />}
      {isShown(act) && (
        <path
          className="act"
          d={`M${x(act)} ${top}V${bottom}`}
          stroke={inTime ? (run.verdict === "handled" ? "var(--handled)" : "var(--handed)") : "var(--late)"}
          strokeWidth="1.25"
          strokeDasharray="5 3"
        />
      )}
    </g>
  );
}

/** The trace counts water on the floors of all rooms together, under this name. */
const FLOOR = "floor";
/** Height of the name of a peak, px: on a phone the name of the lane lies just above. */
const PEAK_HEIGHT = 18;
/** Height of the line of names over the harm ground, px. */
const NAMES_HEIGHT = 34;
/** Room that two names need between the lines they belong to, px. */
const NAME_ROOM = 72;

/** A word on the picture and the room that it takes, px. */
interface Placed {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly anchor: "start" | "end";
  readonly className: string;
}

/** Names of the harm ground and of the last useful moment, each where it has room between the lines it belongs to. */
function groundNames(plot: Plot, run: Run, report: DrillReport, top: number): readonly Placed[] {
  const { x, right, left, endMin, narrow } = plot;
  const { harmEarlyMin: early, harmLikelyMin: likely } = run;
  const last = report.last_useful;
  const y = top + 14;
  const names: Placed[] = [];
  const earlyRoom = early === null ? 0 : (likely === null ? right : x(likely)) - x(early);
  const likelyRoom = likely === null ? 0 : right - x(likely);
  const start = { y, anchor: "start" as const, className: "land" };
  if (early !== null && early < endMin && (earlyRoom > NAME_ROOM || (likelyRoom < NAME_ROOM && earlyRoom > 34)))
    names.push({
      ...start,
      text: narrow || earlyRoom < NAME_ROOM ? words.drill.harm : words.drill.harmEarly,
      x: x(early) + 6,
    });
  if (likely !== null && likely < endMin && likelyRoom > NAME_ROOM && !narrow)
    names.push({ ...start, text: words.drill.harmLikely, x: x(likely) + 6 });
  if (last !== null && isWithin(plot, last) && !narrow && x(last) - left > 100)
    names.push({ text: words.drill.lastUseful, x: x(last) - 6, y, anchor: "end", className: "ink" });
  return names;
}

function GroundNames({
  plot,
  run,
  report,
  top,
}: {
  readonly plot: Plot;
  readonly run: Run;
  readonly report: DrillReport;
  readonly top: number;
}) {
  return (
    <g>
      {groundNames(plot, run, report, top).map(({ text, x, y, anchor, className }) => (
        <Note key={text} x={x} y={y} anchor={anchor} className={className}>
          {text}
        </Note>
      ))}
    </g>
  );
}

/** Heights of the two lines of the bracket and its word, px over its baseline and under it. */
const BRACKET = { over: 20, under: 8 };

/**
 * Where the margin is written in the first water: at its foot, its head or between, where it meets no name and as little of the
 * curve as can be.
 */
function bracketHeight(
  report: DrillReport,
  run: Run,
  lead: Curve | undefined,
  scale: LaneScale | undefined,
  plot: Plot,
  places: Places,
): number {
  const top = places.waters[0] ?? places.messages;
  if (lead === undefined || scale === undefined) return top - 14;
  const height = places.size.water;
  const { x, narrow } = plot;
  const box = bracketBox(plot, run, report);
  const y = heightOf(scale, top, height, headroomOf(0, narrow));
  const taken = groundNames(plot, run, report, top).map(boxOf);
  const extreme = extremeOf(report.trace.t_min, scale.truth, plot.endMin, lead.notable, plot.fromMin);
  if (extreme !== null) {
    const right = peakIsRight(plot, extreme);
    taken.push(
      boxOf({
        text: peakText(lead, extreme, narrow),
        x: x(extreme.min) + (right ? 9 : -9),
        y: y(extreme.value) + (extreme.isHigh ? -9 : 17),
        anchor: right ? "start" : "end",
      }),
    );
  }
  if (box !== null) taken.push(...alongCurve(report.trace.t_min, scale.truth, plot, y, box));
  const candidates = [0.94, 0.16, 0.28, 0.5, 0.72].map((share) => top + height * share);
  return freest(candidates, box, taken);
}

/** Points of a curve that are looked at under a word. */
const CURVE_LOOKS = 24;

/** The room that a curve takes between two places, in small pieces. */
function alongCurve(
  times: readonly number[],
  values: readonly number[],
  plot: Plot,
  y: (value: number) => number,
  { left, right }: { readonly left: number; readonly right: number },
): readonly Box[] {
  const { fromMin, endMin } = plot;
  return Array.from({ length: CURVE_LOOKS }, (_, i) => left + ((right - left) * i) / (CURVE_LOOKS - 1)).flatMap(
    (at) => {
      const min = fromMin + ((at - plot.left) / (plot.right - plot.left)) * (endMin - fromMin);
      const value = valueAt(times, values, min);
      return value === null ? [] : [{ left: at - 2, right: at + 2, top: y(value) - 3, bottom: y(value) + 3 }];
    },
  );
}

/** A name that is met weighs as much as a whole stretch of curve. */
const NAME_WEIGHT = CURVE_LOOKS;

/** The height at which a box of that width meets least, the earlier of two that are as good. */
function freest(
  candidates: readonly number[],
  box: { readonly left: number; readonly right: number } | null,
  taken: readonly Box[],
): number {
  if (box === null) return candidates[0];
  const met = candidates.map((y) => {
    const here = { ...box, top: y - BRACKET.over, bottom: y + BRACKET.under };
    return taken
      .filter((other) => meets(here, other))
      .reduce((sum, { left, right }) => sum + (right - left > 6 ? NAME_WEIGHT : 1), 0);
  });
  return candidates[met.indexOf(Math.min(...met))];
}

/** The width that the bracket and its word take, px. */
function bracketBox(
  plot: Plot,
  run: Run,
  report: DrillReport,
): { readonly left: number; readonly right: number } | null {
  const { actMin: act, marginMin: margin } = run;
  const last = report.last_useful;
  if (act === null || last === null || margin === null) return null;
  const from = Math.min(plot.x(act), plot.x(last));
  const to = Math.max(plot.x(act), plot.x(last));
  const size = textWidth(signedSpan(margin), 13) + 10;
  if (to - from >= size) return { left: from, right: to };
  return to + 8 + size > plot.right ? { left: from - 8 - size, right: to } : { left: from, right: to + 8 + size };
}

/** The margin, measured between the act and the last useful moment. */
function MarginBracket({
  plot,
  run,
  report,
  y,
}: {
  readonly plot: Plot;
  readonly run: Run;
  readonly report: DrillReport;
  readonly y: number;
}) {
  const { x, right } = plot;
  const { actMin: act, marginMin: margin } = run;
  const last = report.last_useful;
  if (act === null || last === null || margin === null) return null;
  const from = x(act);
  const to = x(last);
  if (Math.max(act, last) < plot.fromMin || Math.min(act, last) > plot.endMin) return null;
  const label = signedSpan(margin);
  const size = textWidth(label, 13) + 10;
  const fits = Math.abs(to - from) >= size;
  const beside = Math.max(from, to) + 8;
  const before = beside + size > right;
  const lateClass = margin < 0 ? "margin-note late" : "margin-note";
  return (
    <g>
      <path
        d={`M${from} ${y}H${to}M${from} ${y - 4}v8M${to} ${y - 4}v8`}
        stroke={margin < 0 ? "var(--late)" : "var(--ink)"}
        strokeWidth="1.5"
      />
      {fits ? (
        <Note x={(from + to) / 2} y={y - 6} anchor="middle" className={lateClass}>
          {label}
        </Note>
      ) : (
        <Note
          x={before ? Math.min(from, to) - 8 : beside}
          y={y + 4}
          anchor={before ? "end" : "start"}
          className={lateClass}
        >
          {label}
        </Note>
      )}
    </g>
  );
}
