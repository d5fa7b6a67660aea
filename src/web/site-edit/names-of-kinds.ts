import type { FieldFacts, Site } from "../../server/contract/index.ts";

/** Names of all parts of these kinds, in the order of the site. */
export function namesOfKinds(site: Site, kinds: FieldFacts["names"]): readonly string[] {
  const parts = {
    room: site.rooms,
    circuit: site.circuits,
    battery: site.batteries,
    link: site.links,
    hub: site.hubs,
    system: site.systems,
    body: site.bodies,
    flow: site.flows,
    device: site.devices,
    sensor: site.sensors,
    rule: site.rules,
    person: site.people,
    mains: [],
  } satisfies Record<FieldFacts["names"][number], readonly { readonly id: string }[]>;
  return kinds.flatMap((kind) => parts[kind].map(({ id }) => id));
}
