import type { Spot } from "./shapes.ts";

/** The mark of a device or sensor: plain strokes of the same weight, told apart by their outline. */
export function PartSymbol({ spot }: { readonly spot: Spot }) {
  const { part, x, y, width, height } = spot;
  if (!("kind" in part)) return part.measures === "leak" ? <LeakMark x={x} y={y} /> : <SensorMark x={x} y={y} />;
  const left = x - width / 2;
  const top = y - height / 2;
  switch (part.kind) {
    case "heater":
      return (
        <>
          <rect className="dv" x={left} y={top} width={width} height={height} rx="5" />
          <path
            d={`M${x} ${top + 8}l-2.5 5 5 5-5 5 5 5-5 5 2.5 4`}
            fill="none"
            stroke="var(--current)"
            strokeWidth="1.5"
          />
        </>
      );
    case "return-pump":
    case "wave-pump":
      return (
        <>
          <circle className="dv" cx={x} cy={y} r="10" />
          <path d={`M${x - 4} ${y - 5}l9 5-9 5z`} fill="var(--ink)" />
        </>
      );
    case "air-pump":
      return (
        <>
          <circle className="dv" cx={x} cy={y} r="10" />
          <g fill="none" stroke="var(--ink)" strokeWidth="1.25">
            <circle cx={x - 2.5} cy={y + 3} r="2" />
            <circle cx={x + 3} cy={y} r="2" />
            <circle cx={x - 1} cy={y - 4} r="2" />
          </g>
        </>
      );
    case "light":
      return (
        <>
          <rect className="dv" x={left} y={top} width={width} height={height} />
          <path
            d={`M${left + 6} ${top + 11}h${width - 12}`}
            stroke="var(--current)"
            strokeWidth="1.5"
            strokeDasharray="1.5 5"
          />
        </>
      );
    case "fan":
      return (
        <>
          <circle className="dv" cx={x} cy={y} r="9" />
          <path
            d={`M${x} ${y}c-5-7 3-9 0 0c7-5 9 3 0 0c5 7-3 9 0 0c-7 5-9-3 0 0z`}
            fill="var(--ink)"
            stroke="var(--ink)"
          />
        </>
      );
    case "skimmer":
      return (
        <>
          <path
            className="dv"
            d={`M${left} ${top + 16}V${top + height}h${width}V${top + 16}l-6-6V${top}h${12 - width}v10z`}
          />
          <path d={`M${left} ${top + 24}h${width}`} stroke="var(--ink)" strokeDasharray="2 3" />
        </>
      );
    case "calcium-reactor":
      return (
        <>
          <rect className="dv" x={left} y={top} width={width} height={height} />
          <path
            d={`M${left + 4} ${top + 14}h${width - 8}M${left + 4} ${top + 22}h${width - 8}M${left + 4} ${top + 30}h${width - 8}M${left + 4} ${top + 38}h${width - 8}`}
            stroke="var(--ink)"
            strokeWidth="2"
            strokeDasharray="0 5"
            strokeLinecap="round"
          />
        </>
      );
    case "chiller":
      return (
        <>
          <rect className="dv" x={left} y={top} width={width} height={height} />
          <path
            d={`M${x - 6} ${y - 5}h12M${x - 6} ${y}h12M${x - 6} ${y + 5}h12`}
            stroke="var(--signal)"
            strokeWidth="1.5"
          />
        </>
      );
    case "steriliser":
      return (
        <>
          <rect className="dv" x={left} y={top} width={width} height={height} rx="11" />
          <path d={`M${x} ${top + 6}v${height - 12}`} stroke="var(--current)" strokeWidth="2" />
        </>
      );
    case "doser":
    case "top-off":
    case "water-change":
      return <path className="dv" d={`M${x} ${y - 8}c3.5 4.5 6 7 6 10a6 6 0 0 1-12 0c0-3 2.5-5.5 6-10z`} />;
    case "refill-valve":
      return <path className="dv" d={`M${x - 7} ${y - 5}v10l14-10v10z`} />;
    case "siren":
      return <path className="dv" d={`M${x - 8} ${y - 3}h5l8-6v18l-8-6h-5z`} />;
    case "feeder":
    case "other":
      return <rect className="dv" x={left} y={top} width={width} height={height} />;
  }
}

export function SensorMark({ x, y }: { readonly x: number; readonly y: number }) {
  return (
    <>
      <path d={`M${x} ${y - 7}l5 7-5 7-5-7z`} fill="var(--raised)" stroke="var(--ink)" strokeWidth="1.5" />
      <circle cx={x} cy={y} r="1.6" fill="var(--ink)" />
    </>
  );
}

/** A leak sensor lies on the floor. */
function LeakMark({ x, y }: { readonly x: number; readonly y: number }) {
  return (
    <path
      d={`M${x - 12} ${y + 4}h24M${x - 7} ${y + 4}v-5M${x} ${y + 4}v-5M${x + 7} ${y + 4}v-5`}
      fill="none"
      stroke="var(--ink)"
      strokeWidth="1.75"
    />
  );
}

/** Rockwork as depth contours, the way a chart draws a shoal. `x`, `y` is its left foot. */
export function Rock({
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
  return [1, 0.72, 0.42].map((share, i) => {
    const w = width * (1 - i * 0.17);
    const left = x + width * 0.085 * i + (i > 0 ? width * 0.01 : 0);
    const h = height * share;
    const p = (dx: number, dy: number): string => `${(w * dx).toFixed(1)} ${(h * dy).toFixed(1)}`;
    const d = `M${left} ${y}c${p(0.03, -0.42)} ${p(0.07, -0.5)} ${p(0.12, -0.74)}s${p(0.1, -0.3)} ${p(0.16, -0.12)}s${p(0.05, 0.3)} ${p(0.12, 0.26)}s${p(0.08, -0.22)} ${p(0.15, -0.2)}s${p(0.1, 0.16)} ${p(0.17, 0.3)}s${p(0.18, 0.2)} ${p(0.28, 0.5)}`;
    return (
      <path
        key={share}
        d={d}
        fill="var(--water-2)"
        fillOpacity="0.5"
        stroke="var(--ink-3)"
        strokeDasharray={i === 2 ? "1 3" : undefined}
        strokeLinecap="round"
      />
    );
  });
}

/** The surface of a water. */
export function Surface({ x, y, width }: { readonly x: number; readonly y: number; readonly width: number }) {
  const waves = Math.max(1, Math.round((width - 2) / 12));
  const half = (width - 2) / waves / 2;
  return <path className="surf" d={`M${x + 1} ${y}${`q${half / 2} -2.2 ${half} 0t${half} 0`.repeat(waves)}`} />;
}
