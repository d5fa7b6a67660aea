import type { Site } from "../../server/contract/index.ts";
import { useNames } from "../parts/names.tsx";
import { words } from "../words.ts";
import { LabelText, Leader } from "./draw-label.tsx";
import { boxOf, SIZES } from "./geometry.ts";
import { PartLink } from "./part-link.tsx";
import type { Box, Label, Layers, Pipe, PlacedSystem, Spot, Vessel } from "./shapes.ts";
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
      {system.spots.map(({ part, label }) => (
        <Leader key={part.id} label={label} />
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

/** From its point: the head of an arrow on a pipe. */
export const ARROWS = { up: "l-4.5 8h9z", down: "l-4.5-8h9z", right: "l-8-4.5v9z", left: "l8-4.5v9z" } as const;

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
      box={handleOf(vessel)}
    >
      {vessel.hasRock && <Rock x={x + width * 0.12} y={y + height - 2} width={width * 0.62} height={height * 0.5} />}
      <path className={glass} d={`M${x} ${y}v${height}h${width}v${-height}`} />
      <Surface x={x} y={waterY} width={width} />
      {caption !== null && <LabelText label={caption} className={caption.large ? "body" : "sump-name"} />}
      {note !== null && <LabelText label={note} className="snd" />}
    </PartLink>
  );
}

/** What of a water can be pressed: its name; a store is small enough to be pressed whole. */
function handleOf({ x, y, width, height, waterY, tier, caption, note }: Vessel): Box {
  if (tier === "store") return { x, y, width, height };
  if (caption === null) return { x: x + 4, y: waterY + 8, width: 80, height: 24 };
  const named = boxOf(caption, caption.large ? SIZES.name : SIZES.sounding);
  if (note === null) return named;
  const noted = boxOf(note, SIZES.sounding);
  const right = Math.max(named.x + named.width, noted.x + noted.width);
  return { ...named, width: right - named.x, height: Math.max(named.height, noted.y + noted.height - named.y) };
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
      <PartSymbol spot={spot} />
      {label !== null && <LabelText label={label} className="dev" />}
      {label !== null && spot.reading !== undefined && (
        <LabelText label={{ ...label, text: spot.reading, y: label.y + 14 }} className="snd" />
      )}
    </PartLink>
  );
}
