/**
 * Pairs: a latent fault was there already, then another happens. Where the first makes no difference to the course of the second,
 * only help and verdict are worked out anew; all else is run. docs/how/drills.md, "Pairs".
 */
import { type Course, giveBack } from "./course.ts";
import { type InReach, judgeCourse, judgeInReach, sceneOf } from "./drill.ts";
import { leversPulled } from "./faults/bench.ts";
import { type Fault, faultId } from "./faults/fault.ts";
import type { PlannedDrill } from "./plan.ts";
import { reachOf } from "./reach.ts";
import { restingLevers } from "./resting.ts";
import type { Setting } from "./setting.ts";
import type { Stage } from "./stage.ts";
import type { DrillResult } from "./types.ts";

/** Judges the drills of a plan; those that follow one another with the same trigger share its course. */
export class Rehearser {
  readonly #stage: Stage;
  #trigger: InReach | null = null;
  /** First signs of the first faults of pairs alone, s; null for those that do not stay silent. */
  readonly #firsts = new Map<string, number | null>();

  constructor(stage: Stage) {
    this.#stage = stage;
  }

  run(drill: PlannedDrill): DrillResult {
    const [first, second] = drill.faults;
    if (first === undefined) throw new Error("A drill without a fault");
    return second === undefined ? this.#single(drill, first).result : this.#pair(drill, first, second);
  }

  #single(drill: PlannedDrill, fault: Fault): InReach {
    const known = this.#trigger;
    if (known && known.setting.circumstance === drill.circumstance && known.course.faults[0] === fault) return known;
    if (known) giveBack(known.setting, known.course);
    this.#trigger = this.#alone(drill, fault);
    return this.#trigger;
  }

  #alone({ circumstance }: PlannedDrill, fault: Fault): InReach {
    return judgeInReach(this.#stage, [fault], circumstance);
  }

  #pair(drill: PlannedDrill, first: Fault, second: Fault): DrillResult {
    const trigger = this.#single(drill, second);
    const normal = this.#stage.setting(drill.circumstance, reachOf(this.#stage.model, [first]));
    const pulled = restingLevers(normal, first);
    const derived = pulled ? atRest(normal, first, pulled, trigger) : this.#apart(drill, first, trigger);
    if (derived) return derived;
    const { setting, course, result } = judgeInReach(this.#stage, drill.faults, drill.circumstance);
    giveBack(setting, course);
    return result;
  }

  /** Where the first fault is silent in other systems than the trigger's, all that it adds is its own first sign. */
  #apart(drill: PlannedDrill, first: Fault, trigger: InReach): DrillResult | null {
    const own = reachOf(this.#stage.model, [first]);
    if (own.some((system) => trigger.setting.systems.includes(system))) return null;
    const key = `${drill.circumstance.id}:${faultId(first)}`;
    let signS = this.#firsts.get(key);
    if (signS === undefined) {
      const { setting, course } = this.#alone(drill, first);
      signS = isSilent(course) ? course.signS : null;
      this.#firsts.set(key, signS);
      giveBack(setting, course);
    }
    if (signS === null) return null;
    const reason = `${first.part} does no harm by itself and shares nothing with ${nameOf(trigger)}`;
    return withFirst(first, trigger, reason, signS);
  }
}

/** Where nothing ever asks for what the first fault holds, the course is the trigger's, bit for bit. */
function atRest(normal: Setting, first: Fault, pulled: readonly number[], trigger: InReach): DrillResult | null {
  if (shareAPart(normal, first, trigger)) return null;
  const isAsked = () => pulled.some((place) => normal.normal.asked[place] > 0 || trigger.course.asked[place] > 0);
  if (isAsked()) return null;
  const result = withFirst(first, trigger, `nothing asks for ${first.part} in the course of ${nameOf(trigger)}`);
  // Later attempts than those tried before may have asked for it.
  return isAsked() ? null : result;
}

function nameOf({ course }: InReach): string {
  return faultId(course.faults[0]);
}

/** The trigger's course with a first fault that makes no difference to it. */
function withFirst(
  first: Fault,
  { setting, course, attempts }: InReach,
  derived: string,
  signS = Infinity,
): DrillResult {
  const faults = [first, ...course.faults];
  const both: Course = { ...course, faults, signS: Math.min(signS, course.signS) };
  return { ...judgeCourse(setting, both, sceneOf(setting, faults), attempts).result, derived };
}

/** Nobody is told, nothing acts, nothing is seen, no harm. */
function isSilent({ notices, acted, sightings, harm, floorL }: Course): boolean {
  return notices.length + acted.length + sightings.length === 0 && !Number.isFinite(harm.early) && floorL <= 0;
}

/** Whoever ends one of them would put back the levers of the other. */
function shareAPart({ model }: Setting, first: Fault, { course }: InReach): boolean {
  const parts = new Set(leversPulled(model, first).map(([part]) => part));
  return leversPulled(model, course.faults[0]).some(([part]) => parts.has(part));
}
