/** The whole account of one drill: curves, events, messages, people, and what if they had come later. */
import type { Circumstance } from "../site/index.ts";
import type { TwinEvent } from "../twin/index.ts";
import { attempt } from "./attempt.ts";
import { type Course, runCourse } from "./course.ts";
import { type Judged, judgeInReach } from "./drill.ts";
import { ENGINE } from "./engine.ts";
import type { Fault } from "./faults/index.ts";
import type { Help } from "./help.ts";
import { laterActs } from "./later-acts.ts";
import { evenGrid, Recorder } from "./recorder.ts";
import { faultEvents, harmEvents, peopleEvents, toDrillEvent } from "./report-events.ts";
import { peopleSpans } from "./report-people.ts";
import type { Setting } from "./setting.ts";
import { silentRules } from "./silent-rules.ts";
import type { Stage } from "./stage.ts";
import { joined, normalTrace, withElsewhere } from "./traces.ts";
import type { DrillEvent, DrillReport, SilentRule, Trace } from "./types.ts";

export interface ReportOptions {
  /** Spacing of the trace, min. */
  readonly stepMin: number;
  /** Quantities and sensors to keep; empty: all. */
  readonly only: readonly string[];
  /** Trace also the systems that the fault cannot reach. */
  readonly everywhere: boolean;
  readonly days?: number;
}

/** Runs a drill and tells all of it. */
export function reportDrill(
  stage: Stage,
  faults: readonly Fault[],
  circumstance: Circumstance,
  options: ReportOptions,
): DrillReport {
  const days = options.days ?? circumstance.horizonDays;
  const { setting, ...judged } = judgeInReach(stage, faults, circumstance, days);
  const alone = recordAlone(setting, faults, judged, days, options);
  const elsewhere = traceElsewhere(stage, setting, days, options);
  const helped = recordHelp(setting, alone, judged.help, options);
  const telling = mainQuantity(judged);
  return {
    ...judged.result,
    site: stage.model.site.name,
    engine: ENGINE,
    seed: stage.seed,
    starts: circumstance.startsLocal,
    events: allEvents(judged, alone.events, helped.events),
    trace: withElsewhere(helped.trace, elsewhere),
    telling,
    unattended: { trace: withElsewhere(alone.trace, elsewhere), events: alone.events },
    people: peopleSpans(judged.scene, judged.help, days, judged.course),
    silent_rules: alone.silent,
    thresholds: thresholds(stage),
    later: laterActs(setting, judged.course, judged.help, telling, judged.result.margin_min),
  };
}

interface Recorded {
  readonly trace: Trace;
  readonly events: readonly DrillEvent[];
}

/** The course with rules but nobody, over the whole horizon; and what its rules had to say when harm began that help did not prevent. */
function recordAlone(
  setting: Setting,
  faults: readonly Fault[],
  { scene, course: judged, result }: Judged,
  days: number,
  { only, stepMin }: ReportOptions,
): Recorded & { readonly course: Course; readonly silent: readonly SilentRule[] } {
  const recorder = new Recorder(setting, only, stepMin);
  const events: TwinEvent[] = [];
  const askAtS =
    result.verdict === "late" || result.verdict === "unseen" ? judged.harm.early : Number.POSITIVE_INFINITY;
  let silent: readonly SilentRule[] | null = null;
  const course = runCourse(setting, faults, scene, {
    early: false,
    onEvent: (event) => {
      if (event.tS >= 0) events.push(event);
    },
    onGrid: (tS) => {
      recorder.take(setting.twin, tS);
      if (tS >= askAtS) silent ??= silentRules(setting, setting.twin, judged, begunRules(events));
    },
    between: evenGrid(days, stepMin),
  });
  return { course, trace: recorder.trace(), events: events.map(toDrillEvent), silent: silent ?? [] };
}

function begunRules(events: readonly TwinEvent[]): ReadonlySet<string> {
  return new Set(events.filter(({ kind }) => kind === "rule").map(({ part }) => part));
}

/** What the systems that a fault cannot reach go through meanwhile: their normal life. */
function traceElsewhere(stage: Stage, setting: Setting, days: number, options: ReportOptions): Trace | null {
  const others = stage.model.systems.map((system) => system.index).filter((index) => !setting.systems.includes(index));
  if (others.length === 0 || !options.everywhere) return null;
  return normalTrace(stage.setting(setting.circumstance, others, days), options.only, options.stepMin, days);
}

/** The attended course: as alone until someone acts, then from the act on. */
function recordHelp(
  setting: Setting,
  alone: Recorded & { readonly course: Course },
  { actingS }: Help,
  { only, stepMin }: ReportOptions,
): Recorded {
  if (!Number.isFinite(actingS)) return { trace: alone.trace, events: [] };
  const recorder = new Recorder(setting, only, stepMin);
  const events: TwinEvent[] = [];
  attempt(setting, alone.course, actingS, recorder.watcher(setting, events));
  return { trace: joined(alone.trace, recorder.trace(), actingS / 60), events: events.map(toDrillEvent) };
}

/** The log in the order of time: what happened alone until the act, and with help from there on. */
function allEvents(
  { result, course, help }: Judged,
  alone: readonly DrillEvent[],
  helped: readonly DrillEvent[],
): DrillEvent[] {
  const actMin = result.minutes.acting ?? Number.POSITIVE_INFINITY;
  const events = [
    ...faultEvents(course.faults),
    ...alone.filter((event) => event.t_min <= actMin),
    ...helped.filter((event) => event.t_min > actMin),
    ...peopleEvents(course, help, actMin),
    ...harmEvents(course),
  ];
  return events.sort((a, b) => a.t_min - b.t_min);
}

/** Limits of the rules that a curve can be drawn against. */
function thresholds(stage: Stage): DrillReport["thresholds"] {
  return stage.model.site.rules.flatMap((rule) =>
    rule.when.all.flatMap(({ sensor, is }) => {
      if (is.op !== "below" && is.op !== "above") return [];
      return [{ sensor, rule: rule.id, value: is.value, text: `${rule.id}, ${is.op} ${is.value}` }];
    }),
  );
}

const QUANTITY_OF: Readonly<Record<string, string>> = {
  heat: "temperature_c",
  cold: "temperature_c",
  hypoxia: "oxygen_mg_l",
  "low-salinity": "salinity",
  "high-salinity": "salinity",
  "high-ph": "ph_total",
  "low-ph": "ph_total",
  co2: "ph_total",
  ammonia: "ammonia_mg_n_l",
  emersion: "volume_l",
};

/** The quantity whose curve tells the story of the harm; null where there is none. */
function mainQuantity({ course, result }: Judged): string | null {
  const stressor = course.harmWhat?.stressor ?? "heat";
  if (stressor === "water on the floor") return "floor.water_l";
  const body = course.harmWhat?.body ?? result.faults[0]?.part;
  const quantity = QUANTITY_OF[stressor];
  return body === undefined || quantity === undefined ? null : `${body}.${quantity}`;
}
