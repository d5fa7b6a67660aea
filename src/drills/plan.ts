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
 * Pairs: every latent fault, then every other fault. Both are there from the beginning, so that of two latent ones the order means
 * nothing, and they count once, in the order of the catalogue. A fault that stays hidden by itself though the catalogue does not
 * call it latent may be first as well; such pairs are counted as left out.
 */
export function planPairs(model: Model): { readonly drills: readonly PlannedDrill[]; readonly leftOut: number } {
  const faults = faultsOf(model.site);
  const circumstance = pairCircumstance(model.site);
  const isLatent = (fault: Fault) => fault.mode.onset === "latent";
  const drills = faults.flatMap((second, place) =>
    faults
      .filter((first, before) => isLatent(first) && first !== second && (before < place || !isLatent(second)))
      .map((first) => ({ faults: [first, second], circumstance, systems: reachOf(model, [first, second]) })),
  );
  const sudden = faults.length - faults.filter(isLatent).length;
  return { drills, leftOut: sudden * (sudden - 1) };
}
