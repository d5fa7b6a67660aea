/** People: whoever is to be told must be reachable, and by something that is there. */
import type { Building } from "../build/building.ts";
import type { Site } from "../model.ts";

export function checkPeople(building: Building, site: Site): void {
  const told = new Set([...site.ladder.map((step) => step.person), ...(site.silenceWatch?.tells ?? [])]);
  const siren = site.hubs.some((hub) => hub.siren) || site.devices.some((device) => device.kind === "siren");
  for (const person of site.people) {
    if (told.has(person.id) && person.reachedBy.length === 0) {
      const message = `${person.id} is to be told, but nothing reaches them`;
      const hint = "write reached-by: [push, call], or take them out of the ladder";
      building.complain(person.id, "reached-by", "person/unreachable", message, hint);
    }
    if (person.reachedBy.includes("siren") && !siren) {
      const message = `${person.id} is reached by a siren, but there is none`;
      const hint = "write siren: yes at a hub, add a device of kind siren, or take siren out here";
      building.complain(person.id, "reached-by", "person/no-siren", message, hint);
    }
  }
}
