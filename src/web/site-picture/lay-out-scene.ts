import type { SettledLife, Site } from "../../server/contract/index.ts";
import { lanesHeight, layOutBelow } from "./lay-out-below.ts";
import { type Drawn, drawnIn, layOutStoreys } from "./lay-out-place.ts";
import { circuitsUnder, partOfSite } from "./part-of-site.ts";
import { settleLabels } from "./settle-labels.ts";
import type { Label, Layers, Scene, Spot, Storey } from "./shapes.ts";

/** What is to be drawn, and how wide. */
export interface SceneWish {
  readonly site: Site;
  readonly systemIds: readonly string[];
  readonly settled: SettledLife | null;
  readonly width: number;
  readonly shown: Pick<Layers, "messages" | "people">;
  /** How waters are called. */
  readonly nameOf: (id: string) => string;
  /** How the same picture was drawn before a change; null for a new one. */
  readonly before: Drawn | null;
}

/** The whole picture: storeys with room for their circuits between them, what lies below, and every label in its place. */
export function layOutScene({ site, systemIds, settled, width, shown, nameOf, before }: SceneWish): {
  readonly scene: Scene;
  readonly drawn: Drawn;
} {
  const part = partOfSite(site, new Set(systemIds));
  const close = layOutStoreys(site, systemIds, settled, width, nameOf, before);
  let down = 0;
  const storeys = close.map((storey, i) => {
    const moved = moveDown(storey, down);
    down += lanesHeight(
      circuitsUnder(part, new Set(storey.systems.map(({ id }) => id)), i === close.length - 1).length,
    );
    return moved;
  });
  const drawnWidth = Math.ceil(
    Math.max(width, ...storeys.flatMap(({ systems }) => systems.map((system) => system.x + system.width))),
  );
  const below = layOutBelow(part, storeys, drawnWidth, shown);
  return { scene: settleLabels({ storeys, below, width: drawnWidth }), drawn: drawnIn(close) };
}

function moveDown(storey: Storey, by: number): Storey {
  if (by === 0) return storey;
  const lower = (label: Label): Label => ({ ...label, y: label.y + by });
  return {
    systems: storey.systems.map((system) => ({ ...system, y: system.y + by })),
    rooms: storey.rooms.map((room) => ({ ...room, label: lower(room.label) })),
    walls: storey.walls.map((wall) => ({ ...wall, top: wall.top + by })),
    floor: storey.floor + by,
    roomSpots: storey.roomSpots.map(
      (spot): Spot => ({ ...spot, y: spot.y + by, label: spot.label === null ? null : lower(spot.label) }),
    ),
  };
}
