/** What a rehearsal tries, in a fixed order: every fault of every part in every circumstance, and pairs where asked. */

import type { Circumstance, Site } from "../site/index.ts";
import type { Model } from "../twin/index.ts";
import { type Fault, faultsOf } from "./faults/index.ts";
import { reachOf } from "./reach.ts";

export interface PlannedDrill {
  readonly faults: readonly Fault[];
  readonly circumstance: Circumstance;
  /** Systems to simulate. */
  readonly systems: readonly number[];
}

/** Circumstance in which pairs are tried: the one with the least help. */
function pairCircumstance(site: Site): Circumstance {
  return site.circumstances.find((one) => one.id === "away") ?? site.circumstances[site.circumstances.length - 1];
}

/** All drills of a rehearsal, in the order of its results. */
export function planOf(model: Model, pairs: boolean): readonly PlannedDrill[] {
  return pairs ? [...planSingles(model), ...planPairs(model).drills] : planSingles(model);
}

export function planSingles(model: Model): PlannedDrill[] {
  const singles = faultsOf(model.site).map((fault) => ({ faults: [fault], systems: reachOf(model, [fault]) }));
  return model.site.circumstances.flatMap((circumstance) => singles.map((single) => ({ ...single, circumstance })));
}

/**
 * Ordered pairs: a latent fault first, then the fault of a part that it backs. Two faults that cannot meet (no shared water,
 * power, person or message) are left out; their verdict follows from the singles.
 */
export function planPairs(model: Model): { readonly drills: readonly PlannedDrill[]; readonly leftOut: number } {
  const faults = faultsOf(model.site);
  const circumstance = pairCircumstance(model.site);
  const latent = faults.filter((fault) => fault.mode.onset === "latent");
  const triggers = faults.filter((fault) => fault.mode.onset !== "latent");
  const drills: PlannedDrill[] = [];
  for (const first of latent) {
    const backs = new Set(first.mode.backs?.(model.site, first.part) ?? []);
    for (const second of triggers) {
      if (!backs.has(second.part)) continue;
      drills.push({ faults: [first, second], circumstance, systems: reachOf(model, [first, second]) });
    }
  }
  return { drills, leftOut: faults.length * (faults.length - 1) - drills.length };
}
