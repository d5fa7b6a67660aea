import type { DrillReport } from "../../server/contract/index.ts";
import { MessageOut } from "../board/row-picture.tsx";
import { words } from "../words.ts";
import { LaneName, Note, type Plot, textWidth } from "./lane-frame.tsx";
import type { Run } from "./run.ts";
import { isWithin } from "./window.ts";

const BAR = 10;
const LEAST_ACT = 3;

/** The phases of the drill as in its row of the board, on the linear axis. */
export function PhasesLane({
  plot,
  report,
  run,
  top,
}: {
  readonly plot: Plot;
  readonly report: DrillReport;
  readonly run: Run;
  readonly top: number;
}) {
  const { x, right, narrow, fromMin, endMin } = plot;
  const { sign, noticed, told } = report.minutes;
  const mid = top + 13;
  const bar = mid - BAR / 2;
  const act = run.actMin === null ? null : x(run.actMin);
  const end = run.endedMin === null ? right : x(run.endedMin);
  const needsNobody = act === null && (run.verdict === "absorbed" || run.verdict === "handled");
  const firstWord = Math.min(noticed === null ? right : x(noticed), act ?? right, end);
  const from = sign === null ? firstWord : x(sign);
  const messageEnd = act ?? (needsNobody && told !== null ? x(told) : end);
  const byPerson = run.verdict !== "handled" && run.verdict !== "absorbed";
  const showMessage = noticed !== null && (byPerson || needsNobody);
  const unnoticedEnd = needsNobody && noticed === null ? from : firstWord;
  return (
    <g>
      {!narrow && <LaneName plot={plot} top={top + 4} name={words.drill.lane.phases} />}
      <path
        d={`M${x(0)} ${mid}H${from}`}
        stroke="var(--ink-3)"
        strokeWidth="1.5"
        strokeDasharray="0 4"
        strokeLinecap="round"
      />
      {unnoticedEnd > from && (
        <rect
          x={from}
          y={bar}
          width={Math.max(2, unnoticedEnd - from)}
          height={BAR}
          fill="url(#p-fog)"
          stroke="var(--ink-2)"
        />
      )}
      {showMessage && <MessageOut from={x(noticed)} to={messageEnd} top={bar} height={BAR} />}
      {act !== null && run.actMin !== null && run.actMin <= endMin && (run.endedMin ?? endMin) >= fromMin && (
        <rect x={act} y={bar} width={Math.max(LEAST_ACT, end - act)} height={BAR} fill="var(--ink)" />
      )}
      {run.endedMin !== null && isWithin(plot, run.endedMin) && (
        <circle
          cx={Math.min(Math.max(end, (act ?? 0) + LEAST_ACT) + 7, plot.width - 4)}
          cy={mid}
          r="3.2"
          fill="var(--paper)"
          stroke="var(--ink)"
          strokeWidth="1.5"
          strokeDasharray={report.found_by_chance ? "2 1.6" : undefined}
        />
      )}
      {!narrow && <PhaseWord from={from} to={unnoticedEnd} y={bar + BAR + 14} word={words.drill.phase.unnoticed} />}
      {!narrow && showMessage && (
        <PhaseWord from={x(noticed)} to={messageEnd} y={bar + BAR + 14} word={words.drill.phase.message} />
      )}
    </g>
  );
}

/** The name of a phase, where the phase is long enough for it. */
function PhaseWord({
  from,
  to,
  y,
  word,
}: {
  readonly from: number;
  readonly to: number;
  readonly y: number;
  readonly word: string;
}) {
  if (to - from < textWidth(word)) return null;
  return (
    <Note x={(from + to) / 2} y={y} anchor="middle">
      {word}
    </Note>
  );
}
