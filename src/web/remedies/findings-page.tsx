import "./remedies.css";
import { useMemo, useState } from "react";
import type { RehearsalReport, Remedy } from "../../server/contract/index.ts";
import { address, drillAddress, Link } from "../app/router.tsx";
import { drillsOf, type Known } from "../app/store.ts";
import { type Finding, findingsOf } from "../board/findings-of.ts";
import { marginText } from "../board/margin.ts";
import { ordered } from "../board/order.ts";
import { asSentence, figure } from "../parts/format.ts";
import { Glyph, VerdictGlyph } from "../parts/glyphs.tsx";
import { Marked } from "../parts/names.tsx";
import { compareWords } from "../words/compare.ts";
import { remedyWords } from "../words/remedies.ts";
import { words } from "../words.ts";
import { StepItem } from "./step-item.tsx";
import { type Steps, stepsOf } from "./steps.ts";
import { useSurvey } from "./survey.ts";
import { SurveyBar } from "./survey-bar.tsx";
import { titleInside } from "./title-inside.ts";
import { useRemedies } from "./use-remedies.ts";

/** Findings that are shown before the rest is asked for. */
const FIRST = 60;
const FIRST_STEPS = 12;
const NO_REMEDIES: readonly Remedy[] = [];

/** What is not good enough, as what to do about it: each change with the findings it aims at, and what it does once tried. */
export default function FindingsPage({ known }: { readonly known: Known }) {
  const { report, partial } = known;
  const findings = useMemo(() => findingsOf(ordered(drillsOf({ report, partial }))), [report, partial]);
  const { remedies, failure, again } = useRemedies(report);
  const steps = useMemo(() => stepsOf(findings, remedies ?? NO_REMEDIES), [findings, remedies]);
  const survey = useSurvey(report);
  const plainLife = report?.plain_life ?? [];
  const reading = report !== null && remedies === null && failure === null;
  return (
    <>
      <p className="crumb sm">
        <Link to="/">{remedyWords.back}</Link>
        <Link to={address("/compare")}>{compareWords.link}</Link>
      </p>
      <Opening findings={findings.length} plainLife={plainLife} steps={steps} reading={reading} />
      {failure !== null && (
        <div className="note" role="alert">
          <div className="err">
            <Glyph name="notice" />
            <div>
              <b>{remedyWords.failed}</b>
              <div>{failure}</div>
            </div>
          </div>
          <button className="btn" type="button" onClick={again}>
            {remedyWords.again}
          </button>
        </div>
      )}
      <PlainFindings plainLife={plainLife} headed={steps.steps.length > 0} />
      {steps.steps.length > 0 && report !== null && (
        <>
          <SurveyBar survey={survey} remedies={steps.steps.map(({ remedy }) => remedy)} report={report} />
          <StepList steps={steps} seen={survey.seen} drills={report.drills} />
        </>
      )}
      {!reading && <LeftFindings findings={steps.left} headed={steps.steps.length > 0} />}
      <p className="foot sd">
        <span>{words.board.estimate}</span>
      </p>
    </>
  );
}

function Opening({
  findings,
  plainLife,
  steps: { steps, left },
  reading,
}: {
  readonly findings: number;
  readonly plainLife: RehearsalReport["plain_life"];
  readonly steps: Steps;
  readonly reading: boolean;
}) {
  const first = steps[0];
  const all = findings + plainLife.length;
  // Harm that needs no fault is no matter of luck: it is said before what faults may do.
  const [plain] = [...plainLife].sort((a, b) => a.harm_early - b.harm_early);
  if (first === undefined)
    return (
      <>
        <h1 className="say">{all === 0 ? words.findings.none : words.findings.headline(figure(all), all)}</h1>
        {reading && all > 0 && <p className="then">{remedyWords.reading}</p>}
      </>
    );
  const title = titleInside(first.remedy.title);
  const later = steps.slice(1).reduce((sum, step) => sum + step.findings.length, 0);
  return (
    <>
      <h1 className="say">
        <Marked text={plain === undefined ? remedyWords.doFirst(title) : asSentence(plain.finding)} />
      </h1>
      <p className="then">
        {plain !== undefined && (
          <>
            <Marked text={remedyWords.againstFaults(title)} />{" "}
          </>
        )}
        {[
          remedyWords.aimsAt(figure(first.findings.length), figure(findings), findings),
          remedyWords.more(steps.length - 1, figure(steps.length - 1), figure(later)),
          remedyWords.left(left.length, figure(left.length)),
          remedyWords.untried,
        ].join(" ")}
      </p>
    </>
  );
}

function StepList({
  steps: { steps },
  seen,
  drills,
}: {
  readonly steps: Steps;
  readonly seen: ReturnType<typeof useSurvey>["seen"];
  readonly drills: RehearsalReport["drills"];
}) {
  const [all, setAll] = useState(false);
  const shown = all ? steps : steps.slice(0, FIRST_STEPS);
  const rest = steps.length - shown.length;
  return (
    <>
      <ol className="findings steps" aria-label={remedyWords.steps}>
        {shown.map((step) => (
          <StepItem key={step.remedy.id} step={step} seen={seen} drills={drills} />
        ))}
      </ol>
      {rest > 0 && (
        <button className="btn fold noprint" type="button" onClick={() => setAll(true)}>
          {remedyWords.moreSteps(figure(rest))}
        </button>
      )}
    </>
  );
}

function PlainFindings({
  plainLife,
  headed,
}: {
  readonly plainLife: RehearsalReport["plain_life"];
  readonly headed: boolean;
}) {
  if (plainLife.length === 0) return null;
  return (
    <>
      {headed && <h2 className="finding-head">{remedyWords.plainTitle}</h2>}
      <ol className="findings">
        {plainLife.map((plain) => (
          <li key={plain.circumstance}>
            <span className="v-late">
              <Glyph name="notice" />
            </span>
            <p className="f">
              <Marked text={asSentence(plain.finding)} />
            </p>
            <p className="eff sm">
              {words.findings.noFault}
              <br />
              {plain.circumstance}
            </p>
          </li>
        ))}
      </ol>
    </>
  );
}

function LeftFindings({ findings, headed }: { readonly findings: readonly Finding[]; readonly headed: boolean }) {
  const [all, setAll] = useState(false);
  if (findings.length === 0) return null;
  const shown = all ? findings : findings.slice(0, FIRST);
  const rest = findings.length - shown.length;
  return (
    <>
      {headed && <h2 className="finding-head">{remedyWords.leftTitle}</h2>}
      <ol className="findings">
        {shown.map((finding) => (
          <FindingItem key={finding.key} finding={finding} />
        ))}
      </ol>
      {rest > 0 && (
        <button className="btn fold noprint" type="button" onClick={() => setAll(true)}>
          {words.findings.more(figure(rest))}
        </button>
      )}
    </>
  );
}

function FindingItem({ finding }: { readonly finding: Finding }) {
  const worst = finding.drills[0];
  return (
    <li>
      <VerdictGlyph verdict={worst.verdict} />
      <div>
        <p className="f">
          <Link to={drillAddress(worst.id)}>
            <Marked text={asSentence(finding.text)} />
          </Link>
        </p>
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
