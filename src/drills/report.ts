/** The whole account of one drill: curves, events, messages, people, and what if they had come later. */
import { dayOfWeekAt, didYouMean, minuteOfDayAt, NotFoundError, windowHolds } from "../foundation/index.ts";
import type { Circumstance } from "../site/index.ts";
import { advance, type Probe, restore, sensedProbes, type Twin, type TwinEvent, truthProbes } from "../twin/index.ts";
import { attempt, type Watcher, workMinutes } from "./attempt.ts";
import { type Course, runCourse } from "./course.ts";
import { judge } from "./drill.ts";
import { ENGINE } from "./engine.ts";
import type { Fault } from "./faults/index.ts";
import type { Help } from "./help.ts";
import type { Scene } from "./people.ts";
import { reachOf } from "./reach.ts";
import type { Setting } from "./setting.ts";
import type { Stage } from "./stage.ts";
import type { DrillEvent, DrillReport, DrillResult, Trace, VerdictKind } from "./types.ts";
import { harmInWords } from "./words.ts";

export interface ReportOptions {
  /** Spacing of the trace, min. */
  readonly stepMin: number;
  /** Quantities and sensors to keep; empty: all. */
  readonly only: readonly string[];
  /** Trace also the systems that the fault cannot reach. */
  readonly everywhere: boolean;
  readonly days?: number;
}

const DELAYS_MIN = [0, 15, 30, 60, 120, 240, 480, 960, 1440, 2880];

const LATER_STEP_MIN = 20;

function horizonOf(setting: Setting): number {
  return setting.grid[setting.grid.length - 1];
}

function watch(
  setting: Setting,
  recorder: Recorder,
  stepMin: number,
  untilS: number,
  events: TwinEvent[] = [],
): Watcher {
  return {
    everyS: stepMin * 60,
    untilS,
    see: (tS) => recorder.take(setting.twin, tS),
    hear: (event) => events.push(event),
  };
}

/** Collects the trace of a run at even steps. */
export class Recorder {
  readonly #times: number[] = [];
  readonly #truth: readonly { readonly probe: Probe; readonly values: number[] }[];
  readonly #sensed: readonly { readonly probe: Probe; readonly values: (number | null)[] }[];

  readonly #stepMin: number;

  constructor(setting: Setting, only: readonly string[], stepMin: number) {
    this.#stepMin = stepMin;
    refuseUnknown(setting, only);
    const keep = (probe: Probe) => only.length === 0 || only.includes(probe.name);
    const simulated = new Set(setting.systems.map((index) => setting.model.systems[index].id));
    const ofSystem = (name: string) => {
      const part = name.split(".")[0];
      const system =
        setting.model.site.bodies.find((body) => body.id === part)?.system ??
        setting.model.site.devices.find((device) => device.id === part)?.system;
      return system === undefined || simulated.has(system);
    };
    this.#truth = truthProbes(setting.model)
      .filter((probe) => keep(probe) && ofSystem(probe.name))
      .map((probe) => ({ probe, values: [] }));
    this.#sensed = sensedProbes(setting.model)
      .filter((probe, sensor) => {
        const system = setting.model.sensing.systemOf[sensor];
        return keep(probe) && (system < 0 || setting.systems.includes(system));
      })
      .map((probe) => ({ probe, values: [] }));
  }

  take(twin: Twin, tS: number): void {
    const minute = tS / 60;
    if (Math.abs(minute / this.#stepMin - Math.round(minute / this.#stepMin)) > 1e-6) return;
    if (this.#times.length > 0 && minute <= this.#times[this.#times.length - 1]) return;
    this.#times.push(round(minute));
    for (const { probe, values } of this.#truth) values.push(round(probe.read(twin)));
    for (const { probe, values } of this.#sensed) {
      const value = probe.read(twin);
      values.push(Number.isNaN(value) ? null : round(value));
    }
  }

  trace(): Trace {
    return {
      t_min: this.#times,
      truth: Object.fromEntries(this.#truth.map(({ probe, values }) => [probe.name, values])),
      sensed: Object.fromEntries(this.#sensed.map(({ probe, values }) => [probe.name, values])),
    };
  }
}

/** A name that nothing has is a slip of whoever asks. */
function refuseUnknown(setting: Setting, only: readonly string[]): void {
  if (only.length === 0) return;
  const known = [...truthProbes(setting.model), ...sensedProbes(setting.model)].map((probe) => probe.name);
  const unknown = only.find((name) => !known.includes(name));
  if (unknown === undefined) return;
  throw new NotFoundError("trace/unknown-name", `Nothing here is called '${unknown}'`, didYouMean(unknown, known));
}

/** What the systems that a fault cannot reach go through meanwhile: their normal life. */
function normalElsewhere(stage: Stage, setting: Setting, days: number, options: ReportOptions): Trace | null {
  const others = stage.model.systems.map((system) => system.index).filter((index) => !setting.systems.includes(index));
  if (others.length === 0 || !options.everywhere) return null;
  const { circumstance } = setting;
  const elsewhere = stage.setting(circumstance, others, days);
  const recorder = new Recorder(elsewhere, options.only, options.stepMin);
  restore(elsewhere.twin, elsewhere.start);
  advance(elsewhere.twin, 0);
  for (const tS of evenGrid(days, options.stepMin)) {
    advance(elsewhere.twin, tS);
    recorder.take(elsewhere.twin, tS);
  }
  return recorder.trace();
}

/** Adds what went on elsewhere to a trace, moment by moment. */
function withElsewhere(trace: Trace, elsewhere: Trace | null): Trace {
  if (elsewhere === null) return trace;
  const placeOf = new Map(elsewhere.t_min.map((minute, place) => [minute, place]));
  const places = trace.t_min.map((minute) => placeOf.get(minute) ?? elsewhere.t_min.length - 1);
  const truth = Object.entries(elsewhere.truth).map(([name, values]) => [name, places.map((place) => values[place])]);
  const sensed = Object.entries(elsewhere.sensed).map(([name, values]) => [name, places.map((place) => values[place])]);
  return {
    t_min: trace.t_min,
    truth: { ...Object.fromEntries(truth), ...trace.truth },
    sensed: { ...Object.fromEntries(sensed), ...trace.sensed },
  };
}

/** Five digits are more than any sensor has. */
function round(value: number): number {
  return Number.isFinite(value) ? Number(value.toPrecision(6)) : 0;
}

/** Runs a drill and tells all of it. */
export function reportDrill(
  stage: Stage,
  faults: readonly Fault[],
  circumstance: Circumstance,
  options: ReportOptions,
): DrillReport {
  const systems = reachOf(stage.model, faults);
  const days = options.days ?? circumstance.horizonDays;
  const setting = stage.setting(circumstance, systems, days);
  const judged = judge(setting, faults);
  const alone = recordAlone(setting, evenGrid(days, options.stepMin), faults, judged.scene, options);
  const elsewhere = normalElsewhere(stage, setting, days, options);
  const helped = recordHelp(setting, alone.course, judged.help, options, alone.trace);
  const actMin = judged.result.minutes.acting ?? Number.POSITIVE_INFINITY;
  const events = [
    ...courseEvents(
      alone.events.filter((event) => event.t_min <= actMin),
      faults,
    ),
    ...helped.events.map(toDrillEvent).filter((event) => event.t_min > actMin),
    ...peopleEvents(judged.course, judged.help, faults, actMin),
    ...harmEvents(judged.course),
  ];
  return {
    ...judged.result,
    site: stage.model.site.name,
    engine: ENGINE,
    seed: stage.seed,
    starts: circumstance.startsLocal,
    events: events.sort((a, b) => a.t_min - b.t_min),
    trace: withElsewhere(helped.trace, elsewhere),
    telling: mainQuantity(judged.course, judged.result),
    unattended: { trace: withElsewhere(alone.trace, elsewhere), events: alone.events },
    people: peopleSpans(judged.scene, judged.help, days, judged.course),
    thresholds: thresholds(stage),
    later: laterActs(setting, judged.course, judged.help, mainQuantity(judged.course, judged.result)),
  };
}

export function evenGrid(days: number, stepMin: number): Float64Array {
  const count = Math.floor((days * 1440) / stepMin) + 1;
  return Float64Array.from({ length: count }, (_, place) => place * stepMin * 60);
}

function recordAlone(
  setting: Setting,
  between: Float64Array,
  faults: readonly Fault[],
  scene: Scene,
  options: ReportOptions,
) {
  const recorder = new Recorder(setting, options.only, options.stepMin);
  const twinEvents: TwinEvent[] = [];
  const onEvent = (event: TwinEvent) => {
    if (event.tS >= 0) twinEvents.push(event);
  };
  const course = runCourse(setting, faults, scene, {
    early: false,
    onEvent,
    onGrid: (tS) => recorder.take(setting.twin, tS),
    between,
  });
  return { course, trace: recorder.trace(), events: twinEvents.map(toDrillEvent) };
}

export function toDrillEvent(event: TwinEvent): DrillEvent {
  const kind = event.kind === "stand-in" || event.kind === "hub" ? "device" : event.kind;
  return { t_min: round(event.tS / 60), kind, part: event.part, person: null, text: event.text };
}

/** The attended course: as alone until someone acts, then from the act on. */
function recordHelp(
  setting: Setting,
  course: Course,
  help: Help,
  options: ReportOptions,
  alone: Trace,
): { readonly trace: Trace; readonly events: readonly TwinEvent[] } {
  if (!Number.isFinite(help.actingS)) return { trace: alone, events: [] };
  const recorder = new Recorder(setting, options.only, options.stepMin);
  const events: TwinEvent[] = [];
  attempt(setting, course, help.actingS, watch(setting, recorder, options.stepMin, horizonOf(setting), events));
  return { trace: joined(alone, recorder.trace(), help.actingS / 60), events };
}

function joined(first: Trace, second: Trace, fromMin: number): Trace {
  const keep = first.t_min.filter((minute) => minute < fromMin).length;
  const start = second.t_min.findIndex((minute) => minute >= fromMin);
  const cut = (a: readonly (number | null)[] | undefined, b: readonly (number | null)[] | undefined) => [
    ...(a ?? []).slice(0, keep),
    ...(b ?? []).slice(Math.max(start, 0)),
  ];
  return {
    t_min: cut(first.t_min, second.t_min) as number[],
    truth: Object.fromEntries(
      Object.keys(first.truth).map((name) => [name, cut(first.truth[name], second.truth[name]) as number[]]),
    ),
    sensed: Object.fromEntries(
      Object.keys(first.sensed).map((name) => [name, cut(first.sensed[name], second.sensed[name])]),
    ),
  };
}

function courseEvents(events: readonly DrillEvent[], faults: readonly Fault[]): DrillEvent[] {
  const start = faults.map(
    (fault): DrillEvent => ({
      t_min: 0,
      kind: "fault",
      part: fault.part,
      person: null,
      text: `${fault.mode.name}: ${fault.part}`,
    }),
  );
  return [...start, ...events];
}

function harmEvents(course: Course): DrillEvent[] {
  const what = course.harmWhat === null ? "harm" : harmInWords(course.harmWhat);
  const events: DrillEvent[] = [];
  if (Number.isFinite(course.signS))
    events.push({
      t_min: round(course.signS / 60),
      kind: "water",
      part: course.signWhat,
      person: null,
      text: `first measurable sign: ${course.signWhat}`,
    });
  for (const end of ["early", "likely"] as const) {
    if (Number.isFinite(course.harm[end]))
      events.push({
        t_min: round(course.harm[end] / 60),
        kind: "harm",
        part: course.harmWhat?.body ?? null,
        person: null,
        text: `${what} (${end})`,
      });
  }
  return events;
}

function peopleEvents(course: Course, help: Help, faults: readonly Fault[], actMin: number): DrillEvent[] {
  const events: DrillEvent[] = [];
  for (const notice of course.notices.filter((one) => one.raisedS / 60 <= actMin)) {
    if (Number.isFinite(notice.sentS))
      events.push({
        t_min: round(notice.sentS / 60),
        kind: "message",
        part: notice.rule,
        person: null,
        text:
          notice.from === "silence watch"
            ? `the watch outside says: ${notice.says}`
            : `the notice of ${notice.rule} leaves the house`,
      });
    else
      events.push({
        t_min: round(notice.raisedS / 60),
        kind: "message",
        part: notice.rule,
        person: null,
        text: `the notice of ${notice.rule} finds no way out`,
      });
  }
  for (const told of help.response?.told ?? [])
    events.push({
      t_min: round(told.readS / 60),
      kind: "message",
      part: null,
      person: told.person,
      text: `${told.person} reads it (${told.channel})`,
    });
  for (const word of help.response?.words ?? [])
    events.push({ t_min: round(word.tS / 60), kind: "person", part: null, person: word.person, text: word.text });
  const seen = course.sightings[0];
  if (seen)
    events.push({
      t_min: round(seen.tS / 60),
      kind: "look",
      part: null,
      person: seen.person,
      text: `${seen.person} looks in and sees: ${seen.saw}`,
    });
  if (Number.isFinite(help.actingS) && help.actor) {
    const acts = faults.map((fault) => fault.mode.end.act.replaceAll("{part}", fault.part)).join("; ");
    events.push({
      t_min: round(help.actingS / 60),
      kind: "person",
      part: faults[0].part,
      person: help.actor,
      text: `${help.actor} is there: ${acts}`,
    });
    events.push({
      t_min: round(help.actingS / 60 + workMinutes(course)),
      kind: "end",
      part: faults[0].part,
      person: help.actor,
      text: "ended",
    });
  }
  return events;
}

function peopleSpans(scene: Scene, help: Help, days: number, course: Course): DrillReport["people"] {
  return scene.site.people.map((person) => {
    const spans: { from_min: number; to_min: number; what: string }[] = [];
    const away = scene.circumstance.away.find((one) => one.person === person.id);
    if (away) spans.push({ from_min: 0, to_min: Math.min(days * 1440, away.backAfterH * 60), what: "away" });
    else if (person.asleep)
      spans.push(
        ...windowSpans(
          days,
          (tS) => windowHolds(person.asleep!, dayOfWeekAt(scene.clock, tS), minuteOfDayAt(scene.clock, tS)),
          "asleep",
        ),
      );
    if (help.actor === person.id && Number.isFinite(help.actingS)) {
      const told = help.response?.told.find((one) => one.person === person.id);
      if (told && told.readS < help.actingS)
        spans.push({ from_min: round(told.readS / 60), to_min: round(help.actingS / 60), what: "on the way" });
      spans.push({
        from_min: round(help.actingS / 60),
        to_min: round(help.actingS / 60 + workMinutes(course)),
        what: "acting",
      });
    }
    return { person: person.id, spans };
  });
}

function windowSpans(days: number, holds: (tS: number) => boolean, what: string) {
  const spans: { from_min: number; to_min: number; what: string }[] = [];
  const STEP = 10;
  let from: number | null = null;
  for (let minute = 0; minute <= days * 1440; minute += STEP) {
    const inside = holds(minute * 60);
    if (inside && from === null) from = minute;
    if (!inside && from !== null) {
      spans.push({ from_min: from, to_min: minute, what });
      from = null;
    }
  }
  if (from !== null) spans.push({ from_min: from, to_min: days * 1440, what });
  return spans;
}

function thresholds(stage: Stage): DrillReport["thresholds"] {
  return stage.model.site.rules.flatMap((rule) =>
    rule.when.all.flatMap((term) => {
      const limit = term.is;
      if (limit.op !== "below" && limit.op !== "above") return [];
      return [
        { sensor: term.sensor, rule: rule.id, value: limit.value, text: `${rule.id}, ${limit.op} ${limit.value}` },
      ];
    }),
  );
}

/** The quantity whose curve tells the story of the harm. */
function mainQuantity(course: Course, result: DrillResult): string | null {
  const body = course.harmWhat?.body ?? result.faults[0]?.part;
  const names: Readonly<Record<string, string>> = {
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
  if (course.harmWhat?.stressor === "water on the floor") return "floor.water_l";
  const quantity = names[course.harmWhat?.stressor ?? "heat"];
  return body === undefined || quantity === undefined ? null : `${body}.${quantity}`;
}

/** What would follow had the act come later than rehearsed. */
function laterActs(setting: Setting, course: Course, help: Help, quantity: string | null): DrillReport["later"] {
  if (!Number.isFinite(help.actingS) || !Number.isFinite(course.harm.early)) return [];
  return DELAYS_MIN.map((delay) => {
    const recorder = new Recorder(setting, [quantity ?? "floor.water_l"], LATER_STEP_MIN);
    const tried = attempt(
      setting,
      course,
      help.actingS + delay * 60,
      watch(setting, recorder, LATER_STEP_MIN, horizonOf(setting)),
    );
    const trace = recorder.trace();
    const verdict: VerdictKind = tried.spared ? "handed over" : Number.isFinite(help.sentS) ? "late" : "unseen";
    return {
      delay_min: delay,
      verdict,
      harm_early: Number.isFinite(tried.harmEarlyS) ? round(tried.harmEarlyS / 60) : null,
      harm_likely: Number.isFinite(tried.harmLikelyS) ? round(tried.harmLikelyS / 60) : null,
      trace: { t_min: trace.t_min, ...trace.truth },
    };
  });
}
