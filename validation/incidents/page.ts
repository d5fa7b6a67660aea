/** docs/incidents.md: written by `node validation/incidents.ts --write`, never by hand. */
import { type DrillResult, duration } from "../../src/drills/index.ts";
import type { Drilled, Warned } from "./drilled.ts";
import type { Line } from "./lines.ts";
import { NOT_WRITTEN } from "./not-written.ts";

export interface Told extends Drilled {
  readonly warned: Warned;
}

const COURSE = new Set(["verdict", "shows first", "learned by", "order"]);

export function page(all: readonly Told[]): string {
  return `${[opening(all), overview(all), warnings(all), ...all.map(section), notWritten()].join("\n\n")}\n`;
}

function opening(all: readonly Told[]): string {
  const families = new Set(all.map(({ incident }) => incident.family)).size;
  const lines = all.flatMap(({ lines }) => lines);
  const figures = lines.filter((line) => !COURSE.has(line.what));
  const verdicts = lines.filter((line) => line.what === "verdict");
  return `# Incidents: what was reported against what is simulated

Written by \`npm run tool -- node validation/incidents.ts --write\`; do not edit it by hand.

${all.length} accidents from ${families} families, as they were reported, each described as a small site in \`examples/incidents\` and
rehearsed with its fault. ${count(verdicts)} verdicts fit, and ${count(figures)} figures. What does not fit stands
here as not fitting.

How it was made:

- A site says what the report says. Where the report is silent, the usual values of the product hold; where the file needs
  a figure all the same, a home reef has 300 L, a sump that holds what runs back, half a gram of fish a litre, and stands in
  a living area of 150 m3. Each entry names what was not told and what was taken.
- Sites, faults, expected verdicts, figures and tolerances were written down and put under version control before the first
  drill was run. Afterwards only descriptions were put right under which the place would not have lived before its accident
  (no air in the water, an overloaded breaker, a reactor that gives four times what is used), or which went against what the
  report says of it (lamps too weak to do what it tells of them), never for what the fault did.
- No value of the simulator was changed to make an incident fit, and no reported figure served to set one for its own incident.
  One mistake came to light and was mended for all: more water lay on the floor than a tank had held, because the daily top-off
  by hand poured fresh water into tanks that ran out and sumps that stood full.
- The expected verdict follows from the report alone: harm that nothing had announced is *unseen*, harm in spite of a notice
  *late*, harm averted by people *handed over*; where a report can not tell whether harm would have come, both verdicts that
  are possible stand there. Water on the floor counts as harm (decision 6).
- A tolerance says how far the report leaves the figure open: a factor where litres or watts are missing, degrees where the
  house is.

To rehearse one: \`slackwater drill examples/incidents/NAME.yaml --fault PART.MODE --circumstance NAME\`.`;
}

function count(lines: readonly Line[]): string {
  return `${lines.filter((line) => line.fits).length} of ${lines.length}`;
}

function overview(all: readonly Told[]): string {
  const rows = all.map(({ incident, report, lines, warned }) => [
    `[${incident.incident}](#${anchor(incident.incident, report.site)})`,
    incident.family,
    incident.faults.map((fault) => `\`${fault}\``).join(", "),
    incident.expected.join(" or "),
    report.verdict,
    fitWords(lines.filter((line) => COURSE.has(line.what))),
    fitWords(lines.filter((line) => !COURSE.has(line.what))),
    warned.called.length > 0 ? "yes" : "no",
  ]);
  const head = ["report", "family", "fault", "by the report", "simulated", "course fits", "figures fit", "called"];
  return `## All of them

*Called* says whether a rehearsal of the place by day, by night and away, without the moment of the accident and without naming
the fault, called that fault late or unseen.

${table(head, rows)}`;
}

function fitWords(lines: readonly Line[]): string {
  return lines.length === 0 ? "none told" : count(lines);
}

function warnings(all: readonly Told[]): string {
  const harmed = all.filter(({ incident }) => incident.expected.every((one) => one === "late" || one === "unseen"));
  const called = harmed.filter(({ warned }) => warned.called.length > 0);
  const missed = harmed.filter(({ warned }) => warned.called.length === 0);
  const rows = all.map(({ incident, warned }) => {
    const { summary, drills } = warned.rehearsal;
    const worst = drills.filter((drill) => drill.harm !== null).sort(byHarm)[0];
    return [
      incident.incident,
      warned.called.length > 0 ? calledWords(warned.called) : `no: ${calledWords(warned.drills)}`,
      `${summary.unseen + summary.late} of ${drills.length}`,
      worst === undefined ? "" : `${worst.name} (${worst.faults.map((fault) => fault.part).join(", ")})`,
    ];
  });
  const names = missed.map(({ incident }) => incident.incident).join(", ");
  return `## Would it have warned?

Of ${harmed.length} accidents with harm that nobody averted, the rehearsal without hindsight called ${called.length} late or unseen${missed.length === 0 ? "" : `; it missed ${names}`}.
A rehearsal calls other things besides, as such places have few safeguards: ${calledOfAll(all)} drills of all places, which the third column says
for each; the fourth names what it puts first.

${table(["report", "its fault", "late or unseen", "harm soonest by"], rows)}`;
}

/** `2044 of 6700`: late or unseen of all drills of all places. */
function calledOfAll(all: readonly Told[]): string {
  const rehearsals = all.map(({ warned }) => warned.rehearsal);
  const called = rehearsals.reduce((sum, { summary }) => sum + summary.unseen + summary.late, 0);
  return `${called} of ${rehearsals.reduce((sum, { drills }) => sum + drills.length, 0)}`;
}

const RANK = { unseen: 0, late: 1, "handed over": 2, handled: 3, absorbed: 4, "not simulated": 5 } as const;

function byHarm(a: DrillResult, b: DrillResult): number {
  const far = Number.MAX_VALUE;
  return RANK[a.verdict] - RANK[b.verdict] || (a.minutes.harm_early ?? far) - (b.minutes.harm_early ?? far);
}

/** `unseen (day, night), late (away)`. */
function calledWords(drills: readonly DrillResult[]): string {
  const verdicts = [...new Set(drills.map((drill) => drill.verdict))].sort((a, b) => RANK[a] - RANK[b]);
  const when = (verdict: string) => [
    ...new Set(drills.filter((drill) => drill.verdict === verdict).map((drill) => drill.circumstance)),
  ];
  return verdicts.map((verdict) => `${verdict} (${when(verdict).join(", ")})`).join(", ");
}

function section({ incident, report, lines }: Told): string {
  const misfits = lines.filter((line) => !line.fits);
  const reasons = misfits.map(
    (line) => `- Does not fit, ${line.what}: ${incident.misfits[line.what] ?? "no reason known"}`,
  );
  const rows = lines.map((line) => [
    line.what,
    line.reported,
    line.simulated,
    line.fits ? "yes" : "**no**",
    line.tolerance,
  ]);
  const lasts = incident.lasts === null ? "" : `, lasting ${duration(incident.lasts)}`;
  return `## ${incident.incident} ${report.site}

[${incident.name}.yaml](../examples/incidents/${incident.name}.yaml), \`${incident.faults.join(" + ")}\` in \`${incident.circumstance}\`${lasts}.

- Reported: ${incident.reported}
- Not told, and taken: ${incident.lacks}
${[...reasons, ""].join("\n")}
${table(["", "reported", "simulated", "fits", "why so, or within what"], rows)}`;
}

function notWritten(): string {
  const rows = NOT_WRITTEN.map(({ incidents, what, needs }) => [incidents.join(", "), what, needs]);
  return `## What can not be written yet

Reports that no description or no fault can say, and what it would take.

${table(["report", "what happened", "what is missing"], rows)}`;
}

function anchor(id: string, title: string): string {
  return `${id} ${title}`
    .toLowerCase()
    .replace(/[^a-z0-9 -]/g, "")
    .replaceAll(" ", "-");
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  return [line(head), line(head.map(() => "---")), ...rows.map(line)].join("\n");
}
