/** The report: what was tried, what held, what did not, and what all of it rests on. */
import type { DrillResult, RehearsalReport, VerdictKind } from "../../drills/index.ts";
import type { DefaultUsed, Site } from "../../site/index.ts";
import { SITE_CAUTIONS } from "./cautions.ts";
import type { CountRow, Counts, ReportFinding, ReportPaper } from "./types.ts";

/** More findings than these are counted: the app shows them all. */
const FINDINGS_SHOWN = 60;
const PAIRS_SHOWN = 20;
const ASSUMPTIONS_SHOWN = 24;

const VERDICTS: readonly VerdictKind[] = ["unseen", "late", "handed over", "handled", "absorbed", "not simulated"];

const NOT_SIMULATED: readonly string[] = [
  "Disease, poisons, stray metals and fire.",
  "The first minute or two after a pump stops: levels settle at once.",
  "Chance: a phone that happens to be silent is a fault of its own, not a probability.",
  "Two faults without a tie between them, unless pairs were rehearsed; three faults at once.",
];

export function reportPaper(
  site: Site,
  report: RehearsalReport,
  defaults: readonly DefaultUsed[],
  finishedAt: string | null,
): ReportPaper {
  const singles = report.drills.filter(({ faults }) => faults.length === 1);
  const pairs = report.drills.filter(({ faults }) => faults.length > 1);
  const findings = findingsOf(singles);
  const assumptions = defaults.filter(({ weight, why }) => weight === 1 || (weight === 2 && why !== ""));
  return {
    engine: report.engine,
    seed: report.seed,
    finishedAt,
    complete: report.complete,
    notRun: report.not_run,
    drills: singles.length,
    faults: new Set(singles.map(faultKey)).size,
    parts: new Set(singles.flatMap(({ faults }) => faults.map(({ part }) => part))).size,
    circumstances: site.circumstances.map(({ id, startsLocal, horizonDays }) => ({ id, startsLocal, horizonDays })),
    counts: countsOf(singles),
    held: singles.filter(isHeld).length,
    bySystem: rowsBy(singles, [...site.systems.map(({ id }) => id), ""], ({ system }) => system ?? ""),
    byCircumstance: rowsBy(
      singles,
      site.circumstances.map(({ id }) => id),
      ({ circumstance }) => circumstance,
    ),
    byPerson: site.people
      .map(({ id }) => {
        const told = singles.filter(({ told_by }) => told_by === id);
        return {
          person: id,
          handedOver: told.filter(({ verdict }) => verdict === "handed over").length,
          late: told.filter(({ verdict }) => verdict === "late").length,
        };
      })
      .filter(({ handedOver, late }) => handedOver + late > 0),
    byChance: singles.filter(({ verdict, found_by_chance }) => verdict === "handed over" && found_by_chance).length,
    plainLife: report.plain_life.map(({ circumstance, finding }) => ({ circumstance, text: finding })),
    findings: findings.slice(0, FINDINGS_SHOWN),
    findingsInAll: findings.length,
    pairs: pairs.length === 0 ? null : pairsOf(pairs),
    assumptions: assumptions.slice(0, ASSUMPTIONS_SHOWN),
    assumptionsInAll: defaults.length,
    notSimulated: [...NOT_SIMULATED, ...untried(singles)],
    cautions: SITE_CAUTIONS,
  };
}

function pairsOf(pairs: readonly DrillResult[]): NonNullable<ReportPaper["pairs"]> {
  const findings = findingsOf(pairs);
  return {
    counts: countsOf(pairs),
    drills: pairs.length,
    findings: findings.slice(0, PAIRS_SHOWN),
    findingsInAll: findings.length,
  };
}

/** Held: it ended without a finding. What was not simulated has not held. */
function isHeld({ finding, verdict }: DrillResult): boolean {
  return finding === null && verdict !== "not simulated";
}

function countsOf(drills: readonly DrillResult[]): Counts {
  const counts = Object.fromEntries(VERDICTS.map((verdict) => [verdict, 0])) as Record<VerdictKind, number>;
  for (const { verdict } of drills) counts[verdict] += 1;
  return counts;
}

function rowsBy(
  drills: readonly DrillResult[],
  names: readonly string[],
  nameOf: (drill: DrillResult) => string,
): readonly CountRow[] {
  return names
    .map((of) => {
      const own = drills.filter((drill) => nameOf(drill) === of);
      return { of, counts: countsOf(own), drills: own.length };
    })
    .filter((row) => row.drills > 0);
}

function untried(drills: readonly DrillResult[]): readonly string[] {
  const count = new Set(drills.filter(({ verdict }) => verdict === "not simulated").map(faultKey)).size;
  return count === 0 ? [] : [`${count} faults of this site, which the rehearsal lists as not simulated.`];
}

function faultKey({ faults }: DrillResult): string {
  return faults.map(({ part, mode }) => `${part}.${mode}`).join("+");
}

/** Drills of one fault are one finding, at the place of the worst of them. */
function findingsOf(drills: readonly DrillResult[]): readonly ReportFinding[] {
  const byFault = new Map<string, DrillResult[]>();
  for (const drill of drills.filter(({ finding }) => finding !== null).toSorted(worstFirst)) {
    const group = byFault.get(faultKey(drill)) ?? [];
    group.push(drill);
    byFault.set(faultKey(drill), group);
  }
  return [...byFault.values()].map((group) => ({
    text: group[0].finding ?? "",
    verdict: group[0].verdict,
    marginMin: group[0].minutes.acting === null ? null : group[0].margin_min,
    circumstances: group.map(({ circumstance }) => circumstance),
    help: group[0].would_help[0] ?? null,
    drill: group[0].id,
  }));
}

/** Unseen by earliest harm, then late, then the rest by what margin is left. */
function worstFirst(a: DrillResult, b: DrillResult): number {
  const rank = VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict);
  if (rank !== 0) return rank;
  const worth = ({ margin_min, minutes, verdict }: DrillResult): number =>
    (verdict === "unseen" ? minutes.harm_early : margin_min) ?? Number.MAX_SAFE_INTEGER;
  return worth(a) - worth(b);
}
