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

export const GROUPS = ["none", "system", "circumstance", "verdict", "part", "kind", "fault"] as const;
export type GroupBy = (typeof GROUPS)[number];

/** By margin, by earliest harm, by how long nobody is told, by water on the floor. By name is not offered: it tells nothing. */
export const ORDERS = ["margin", "harm", "told", "floor"] as const;
export type Order = (typeof ORDERS)[number];

export interface BoardChoice {
  readonly verdict: VerdictKind | null;
  readonly system: string | null;
  readonly circumstance: string | null;
  readonly part: string | null;
  /** Name of a kind of fault. */
  readonly fault: string | null;
  readonly groupBy: GroupBy;
  readonly order: Order;
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

/**
 * The same drills in another order; those that are alike in it stay in the order of margins.
 *
 * @param drills In board order.
 */
export function reordered(drills: readonly DrillResult[], order: Order): readonly DrillResult[] {
  if (order === "margin") return drills;
  const keyed = drills.map((drill) => ({ drill, size: KEYS[order](drill) }));
  return keyed.sort((a, b) => a.size - b.size).map(({ drill }) => drill);
}

/** What stands first has the smallest number. */
const KEYS: Readonly<Record<Exclude<Order, "margin">, (drill: DrillResult) => number>> = {
  harm: ({ minutes }) => minutes.harm_early ?? Number.MAX_VALUE,
  /** Harm that nobody is ever told of first, then the longest silence; where nothing is harmed there is nothing to tell. */
  told: ({ minutes }) => {
    if (minutes.told !== null) return -minutes.told;
    return minutes.harm_early === null ? 0 : -Number.MAX_VALUE;
  },
  floor: ({ floor_l }) => -floor_l,
};

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
      (choice.circumstance === null || drill.circumstance === choice.circumstance) &&
      (choice.part === null || drill.faults.some(({ part }) => part === choice.part)) &&
      (choice.fault === null || drill.name === choice.fault) &&
      (sought.length === 0 || holdsAll(textOf(drill), sought)),
  );
}

function holdsAll(text: string, sought: readonly string[]): boolean {
  return sought.every((word) => text.includes(word));
}

const texts = new WeakMap<DrillResult, string>();

/** What the search looks in: the fault, its parts, their place and time, what is harmed. Hyphens count as spaces too. */
function textOf(drill: DrillResult): string {
  const known = texts.get(drill);
  if (known !== undefined) return known;
  const modes = drill.faults.map(({ mode }) => mode);
  const text = [
    drill.name,
    ...partsOf(drill),
    ...modes,
    drill.system ?? "",
    drill.circumstance,
    drill.harm ?? "",
    drill.finding ?? "",
  ]
    .join(" ")
    .toLowerCase();
  const both = `${text} ${text.replaceAll("-", " ")}`;
  texts.set(drill, both);
  return both;
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
 * @param drills In board order, which is kept. In any other order simply the first ones are what was asked for.
 */
export function folded(drills: readonly DrillResult[], order: Order = "margin"): readonly DrillResult[] {
  if (drills.length <= FOLD) return drills;
  if (order !== "margin") return drills.slice(0, FOLD);
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
  /** Id of a system or part, a circumstance, a verdict, a kind of part or of fault; null for the whole site, and for rows that are not grouped. */
  readonly key: string | null;
  readonly drills: readonly DrillResult[];
}

/** Groups keep the order of their worst row. */
export function grouped(drills: readonly DrillResult[], groupBy: GroupBy, site: Site): readonly Group[] {
  if (groupBy === "none") return [{ key: null, drills }];
  const keyOf = keysOf(groupBy, site);
  const groups = new Map<string | null, DrillResult[]>();
  for (const drill of drills) {
    const key = keyOf(drill);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [drill]);
    else group.push(drill);
  }
  return [...groups].map(([key, members]) => ({ key, drills: members }));
}

/** By what drills are grouped: the part that fails last is the one that the drill is about. */
function keysOf(groupBy: Exclude<GroupBy, "none">, site: Site): (drill: DrillResult) => string | null {
  const kinds = groupBy === "kind" ? kindsOf(site) : null;
  switch (groupBy) {
    case "system":
      return ({ system }) => system;
    case "circumstance":
      return ({ circumstance }) => circumstance;
    case "verdict":
      return ({ verdict }) => verdict;
    case "part":
      return ({ faults }) => faults.at(-1)?.part ?? null;
    case "fault":
      return ({ name }) => name;
    case "kind":
      return ({ faults }) => kinds?.get(faults[0]?.part ?? "") ?? "other";
  }
}

/** What sort of thing each part is: the kind of a device, else its place in the site file. */
export function kindsOf(site: Site): ReadonlyMap<string, string> {
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
