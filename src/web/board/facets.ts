import type { DrillResult, Site } from "../../server/contract/index.ts";
import { kindsOf } from "./order.ts";

/** What there is to choose from. */
export interface Facets {
  readonly circumstances: readonly string[];
  /** Parts by their kind; in lists that are looked through by name, names are in order. */
  readonly parts: readonly { readonly kind: string; readonly parts: readonly string[] }[];
  readonly faults: readonly string[];
}

/** Only what some drill has: a choice that leaves nothing is none. */
export function facetsOf(drills: readonly DrillResult[], site: Site): Facets {
  const kinds = kindsOf(site);
  const byKind = new Map<string, Set<string>>();
  const faults = new Set<string>();
  const circumstances = new Set<string>();
  for (const drill of drills) {
    faults.add(drill.name);
    circumstances.add(drill.circumstance);
    for (const { part } of drill.faults) {
      const kind = kinds.get(part) ?? "other";
      const known = byKind.get(kind) ?? new Set<string>();
      byKind.set(kind, known.add(part));
    }
  }
  const inSite = site.circumstances.map(({ id }) => id).filter((id) => circumstances.has(id));
  return {
    circumstances: inSite,
    parts: [...byKind]
      .map(([kind, parts]) => ({ kind, parts: [...parts].sort() }))
      .sort((a, b) => (a.kind < b.kind ? -1 : 1)),
    faults: [...faults].sort(),
  };
}
