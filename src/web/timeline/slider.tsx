import type { ChangeEvent, KeyboardEvent } from "react";
import { marginText } from "../board/margin.ts";
import { span } from "../parts/format.ts";
import { words } from "../words.ts";
import type { Plot } from "./lane-frame.tsx";
import type { Run } from "./run.ts";

/** Half the thumb, px: the track reaches so far beyond its ends. */
const THUMB = 10;
const OUTPUT_WIDTH = 130;
const LEAST_TICK_GAP = 9;

/** "Help comes later": lies on the time axis, so that its thumb is under the act and moves it. */
export function LaterSlider({
  plot,
  actMin,
  delays,
  run,
  onChoose,
}: {
  readonly plot: Plot;
  readonly actMin: number;
  readonly delays: readonly number[];
  readonly run: Run;
  readonly onChoose: (delayMin: number) => void;
}) {
  const { x, endMin, width, narrow } = plot;
  const reachable = delays.filter((delay) => actMin + delay <= endMin * 1.0001);
  const most = reachable[reachable.length - 1] ?? 0;
  const from = x(actMin);
  const to = x(actMin + most);
  const choose = (delay: number): void => onChoose(nearest(reachable, delay));

  /** Arrow keys go from one computed delay to the next, however unevenly they lie. */
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    const at = reachable.indexOf(nearest(reachable, run.delayMin));
    const target = KEYS[event.key]?.(at, reachable.length);
    if (target === undefined) return;
    event.preventDefault();
    onChoose(reachable[Math.min(Math.max(target, 0), reachable.length - 1)]);
  };
  const said = run.delayMin === 0 ? words.drill.asRehearsed : words.drill.by(span(run.delayMin));
  const margin = marginText({ verdict: run.verdict, margin_min: run.marginMin });
  const outputLeft = to + 26 + OUTPUT_WIDTH <= width ? to + 26 : Math.max(0, from - 26 - OUTPUT_WIDTH);
  return (
    <div className="shift noprint">
      <label htmlFor="later">
        {words.drill.later}
        <span className="sd wide">{words.drill.laterHint}</span>
      </label>
      <svg className="ticks" style={{ left: from }} width={Math.max(1, to - from)} height="10" aria-hidden="true">
        <path
          d={spaced(reachable, (delay) => x(actMin + delay))
            .map((delay) => `M${(x(actMin + delay) - from).toFixed(1)} 0v9`)
            .join("")}
          stroke="var(--ink)"
        />
        <path d={`M0 9H${to - from}`} stroke="var(--ink)" strokeWidth="1.5" />
      </svg>
      <input
        id="later"
        type="range"
        min={0}
        max={most}
        step="any"
        value={run.delayMin}
        style={{ left: from - THUMB, width: to - from + 2 * THUMB }}
        aria-valuetext={words.drill.laterSpoken(said, words.verdicts[run.verdict], margin)}
        onChange={(event: ChangeEvent<HTMLInputElement>) => choose(Number(event.target.value))}
        onKeyDown={onKeyDown}
      />
      <output htmlFor="later" style={narrow ? undefined : { left: outputLeft }}>
        {said}
      </output>
    </div>
  );
}

const KEYS: Readonly<Record<string, (at: number, count: number) => number>> = {
  ArrowRight: (at) => at + 1,
  ArrowUp: (at) => at + 1,
  ArrowLeft: (at) => at - 1,
  ArrowDown: (at) => at - 1,
  PageUp: (at) => at + 4,
  PageDown: (at) => at - 4,
  Home: () => 0,
  End: (_, count) => count - 1,
};

/** Delays whose ticks stand far enough apart to be told from each other. */
function spaced(delays: readonly number[], at: (delay: number) => number): readonly number[] {
  const shown: number[] = [];
  for (const delay of delays) {
    if (shown.length === 0 || at(delay) - at(shown[shown.length - 1]) >= LEAST_TICK_GAP) shown.push(delay);
  }
  return shown;
}

function nearest(values: readonly number[], wanted: number): number {
  return values.reduce((best, value) => (Math.abs(value - wanted) < Math.abs(best - wanted) ? value : best), values[0]);
}
