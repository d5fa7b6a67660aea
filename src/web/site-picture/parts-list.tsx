import type { Site } from "../../server/contract/index.ts";
import { Link } from "../app/router.tsx";
import { Name } from "../parts/names.tsx";
import { words } from "../words.ts";

interface Entry {
  readonly id: string;
  readonly kind: string;
}

/** The picture as a list: the same parts, by where they are, for those who hear it or do not care for pictures. */
export function PartsList({ site, addressOf }: { readonly site: Site; readonly addressOf: (id: string) => string }) {
  return (
    <details className="parts-list">
      <summary>{words.picture.list}</summary>
      <div className="columns">
        {site.systems.map((system) => (
          <section key={system.id}>
            <h2>
              <Name id={system.id} />
            </h2>
            <ul>
              {site.bodies
                .filter((body) => body.system === system.id)
                .map((body) => (
                  <li key={body.id}>
                    <PartLine entry={{ id: body.id, kind: words.part[body.role] }} addressOf={addressOf} />
                    <Entries entries={partsOfBody(site, body.id)} addressOf={addressOf} />
                  </li>
                ))}
            </ul>
            <Entries
              entries={site.flows
                .filter((flow) => flow.system === system.id)
                .map(({ id }) => ({ id, kind: words.part.flow }))}
              addressOf={addressOf}
            />
          </section>
        ))}
        <section>
          <h2>{words.picture.layer.power}</h2>
          <Entries
            entries={[
              ...site.circuits.map(({ id }) => ({ id, kind: words.part.circuit })),
              ...site.sensors
                .filter(({ atKind }) => atKind === "circuit")
                .map(({ id, measures }) => ({ id, kind: words.measures[measures] })),
              ...site.batteries.map(({ id, kind }) => ({ id, kind: words.part[kind] })),
            ]}
            addressOf={addressOf}
          />
        </section>
        <section>
          <h2>{words.picture.layer.messages}</h2>
          <Entries
            entries={[
              ...site.hubs.map(({ id }) => ({ id, kind: words.part.hub })),
              ...site.links.map(({ id }) => ({ id, kind: words.part.link })),
              ...site.people.map(({ id }) => ({ id, kind: words.part.person })),
            ]}
            addressOf={addressOf}
          />
        </section>
        <section>
          <h2>{words.picture.rooms}</h2>
          <ul>
            {site.rooms.map((room) => (
              <li key={room.id}>
                <PartLine entry={{ id: room.id, kind: words.part.room }} addressOf={addressOf} />
                <Entries
                  entries={site.sensors
                    .filter(({ at }) => at === room.id)
                    .map(({ id, measures }) => ({ id, kind: words.measures[measures] }))}
                  addressOf={addressOf}
                />
              </li>
            ))}
          </ul>
        </section>
      </div>
    </details>
  );
}

function partsOfBody(site: Site, bodyId: string): readonly Entry[] {
  const devices = site.devices.filter((device) => device.in === bodyId);
  const places = new Set([bodyId, ...devices.map(({ id }) => id)]);
  return [
    ...devices.map(({ id, kind }) => ({ id, kind: words.deviceKind[kind] })),
    ...site.sensors
      .filter(({ at }) => places.has(at))
      .map(({ id, measures }) => ({ id, kind: words.measures[measures] })),
  ];
}

function Entries({
  entries,
  addressOf,
}: {
  readonly entries: readonly Entry[];
  readonly addressOf: (id: string) => string;
}) {
  if (entries.length === 0) return null;
  return (
    <ul>
      {entries.map((entry) => (
        <li key={entry.id}>
          <PartLine entry={entry} addressOf={addressOf} />
        </li>
      ))}
    </ul>
  );
}

function PartLine({ entry, addressOf }: { readonly entry: Entry; readonly addressOf: (id: string) => string }) {
  return (
    <Link to={addressOf(entry.id)}>
      <Name id={entry.id} /> <span className="sm">{entry.kind}</span>
    </Link>
  );
}
