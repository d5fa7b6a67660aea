/** What would follow had the act come later than rehearsed. */
import { attempt } from "./attempt.ts";
import type { Course } from "./course.ts";
import type { Help } from "./help.ts";
import { minutesAt, Recorder } from "./recorder.ts";
import type { Setting } from "./setting.ts";
import type { DrillReport, VerdictKind } from "./types.ts";

const DELAYS_MIN = [0, 15, 30, 60, 120, 240, 480, 960, 1440, 2880];
/** Shares of the margin shortly before its end and shortly after, rounded to so many minutes. */
const BEFORE = 0.95;
const AFTER = 1.06;
const ROUND_MIN = 5;
/** Spacing of the curves, min. */
const STEP_MIN = 20;

/** One line for each delay, with the curve of the quantity that tells the story; none where no help or no harm comes. */
export function laterActs(
  setting: Setting,
  course: Course,
  help: Help,
  quantity: string | null,
  marginMin: number | null,
): DrillReport["later"] {
  if (!Number.isFinite(help.actingS) || !Number.isFinite(course.harm.early)) return [];
  const tooLate: VerdictKind = Number.isFinite(help.sentS) ? "late" : "unseen";
  const mostMin = (setting.grid[setting.grid.length - 1] - help.actingS) / 60;
  return delaysFor(marginMin, mostMin).map((delay) => {
    const recorder = new Recorder(setting, [quantity ?? "floor.water_l"], STEP_MIN);
    const tried = attempt(setting, course, help.actingS + delay * 60, recorder.watcher(setting));
    const trace = recorder.trace();
    return {
      delay_min: delay,
      verdict: tried.spared ? "handed over" : tooLate,
      harm_early: Number.isFinite(tried.harmEarlyS) ? minutesAt(tried.harmEarlyS) : null,
      harm_likely: Number.isFinite(tried.harmLikelyS) ? minutesAt(tried.harmLikelyS) : null,
      trace: { t_min: trace.t_min, ...trace.truth },
    };
  });
}

/** The usual delays, and one on each side of the margin, so that the turn is among them however far away it lies. */
function delaysFor(marginMin: number | null, mostMin: number): readonly number[] {
  if (marginMin === null || marginMin <= 0) return DELAYS_MIN;
  const near = Math.floor((marginMin * BEFORE) / ROUND_MIN) * ROUND_MIN;
  const past = Math.ceil((marginMin * AFTER) / ROUND_MIN) * ROUND_MIN;
  const turn = [near, past].filter((delay) => delay > 0 && delay <= mostMin);
  return [...new Set([...DELAYS_MIN, ...turn])].sort((a, b) => a - b);
}
