import type { VerdictKind } from "../../server/contract/index.ts";
import { type BoardChoice, type GroupBy, VERDICTS } from "./order.ts";

const GROUPS: readonly GroupBy[] = ["none", "system", "circumstance", "kind"];

/** What the address says was chosen; what it says that we do not know counts as not chosen. */
export function readChoice(query: URLSearchParams): BoardChoice {
  const verdict = query.get("verdict") as VerdictKind;
  const groupBy = query.get("group") as GroupBy;
  return {
    verdict: VERDICTS.includes(verdict) ? verdict : null,
    system: query.get("system"),
    groupBy: GROUPS.includes(groupBy) ? groupBy : "none",
    find: query.get("find") ?? "",
  };
}

export function writeChoice({ verdict, system, groupBy, find }: BoardChoice): Record<string, string | null> {
  return { verdict, system, group: groupBy === "none" ? null : groupBy, find };
}

export const NO_CHOICE: BoardChoice = { verdict: null, system: null, groupBy: "none", find: "" };

/** Whether rows are left out; grouping leaves none out. */
export function isFiltered({ verdict, system, find }: BoardChoice): boolean {
  return verdict !== null || system !== null || find.trim() !== "";
}
