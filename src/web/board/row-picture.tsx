import type { DrillResult } from "../../server/contract/index.ts";
import { BOARD_END_MIN, BOARD_TICKS, type Scale } from "../parts/scale.ts";

/** Least width of a phase, px: what happened is never so short that it cannot be seen. */
const LEAST = { unnoticed: 2, acting: 5, actingByRule: 7 };
const RING = { radius: 3, gap: 6, chanceRadius: 4 };
/** The margin's line starts so far after the end of the act, px: clear of the ring. */
const MARGIN_GAP = 9;

interface Frame {
  readonly x: Scale;
  readonly width: number;
  readonly height: number;
  /** Height of the phase bar. */
  readonly bar: number;
}

/** One drill on the board's time axis. Drawn in this order: hairs, harm ground, likely line, phases, act, ring, margin. */
export function RowPicture({ drill, x, width, height, bar }: { readonly drill: DrillResult } & Frame) {
  const frame = { x, width, height, bar };
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} preserveAspectRatio="none" aria-hidden="true">
      <path
        d={BOARD_TICKS.slice(1, -1)
          .map(({ min }) => `M${x(min).toFixed(1)} 0V${height}`)
          .join("")}
        stroke="var(--hair)"
      />
      <HarmGround drill={drill} {...frame} />
      <Phases drill={drill} {...frame} />
      <Margin drill={drill} {...frame} />
    </svg>
  );
}

/** Sand from early harm, a coast where it is likely, land after, rock beyond the late end of the band. */
function HarmGround({ drill, x, width, height }: { readonly drill: DrillResult } & Frame) {
  const { harm_early: early, harm_likely: likely, harm_late: late } = drill.minutes;
  if (early === null) return null;
  const averted = drill.verdict === "handled" || drill.verdict === "handed over";
  const from = x(early);
  const sandEnd = likely === null ? width : x(likely);
  return (
    <>
      <rect x={from} width={width - from} height={height} fill="var(--land)" opacity={averted ? 0.55 : 1} />
      <rect x={from} width={sandEnd - from} height={height} fill="url(#p-sand)" opacity={averted ? 0.6 : 1} />
      {late !== null && (
        <rect x={x(late)} width={width - x(late)} height={height} fill="url(#p-land)" opacity={averted ? 0.6 : 1} />
      )}
      {likely !== null && likely < BOARD_END_MIN && (
        <path
          d={`M${x(likely)} 0V${height}`}
          stroke="var(--coast)"
          strokeWidth={averted ? 1.25 : 2}
          strokeDasharray={averted ? "3 2.5" : undefined}
        />
      )}
    </>
  );
}

/** Moments of the phases on the axis, px, as far as they happened. */
function momentsOf(drill: DrillResult, { x, width }: Frame) {
  const { sign, noticed, told, acting } = drill.minutes;
  const byPerson = drill.verdict !== "handled" && drill.verdict !== "absorbed";
  const stop = drill.ended === null ? width : x(drill.ended);
  const act = acting === null ? null : x(acting);
  const actEnd = act === null ? null : Math.max(stop, act + (byPerson ? LEAST.acting : LEAST.actingByRule));
  return {
    sign: sign === null ? null : x(sign),
    noticed: noticed === null ? null : x(noticed),
    told: told === null ? null : x(told),
    act,
    actEnd,
    stop,
    byPerson,
  };
}

function Phases({ drill, ...frame }: { readonly drill: DrillResult } & Frame) {
  if (drill.verdict === "not simulated") return null;
  const { width, height, bar } = frame;
  const { sign, noticed, told, act, actEnd, stop, byPerson } = momentsOf(drill, frame);
  const mid = height / 2;
  const top = mid - bar / 2;
  const firstWord = Math.min(noticed ?? width, act ?? width, stop);
  const nothingUntil = sign ?? firstWord;
  const needsNobody = drill.verdict === "absorbed" || (drill.verdict === "handled" && act === null);
  const unnoticedEnd = needsNobody && noticed === null ? nothingUntil : firstWord;
  const messageEnd = act ?? (needsNobody ? (told ?? noticed ?? 0) : stop);
  const calmFrom = noticed === null ? nothingUntil : messageEnd;
  return (
    <>
      {nothingUntil > 0 && (
        <path
          d={`M0 ${mid}H${nothingUntil}`}
          stroke="var(--ink-3)"
          strokeWidth="1.5"
          strokeDasharray="0 4"
          strokeLinecap="round"
        />
      )}
      {sign !== null && unnoticedEnd > sign && (
        <Fog x={sign} y={top} width={Math.max(LEAST.unnoticed, unnoticedEnd - sign)} height={bar} />
      )}
      {noticed !== null && byPersonOrNobody(byPerson, needsNobody) && (
        <MessageOut from={noticed} to={messageEnd} top={top} height={bar} />
      )}
      {needsNobody && (
        <path
          d={`M${calmFrom} ${mid}H${width}`}
          stroke={drill.verdict === "absorbed" ? "var(--absorbed)" : "var(--handled)"}
          strokeWidth="1.5"
        />
      )}
      {act !== null && actEnd !== null && <rect x={act} y={top} width={actEnd - act} height={bar} fill="var(--ink)" />}
      {act !== null && byPerson && <Pennant x={act} top={top} height={bar} />}
      {drill.ended !== null && drill.ended <= BOARD_END_MIN && (
        <Ring x={act === null ? stop : (actEnd ?? stop) + RING.gap} y={mid} byChance={drill.found_by_chance} />
      )}
    </>
  );
}

/** A rule acts by itself: no message has to travel before it does. */
function byPersonOrNobody(byPerson: boolean, needsNobody: boolean): boolean {
  return byPerson || needsNobody;
}

function Fog({
  x,
  y,
  width,
  height,
}: {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}) {
  return (
    <>
      <rect x={x} y={y} width={width} height={height} fill="var(--paper)" />
      <rect x={x} y={y} width={width} height={height} fill="url(#p-fog)" stroke="var(--ink-2)" />
    </>
  );
}

export function MessageOut({
  from,
  to,
  top,
  height,
}: {
  readonly from: number;
  readonly to: number;
  readonly top: number;
  readonly height: number;
}) {
  if (to - from <= 1) return null;
  const bars = Array.from(
    { length: Math.max(0, Math.ceil((to - from - 4.5) / 5)) },
    (_, i) => `M${(from + 3.5 + 5 * i).toFixed(1)} ${top}v${height}`,
  ).join("");
  return (
    <>
      <rect x={from} y={top} width={to - from} height={height} fill="var(--paper)" stroke="var(--signal)" />
      <path d={bars} stroke="var(--signal)" strokeWidth="2" />
    </>
  );
}

/** A person's act flies a pennant; a rule's does not. */
function Pennant({ x, top, height }: { readonly x: number; readonly top: number; readonly height: number }) {
  return (
    <path
      d={`M${x} ${top - 4}V${top + height + 1}M${x} ${top - 4}l6 2.2-6 2.2z`}
      stroke="var(--ink)"
      strokeWidth="1.5"
      fill="var(--ink)"
    />
  );
}

function Ring({ x, y, byChance }: { readonly x: number; readonly y: number; readonly byChance: boolean }) {
  return (
    <circle
      cx={x}
      cy={y}
      r={byChance ? RING.chanceRadius : RING.radius}
      fill="var(--paper)"
      stroke="var(--ink)"
      strokeWidth="1.5"
      strokeDasharray={byChance ? "2 1.6" : undefined}
    />
  );
}

/** From the act to the last useful moment; where the act came after it, the overrun in crimson under the bar. */
function Margin({ drill, ...frame }: { readonly drill: DrillResult } & Frame) {
  const { x, height, bar } = frame;
  const last = drill.last_useful;
  if (last === null || last > BOARD_END_MIN) return null;
  const { act, actEnd } = momentsOf(drill, frame);
  const mid = height / 2;
  const at = x(last);
  const overrun = act !== null && act > at;
  const from = act === null || actEnd === null ? null : overrun ? act : actEnd + MARGIN_GAP;
  const y = overrun ? mid + bar / 2 + 4 : mid;
  const drawn = from !== null && (overrun || at - from > 4);
  return (
    <>
      {drawn && (
        <path
          d={`M${from} ${y}H${at}`}
          stroke={overrun ? "var(--late)" : "var(--ink)"}
          strokeWidth={overrun ? 1.5 : 1}
        />
      )}
      <path d={`M${at} ${mid - 7}V${mid + (overrun ? 10 : 7)}`} stroke="var(--ink)" strokeWidth="1.75" />
    </>
  );
}
