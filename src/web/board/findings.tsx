import { useMemo, useState } from "react";
import { drillAddress, Link } from "../app/router.tsx";
import { drillsOf, type Known } from "../app/store.ts";
import { asSentence, figure } from "../parts/format.ts";
import { Glyph, VerdictGlyph } from "../parts/glyphs.tsx";
import { Marked } from "../parts/names.tsx";
import { words } from "../words.ts";
import { type Finding, findingsOf } from "./findings-of.ts";
import { marginText } from "./margin.ts";
import { ordered } from "./order.ts";

const FIRST = 60;

/** Everything that is not good enough, in words, worst first, each with its drills and what would change it. */
export function Findings({ known }: { readonly known: Known }) {
  const { report, partial } = known;
  const findings = useMemo(() => findingsOf(ordered(drillsOf({ report, partial }))), [report, partial]);
  const [all, setAll] = useState(false);
  const shown = all ? findings : findings.slice(0, FIRST);
  const rest = findings.length - shown.length;
  const plainLife = report?.plain_life ?? [];
  const count = findings.length + plainLife.length;
  return (
    <>
      <p className="crumb sm">
        <Link to="/">{words.findings.back}</Link>
      </p>
      <h1 className="say">{count === 0 ? words.findings.none : words.findings.headline(figure(count), count)}</h1>
      <ol className="findings">
        {plainLife.map((plain) => (
          <li key={plain.circumstance}>
            <span className="v-late">
              <Glyph name="notice" />
            </span>
            <h2>
              <Marked text={asSentence(plain.finding)} />
            </h2>
            <p className="eff sm">
              {words.findings.noFault}
              <br />
              {plain.circumstance}
            </p>
          </li>
        ))}
        {shown.map((finding) => (
          <FindingItem key={finding.key} finding={finding} />
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
        {finding.drills.map(({ circumstance }) => circumstance).join(", ")}
      </p>
    </li>
  );
}
