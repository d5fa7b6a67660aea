/** Faults that hold only levers which rest: nothing is different until something asks for them (src/twin/asked.ts). */
import { forgetAsked, pulledAtRest, restore } from "../twin/index.ts";
import { leversPulled, makeBench, stirs } from "./faults/bench.ts";
import type { Fault } from "./faults/fault.ts";
import type { Setting } from "./setting.ts";

/**
 * Places of the levers that a latent fault holds, where it does nothing else, all of them rest, and its end puts all back; null for
 * any other. Found by letting it happen at the beginning of its setting, which moves the twin there.
 */
export function restingLevers(setting: Setting, fault: Fault): readonly number[] | null {
  const known = restingOf.get(setting) ?? new Map<Fault, readonly number[] | null>();
  restingOf.set(setting, known);
  const before = known.get(fault);
  if (before !== undefined) return before;
  const found = isLatent(fault) ? tryAtRest(setting, fault) : null;
  known.set(fault, found);
  return found;
}

const restingOf = new WeakMap<Setting, Map<Fault, readonly number[] | null>>();

/** True where the course of these faults is normal life, bit for bit: nothing in it ever asks for what they hold. */
export function restThroughout(setting: Setting, faults: readonly Fault[]): boolean {
  return faults.every((fault) => {
    // What carries messages is asked for by them, and not by the twin.
    if (!leversPulled(setting.model, fault).every(([part, lever]) => stirs(setting.model, part, lever))) return false;
    return restingLevers(setting, fault)?.every((place) => setting.normal.asked[place] === 0) ?? false;
  });
}

function isLatent({ mode }: Fault): boolean {
  return mode.lastsMin === undefined && mode.onset === "latent";
}

function tryAtRest({ twin, start }: Setting, fault: Fault): readonly number[] | null {
  const bench = makeBench(twin);
  restore(twin, start);
  fault.mode.inject(bench, fault.part);
  const pulled = pulledAtRest(twin, start);
  fault.mode.end.apply(bench, fault.part);
  const left = pulledAtRest(twin, start);
  forgetAsked(twin);
  return left?.length === 0 ? pulled : null;
}
