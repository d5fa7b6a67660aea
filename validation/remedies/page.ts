/** docs/remedies.md, from what was seen. */
import type { DrillResult } from "../../src/drills/index.ts";
import { EFFORTS, ranked } from "../../src/planning/index.ts";
import type { Effect } from "./effect.ts";

const SHOWN = 6;

export function page(file: string, before: readonly DrillResult[], effects: readonly Effect[]): string {
  const order = ranked(
    effects.map(({ remedy }) => remedy),
    before,
  );
  const byId = new Map(effects.map((effect) => [effect.remedy.id, effect]));
  const sorted = order.flatMap(({ id }) => byId.get(id) ?? []);
  const most = effects.filter(({ asAimed, remedy }) => 2 * asAimed.length >= remedy.aims.length).length;
  return `${[
    ...HEAD,
    `## The example school, remedy by remedy`,
    "",
    `\`${file}\` has ${before.length} drills, ${before.filter(({ finding }) => finding !== null).length} of them with a finding. Each remedy below was written into the file by itself, and`,
    `the whole school was rehearsed again. ${effects.length} remedies are offered; ${most} of them move at least half of what they aim at, ${effects.filter(({ worse }) => worse.length > 0).length} make`,
    "some verdict worse, as the table says.",
    "",
    "- **aims**: findings that the library expects it to change; **as aimed**: those that are better or later.",
    "- **better**: all findings that are better, aimed at or not: no finding any more, no harm any more, or a better verdict.",
    "  **closed**: those of them that have no finding any more. **later**: the same verdict, but harm at least three times as late.",
    "- **worse**: verdicts of the same fault that are worse, or have a finding and had none. **new**: findings of faults that the",
    "  change brings along: whatever is added can fail as well.",
    "",
    "In the order in which the library would try them:",
    "",
    "| remedy | rough cost, EUR | minutes once | minutes a month | aims | as aimed | better | closed | later | worse | new |",
    "|---|---|---|---|---|---|---|---|---|---|---|",
    ...sorted.map(line),
    "",
    "## What gets worse",
    "",
    ...worseLines(sorted),
    "",
    "## What does less than it aims at",
    "",
    ...missedLines(sorted),
    "",
    "## What each kind costs",
    "",
    "For one piece, before it is multiplied by how many are needed. *practice*: what keepers commonly pay and take; *guess*: ours.",
    "No figure was measured.",
    "",
    "| kind | EUR | minutes once | minutes a month | from | covers |",
    "|---|---|---|---|---|---|",
    ...Object.entries(EFFORTS).map(
      ([kind, { lowEUR, highEUR, minutesOnce, minutesPerMonth, from, covers }]) =>
        `| \`${kind}\` | ${lowEUR} to ${highEUR} | ${minutesOnce} | ${minutesPerMonth} | ${from} | ${covers} |`,
    ),
  ].join("\n")}\n`;
}

function line({ remedy, asAimed, better, closed, later, worse, fresh }: Effect): string {
  const { costEUR } = remedy;
  const cells = [
    `${remedy.title} (\`${remedy.id}\`)`,
    `${costEUR.low} to ${costEUR.high}`,
    remedy.minutesOnce,
    remedy.minutesPerMonth,
    remedy.aims.length,
    asAimed.length,
    better.length,
    closed.length,
    later.length,
    worse.length,
    fresh.length,
  ];
  return `| ${cells.join(" | ")} |`;
}

function some(ids: readonly string[]): string {
  const more = ids.length - SHOWN;
  return `${ids
    .slice(0, SHOWN)
    .map((id) => `\`${id}\``)
    .join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
}

function worseLines(effects: readonly Effect[]): string[] {
  const worse = effects.filter((effect) => effect.worse.length > 0);
  const sooner = effects.filter((effect) => effect.sooner.length > 0);
  return [
    ...(worse.length === 0 ? ["No verdict of a fault that was there before did on this day."] : []),
    ...worse.map((effect) => `- \`${effect.remedy.id}\`: ${some(effect.worse)}`),
    ...(sooner.length === 0 ? [] : ["", "With the same verdict, but harm in less than four fifths of the time:", ""]),
    ...sooner.map((effect) => `- \`${effect.remedy.id}\`: ${some(effect.sooner)}`),
  ];
}

function missedLines(effects: readonly Effect[]): string[] {
  const missed = effects.filter(({ asAimed, remedy }) => 2 * asAimed.length < remedy.aims.length);
  if (missed.length === 0) return ["Nothing did on this day."];
  return missed.map(({ remedy, asAimed }) => {
    const ids = remedy.aims.filter((id) => !asAimed.includes(id));
    return `- \`${remedy.id}\` misses ${some(ids)}`;
  });
}

const HEAD = [
  "# Remedies: what would close a finding",
  "",
  "A remedy is a change to the site file, said as edits by keys, with a rough cost, minutes once and a month, one sentence of why,",
  "and what somebody must do in the real world before the changed file is true. The library (`src/planning/remedies`) offers each",
  "one only where it applies and is not there already, and says at which findings it aims. **It claims no effect**: what a remedy",
  "does is computed by writing it into the file and rehearsing. This page is such a computation, made by",
  "`npm run tool -- node validation/remedies.ts --write`.",
  "",
  "Two things to know when reading it:",
  "",
  "- One remedy alone often only moves a verdict one step. A notice helps nobody if nobody can come, and air for one of two tanks",
  "  leaves the other. In the holidays of this school nobody comes for two weeks, so that a notice there makes *unseen* to *late* at best.",
  "- What is added is taken as tried when it is fitted and every three months, and the file then says so (`tested: 1 month`). Where",
  "  that is not kept up, the file is not true any more. The minutes for it are counted.",
  "",
  "Work on mains, gas, glass and floors is for licensed people under the local code; each remedy that touches a danger says so.",
  "Verdicts are estimates of a model.",
  "",
];
