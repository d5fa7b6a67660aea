/** Everything that would change a finding of a site, and what to try first. */
import type { DrillResult } from "../../drills/index.ts";
import type { Site } from "../../site/index.ts";
import { EFFORTS, type Effort } from "./efforts.ts";
import { type Finding, findingsOf } from "./finding.ts";
import { heatRemedies } from "./heat.ts";
import { messageRemedies } from "./messages.ts";
import { powerRemedies } from "./power.ts";
import type { Draft, Remedy } from "./remedy.ts";
import { trialRemedies } from "./trials.ts";
import { watchingRemedies } from "./watching.ts";
import { waterRemedies } from "./water.ts";

/**
 * Remedies of a site that aim at findings of its rehearsal, each where it applies and is not there already, in the order of the
 * library. What they aim at is a first guess from the findings alone; what they do is computed by trial.
 *
 * @param site   The site as it was rehearsed.
 * @param drills Results of its rehearsal.
 */
export function remediesFor(site: Site, drills: readonly DrillResult[]): readonly Remedy[] {
  const findings = findingsOf(site, drills);
  if (findings.length === 0) return [];
  const drafts = [heatRemedies, watchingRemedies, waterRemedies, powerRemedies, messageRemedies, trialRemedies].flatMap(
    (make) => make(site),
  );
  return drafts.map((draft) => settled(draft, findings)).filter(({ aims }) => aims.length > 0);
}

function settled(draft: Draft, findings: readonly Finding[]): Remedy {
  const { kind, of, title, parts, edits, why, needs, caution, times = 1, moreEUR, moreMinutesPerMonth = 0 } = draft;
  const effort: Effort = EFFORTS[kind];
  const low = effort.lowEUR * times + (moreEUR?.low ?? 0);
  const high = effort.highEUR * times + (moreEUR?.high ?? 0);
  return {
    id: `${kind}.${of}`,
    title,
    kind,
    parts: [...new Set(parts)],
    aims: findings.filter(draft.meets).map(({ drill }) => drill.id),
    edits,
    caution: caution ?? null,
    costEUR: { low, high, words: high === 0 ? "rough: nothing to buy" : `rough: ${low} to ${high} EUR` },
    minutesOnce: effort.minutesOnce * times,
    minutesPerMonth: effort.minutesPerMonth * times + moreMinutesPerMonth,
    why,
    needs,
  };
}

/** How bad a finding is: harm unseen first, a stand-in that is dead or a rescue that nobody heard of last. */
const WEIGHT: Readonly<Record<DrillResult["verdict"], number>> = {
  unseen: 4,
  late: 4,
  "handed over": 2,
  handled: 1,
  absorbed: 0,
  "not simulated": 0,
};
const NO_HARM_WEIGHT = 1;

/** Work is counted for so many years, at so much an hour, beside what is bought. */
const YEARS = 3;
const HOUR_EUR = 15;
/** What every change costs, however small: it must be understood, written and remembered. */
const ANY_CHANGE_EUR = 10;

/** Money and minutes of a remedy in one figure, EUR: for the order only. */
function burdenEUR({ costEUR, minutesOnce, minutesPerMonth }: Remedy): number {
  const minutes = minutesOnce + 12 * YEARS * Math.max(0, minutesPerMonth);
  return ANY_CHANGE_EUR + (costEUR.low + costEUR.high) / 2 + (minutes / 60) * HOUR_EUR;
}

/**
 * Remedies with those first that aim at the most and worst findings for the least money and minutes: a first-order order, which
 * says what to try first and not what is best. Equal ones keep their order.
 */
export function ranked(remedies: readonly Remedy[], drills: readonly DrillResult[]): readonly Remedy[] {
  const weights = new Map(
    drills.map((drill) => [
      drill.id,
      drill.harm === null ? Math.min(NO_HARM_WEIGHT, WEIGHT[drill.verdict]) : WEIGHT[drill.verdict],
    ]),
  );
  const worth = (remedy: Remedy) =>
    remedy.aims.reduce((sum, id) => sum + (weights.get(id) ?? 0), 0) / burdenEUR(remedy);
  return remedies
    .map((remedy, place) => ({ remedy, place, worth: worth(remedy) }))
    .sort((a, b) => b.worth - a.worth || a.place - b.place)
    .map(({ remedy }) => remedy);
}
