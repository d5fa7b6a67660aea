import { words } from "../words.ts";
import type { Below, Lane, Station, Wire } from "./lay-out-below.ts";
import { PartLink } from "./part-link.tsx";
import type { Layers } from "./picture.tsx";
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
      {below.stations
        .filter(({ kind }) => layers.messages || (kind !== "person" && kind !== "silence"))
        .map((station) => (
          <StationDrawing key={`${station.kind} ${station.id}`} station={station} />
        ))}
    </g>
  );
}

function LaneDrawing({ lane }: { readonly lane: Lane }) {
  return (
    <>
      <LaneLink lane={lane} />
      {lane.sensors.map((sensor, i) => (
        <PartLink
          key={sensor.id}
          id={sensor.id}
          name={`${words.part.sensor} ${words.measures[sensor.measures]} ${sensor.id}, ${words.picture.in} ${lane.id}`}
          box={{ x: lane.to - 14 - 120 * i, y: lane.y - 8, width: 12, height: 16 }}
        >
          <SensorMark x={lane.to - 8 - 120 * i} y={lane.y} />
          <text x={lane.to - 18 - 120 * i} y={lane.y - 7} textAnchor="end" className="dev halo">
            {sensor.id}
          </text>
        </PartLink>
      ))}
    </>
  );
}

function LaneLink({ lane }: { readonly lane: Lane }) {
  return (
    <PartLink
      id={lane.id}
      name={`${words.part.circuit} ${lane.id}, ${lane.note}`}
      box={
        lane.namedAtEnd
          ? { x: lane.to - 150, y: lane.y - 18, width: 150, height: 16 }
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
      {lane.namedAtEnd ? (
        <text x={lane.to} y={lane.y - 7} textAnchor="end" className="snd halo">
          {lane.id}, {lane.note}
        </text>
      ) : (
        <>
          <text x="0" y={lane.y - 2} className="name halo">
            {lane.id}
          </text>
          <text x="0" y={lane.y + 13} className="snd halo">
            {lane.note}
          </text>
        </>
      )}
    </PartLink>
  );
}

function WireDrawing({ wire }: { readonly wire: Wire }) {
  return (
    <>
      <path className={wire.kind === "power" ? "pow" : "msg"} d={wire.d} />
      {wire.dot !== null && <circle cx={wire.dot.x} cy={wire.dot.y} r="3.5" fill="var(--current)" />}
      {wire.arrow !== null && <path d={`M${wire.arrow.x} ${wire.arrow.y}l-4.5 8h9z`} fill="var(--signal)" />}
    </>
  );
}

function StationDrawing({ station }: { readonly station: Station }) {
  const { id, kind, x, y, width, height, notes } = station;
  const drawing = (
    <>
      {kind === "person" ? (
        <path d={`M${x} ${y + height}H${x + width}`} stroke="var(--ink)" strokeWidth="1.5" />
      ) : (
        <rect className={kind === "silence" ? "dv outside" : "dv"} x={x} y={y} width={width} height={height} />
      )}
      {kind === "person" && <circle cx={x + 9} cy={y + height / 2} r="5" className="dv" />}
      <text
        x={kind === "person" ? x + 20 : x + width / 2}
        y={y + height / 2 + 4}
        className="dev"
        textAnchor={kind === "person" ? "start" : "middle"}
      >
        {id}
      </text>
      {notes.map((note, i) => (
        <text key={note} x={x} y={y + height + 15 + i * 14} className="snd halo">
          {note}
        </text>
      ))}
    </>
  );
  if (kind === "silence") return drawing;
  return (
    <PartLink id={id} name={`${words.part[kind]} ${id}, ${notes.join(", ")}`} box={{ x, y, width, height }}>
      {drawing}
    </PartLink>
  );
}
