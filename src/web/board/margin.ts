import type { DrillResult } from "../../server/contract/index.ts";
import { signedSpan } from "../parts/format.ts";
import { words } from "../words.ts";

/** The margin in words: a signed time, or why there is none. */
export function marginText(drill: Pick<DrillResult, "verdict" | "margin_min">): string {
  if (drill.verdict === "unseen") return words.margin.nobodyTold;
  if (drill.verdict === "absorbed") return words.margin.noHarm;
  if (drill.verdict === "not simulated") return words.margin.unknown;
  if (drill.margin_min !== null) return signedSpan(drill.margin_min);
  return drill.verdict === "late" ? words.margin.nobodyCame : words.margin.noHarm;
}

/** Whether it is one to worry about: written strong. */
export function isShort(drill: Pick<DrillResult, "verdict" | "margin_min">): boolean {
  return drill.verdict === "unseen" || drill.verdict === "late" || (drill.margin_min ?? 0) < 0;
}
