import type { DrillReport } from "../../server/contract/index.ts";
import { signedSpan } from "../parts/format.ts";
import { useNames } from "../parts/names.tsx";
import { linearScale } from "../parts/scale.ts";
import { words } from "../words.ts";
import { DeviceLane } from "./device-lane.tsx";
import { GUTTER, Note, type Plot } from "./lane-frame.tsx";
import { MessageLane } from "./message-lane.tsx";
import { PersonLane } from "./people-lane.tsx";
import { PhasesLane } from "./phases-lane.tsx";
import type { Curve } from "./quantities.ts";
import type { Run } from "./run.ts";
import { TimeAxis } from "./time-axis.tsx";
import { WaterLane } from "./water-lane.tsx";

interface Props {
  readonly report: DrillReport;
  readonly run: Run;
  readonly waters: readonly Curve[];
  readonly devices: readonly Curve[];
  readonly width: number;
  readonly endMin: number;
  readonly narrow: boolean;
}

export function plotOf(width: number, endMin: number, narrow: boolean): Plot {
  const left = narrow ? 0 : GUTTER;
  const right = narrow ? width : width - 8;
  return { x: linearScale(left, right, endMin), left, right, width, endMin, narrow };
}

/** All lanes of a drill over one time axis, with its harm ground, its last useful moment and its act through all of them. */
export function Chart({ report, run, waters, devices, width, endMin, narrow }: Props) {
  const { water } = useNames();
  const plot = plotOf(width, endMin, narrow);
  const places = placeLanes(waters.length, devices.length, report.people.length, narrow);
  const name = words.drill.chart(
    waters.map((curve) => `${curve.name} of ${water(curve.part) ?? curve.part}`).join(", "),
    `${Math.round(endMin / 60)} h`,
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
          run={run}
          body={curve.part === FLOOR ? words.drill.allRooms : (water(curve.part) ?? curve.part)}
          isWet={water(curve.part) !== undefined}
          top={places.waters[i]}
          height={places.size.water}
          headroom={narrow ? PEAK_HEIGHT : i === 0 ? NAMES_HEIGHT : 0}
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
        y={bracketHeight(report, run, waters[0], places.waters[0] ?? places.messages, places.size.water, narrow)}
      />
    </svg>
  );
}

/** Height of each water lane, px, by how many there are: a page holds about as much picture whatever is chosen. */
function waterHeight(count: number, narrow: boolean): number {
  if (narrow) return count <= 1 ? 190 : 130;
  return count <= 1 ? 340 : count === 2 ? 190 : 140;
}

/** Upper edges of all lanes, px, from the axis down. Above each stands its name where names have no gutter. */
function placeLanes(waters: number, devices: number, people: number, narrow: boolean) {
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
      {likely !== null && likely < endMin && (
        <path d={`M${x(likely)} ${top}V${bottom}`} stroke="var(--coast)" strokeWidth="1.75" />
      )}
      {last !== null && last < endMin && (
        <path d={`M${x(last)} ${top}V${bottom}`} stroke="var(--ink)" strokeWidth="1.25" />
      )}
      {act !== null && act < endMin && (
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
  const { x, right, left, endMin, narrow } = plot;
  const { harmEarlyMin: early, harmLikelyMin: likely } = run;
  const last = report.last_useful;
  const y = top + 14;
  const earlyRoom = early === null ? 0 : (likely === null ? right : x(likely)) - x(early);
  const likelyRoom = likely === null ? 0 : right - x(likely);
  return (
    <g>
      {early !== null && early < endMin && (earlyRoom > NAME_ROOM || likelyRoom < NAME_ROOM) && (
        <text x={x(early) + 6} y={y} className="land">
          {narrow || earlyRoom < NAME_ROOM ? words.drill.harm : words.drill.harmEarly}
        </text>
      )}
      {likely !== null && likely < endMin && likelyRoom > NAME_ROOM && !narrow && (
        <text x={x(likely) + 6} y={y} className="land">
          {words.drill.harmLikely}
        </text>
      )}
      {last !== null && last < endMin && !narrow && x(last) - left > 100 && (
        <Note x={x(last) - 6} y={y} anchor="end" className="ink">
          {words.drill.lastUseful}
        </Note>
      )}
    </g>
  );
}

/** Where the margin is written: at the foot of the first water, or under its head where the curve is at the foot itself. */
function bracketHeight(
  report: DrillReport,
  run: Run,
  lead: Curve | undefined,
  top: number,
  height: number,
  narrow: boolean,
): number {
  if (lead === undefined) return top - 14;
  const values = [...run.truth(lead.key), ...(report.unattended.trace.truth[lead.key] ?? [])].filter((value) =>
    Number.isFinite(value),
  );
  const low = values.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);
  const high = values.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
  const atAct = run.truth(lead.key)[report.trace.t_min.findIndex((t) => t >= (run.actMin ?? 0))] ?? high;
  const isLow = high > low && (atAct - low) / (high - low) < 0.35;
  return isLow ? top + (narrow ? 30 : NAMES_HEIGHT + 18) : top + height - 14;
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
  const label = signedSpan(margin);
  const fits = Math.abs(to - from) >= 92;
  const beside = Math.max(from, to) + 8;
  const before = beside + 90 > right;
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
