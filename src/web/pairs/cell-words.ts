import type { PairCell } from "../../server/contract/index.ts";
import { figure, span } from "../parts/format.ts";
import { pairWords } from "../words/pairs.ts";
import { words } from "../words.ts";
import { kindOf, pairsIn } from "./matrix-model.ts";

/** What is to be said of one field, in sentences. */
export function cellWords(cell: PairCell | undefined): string {
  const say = pairWords.cell;
  if (cell === undefined) return say.untried;
  const all = pairsIn(cell);
  const { name, verdict, harm_early: early } = cell.worst;
  const worst = say.worst(name, words.verdicts[verdict], early === null ? "" : say.after(span(early)));
  switch (kindOf(cell)) {
    case "together":
      return `${say.together(figure(cell.only_together), figure(all), cell.only_together)} ${worst}`;
    case "alone":
      return `${say.alone(figure(cell.fails), figure(all))} ${worst}`;
    case "held":
      return say.held(figure(all), all, words.verdicts[verdict]);
    default:
      return say.calm(figure(all), all);
  }
}

/** How much of a field was worked out from single faults, and what of it was left out and why. */
export function leftOutWords({ derived, left_out: left }: PairCell): string {
  const say = pairWords.cell;
  return [
    derived > 0 ? say.derived(figure(derived), derived) : "",
    left.reversed > 0 ? say.reversed(figure(left.reversed)) : "",
    left.open > 0 ? say.open(figure(left.open)) : "",
    left.not_run > 0 ? say.notRun(figure(left.not_run)) : "",
  ]
    .filter((part) => part !== "")
    .join(" ");
}
