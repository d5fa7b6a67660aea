/**
 * The course of a fault with rules but nobody: run once, kept in snapshots, so that every "what if someone came then" can
 * start near its moment.
 */
import { HARM_DOSE } from "../science/index.ts";
import {
  advance,
  floorL,
  openAfterCut,
  restore,
  snapshot,
  type TwinEvent,
  timeS,
  worstDose,
  worstHarm,
} from "../twin/index.ts";
import { leversPulled, makeBench, stirs } from "./faults/bench.ts";
import type { Fault } from "./faults/fault.ts";
import { Messenger, type Notice } from "./messenger.ts";
import { looksBetween, type Scene } from "./people.ts";
import type { Setting } from "./setting.ts";
import { Steadiness } from "./steadiness.ts";

const DAY_S = 86_400;
const HOUR_S = 3600;
/** How long a course goes on after late harm once somebody has learned of it, s. */
const LEARNED_S = 6 * HOUR_S;
/**
 * Water on the floor that counts as harm to the house, L, at the early, likely and late end; so many times as much over a
 * floor drain, which swallows most of a litre a second (EN 1253). */
const FLOOR_HARM_L = { early: 20, likely: 50, late: 150 } as const;
const FLOOR_DRAIN = 10;

export interface HarmTimes {
  early: number;
  likely: number;
  late: number;
}

export interface Sighting {
  readonly person: string;
  readonly tS: number;
  readonly saw: string;
}

export interface Course {
  readonly faults: readonly Fault[];
  readonly snapshots: readonly { readonly tS: number; readonly state: Float64Array; readonly dosesEarly: number }[];
  readonly harm: HarmTimes;
  readonly harmWhat: { readonly body: string; readonly group: string; readonly stressor: string } | null;
  readonly signS: number;
  readonly signWhat: string | null;
  readonly notices: readonly Notice[];
  /** Rules that acted though they rest in normal life, and stand-ins that stepped in. */
  readonly acted: readonly { readonly part: string; readonly tS: number; readonly text: string }[];
  readonly sightings: readonly Sighting[];
  readonly floorL: number;
  /** Nothing in the water or the devices differs from normal life. */
  readonly moved: boolean;
  readonly endS: number;
}

/** What stops a course before its horizon. */
export interface CourseLimits {
  /** Stop as soon as nothing more can be learned. */
  readonly early: boolean;
  readonly onEvent?: (event: TwinEvent) => void;
  /** Called at every moment of the drill's grid, and of `between`, s. */
  readonly onGrid?: (tS: number) => void;
  /** Further moments to stop at, ascending, s. */
  readonly between?: Float64Array;
}

/** Rooms with a floor drain bear more. */
function floorFactor(setting: Setting): number {
  return setting.model.site.rooms.every((room) => room.floorDrain) ? FLOOR_DRAIN : 1;
}

/** Dose of harm at one end: livestock, or water on the floor, whichever is nearer to harm (HARM_DOSE.harm). */
export function harmDose(setting: Setting, end: keyof typeof FLOOR_HARM_L): number {
  const wet = floorL(setting.twin) - floorL0(setting);
  return Math.max(worstDose(setting.twin, end), (wet / (FLOOR_HARM_L[end] * floorFactor(setting))) * HARM_DOSE.harm);
}

function floorL0(setting: Setting): number {
  return setting.normal.signs[setting.normal.columns.length - 1];
}

export function runCourse(setting: Setting, faults: readonly Fault[], scene: Scene, limits: CourseLimits): Course {
  const { twin, grid, normal } = setting;
  restore(twin, setting.start);
  advance(twin, 0);
  const messenger = new Messenger(twin);
  const acted: { part: string; tS: number; text: string }[] = [];
  twin.onEvent = (event) => {
    limits.onEvent?.(event);
    if (event.kind === "notice" && !normal.routine.has(event.part)) messenger.raise(event.part, event.text, event.tS);
    const unusual =
      (event.kind === "rule" && !normal.routine.has(event.part)) ||
      (event.kind === "stand-in" && !normal.standIns.has(event.part));
    if (unusual && actsOnDevices(setting, event)) acted.push({ part: event.part, tS: event.tS, text: event.text });
  };
  const bench = makeBench(twin);
  for (const fault of faults) fault.mode.inject(bench, fault.part);
  const harm: HarmTimes = {
    early: Number.POSITIVE_INFINITY,
    likely: Number.POSITIVE_INFINITY,
    late: Number.POSITIVE_INFINITY,
  };
  const before = { early: 0, likely: 0, late: 0 };
  const snapshots: { tS: number; state: Float64Array; dosesEarly: number }[] = [
    { tS: 0, state: snapshot(twin), dosesEarly: 0 },
  ];
  const sightings: Sighting[] = [];
  let signS = Number.POSITIVE_INFINITY;
  let signWhat: string | null = null;
  let harmWhat: Course["harmWhat"] = null;
  let moved = false;
  let endS = 0;
  const idle = faults.every(
    (fault) =>
      leversPulled(setting.model, fault).every(([part, lever]) => !stirs(setting.model, part, lever)) &&
      fault.mode.onset !== "creeping",
  );
  const nobodyLooks = setting.circumstance.closed || scene.site.people.every((person) => person.looks.length === 0);
  const steadiness = new Steadiness(setting);
  const endings = faults
    .filter((fault) => fault.mode.lastsMin !== undefined)
    .map((fault) => ({ fault, tS: fault.mode.lastsMin! * 60 }));
  let next = 0;
  limits.onGrid?.(0);
  messenger.deliver(0);
  for (let place = 1; place < grid.length; place++) {
    const fromS = grid[place - 1];
    const toS = grid[place];
    for (const ending of endings.filter((one) => one.tS > fromS && one.tS <= toS)) {
      advance(twin, ending.tS);
      endItself(setting, ending.fault, false);
    }
    next = stopBetween(setting, limits, next, toS);
    advance(twin, toS);
    endS = toS;
    messenger.deliver(toS);
    limits.onGrid?.(toS);
    crossings(setting, harm, before, fromS, toS);
    for (const end of ["early", "likely", "late"] as const)
      if (Number.isFinite(harm[end]) && isPlainLife(setting, end, harm[end])) harm[end] = Number.POSITIVE_INFINITY;
    if (harmWhat === null && harm.early <= toS)
      harmWhat = worstHarm(twin) ?? { body: "floor", group: "house", stressor: "water on the floor" };
    const sign = signs(setting, place, steadiness.gaps);
    if (sign.measurable !== null) {
      moved = true;
      if (signS > toS) {
        signS = toS;
        signWhat = sign.measurable;
      }
    }
    for (const look of looksBetween(scene, fromS, toS)) {
      const saw = whatIsSeen(faults, sign.visible, look.tS, before.likely);
      if (saw !== null && sightings.length < 8)
        sightings.push({ person: look.person.id, tS: Math.max(look.tS, fromS), saw });
    }
    const isMark = toS <= 2 * HOUR_S || toS % (toS <= DAY_S ? HOUR_S : 3 * HOUR_S) === 0;
    if (isMark) snapshots.push({ tS: toS, state: snapshot(twin), dosesEarly: before.early });
    if (!limits.early) continue;
    const learned = sightings.length > 0 || messenger.notices.some((notice) => Number.isFinite(notice.sentS));
    const isOver = endings.every((one) => toS > one.tS + LEARNED_S);
    if (isOver && toS >= harm.late + (learned ? LEARNED_S : nobodyLooks ? DAY_S : 3 * DAY_S)) break;
    const quiet =
      faults.every((fault) => fault.mode.onset !== "creeping") &&
      endings.every((one) => toS > one.tS + DAY_S) &&
      messenger.notices.every((notice) => notice.raisedS < toS - DAY_S && Number.isFinite(notice.sentS)) &&
      acted.every((one) => one.tS < toS - DAY_S);
    if (
      Number.isFinite(signS) &&
      steadiness.holds(place, before.early) &&
      quiet &&
      harm.early === Number.POSITIVE_INFINITY
    )
      break;
    const isWholeDay =
      toS % DAY_S === 0 &&
      endings.every((one) => toS > one.tS + DAY_S) &&
      messenger.notices.every((notice) => Number.isFinite(notice.sentS));
    if (isWholeDay && !moved && (toS >= 2 * DAY_S || idle) && sameAsNormal(setting, toS / DAY_S)) break;
  }
  twin.onEvent = null;
  return {
    faults,
    snapshots,
    harm,
    harmWhat,
    signS,
    signWhat,
    notices: messenger.notices,
    acted,
    sightings,
    floorL: floorL(twin) - floorL0(setting),
    moved,
    endS,
  };
}

/** Stops at the further moments before `toS`; returns the place of the next one. */
function stopBetween(setting: Setting, limits: CourseLimits, place: number, toS: number): number {
  const moments = limits.between;
  if (!moments) return place;
  let next = place;
  while (next < moments.length && moments[next] < toS) {
    if (moments[next] > timeS(setting.twin)) {
      advance(setting.twin, moments[next]);
      limits.onGrid?.(moments[next]);
    }
    next++;
  }
  return next;
}

/**
 * A fault that ends by itself: what it held down comes back. Breakers that need a hand stay open after the mains were away,
 * unless someone who knows of it is about (`minded`).
 */
export function endItself(setting: Setting, fault: Fault, minded: boolean): void {
  const bench = makeBench(setting.twin);
  for (const [part, lever] of leversPulled(setting.model, fault)) bench.release(part, lever);
  if (fault.part === "mains" && !minded) openAfterCut(setting.twin);
}

function actsOnDevices(setting: Setting, event: TwinEvent): boolean {
  if (event.kind === "stand-in") return true;
  return (setting.model.site.rules.find((rule) => rule.id === event.part)?.act.length ?? 0) > 0;
}

/** Harm that plain life does at the same time, or that it has done before, is not this fault's doing, s of grace. */
const GRACE_S = HOUR_S;

function isPlainLife(setting: Setting, end: keyof HarmTimes, tS: number): boolean {
  return tS >= setting.normal.harm[end] - GRACE_S;
}

/** Notes when a dose passes the harm mark, interpolated within the stretch. */
function crossings(setting: Setting, harm: HarmTimes, before: HarmTimes, fromS: number, toS: number): void {
  for (const end of ["early", "likely", "late"] as const) {
    const dose = harmDose(setting, end);
    if (harm[end] === Number.POSITIVE_INFINITY && dose >= HARM_DOSE.harm) {
      const share = (HARM_DOSE.harm - before[end]) / Math.max(dose - before[end], 1e-12);
      harm[end] = fromS + Math.min(1, Math.max(0, share)) * (toS - fromS);
    }
    before[end] = dose;
  }
}

function signs(
  setting: Setting,
  place: number,
  gaps: Float64Array,
): { measurable: string | null; visible: string | null } {
  const { columns, signs: normal } = setting.normal;
  let measurable: string | null = null;
  let visible: string | null = null;
  for (let index = 0; index < columns.length; index++) {
    const column = columns[index];
    const signed = column.read(setting.twin) - normal[place * columns.length + index];
    gaps[place * columns.length + index] = signed;
    const gap = Math.abs(signed);
    if (gap >= column.measurable && measurable === null) measurable = column.name;
    if (gap >= column.visible && visible === null) visible = column.name;
  }
  return { measurable, visible };
}

/** Stress that shows on animals, as a share of the dose that harms. */
const SHOWN_DOSE = HARM_DOSE.stress;

function whatIsSeen(faults: readonly Fault[], visible: string | null, tS: number, likelyDose: number): string | null {
  if (visible !== null) return visible;
  if (likelyDose >= SHOWN_DOSE) return "animals in distress";
  const shown = faults.find(
    (fault) =>
      fault.mode.sight !== "nothing" &&
      fault.mode.sight !== "animals" &&
      fault.mode.onset === "sudden" &&
      (fault.mode.lastsMin === undefined || tS < fault.mode.lastsMin * 60),
  );
  return shown ? shown.mode.sight : null;
}

/** Whether the water and the devices are bit for bit where normal life has them on a given day. */
function sameAsNormal(setting: Setting, day: number): boolean {
  const normal = setting.normal.days[day];
  if (!normal) return false;
  const { layout } = setting.model;
  for (let at = layout.bodies; at < layout.sensors; at++)
    if (!Object.is(setting.twin.state[at], normal[at])) return false;
  return true;
}
