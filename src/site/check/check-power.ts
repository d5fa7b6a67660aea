/** Power and links: no chain that ends in itself, nothing that runs on nothing. */
import type { Building } from "../build/building.ts";
import type { Site } from "../model.ts";

/** The names of a ring in a chain of "hangs from", or null. */
function ringFrom(start: string, next: (id: string) => string | null): readonly string[] | null {
  const seen: string[] = [];
  for (let id: string | null = start; id !== null; id = next(id)) {
    if (seen.includes(id)) return id === start ? [...seen, id] : null;
    seen.push(id);
  }
  return null;
}

function checkRings(
  building: Building,
  ids: readonly string[],
  next: (id: string) => string | null,
  key: string,
  words: string,
): void {
  const told = new Set<string>();
  for (const id of ids) {
    const ring = ringFrom(id, next);
    if (ring === null || ring.some((member) => told.has(member))) continue;
    for (const member of ring) told.add(member);
    const message = `${ring.join(" -> ")}: these ${words} hang from each other in a ring`;
    building.complain(id, key, "power/ring", message, "one of them must end the chain");
  }
}

export function checkPower(building: Building, site: Site): void {
  const circuitOn = new Map(site.circuits.map((circuit) => [circuit.id, circuit.on]));
  checkRings(building, [...circuitOn.keys()], (id) => circuitOn.get(id) ?? null, "on", "circuits");
  const linkVia = new Map(site.links.map((link) => [link.id, link.via]));
  checkRings(building, [...linkVia.keys()], (id) => linkVia.get(id) ?? null, "via", "links");
  const fed = new Set(site.batteries.flatMap((battery) => battery.feeds));
  const needs = [
    ...site.devices.filter((device) => device.on === null && device.powerW > 0),
    ...site.hubs.filter((hub) => hub.on === null),
  ];
  for (const { id } of needs) {
    if (fed.has(id)) continue;
    const message = `${id} needs power, but it is plugged nowhere and no battery feeds it`;
    building.complain(id, "on", "power/nothing", message, "write on: a circuit, or name it in the feeds of a battery");
  }
  for (const hub of site.hubs) {
    for (const link of site.links.filter((entry) => hub.sendsOver.includes(entry.id) && entry.kind === "local")) {
      const message = `${link.id} is a network in the house: no notice leaves over it alone`;
      building.complain(hub.id, "sends-over", "link/not-out", message, "name the line that goes out via it");
    }
  }
}
