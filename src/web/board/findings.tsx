import { useMemo, useState } from "react";
import type { DrillResult } from "../../server/contract/index.ts";
import { drillAddress, Link } from "../app/router.tsx";
import { drillsOf, type Known } from "../app/store.ts";
import { asSentence, figure } from "../parts/format.ts";
import { VerdictGlyph } from "../parts/glyphs.tsx";
import { Marked } from "../parts/names.tsx";
import { words } from "../words.ts";
import { marginText } from "./margin.ts";
import { ordered } from "./order.ts";

const FIRST = 60;

interface Finding {
  readonly text: string;
  /** Its drills, worst first. */
  readonly drills: readonly DrillResult[];
}

/** Everything that is not good enough, in words, worst first, each with its drills and what would change it. */
export function Findings({ known }: { readonly known: Known }) {
  const { report, partial } = known;
  const findings = useMemo(() => findingsOf(ordered(drillsOf({ report, partial }))), [report, partial]);
  const [all, setAll] = useState(false);
  const shown = all ? findings : findings.slice(0, FIRST);
  const rest = findings.length - shown.length;
  return (
    <>
      <p className="crumb sm">
        <Link to="/">{words.findings.back}</Link>
      </p>
      <h1 className="say">
        {findings.length === 0
          ? words.findings.none
          : words.findings.headline(figure(findings.length), findings.length)}
      </h1>
      <ol className="findings">
        {shown.map((finding) => (
          <FindingItem key={finding.text} finding={finding} />
        ))}
      </ol>
      {rest > 0 && (
        <button className="btn fold" type="button" onClick={() => setAll(true)}>
          {words.findings.more(figure(rest))}
        </button>
      )}
      <p className="foot sd">
        <span>{words.board.estimate}</span>
      </p>
    </>
  );
}

function FindingItem({ finding }: { readonly finding: Finding }) {
  const worst = finding.drills[0];
  return (
    <li>
      <VerdictGlyph verdict={worst.verdict} />
      <div>
        <h2>
          <Link to={drillAddress(worst.id)}>
            <Marked text={asSentence(finding.text)} />
          </Link>
        </h2>
        {worst.would_help.length > 0 && (
          <p className="sm">
            {words.findings.helps}: <Marked text={asSentence(worst.would_help[0])} />
          </p>
        )}
      </div>
      <p className="eff sm">
        {words.verdicts[worst.verdict]}, <span className="nb">{marginText(worst)}</span>
        <br />
        {words.findings.drills(figure(finding.drills.length), finding.drills.length)}
      </p>
    </li>
  );
}

/** Drills with the same finding are one finding, at the place of the worst of them. */
function findingsOf(drills: readonly DrillResult[]): readonly Finding[] {
  const byText = new Map<string, DrillResult[]>();
  for (const drill of drills) {
    if (drill.finding === null) continue;
    const known = byText.get(drill.finding);
    if (known === undefined) byText.set(drill.finding, [drill]);
    else known.push(drill);
  }
  return [...byText].map(([text, group]) => ({ text, drills: group }));
}
