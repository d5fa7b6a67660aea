import type { Site } from "../../server/contract/index.ts";
import { chainOf } from "./part-of-site.ts";
import type { Station, Storey, Wire } from "./shapes.ts";

interface MessageWire {
  readonly wire: Wire;
  /** Lowest point, px. */
  readonly low: number;
}

/** Sensors to their hub under the floor; hub to links, and link to link. */
export function messageWires(
  site: Site,
  storeys: readonly Storey[],
  stations: readonly Station[],
  width: number,
): readonly MessageWire[] {
  const at = new Map(stations.map((station) => [station.id, station]));
  const wires: MessageWire[] = [];
  site.hubs.forEach((hub, i) => {
    const station = at.get(hub.id);
    if (station === undefined) return;
    const hubX = station.x + station.width / 2 + 12;
    for (const [s, storey] of storeys.entries()) {
      const y = storey.floor + 9 + i * 5;
      const inWater = storey.systems.flatMap((system) =>
        system.spots.map((spot) => ({ part: spot.part, x: system.x + spot.x, y: system.y + spot.y + spot.height / 2 })),
      );
      const inRoom = storey.roomSpots.map((spot) => ({ part: spot.part, x: spot.x, y: spot.y + spot.height / 2 }));
      const sensors = [...inWater, ...inRoom].filter(({ part }) => "hub" in part && part.hub === hub.id);
      if (sensors.length === 0) continue;
      const isLast = s === storeys.length - 1;
      const turn = isLast ? hubX : width - 3 - i * 5;
      const xs = [...sensors.map(({ x }) => x), turn];
      const down = isLast
        ? `M${hubX} ${y}V${station.y}`
        : `M${turn} ${y}V${station.y - 12 - i * 4}H${hubX}V${station.y}`;
      wires.push({
        low: 0,
        wire: {
          id: `${hub.id} sensors ${s}`,
          kind: "message",
          d: `${sensors.map((sensor) => `M${sensor.x} ${sensor.y}V${y}`).join("")}M${Math.min(...xs)} ${y}H${Math.max(...xs)}${down}`,
          dot: null,
          arrow: null,
        },
      });
    }
  });
  const pairs = [
    ...site.hubs.flatMap(({ id, sendsOver }) => sendsOver.map((link) => [id, chainOf(site, link)[0]])),
    ...site.links.flatMap(({ id, via }) => (via === null ? [] : [[via, id]])),
  ];
  const seen = new Set<string>();
  let lane = 0;
  for (const [fromId, toId] of pairs) {
    const from = at.get(fromId);
    const to = at.get(toId);
    if (from === undefined || to === undefined || seen.has(`${fromId} ${toId}`)) continue;
    seen.add(`${fromId} ${toId}`);
    const notes = Math.max(...stations.filter(({ y }) => y === from.y).map((station) => station.notes.length));
    wires.push(betweenStations(from, to, from.y + from.height + notes * 14 + 12 + (lane % 5) * 6));
    lane += 1;
  }
  return wires;
}

/** Out of the foot of one station, along under the notes at `low`, and up into the other; or down to it where it stands lower. */
function betweenStations(from: Station, to: Station, low: number): MessageWire {
  const startX = from.x + from.width - 12;
  const endX = to.x + 12;
  const goesDown = to.y > from.y;
  const end = goesDown ? to.y : to.y + to.height;
  return {
    low: goesDown ? 0 : low,
    wire: {
      id: `${from.id} ${to.id}`,
      kind: "message",
      d: `M${startX} ${from.y + from.height}V${low}H${endX}V${end}`,
      dot: null,
      arrow: null,
    },
  };
}
