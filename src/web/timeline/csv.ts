import type { DrillReport, Site } from "../../server/contract/index.ts";
import { timelineWords } from "../words/timeline.ts";
import { isNumber } from "./curve-path.ts";
import type { Curve } from "./quantities.ts";
import type { Run } from "./run.ts";

const MINUTE_MS = 60_000;

/**
 * Curves as a table for other programs (RFC 4180): UTC and local time, then what was true, what sensors said, and what would have been
 * with nobody acting, each in a column of its own with its unit in its head. What is not known is empty.
 */
export function csvOf(report: DrillReport, run: Run, curves: readonly Curve[], zone: Site["zone"]): string {
  const times = report.trace.t_min;
  const offsetMin = offsetAt(report.starts, zone);
  const startMs = Date.parse(`${report.starts.slice(0, 16)}Z`) - offsetMin * MINUTE_MS;
  const free = new Map(report.unattended.trace.t_min.map((t, i) => [t, i]));
  const actMin = run.delayMin === 0 ? Number.POSITIVE_INFINITY : (report.minutes.acting ?? Number.POSITIVE_INFINITY);
  const columns = curves.flatMap((curve) => columnsOf(curve, report, run, free, actMin));
  const say = timelineWords.save;
  const head = [say.utc, say.local, say.minutes, ...columns.map(({ head: name }) => name)];
  const rows = times.map((min, i) => {
    const ms = startMs + Math.round(min * MINUTE_MS);
    return [
      new Date(ms).toISOString(),
      localIso(ms, offsetMin),
      String(min),
      ...columns.map(({ at }) => plain(at(i, min))),
    ];
  });
  return [head, ...rows]
    .map((cells) => cells.map(quoted).join(","))
    .join("\r\n")
    .concat("\r\n");
}

interface Column {
  readonly head: string;
  readonly at: (place: number, min: number) => number | null | undefined;
}

function columnsOf(
  curve: Curve,
  report: DrillReport,
  run: Run,
  free: ReadonlyMap<number, number>,
  actMin: number,
): readonly Column[] {
  const say = timelineWords.save;
  const unit = curve.unit === "" ? "" : ` [${curve.unit}]`;
  const truth = curve.sensedOnly === true ? null : run.truth(curve.key);
  const unattended = report.unattended.trace.truth[curve.key];
  const scaled = (value: number | null | undefined) => (isNumber(value) ? value * curve.factor : value);
  return [
    ...(truth === null
      ? []
      : [{ head: say.truth(curve.part, curve.name, unit), at: (place: number) => scaled(truth[place]) }]),
    ...curve.sensors.map((sensor) => ({
      head: say.sensed(sensor, curve.name, unit),
      at: (place: number, min: number) => (min <= actMin ? report.trace.sensed[sensor]?.[place] : null),
    })),
    ...(truth === null || unattended === undefined
      ? []
      : [
          {
            head: say.unattended(curve.part, curve.name, unit),
            at: (_: number, min: number) => scaled(unattended[free.get(min) ?? -1]),
          },
        ]),
  ];
}

/** A number as every program reads it. */
function plain(value: number | null | undefined): string {
  return isNumber(value) ? String(Number(value.toPrecision(9))) : "";
}

function quoted(cell: string): string {
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/** "2026-08-15T09:00:00+01:00". The offset is that of the drill's start, as its clock is. */
function localIso(ms: number, offsetMin: number): string {
  const size = Math.abs(offsetMin);
  const two = (value: number): string => String(value).padStart(2, "0");
  const sign = offsetMin < 0 ? "-" : "+";
  return `${new Date(ms + offsetMin * MINUTE_MS).toISOString().slice(0, 19)}${sign}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** Minutes by which the clocks of a zone are ahead of UTC at a local moment. */
export function offsetAt(local: string, zone: string): number {
  const wanted = Date.parse(`${local.slice(0, 16)}Z`);
  let offset = 0;
  // A second round settles moments near a change of the clocks.
  for (let round = 0; round < 2; round++) offset = offsetOf(wanted - offset * MINUTE_MS, zone);
  return offset;
}

function offsetOf(ms: number, zone: string): number {
  const parts = new Intl.DateTimeFormat("en-GB", {
    timeZone: zone,
    hourCycle: "h23",
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    hour: "2-digit",
    minute: "2-digit",
  }).formatToParts(new Date(ms));
  const part = (type: string): string => parts.find((one) => one.type === type)?.value ?? "00";
  const local = Date.parse(`${part("year")}-${part("month")}-${part("day")}T${part("hour")}:${part("minute")}:00Z`);
  return Math.round((local - Math.floor(ms / MINUTE_MS) * MINUTE_MS) / MINUTE_MS);
}

/** The name of a file that keeps a drill: its id, in letters that every disk takes. */
export function fileName(report: DrillReport, run: Run, extension: string): string {
  const id = report.id.replaceAll("@", "_").replace(/[^\w.+-]+/g, "-");
  const later = run.delayMin === 0 ? "" : `_help-${Math.round(run.delayMin)}-min-later`;
  return `${id}${later}.${extension}`;
}
