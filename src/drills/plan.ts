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

/** The pairs of a part that was hidden first and one that fails then, counted. */
export interface PairCount {
  readonly first: string;
  readonly trigger: string;
  readonly planned: number;
  /** Both wait unseen, or only the second does: such a pair is drilled the other way round. */
  readonly reversed: number;
  /** Neither waits unseen: whoever meets the first knows of it before the second comes. */
  readonly open: number;
}

/** How many pairs there are, how many of them a rehearsal tries, and which it leaves out; each pair counts once. */
export interface PairCensus {
  readonly faults: number;
  readonly pairs: number;
  readonly planned: number;
  readonly open: number;
  /** By the parts of pairs that are tried; where none is, there is no line. */
  readonly cells: readonly PairCount[];
}

/** Every ordered pair of two different faults by what becomes of it, as planPairs has it. */
export function pairCensus(site: Site): PairCensus {
  const faults = faultsOf(site);
  const latent = faults.map(({ mode }) => mode.onset === "latent");
  const cells = new Map<string, { first: string; trigger: string; planned: number; reversed: number; open: number }>();
  let planned = 0;
  let openPairs = 0;
  for (const [before, first] of faults.entries()) {
    for (const [place, second] of faults.entries()) {
      if (before === place) continue;
      const key = `${first.part} ${second.part}`;
      const cell = cells.get(key) ?? { first: first.part, trigger: second.part, planned: 0, reversed: 0, open: 0 };
      cells.set(key, cell);
      if (latent[before] && (before < place || !latent[place])) {
        cell.planned += 1;
        planned += 1;
      } else if (latent[place]) cell.reversed += 1;
      else {
        cell.open += 1;
        openPairs += 1;
      }
    }
  }
  return {
    faults: faults.length,
    pairs: (faults.length * (faults.length - 1)) / 2,
    planned,
    open: openPairs / 2,
    cells: [...cells.values()].filter((cell) => cell.planned > 0),
  };
}
