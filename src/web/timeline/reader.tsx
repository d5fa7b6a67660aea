import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from "react";
import type { DrillReport } from "../../server/contract/index.ts";
import { wallClock } from "../parts/clock.ts";
import { bare, measure, span } from "../parts/format.ts";
import { useNames } from "../parts/names.tsx";
import { asTold } from "../parts/told.ts";
import { COARSE, useMedia } from "../parts/use-width.ts";
import { timelineWords } from "../words/timeline.ts";
import { words } from "../words.ts";
import { headroomOf, type Places } from "./chart.tsx";
import { heldAt, isNumber, valueAt } from "./curve-path.ts";
import { Note, type Plot, textWidth } from "./lane-frame.tsx";
import type { Curve } from "./quantities.ts";
import type { Run } from "./run.ts";
import { heightOf, type LaneScale } from "./water-lane.tsx";
import { CLOSER, holding, moved, type Window, zoomed } from "./window.ts";

interface Props {
  readonly report: DrillReport;
  readonly run: Run;
  readonly waters: readonly Curve[];
  readonly scales: readonly LaneScale[];
  readonly devices: readonly Curve[];
  readonly plot: Plot;
  readonly places: Places;
  /** What is asked to be shown: the plot follows it a moment later. */
  readonly window: Window;
  readonly wholeMin: number;
  readonly onWindow: (next: Window) => void;
}

/** A press that moves less than this, px, is no drag. */
const DRAG_PX = 6;
/** Arrow keys go so many steps along what is shown. */
const STEPS = 120;
/** How much one notch of a wheel looks closer. */
const WHEEL_FACTOR = 1.0022;

interface Gesture {
  /** Pointers that are down, by id: where they were, px. */
  readonly down: Map<number, number>;
  /** Where a drag began, px; null while there is none. */
  dragFrom: number | null;
}

/**
 * Lies over the lanes and reads all of them at one moment, by pointer or by keys; looks closer by a drag, a wheel, two fingers or keys.
 * Only this is drawn anew while it moves.
 */
export function Reader(props: Props) {
  const { report, plot, window, places, wholeMin, onWindow } = props;
  const { fromMin, endMin, left, right } = plot;
  const { water } = useNames();
  const coarse = useMedia(COARSE);
  const [at, setAt] = useState<number | null>(null);
  const [drag, setDrag] = useState<readonly [number, number] | null>(null);
  const layer = useRef<HTMLDivElement>(null);
  const gesture = useRef<Gesture>({ down: new Map(), dragFrom: null });
  const shown = at !== null && at >= fromMin && at <= endMin ? at : null;
  const step = (endMin - fromMin) / STEPS;
  const minuteAt = (px: number): number => {
    const share = Math.min(1, Math.max(0, (px - left) / (right - left)));
    return fromMin + share * (endMin - fromMin);
  };
  const pxOf = (event: { readonly clientX: number }): number =>
    event.clientX - (layer.current?.getBoundingClientRect().left ?? 0);

  useWheel(layer, (event) => {
    if (event.ctrlKey || event.metaKey) {
      event.preventDefault();
      onWindow(zoomed(window, WHEEL_FACTOR ** event.deltaY, minuteAt(pxOf(event)), wholeMin));
    } else if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
      event.preventDefault();
      onWindow(moved(window, (event.deltaX || event.deltaY) / (right - left), wholeMin));
    }
  });

  const onPointerDown = (event: PointerEvent<HTMLDivElement>): void => {
    if (event.button !== 0) return;
    const px = pxOf(event);
    gesture.current.down.set(event.pointerId, px);
    event.currentTarget.setPointerCapture(event.pointerId);
    gesture.current.dragFrom = event.pointerType === "mouse" && px >= left ? px : null;
    if (px >= left) setAt(minuteAt(px));
  };
  const onPointerMove = (event: PointerEvent<HTMLDivElement>): void => {
    const px = pxOf(event);
    const { down, dragFrom } = gesture.current;
    if (down.size === 2 && down.has(event.pointerId)) {
      pinch(event.pointerId, px);
      return;
    }
    if (down.has(event.pointerId)) down.set(event.pointerId, px);
    if (dragFrom !== null && Math.abs(px - dragFrom) > DRAG_PX) setDrag([minuteAt(dragFrom), minuteAt(px)]);
    setAt(px < left ? null : minuteAt(px));
  };
  /** What was under both fingers stays under them. */
  const pinch = (id: number, px: number): void => {
    const { down } = gesture.current;
    const other = [...down].find(([key]) => key !== id)?.[1] ?? 0;
    const before = down.get(id) ?? px;
    const factor = Math.max(12, Math.abs(before - other)) / Math.max(12, Math.abs(px - other));
    down.set(id, px);
    onWindow(zoomed(window, factor, minuteAt(other), wholeMin));
    setAt(null);
  };
  const onPointerUp = (event: PointerEvent<HTMLDivElement>): void => {
    gesture.current.down.delete(event.pointerId);
    gesture.current.dragFrom = null;
    if (drag === null) return;
    setDrag(null);
    onWindow({ fromMin: Math.min(...drag), endMin: Math.max(...drag) });
  };

  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>): void => {
    const here = shown ?? fromMin;
    const target = MOVES[event.key]?.(here, step, window);
    if (target !== undefined && !event.altKey && !event.ctrlKey && !event.metaKey) {
      event.preventDefault();
      const next = Math.min(wholeMin, Math.max(0, target));
      setAt(next);
      onWindow(holding(window, next, wholeMin));
      return;
    }
    const turned = TURNS[event.key]?.(window, shown ?? (window.fromMin + window.endMin) / 2, wholeMin);
    if (turned !== undefined && !event.ctrlKey && !event.metaKey) {
      event.preventDefault();
      onWindow(turned);
    }
    if (event.key === "Escape") setAt(null);
  };

  const lines = shown === null ? [] : linesAt(props, shown, (part) => water(part) ?? part);
  const spoken =
    shown === null
      ? timelineWords.reader.nothing
      : `${timeWords(report.starts, shown)}. ${lines.map(({ spoken: line }) => line).join("; ")}`;
  return (
    <>
      <div
        className="reader"
        ref={layer}
        role="slider"
        tabIndex={0}
        aria-label={timelineWords.reader.name}
        aria-describedby="reader-hint"
        aria-valuemin={Math.round(fromMin)}
        aria-valuemax={Math.round(endMin)}
        aria-valuenow={Math.round(shown ?? fromMin)}
        aria-valuetext={spoken}
        onPointerDown={onPointerDown}
        onPointerMove={onPointerMove}
        onPointerUp={onPointerUp}
        onPointerCancel={onPointerUp}
        onPointerLeave={() => gesture.current.down.size === 0 && setAt(null)}
        onDoubleClick={() => onWindow({ fromMin: 0, endMin: wholeMin })}
        onKeyDown={onKeyDown}
      >
        <svg className="lanes" width={plot.width} height={places.height} aria-hidden="true">
          {drag !== null && (
            <rect
              className="span"
              x={plot.x(Math.min(...drag))}
              y={places.axis}
              width={plot.x(Math.max(...drag)) - plot.x(Math.min(...drag))}
              height={places.bottom - places.axis}
            />
          )}
          {shown !== null && <Cursor plot={plot} places={places} at={shown} report={report} lines={lines} />}
        </svg>
      </div>
      <p className="vh" id="reader-hint">
        {coarse ? timelineWords.reader.hintTouch : timelineWords.reader.hint}
      </p>
    </>
  );
}

/** React listens passively to wheels, and a passive listener cannot keep the page where it is. */
function useWheel(layer: React.RefObject<HTMLDivElement | null>, onWheel: (event: WheelEvent) => void): void {
  const latest = useRef(onWheel);
  useEffect(() => {
    latest.current = onWheel;
  });
  useEffect(() => {
    const element = layer.current;
    if (element === null) return;
    const listen = (event: WheelEvent): void => latest.current(event);
    element.addEventListener("wheel", listen, { passive: false });
    return () => element.removeEventListener("wheel", listen);
  }, [layer]);
}

const MOVES: Readonly<Record<string, (at: number, step: number, window: Window) => number>> = {
  ArrowRight: (at, step) => at + step,
  ArrowUp: (at, step) => at + step,
  ArrowLeft: (at, step) => at - step,
  ArrowDown: (at, step) => at - step,
  PageUp: (at, step) => at + 10 * step,
  PageDown: (at, step) => at - 10 * step,
  Home: (_, __, { fromMin }) => fromMin,
  End: (_, __, { endMin }) => endMin,
};

const TURNS: Readonly<Record<string, (window: Window, at: number, wholeMin: number) => Window>> = {
  "+": (window, at, whole) => zoomed(window, CLOSER, at, whole),
  "=": (window, at, whole) => zoomed(window, CLOSER, at, whole),
  "-": (window, at, whole) => zoomed(window, 1 / CLOSER, at, whole),
  "0": (_, __, whole) => ({ fromMin: 0, endMin: whole }),
};

function timeWords(starts: string, min: number): string {
  const { clock, day } = wallClock(starts, min);
  return timelineWords.reader.at(span(min), day === wallClock(starts, 0).day ? clock : `${day.slice(0, 3)} ${clock}`);
}

interface Line {
  readonly key: string;
  readonly y: number;
  /** What is read, each with the class of its stroke. */
  readonly values: readonly { readonly text: string; readonly className: string }[];
  readonly dots: readonly number[];
  readonly spoken: string;
}

/** What every lane says at a moment. */
function linesAt(props: Props, at: number, named: (part: string) => string): readonly Line[] {
  const { report, run, devices, places } = props;
  const times = report.trace.t_min;
  const say = timelineWords.reader;
  const waters = props.waters.map((curve, i) => waterLine(props, curve, i, at, named));
  const powered = devices.map((curve, i): Line => {
    const value = heldAt(times, run.truth(curve.key), at);
    const text = !isNumber(value)
      ? words.drill.unknown
      : curve.unit === ""
        ? value > 0.5
          ? say.on
          : say.off
        : measure(value * curve.factor, curve.unit, curve.digits);
    return {
      key: curve.key,
      y: places.devices[i] + 13,
      values: [{ text, className: "strong" }],
      dots: [],
      spoken: `${curve.part} ${text}`,
    };
  });
  const people = report.people.flatMap((person, i): Line[] => {
    const now = person.spans.find(({ from_min, to_min }) => at >= from_min && at < to_min);
    if (now === undefined) return [];
    return [
      {
        key: person.person,
        y: places.people[i] + 12,
        values: [],
        dots: [],
        spoken: `${person.person} ${asTold(now.what)}`,
      },
    ];
  });
  return [...waters, ...powered, ...people];
}

function waterLine(
  { report, scales, plot, places }: Props,
  curve: Curve,
  lane: number,
  at: number,
  named: (part: string) => string,
): Line {
  const say = timelineWords.reader;
  const scale = scales[lane];
  const times = report.trace.t_min;
  const top = places.waters[lane];
  const y = heightOf(scale, top, places.size.water, headroomOf(lane, plot.narrow));
  const truth = valueAt(times, scale.truth, at);
  const free = valueAt(report.unattended.trace.t_min, scale.free, at);
  const parted = isNumber(free) && isNumber(truth) && Math.abs(free - truth) > 10 ** -curve.digits;
  const sensed = scale.readings.map(({ id, values }) => ({ id, value: heldAt(times, values, at) }));
  const plain = (value: number | null): string =>
    isNumber(value) ? bare(value, curve.unit, curve.digits) : words.drill.unknown;
  const values = [
    ...(curve.sensedOnly === true ? [] : [{ text: withUnit(truth, curve), className: "strong" }]),
    ...sensed.map(({ value }) => ({ text: `${say.sensed} ${plain(value)}`, className: "signal" })),
    ...(parted ? [{ text: `${say.unattended} ${plain(free)}`, className: "" }] : []),
  ];
  const told = [
    ...(curve.sensedOnly === true ? [] : [`${withUnit(truth, curve)} ${say.true}`]),
    ...sensed.map(({ id, value }) => `${id} ${plain(value)}`),
    ...(parted ? [`${say.unattended} ${plain(free)}`] : []),
  ];
  return {
    key: curve.key,
    y: top + (plot.narrow ? 14 : 12),
    values,
    dots: isNumber(truth) ? [y(truth)] : [],
    spoken: `${curve.name} ${named(curve.part)} ${told.join(", ")}`,
  };
}

function withUnit(value: number | null, curve: Curve): string {
  return isNumber(value) ? measure(value, curve.unit, curve.digits) : words.drill.unknown;
}

/** The line through all lanes, and beside it what each of them says. */
function Cursor({
  plot,
  places,
  at,
  report,
  lines,
}: {
  readonly plot: Plot;
  readonly places: Places;
  readonly at: number;
  readonly report: DrillReport;
  readonly lines: readonly Line[];
}) {
  const x = plot.x(at);
  const head = `${span(at)}, ${wallClock(report.starts, at).clock}`;
  const headHalf = textWidth(head) / 2 + 4;
  const headX = Math.min(Math.max(x, plot.left + headHalf), plot.right - headHalf);
  return (
    <g>
      <path className="cursor" d={`M${x} ${places.axis - 10}V${places.bottom}`} />
      <rect x={headX - headHalf} y={places.axis - 27} width={2 * headHalf} height="17" fill="var(--ink)" />
      <text x={headX} y={places.axis - 14.5} textAnchor="middle" className="cursor-time">
        {head}
      </text>
      {lines.map(({ key, y, values, dots }) => {
        const size = values.reduce((sum, { text }) => sum + textWidth(text, 13) + 8, 8);
        const before = x + size > plot.right;
        return (
          <g key={key}>
            {dots.map((dot) => (
              <circle key={dot} cx={x} cy={dot} r="3" fill="var(--ink)" />
            ))}
            {values.length > 0 && (
              <Note x={before ? x - 8 : x + 8} y={y} anchor={before ? "end" : "start"}>
                {values.map(({ text, className }, i) => (
                  <tspan key={text} className={className} dx={i === 0 ? 0 : 8}>
                    {text}
                  </tspan>
                ))}
              </Note>
            )}
          </g>
        );
      })}
    </g>
  );
}
