import type { DrillReport, VerdictKind } from "../../server/contract/index.ts";
import { clockTicks } from "../parts/scale.ts";

/** A drill as it went, or as it would have gone with help so much later. Minutes from the fault. */
export interface Run {
  readonly delayMin: number;
  readonly verdict: VerdictKind;
  readonly actMin: number | null;
  readonly endedMin: number | null;
  readonly marginMin: number | null;
  readonly harmEarlyMin: number | null;
  readonly harmLikelyMin: number | null;
  readonly harmLateMin: number | null;
  /** True values of a curve at the times of the trace. */
  truth(key: string): readonly number[];
}

/** The choices of the slider: as rehearsed first, then each delay that was computed, in order. */
export function delaysOf(report: DrillReport): readonly number[] {
  if (report.minutes.acting === null) return [];
  return [...new Set([0, ...report.later.map(({ delay_min }) => delay_min)])].sort((a, b) => a - b);
}

export function runWith(report: DrillReport, delayMin: number): Run {
  const known = runs.get(report)?.get(delayMin);
  if (known !== undefined) return known;
  const made = remembering(runOf(report, delayMin));
  runs.set(report, (runs.get(report) ?? new Map<number, Run>()).set(delayMin, made));
  return made;
}

/** A slider goes back and forth over the same few runs. */
const runs = new WeakMap<DrillReport, Map<number, Run>>();

/** The same run, each curve of which is worked out once. */
function remembering(run: Run): Run {
  const known = new Map<string, readonly number[]>();
  return {
    ...run,
    truth(key) {
      const values = known.get(key) ?? run.truth(key);
      known.set(key, values);
      return values;
    },
  };
}

function runOf(report: DrillReport, delayMin: number): Run {
  const { acting, harm_early, harm_likely, harm_late } = report.minutes;
  const asRehearsed: Run = {
    delayMin: 0,
    verdict: report.verdict,
    actMin: acting,
    endedMin: report.ended,
    marginMin: report.margin_min,
    harmEarlyMin: harm_early,
    harmLikelyMin: harm_likely,
    harmLateMin: harm_late,
    truth: (key) => report.trace.truth[key] ?? [],
  };
  const later = delayMin === 0 ? undefined : report.later.find(({ delay_min }) => delay_min === delayMin);
  if (later === undefined || acting === null) return asRehearsed;
  return {
    ...asRehearsed,
    delayMin,
    verdict: later.verdict,
    actMin: acting + delayMin,
    endedMin: report.ended === null ? null : report.ended + delayMin,
    marginMin: report.margin_min === null ? null : report.margin_min - delayMin,
    harmEarlyMin: later.harm_early ?? harm_early,
    harmLikelyMin: later.harm_likely ?? harm_likely,
    truth: (key) => laterTruth(report, later.trace, key, acting + delayMin),
  };
}

/**
 * A curve of a later run at the times of the trace. Until the act it is what it would be with nobody acting; from then on
 * what was kept of that run, which may have steps of its own. What was not kept is a gap.
 */
function laterTruth(
  report: DrillReport,
  kept: DrillReport["later"][number]["trace"],
  key: string,
  actMin: number,
): readonly number[] {
  const { t_min: freeTimes, truth } = report.unattended.trace;
  const before = reader(freeTimes, truth[key] ?? []);
  const after = reader(kept.t_min ?? report.trace.t_min, kept[key] ?? []);
  return report.trace.t_min.map((t) => (t <= actMin ? before(t) : after(t)));
}

/** Reads a curve at rising times, straight between its points; not a number outside of them. */
function reader(times: readonly number[], values: readonly number[]): (t: number) => number {
  let at = 0;
  return (t) => {
    while (at + 1 < times.length && times[at + 1] <= t) at += 1;
    if (values.length === 0 || t < times[at])
      return values.length > 0 && times[0] - t <= LEAD_IN_MIN ? values[0] : Number.NaN;
    if (at + 1 >= values.length || times[at] === t) return values[at] ?? Number.NaN;
    return values[at] + ((values[at + 1] - values[at]) * (t - times[at])) / (times[at + 1] - times[at]);
  };
}

/** A curve that begins so shortly after an act begins with it, min: it was only looked at in steps. */
const LEAD_IN_MIN = 30;

const LEAST_SPAN_MIN = 60;

/** How far a timeline looks, min: to the harm and a little further; or the whole run. */
export function spansOf(report: DrillReport): { readonly fit: number; readonly whole: number } {
  const times = report.trace.t_min;
  const whole = times.length === 0 ? LEAST_SPAN_MIN : times[times.length - 1];
  const { sign, noticed, told, acting, harm_early, harm_likely, harm_late } = report.minutes;
  const firstLate = report.later.find(({ delay_min, verdict }) => delay_min > 0 && verdict !== report.verdict);
  const marks = [
    sign,
    noticed,
    told,
    acting,
    report.ended,
    report.last_useful,
    harm_late ?? harm_likely ?? harm_early,
    acting !== null && firstLate !== undefined ? acting + firstLate.delay_min * 1.25 : null,
  ];
  const last = Math.max(LEAST_SPAN_MIN, ...marks.filter((mark) => mark !== null)) * 1.06;
  const step = clockTicks(last, 11)[1] ?? last;
  return { fit: Math.min(whole, Math.ceil(last / step) * step), whole };
}
