import type { Site } from "../../server/contract/index.ts";

/** The part of a site that has to do with some of its systems; the whole site for all of them. */
export function partOfSite(site: Site, systemIds: ReadonlySet<string>): Site {
  if (site.systems.every(({ id }) => systemIds.has(id))) return site;
  const devices = site.devices.filter(({ system }) => systemIds.has(system));
  const bodies = new Set(site.bodies.filter(({ system }) => systemIds.has(system)).map(({ id }) => id));
  const sensors = site.sensors.filter(
    ({ at, atKind }) => atKind === "room" || bodies.has(at) || devices.some(({ id }) => id === at),
  );
  const hubIds = new Set([...devices.map(({ by }) => by), ...sensors.map(({ hub }) => hub)]);
  const hubs = site.hubs.filter(({ id }) => hubIds.has(id));
  const linkIds = new Set(hubs.flatMap(({ sendsOver }) => sendsOver.flatMap((link) => chainOf(site, link))));
  const links = site.links.filter(({ id }) => linkIds.has(id));
  const fed = new Set([...devices, ...hubs, ...links].map(({ id }) => id));
  return {
    ...site,
    devices,
    sensors,
    hubs,
    links,
    batteries: site.batteries.filter(({ feeds }) => feeds.some((id) => fed.has(id))),
  };
}

/** Circuits that feed something in these systems, or the stations too, and all they hang from, the mains end first. */
export function circuitsUnder(
  site: Site,
  systemIds: ReadonlySet<string>,
  withStations: boolean,
): readonly Site["circuits"][number][] {
  const byId = new Map(site.circuits.map((circuit) => [circuit.id, circuit]));
  const used = new Set<string>();
  const use = (id: string | null): void => {
    for (let at = id; at !== null && byId.has(at) && !used.has(at); at = byId.get(at)?.on ?? null) used.add(at);
  };
  for (const device of site.devices) if (systemIds.has(device.system)) use(device.on);
  if (withStations) for (const { on } of [...site.hubs, ...site.links, ...site.batteries]) use(on);
  const depthFirst = (on: string | null): Site["circuits"] =>
    site.circuits
      .filter((circuit) => circuit.on === on && used.has(circuit.id))
      .flatMap((circuit) => [circuit, ...depthFirst(circuit.id)]);
  return depthFirst(null);
}

/** The links of a way out, the one that a message takes first in front. */
export function chainOf(site: Site, linkId: string): readonly string[] {
  const chain: string[] = [];
  for (
    let at: string | null = linkId;
    at !== null && !chain.includes(at);
    at = site.links.find(({ id }) => id === at)?.via ?? null
  )
    chain.unshift(at);
  return chain;
}
