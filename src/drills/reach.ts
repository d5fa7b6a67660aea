/**
 * How far a fault can reach: the systems whose water, power or rules it may touch. The others keep their normal course.
 * Careful by design: whatever is shared (mains, circuits, reservoirs) reaches everywhere. Links, services and people carry messages
 * only, and reach no water at all.
 */
import type { Looker, Model } from "../twin/index.ts";
import type { Fault } from "./faults/fault.ts";

/** Devices of such a kind draw so much, or may leak so, that they can open a breaker under other systems. */
const LEAKING_WORDS = /leak|trip|short|crack|wet/;

/** Systems that are simulated for these faults, in order: whole islands, without those that only breathe the same air (air-shift.ts). */
export function reachOf(model: Model, faults: readonly Fault[]): readonly number[] {
  const touched = new Set<number>();
  for (const fault of faults) {
    const islands = LEAKING_WORDS.test(fault.mode.mode) ? null : ownIslands(model, fault);
    for (const island of islands ?? model.islands.keys())
      for (const { index } of model.islands[island].systems) touched.add(index);
  }
  return [...touched].sort((a, b) => a - b);
}

/** These systems and those in the same rooms: what one loses in heat and vapour the others feel. Rooms exchange none. */
export function withRoommates(
  { systems, roomOfBody, islandOfSystem, islands }: Model,
  own: readonly number[],
): readonly number[] {
  const roomsOf = (system: number) => systems[system].bodies.map((body) => roomOfBody[body]);
  const rooms = new Set(own.flatMap(roomsOf));
  const mates = systems.map(({ index }) => index).filter((system) => roomsOf(system).some((room) => rooms.has(room)));
  const touched = mates.flatMap((system) => islands[islandOfSystem[system]].systems.map(({ index }) => index));
  return [...new Set(touched)].sort((a, b) => a - b);
}

/** Islands that a fault may touch by its own part; null: it may be any. */
function ownIslands(model: Model, { part, mode }: Fault): readonly number[] | null {
  const { site, islandOfSystem, lookers } = model;
  const ofSystem = (system: string | undefined) => {
    const place = site.systems.findIndex(({ id }) => id === system);
    return place < 0 ? null : [islandOfSystem[place]];
  };
  const placeOf = (parts: readonly { readonly id: string }[]) => parts.findIndex(({ id }) => id === part);
  const islandsOf = (isOne: (looker: Looker) => boolean) => lookers.filter(isOne).map(({ island }) => island);
  switch (mode.of) {
    case "device":
      return ofSystem(site.devices.find(({ id }) => id === part)?.system);
    case "body":
      return ofSystem(site.bodies.find(({ id }) => id === part)?.system);
    case "flow":
      return ofSystem(site.flows.find(({ id }) => id === part)?.system);
    case "sensor":
      return islandsOf(({ sensors, idle }) => [...sensors, ...idle].includes(placeOf(site.sensors)));
    case "rule":
      return islandsOf(({ rules }) => rules.includes(placeOf(site.rules)));
    case "hub":
      return islandsOf(({ hub }) => site.hubs[hub].id === part);
    case "room":
      return site.bodies.filter(({ room }) => room === part).flatMap(({ system }) => ofSystem(system) ?? []);
    // What only carries messages moves no water.
    case "person":
    case "link":
    case "system":
      return [];
    default:
      return null;
  }
}
