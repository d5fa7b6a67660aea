import { words } from "../words.ts";
import { LabelText } from "./draw-label.tsx";
import { ARROWS } from "./draw-system.tsx";
import { PartLink } from "./part-link.tsx";
import type { Below, Lane, Layers, Rung, Station, Wire } from "./shapes.ts";
import { SensorMark } from "./symbols.tsx";

/** Circuits with their sockets, hubs, batteries, links and the ladder of people. */
export function BelowFloor({ below, layers }: { readonly below: Below; readonly layers: Layers }) {
  return (
    <g className="below">
      {layers.power && below.lanes.map((lane) => <LaneDrawing key={`${lane.storey} ${lane.id}`} lane={lane} />)}
      {below.wires
        .filter(({ kind }) => (kind === "power" ? layers.power : layers.messages))
        .map((wire) => (
          <WireDrawing key={wire.id} wire={wire} />
        ))}
      {below.stations.map((station) => (
        <StationDrawing key={`${station.kind} ${station.id}`} station={station} />
      ))}
      {below.ladder.map((rung) => (
        <RungDrawing key={rung.person.id} rung={rung} />
      ))}
    </g>
  );
}

function LaneDrawing({ lane }: { readonly lane: Lane }) {
  return (
    <>
      <LaneLink lane={lane} />
      {lane.drops.map(({ part, x }) => (
        <circle key={part} className="plug" data-plug={part} cx={x} cy={lane.y} r="9" />
      ))}
      {lane.sensors.map(({ sensor, x, label }) => (
        <PartLink
          key={sensor.id}
          id={sensor.id}
          name={`${words.part.sensor} ${words.measures[sensor.measures]} ${sensor.id}, ${words.picture.in} ${lane.id}`}
          box={{ x: x - 6, y: lane.y - 8, width: 12, height: 16 }}
        >
          <SensorMark x={x} y={lane.y} />
          {label !== null && <LabelText label={label} className="dev" />}
        </PartLink>
      ))}
    </>
  );
}

function LaneLink({ lane }: { readonly lane: Lane }) {
  const [first] = lane.labels;
  const isNarrow = first?.anchor === "end";
  return (
    <PartLink
      id={lane.id}
      name={`${words.part.circuit} ${lane.id}, ${lane.note}`}
      box={
        isNarrow
          ? { x: first.x - 150, y: lane.y - 18, width: 150, height: 16 }
          : { x: 0, y: lane.y - 14, width: lane.from - 16, height: 28 }
      }
    >
      <path className="pow" d={`M${lane.from} ${lane.y}H${lane.to}${lane.drops.map(({ d }) => d).join("")}`} />
      {lane.parent !== null && <path className="pow" d={`M${lane.parent.x} ${lane.parent.y}V${lane.y}`} />}
      {[...lane.drops.map(({ x }) => ({ x, y: lane.y })), ...(lane.parent === null ? [] : [lane.parent])].map(
        ({ x, y }) => (
          <circle key={`${x} ${y}`} cx={x} cy={y} r="3.5" fill="var(--current)" />
        ),
      )}
      {lane.labels.map((label) => (
        <LabelText key={label.y} label={label} className={label.small ? "snd" : "name"} />
      ))}
    </PartLink>
  );
}

function WireDrawing({ wire }: { readonly wire: Wire }) {
  return (
    <>
      <path className={wire.kind === "power" ? "pow" : "msg"} d={wire.d} />
      {wire.dot !== null && <circle cx={wire.dot.x} cy={wire.dot.y} r="3.5" fill="var(--current)" />}
      {wire.arrow !== null && <path d={`M${wire.arrow.x} ${wire.arrow.y}l-4.5-8h9z`} fill="var(--signal)" />}
    </>
  );
}

function StationDrawing({ station }: { readonly station: Station }) {
  const { id, kind, x, y, width, height, notes } = station;
  const drawing = (
    <>
      <rect className={kind === "silence" ? "dv outside" : "dv"} x={x} y={y} width={width} height={height} />
      <text x={x + width / 2} y={y + height / 2 + 4} className="dev" textAnchor="middle">
        {id}
      </text>
      {notes.map((note) => (
        <LabelText key={note.y} label={note} className="snd" />
      ))}
    </>
  );
  if (kind === "silence") return drawing;
  return (
    <PartLink id={id} name={`${words.part[kind]} ${id}, ${station.words}`} box={{ x, y, width, height }}>
      {drawing}
    </PartLink>
  );
}

/** Somebody of the ladder: head and shoulders, and the way from who is told before. */
function RungDrawing({ rung }: { readonly rung: Rung }) {
  const { person, x, y, name, notes, step } = rung;
  return (
    <>
      {step !== null && (
        <>
          <path className="msg" d={step.d} />
          {step.arrow !== null && (
            <path d={`M${step.arrow.x} ${step.arrow.y}${ARROWS[step.arrow.way]}`} fill="var(--signal)" />
          )}
          <LabelText label={step.wait} className="snd" />
        </>
      )}
      <PartLink
        id={person.id}
        name={`${words.part.person} ${person.id}, ${rung.words}`}
        box={{ x: x - 6, y: y - 8, width: 100, height: 16 + 14 * notes.length }}
      >
        <circle className="dv" cx={x} cy={y - 2} r="4" />
        <path className="dv" d={`M${x - 7} ${y + 11}c0-11 14-11 14 0z`} />
        <LabelText label={name} className="dev" />
        {notes.map((note) => (
          <LabelText key={note.y} label={note} className="snd" />
        ))}
      </PartLink>
    </>
  );
}
