import { useMemo } from "react";
import type { DrillResult, RehearsalReport } from "../../server/contract/index.ts";
import { Link } from "../app/router.tsx";
import { asSentence, figure } from "../parts/format.ts";
import { Marked } from "../parts/names.tsx";
import { compareWords } from "../words/compare.ts";
import { pairWords } from "../words/pairs.ts";
import { words } from "../words.ts";
import { findingsOf } from "./findings-of.ts";

/** The drill that the page's sentence speaks of: the worst that has a finding. */
export function worstOf(drills: readonly DrillResult[]): DrillResult | null {
  return drills.find((drill) => drill.finding !== null) ?? null;
}

type PlainHarm = RehearsalReport["plain_life"][number];

/**
 * One sentence that a tired person could act on, and what follows from it. Harm that needs no fault comes first: it is not
 * a matter of luck.
 */
export function Headline({
  drills,
  plainLife,
  soFar,
}: {
  readonly drills: readonly DrillResult[];
  readonly plainLife: readonly PlainHarm[];
  readonly soFar: string | null;
}) {
  const worst = worstOf(drills);
  const findings = useMemo(() => findingsOf(drills).length, [drills]) + plainLife.length;
  const plain = [...plainLife].sort((a, b) => a.harm_early - b.harm_early)[0];
  if (plain === undefined && worst === null) return <Held drills={drills} soFar={soFar} />;
  return (
    <div>
      <p className="first">{soFar ?? words.board.first}</p>
      <h1 className="say">
        <Marked text={asSentence(plain?.finding ?? worst?.finding ?? "")} />
      </h1>
      <p className="then">
        {plain !== undefined && worst !== null && (
          <>
            {words.board.worstFault} <Marked text={asSentence(worst.finding ?? "")} />{" "}
          </>
        )}
        {worst !== null && worst.would_help.length > 0 && (
          <>
            <Marked text={asSentence(words.board.helps(worst.would_help[0]))} />{" "}
          </>
        )}
        <span className="ways">
          <Link to="/findings">{words.board.allFindings(figure(findings), findings)}</Link>
          <Link to="/pairs">{pairWords.title}</Link>
          <Link to="/compare">{compareWords.link}</Link>
        </span>
      </p>
    </div>
  );
}

function Held({ drills, soFar }: { readonly drills: readonly DrillResult[]; readonly soFar: string | null }) {
  const tried = drills.filter((drill) => drill.verdict !== "not simulated");
  const held = tried.filter((drill) => drill.verdict !== "late" && drill.verdict !== "unseen");
  return (
    <div>
      {soFar !== null && <p className="first">{soFar}</p>}
      <h1 className="say">{words.board.allHeld(figure(tried.length), figure(held.length))}</h1>
      <p className="then">
        <span className="ways">
          <Link to="/pairs">{pairWords.title}</Link>
          <Link to="/compare">{compareWords.link}</Link>
        </span>
      </p>
    </div>
  );
}
