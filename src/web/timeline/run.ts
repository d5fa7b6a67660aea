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
    truth: (key) => laterTruth(report, later.trace[key], key, acting + delayMin),
  };
}

/**
 * A curve of a later run. Where it was not kept, it is what it would be with nobody acting, up to the act: that much of both
 * runs is the same.
 */
function laterTruth(report: DrillReport, kept: readonly number[] | undefined, key: string, actMin: number): readonly number[] {
  const times = report.trace.t_min;
  if (kept !== undefined && kept.length === times.length) return kept;
  const unattended = report.unattended.trace.truth[key] ?? [];
  return times.map((t, i) => (t <= actMin ? (unattended[i] ?? Number.NaN) : Number.NaN));
}

const LEAST_SPAN_MIN = 60;

/** How far a timeline looks, min: to the harm and a little further; or the whole run. */
export function spansOf(report: DrillReport): { readonly fit: number; readonly whole: number } {
  const times = report.trace.t_min;
  const whole = times.length === 0 ? LEAST_SPAN_MIN : times[times.length - 1];
  const { sign, noticed, told, acting, harm_early, harm_likely, harm_late } = report.minutes;
  const firstLate = report.later.find(({ delay_min, verdict }) => delay_min > 0 && verdict !== report.verdict);
  const marks = [sign, noticed, told, acting, report.ended, report.last_useful, harm_late ?? harm_likely ?? harm_early, acting !== null && firstLate !== undefined ? acting + firstLate.delay_min * 1.25 : null];
  const last = Math.max(LEAST_SPAN_MIN, ...marks.filter((mark) => mark !== null)) * 1.06;
  const step = clockTicks(last, 11)[1] ?? last;
  return { fit: Math.min(whole, Math.ceil(last / step) * step), whole };
}
