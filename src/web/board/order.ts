import type { DrillResult, Site, VerdictKind } from "../../server/contract/index.ts";
import { partsOf } from "../parts/names.tsx";

/** The order of the tally and of nothing else: what is worst stands first. */
export const VERDICTS: readonly VerdictKind[] = [
  "unseen",
  "late",
  "handed over",
  "handled",
  "absorbed",
  "not simulated",
];

/** More rows than this are folded. */
export const FOLD = 60;

export type GroupBy = "none" | "system" | "circumstance" | "kind";

export interface BoardChoice {
  readonly verdict: VerdictKind | null;
  readonly system: string | null;
  readonly groupBy: GroupBy;
  readonly find: string;
}

/**
 * What to fix first stands first: unseen by their earliest harm, then by margin, then absorbed, then what was not simulated.
 *
 * A late drill to which nobody ever came has no margin and stands before all that have one; a handled drill without a margin
 * is one whose harm was never near, and stands after.
 */
export function ordered(drills: readonly DrillResult[]): readonly DrillResult[] {
  const keyed = drills.map((drill) => ({ drill, rank: rankOf(drill.verdict), size: sizeOf(drill) }));
  keyed.sort((a, b) => a.rank - b.rank || a.size - b.size || (a.drill.id < b.drill.id ? -1 : 1));
  return keyed.map(({ drill }) => drill);
}

function rankOf(verdict: VerdictKind): number {
  if (verdict === "unseen") return 0;
  if (verdict === "absorbed") return 2;
  return verdict === "not simulated" ? 3 : 1;
}

function sizeOf(drill: DrillResult): number {
  if (drill.verdict === "unseen") return drill.minutes.harm_early ?? Number.MAX_VALUE;
  if (drill.margin_min !== null) return drill.margin_min;
  return drill.verdict === "late" ? -Number.MAX_VALUE : Number.MAX_VALUE;
}

/** How many of each verdict there are among all drills. */
export function tally(drills: readonly DrillResult[]): ReadonlyMap<VerdictKind, number> {
  const counts = new Map<VerdictKind, number>();
  for (const { verdict } of drills) counts.set(verdict, (counts.get(verdict) ?? 0) + 1);
  return counts;
}

/** Those that fit every choice, in the same order. */
export function chosen(drills: readonly DrillResult[], choice: BoardChoice): readonly DrillResult[] {
  const sought = choice.find
    .trim()
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== "");
  return drills.filter(
    (drill) =>
      (choice.verdict === null || drill.verdict === choice.verdict) &&
      (choice.system === null || drill.system === choice.system) &&
      (sought.length === 0 || holdsAll(textOf(drill), sought)),
  );
}

function holdsAll(text: string, sought: readonly string[]): boolean {
  return sought.every((word) => text.includes(word));
}

/** What the search looks in: the fault's name, its parts, their place and time. Hyphens count as spaces too. */
function textOf(drill: DrillResult): string {
  const text = [drill.name, ...partsOf(drill), drill.system ?? "", drill.circumstance, drill.harm ?? ""]
    .join(" ")
    .toLowerCase();
  return `${text} ${text.replaceAll("-", " ")}`;
}

/** Rows of a folded board for each verdict, most for what is worst; what one leaves free goes to the next. */
const SHARES: Readonly<Record<VerdictKind, number>> = {
  unseen: 16,
  late: 16,
  "handed over": 14,
  handled: 9,
  absorbed: 5,
  "not simulated": 0,
};

/**
 * The rows of a folded board: the smallest margins of each verdict, first one of each kind of fault, since twenty heaters
 * that stay on tell no more than one. All rows where there are not more than `FOLD`.
 *
 * @param drills In board order, which is kept.
 */
export function folded(drills: readonly DrillResult[]): readonly DrillResult[] {
  if (drills.length <= FOLD) return drills;
  const picked = new Set<DrillResult>();
  let free = 0;
  for (const verdict of VERDICTS) {
    free += SHARES[verdict];
    const candidates = kindsFirst(drills.filter((drill) => drill.verdict === verdict));
    for (const drill of candidates.slice(0, free)) picked.add(drill);
    free -= Math.min(free, candidates.length);
  }
  return drills.filter((drill) => picked.has(drill));
}

/** The same drills, with the first of each kind of fault before all others. */
function kindsFirst(drills: readonly DrillResult[]): readonly DrillResult[] {
  const seen = new Set<string>();
  const first: DrillResult[] = [];
  const others: DrillResult[] = [];
  for (const drill of drills) {
    const isNew = !seen.has(drill.name);
    seen.add(drill.name);
    (isNew ? first : others).push(drill);
  }
  return [...first, ...others];
}

export interface Group {
  /** Id of a system, circumstance or kind of part; null for the whole site, and for rows that are not grouped. */
  readonly key: string | null;
  readonly drills: readonly DrillResult[];
}

/** Groups keep the order of their worst row. */
export function grouped(drills: readonly DrillResult[], groupBy: GroupBy, site: Site): readonly Group[] {
  if (groupBy === "none") return [{ key: null, drills }];
  const kinds = groupBy === "kind" ? kindsOf(site) : null;
  const groups = new Map<string | null, DrillResult[]>();
  for (const drill of drills) {
    const key =
      kinds !== null
        ? (kinds.get(drill.faults[0]?.part) ?? "other")
        : groupBy === "system"
          ? drill.system
          : drill.circumstance;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [drill]);
    else group.push(drill);
  }
  return [...groups].map(([key, members]) => ({ key, drills: members }));
}

/** What sort of thing each part is: the kind of a device, else its place in the site file. */
function kindsOf(site: Site): ReadonlyMap<string, string> {
  const named = (kind: string, parts: readonly { readonly id: string }[]): [string, string][] =>
    parts.map(({ id }) => [id, kind]);
  return new Map([
    ...named("room", site.rooms),
    ...named("circuit", site.circuits),
    ...named("battery", site.batteries),
    ...named("link", site.links),
    ...named("hub", site.hubs),
    ...named("system", site.systems),
    ...named("body", site.bodies),
    ...named("flow", site.flows),
    ...named("sensor", site.sensors),
    ...named("rule", site.rules),
    ...named("person", site.people),
    ["mains", "mains"],
    ...site.devices.map(({ id, kind }): [string, string] => [id, kind]),
  ]);
}
