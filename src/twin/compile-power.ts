/** Who hangs on which circuit and battery. */
import type { Site } from "../site/index.ts";
import type { Ids } from "./compile-system.ts";
import type { PowerTables } from "./model.ts";
import { overloadableCircuits } from "./overloads.ts";

export function compilePower(site: Site, circuits: Ids, batteries: Ids): PowerTables {
  const place = (ids: Ids, id: string | null) => (id === null ? -1 : (ids.get(id) ?? -1));
  // A thing that hangs on a battery is fed by the circuit behind that battery while it lives.
  const circuitOf = (on: string | null) => {
    const battery = place(batteries, on);
    return place(circuits, battery < 0 ? on : site.batteries[battery].on);
  };
  const batteryOf = ({ id, on }: { readonly id: string; readonly on: string | null }) => {
    const hangsOn = place(batteries, on);
    return hangsOn >= 0 ? hangsOn : site.batteries.findIndex((one) => one.feeds.includes(id));
  };
  const circuitOfDevice = Int32Array.from(site.devices, (device) => place(circuits, device.on));
  const circuitOfHub = Int32Array.from(site.hubs, (hub) => circuitOf(hub.on));
  const circuitOfLink = Int32Array.from(site.links, (link) => circuitOf(link.on));
  const parentOfCircuit = Int32Array.from(site.circuits, (circuit) => place(circuits, circuit.on));
  const batteryOfDevice = Int32Array.from(site.devices, ({ id }) =>
    site.batteries.findIndex((one) => one.feeds.includes(id)),
  );
  const batteryOfHub = Int32Array.from(site.hubs, batteryOf);
  const batteryOfLink = Int32Array.from(site.links, batteryOf);
  const under = (circuitOfPart: Int32Array) =>
    site.circuits.map((_, above) =>
      placesWhere(circuitOfPart, (circuit) => liesUnder(circuit, above, parentOfCircuit)),
    );
  const carried = (batteryOfPart: Int32Array) =>
    site.batteries.map((_, battery) => placesWhere(batteryOfPart, (own) => own === battery));
  const devicesUnder = under(circuitOfDevice);
  const hubsUnder = under(circuitOfHub);
  const linksUnder = under(circuitOfLink);
  return {
    circuitOfDevice,
    circuitOfHub,
    circuitOfLink,
    parentOfCircuit,
    batteryOfDevice,
    batteryOfHub,
    batteryOfLink,
    chargedBy: Int32Array.from(site.batteries, (battery) => place(circuits, battery.on)),
    overloadable: overloadableCircuits(site, { devicesUnder, hubsUnder, linksUnder }),
    devicesUnder,
    hubsUnder,
    linksUnder,
    circuitsUnder: under(Int32Array.from(site.circuits.keys())),
    carriedDevices: carried(batteryOfDevice),
    carriedHubs: carried(batteryOfHub),
    carriedLinks: carried(batteryOfLink),
  };
}

function liesUnder(circuit: number, above: number, parentOf: Int32Array): boolean {
  for (let at = circuit; at >= 0; at = parentOf[at]) if (at === above) return true;
  return false;
}

/** Places of the values that fulfil something. */
export function placesWhere(values: ArrayLike<number>, fulfils: (value: number) => boolean): Int32Array {
  return Int32Array.from(Array.from(values).flatMap((value, place) => (fulfils(value) ? [place] : [])));
}
