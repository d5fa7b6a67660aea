import type { VerdictKind } from "../../server/contract/index.ts";
import { type BoardChoice, GROUPS, type GroupBy, ORDERS, type Order, VERDICTS } from "./order.ts";

export const NO_CHOICE: BoardChoice = {
  verdict: null,
  system: null,
  circumstance: null,
  part: null,
  fault: null,
  groupBy: "none",
  order: "margin",
  find: "",
};

/** What the address says was chosen; what it says that we do not know counts as not chosen. */
export function readChoice(query: URLSearchParams): BoardChoice {
  const verdict = query.get("verdict") as VerdictKind;
  const groupBy = query.get("group") as GroupBy;
  const order = query.get("order") as Order;
  return {
    verdict: VERDICTS.includes(verdict) ? verdict : null,
    system: query.get("system"),
    circumstance: query.get("when"),
    part: query.get("part"),
    fault: query.get("fault"),
    groupBy: GROUPS.includes(groupBy) ? groupBy : "none",
    order: ORDERS.includes(order) ? order : "margin",
    find: query.get("find") ?? "",
  };
}

export function writeChoice(choice: BoardChoice): Record<string, string | null> {
  const { verdict, system, circumstance, part, fault, groupBy, order, find } = choice;
  return {
    verdict,
    system,
    when: circumstance,
    part,
    fault,
    group: groupBy === "none" ? null : groupBy,
    order: order === "margin" ? null : order,
    find,
  };
}

/** Whether rows are left out; grouping and order leave none out. */
export function isFiltered({ verdict, system, circumstance, part, fault, find }: BoardChoice): boolean {
  return [verdict, system, circumstance, part, fault].some((one) => one !== null) || find.trim() !== "";
}

/** Which rows, and in which order: another answer is another question. */
export function questionOf(choice: BoardChoice): string {
  return JSON.stringify(writeChoice(choice));
}
