import type { Site } from "../../server/contract/index.ts";
import { useNames } from "../parts/names.tsx";
import { words } from "../words.ts";
import type { Label, Pipe, Spot, Vessel } from "./geometry.ts";
import { SIZES, textWidth } from "./geometry.ts";
import type { PlacedSystem } from "./lay-out-place.ts";
import { PartLink } from "./part-link.tsx";
import type { Layers } from "./picture.tsx";
import { PartSymbol, Rock, Surface } from "./symbols.tsx";

/** One system in its place: water, pipes, glass, then what is in it. */
export function SystemDrawing({
  system,
  site,
  layers,
}: {
  readonly system: PlacedSystem;
  readonly site: Site;
  readonly layers: Layers;
}) {
  return (
    <g transform={`translate(${system.x} ${system.y})`}>
      {layers.water && system.vessels.map((vessel) => <Water key={vessel.body.id} vessel={vessel} />)}
      {layers.water && system.pipes.map((pipe) => <PipeDrawing key={pipe.id} pipe={pipe} />)}
      {system.vessels.map((vessel) => (
        <VesselDrawing key={vessel.body.id} vessel={vessel} />
      ))}
      {system.pipes.map((pipe) => pipe.label !== null && <PipeName key={pipe.id} pipe={pipe} label={pipe.label} />)}
      {system.spots.map((spot) => (
        <SpotDrawing key={spot.part.id} spot={spot} site={site} />
      ))}
    </g>
  );
}

function Water({ vessel }: { readonly vessel: Vessel }) {
  const { x, y, width, height, waterY, tier } = vessel;
  return (
    <rect
      className={tier === "store" ? "wet2" : "wet"}
      x={x + 1}
      y={waterY}
      width={width - 2}
      height={Math.max(0, y + height - waterY)}
    />
  );
}

const ARROWS = { up: "l-4.5 8h9z", down: "l-4.5-8h9z", right: "l-8-4.5v9z", left: "l8-4.5v9z" } as const;

function PipeDrawing({ pipe }: { readonly pipe: Pipe }) {
  return (
    <>
      <path className="pipe" d={pipe.d} />
      {pipe.arrow !== null && (
        <path d={`M${pipe.arrow.x} ${pipe.arrow.y}${ARROWS[pipe.arrow.way]}`} fill="var(--ink-2)" />
      )}
    </>
  );
}

/** The pump's id on the way up, the amount on the way back. */
function PipeName({ pipe, label }: { readonly pipe: Pipe; readonly label: Label }) {
  if (pipe.partId === null || pipe.partId === label.text) return <LabelText label={label} className="dev" />;
  return (
    <PartLink
      id={pipe.partId}
      name={`${words.part.flow} ${pipe.partId}, ${label.text}`}
      box={boxOf(label, SIZES.sounding)}
    >
      <LabelText label={label} className="snd" />
    </PartLink>
  );
}

function VesselDrawing({ vessel }: { readonly vessel: Vessel }) {
  const { x, y, width, height, waterY, body, tier, caption, note } = vessel;
  const names = useNames();
  const glass = tier === "upper" ? "glass" : "glass thin";
  return (
    <PartLink
      id={body.id}
      name={`${words.part[body.role]} ${names.water(body.id) ?? body.id}${note === null ? "" : `, ${note.text}`}`}
      box={
        tier === "upper"
          ? { x: x + 4, y: waterY + 8, width: width * 0.4, height: 40 }
          : tier === "store"
            ? { x, y, width, height }
            : { x, y: y + 16, width: Math.min(width, 120), height: 16 }
      }
    >
      {vessel.hasRock && <Rock x={x + width * 0.12} y={y + height - 2} width={width * 0.62} height={height * 0.5} />}
      <path className={glass} d={`M${x} ${y}v${height}h${width}v${-height}`} />
      <Surface x={x} y={waterY} width={width} />
      {caption !== null && <Caption caption={caption} />}
      {note !== null && <LabelText label={note} className="snd" />}
    </PartLink>
  );
}

/** The name of a water: large in a display, small over the water of a sump. */
function Caption({ caption }: { readonly caption: NonNullable<Vessel["caption"]> }) {
  const names = useNames();
  return (
    <text x={caption.x} y={caption.y} className={caption.large ? "body halow" : "sump-name halo"}>
      {names.water(caption.id) ?? caption.id}
    </text>
  );
}

export function SpotDrawing({ spot, site }: { readonly spot: Spot; readonly site: Site }) {
  const { part, x, y, width, height, label } = spot;
  const names = useNames();
  const kind = "kind" in part ? words.deviceKind[part.kind] : `${words.part.sensor} ${words.measures[part.measures]}`;
  const where = "kind" in part ? part.in : part.at;
  const isWater = site.bodies.some(({ id }) => id === where);
  return (
    <PartLink
      id={part.id}
      name={`${kind} ${part.id}, ${words.picture.in} ${isWater ? (names.water(where) ?? where) : where}`}
      box={{ x: x - width / 2, y: y - height / 2, width, height }}
    >
      {label?.leader !== undefined && (
        <path d={`M${label.leader.x} ${label.leader.from}V${label.leader.to}`} stroke="var(--ink)" strokeWidth="0.8" />
      )}
      <PartSymbol spot={spot} />
      {label !== null && <LabelText label={label} className="dev" />}
      {label !== null && spot.reading !== undefined && (
        <LabelText label={{ ...label, text: spot.reading, y: label.y + 14 }} className="snd" />
      )}
    </PartLink>
  );
}

function LabelText({ label, className }: { readonly label: Label; readonly className: string }) {
  return (
    <text
      x={label.x}
      y={label.y}
      textAnchor={label.anchor}
      className={`${className} ${label.on === "water" ? "halow" : "halo"}`}
    >
      {label.text}
    </text>
  );
}

function boxOf(
  label: Label,
  size: number,
): { readonly x: number; readonly y: number; readonly width: number; readonly height: number } {
  const width = textWidth(label.text, size);
  const x = label.anchor === "start" ? label.x : label.anchor === "end" ? label.x - width : label.x - width / 2;
  return { x, y: label.y - size, width, height: size + 2 };
}
