import { useMemo } from "react";
import type { SettledLife, Site } from "../../server/contract/index.ts";
import { useNames } from "../parts/names.tsx";
import { words } from "../words.ts";
import { BelowFloor } from "./draw-below.tsx";
import { SpotDrawing, SystemDrawing } from "./draw-system.tsx";
import { type Below, lanesHeight, layOutBelow } from "./lay-out-below.ts";
import { layOutStoreys, type Storey } from "./lay-out-place.ts";
import { moveAmongParts, PartLink } from "./part-link.tsx";
import { circuitsUnder, partOfSite } from "./part-of-site.ts";

export interface Layers {
  readonly water: boolean;
  readonly power: boolean;
  readonly messages: boolean;
}

/** A section through the place: waters to rough scale over the floor, power and messages below it. */
export function Picture({
  site,
  systemIds,
  settled,
  width,
  layers,
}: {
  readonly site: Site;
  readonly systemIds: readonly string[];
  readonly settled: SettledLife | null;
  readonly width: number;
  readonly layers: Layers;
}) {
  const names = useNames();
  const { storeys, below } = useMemo(
    () => layOut(site, systemIds, settled, width, layers.messages, (id) => names.water(id) ?? id),
    [site, systemIds, settled, width, layers.messages, names],
  );
  const drawnWidth = Math.max(
    width,
    ...storeys.flatMap(({ systems }) => systems.map((system) => system.x + system.width)),
  );
  return (
    <svg
      className="place-picture"
      width={drawnWidth}
      height={below.bottom}
      viewBox={`0 0 ${drawnWidth} ${below.bottom}`}
      aria-label={words.picture.name(site.name, systemIds.length)}
      onKeyDown={moveAmongParts}
    >
      <BelowFloor below={below} layers={layers} />
      {storeys.map((storey) => (
        <StoreyDrawing key={storey.floor} storey={storey} site={site} width={drawnWidth} layers={layers} />
      ))}
    </svg>
  );
}

function StoreyDrawing({
  storey,
  site,
  width,
  layers,
}: {
  readonly storey: Storey;
  readonly site: Site;
  readonly width: number;
  readonly layers: Layers;
}) {
  return (
    <g className="storey">
      <path d={`M0 ${storey.floor}H${width}`} stroke="var(--ink-3)" />
      {storey.walls.map((wall) => (
        <path key={wall.x} d={`M${wall.x} ${wall.top}V${storey.floor}`} stroke="var(--hair)" strokeDasharray="6 4" />
      ))}
      {storey.rooms.map((room) => (
        <PartLink
          key={room.id}
          id={room.id}
          name={`${words.part.room} ${room.text}`}
          box={{ x: room.x, y: room.y - 12, width: 110, height: 14 }}
        >
          <text x={room.x} y={room.y} className="snd">
            {room.text}
          </text>
        </PartLink>
      ))}
      {storey.systems.map((system) => (
        <SystemDrawing key={system.id} system={system} site={site} layers={layers} />
      ))}
      {storey.roomSpots.map((spot) => (
        <SpotDrawing key={spot.part.id} spot={spot} site={site} />
      ))}
    </g>
  );
}

function layOut(
  site: Site,
  systemIds: readonly string[],
  settled: SettledLife | null,
  width: number,
  withMessages: boolean,
  nameOf: (id: string) => string,
): { readonly storeys: readonly Storey[]; readonly below: Below } {
  const shown = partOfSite(site, new Set(systemIds));
  const close = layOutStoreys(site, systemIds, settled, width, nameOf);
  let down = 0;
  const storeys = close.map((storey, i) => {
    const moved = moveDown(storey, down);
    down += lanesHeight(
      circuitsUnder(shown, new Set(storey.systems.map(({ id }) => id)), i === close.length - 1).length,
    );
    return moved;
  });
  return { storeys, below: layOutBelow(shown, storeys, width, withMessages) };
}

function moveDown(storey: Storey, by: number): Storey {
  if (by === 0) return storey;
  return {
    systems: storey.systems.map((system) => ({ ...system, y: system.y + by })),
    rooms: storey.rooms.map((room) => ({ ...room, y: room.y + by })),
    walls: storey.walls.map((wall) => ({ ...wall, top: wall.top + by })),
    floor: storey.floor + by,
    roomSpots: storey.roomSpots.map((spot) => ({
      ...spot,
      y: spot.y + by,
      label: spot.label === null ? null : { ...spot.label, y: spot.label.y + by },
    })),
  };
}
