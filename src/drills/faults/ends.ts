/** What people do to end faults, where several modes share it. */
import { bodyById, deviceById } from "../../site/index.ts";
import type { Bench } from "./fault.ts";
import { circuitsAbove, isLivestocked } from "./parts.ts";

/**
 * Share of a body's water that borrowed air pumps on batteries, and a jug in patient hands, bring to saturation in an hour:
 * 150 L/h of air for 400 L of water, or ten minutes of pouring in every hour.
 */
const HAND_AERATION_PER_H = 0.3;
/** Of these a second one carries on when the first is unplugged. */
const INTERCHANGEABLE = new Set(["heater", "chiller", "fan", "wave-pump", "air-pump"]);

/** It works again as built: cleaned, mended or replaced. */
export function mend(bench: Bench, part: string): void {
  bench.release(part);
}

/**
 * Pulls the plug for good where another device of the kind carries on. A sole one is worked by hand or replaced within the
 * day, which the twin takes as working again.
 */
export function unplug(bench: Bench, part: string): void {
  bench.release(part);
  const { devices } = bench.site;
  const own = deviceById(bench.site, part);
  const another = devices.some((other) => other.id !== part && other.kind === own.kind && other.system === own.system);
  if (another && INTERCHANGEABLE.has(own.kind)) bench.set(part, "dead", 1);
}

/** Closes a circuit and what it hangs from. */
export function closeAbove(bench: Bench, circuit: string | null): void {
  for (const one of circuitsAbove(bench.site, circuit)) bench.closeCircuit(one.id);
}

/** Takes a leaking device off its socket and closes what it opened. */
export function unplugAndClose(bench: Bench, part: string): void {
  unplug(bench, part);
  closeAbove(bench, deviceById(bench.site, part).on);
}

/** Keeps oxygen in every body that holds animals. */
export function aerateByHand(bench: Bench): void {
  for (const body of bench.site.bodies) if (isLivestocked(body)) aerateBody(bench, body.id);
}

export function aerateBody(bench: Bench, body: string): void {
  bench.set(body, "aerateKgH", HAND_AERATION_PER_H * bodyById(bench.site, body).volumeL);
}

/** Share of the water that is changed where matter rots: a third of it, and as much again for what a net takes out. */
export const CLEAN_UP_SHARE = 0.6;

/** Changes part of the water of the system that a body belongs to. */
export function changeWaterOf(bench: Bench, body: string, share: number): void {
  const system = bench.site.bodies.find((one) => one.id === body)?.system;
  if (system !== undefined) bench.changeWater(system, share);
}

/** Gives a device its life back and fills what it draws from. */
export function mendAndRefill(bench: Bench, part: string): void {
  bench.release(part);
  const { from } = deviceById(bench.site, part);
  if (from !== null) bench.refill(from);
}
