/** What to do about the findings, as steps: each finding stands under the first change that aims at it. */
import type { Remedy } from "../../server/contract/index.ts";
import type { Finding } from "../board/findings-of.ts";

export interface Step {
  readonly remedy: Remedy;
  /** Findings that no step before it aims at. */
  readonly findings: readonly Finding[];
  /** Changes that aim at some of the same, and at nothing that has no step: other ways. */
  readonly others: readonly Remedy[];
}

export interface Steps {
  readonly steps: readonly Step[];
  /** Findings that no change here aims at, in their order. */
  readonly left: readonly Finding[];
}

/**
 * Every finding stands once, and so does every remedy that aims at one of them.
 *
 * @param findings Worst first.
 * @param remedies What to try first stands first.
 */
export function stepsOf(findings: readonly Finding[], remedies: readonly Remedy[]): Steps {
  const left = new Set(findings);
  const steps: { remedy: Remedy; findings: readonly Finding[]; others: Remedy[] }[] = [];
  const rest: { readonly remedy: Remedy; readonly met: ReadonlySet<Finding> }[] = [];
  for (const remedy of remedies) {
    const aims = new Set(remedy.aims);
    const met = findings.filter(({ drills }) => drills.some(({ id }) => aims.has(id)));
    const mine = met.filter((finding) => left.has(finding));
    for (const finding of mine) left.delete(finding);
    if (mine.length > 0) steps.push({ remedy, findings: mine, others: [] });
    else if (met.length > 0) rest.push({ remedy, met: new Set(met) });
  }
  for (const { remedy, met } of rest) {
    const shared = steps.map((step) => step.findings.filter((finding) => met.has(finding)).length);
    steps[shared.indexOf(Math.max(...shared))].others.push(remedy);
  }
  return { steps, left: [...left] };
}
