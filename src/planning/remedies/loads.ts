/** Which circuit can carry what: everything that hangs on it running at once, as no plan should pass. */
import type { Circuit, Device, Site } from "../../site/index.ts";
import { circuitsAbove } from "./finding.ts";

/** What a hub and a link draw, W: as in the twin. */
const HUB_W = 6;
const LINK_W = 10;
/** A circuit is planned to this share of its limit for what runs for hours: the trade's rule. */
const PLANNED_SHARE = 0.8;

/** All that hangs on a circuit and below it, W. */
export function connectedW(site: Site, circuit: string): number {
  const under = (on: string | null) => circuitsAbove(site, circuitBehind(site, on)).includes(circuit);
  const devices = site.devices.filter(({ on }) => under(on)).reduce((sum, { powerW }) => sum + powerW, 0);
  return (
    devices +
    HUB_W * site.hubs.filter(({ on }) => under(on)).length +
    LINK_W * site.links.filter(({ on }) => under(on)).length
  );
}

/** The circuit of a plug, where a battery may stand between. */
export function circuitBehind(site: Site, on: string | null): string | null {
  const battery = site.batteries.find(({ id }) => id === on);
  return battery === undefined ? on : battery.on;
}

/** Whether a circuit and all above it carry so much more. What is under them already counts once. */
export function carries(site: Site, circuit: string, moved: readonly Pick<Device, "id" | "powerW" | "on">[]): boolean {
  return circuitsAbove(site, circuit).every((id) => {
    const limitA = site.circuits.find((one) => one.id === id)?.limitA ?? 0;
    const fresh = moved
      .filter(({ on }) => !circuitsAbove(site, on).includes(id))
      .reduce((sum, { powerW }) => sum + powerW, 0);
    return connectedW(site, id) + fresh <= PLANNED_SHARE * limitA * site.mains.volts;
  });
}

/** The protective device that opens when something on this circuit leaks current: the nearest above that has one. */
export function guardOf(site: Site, circuit: string | null): string | null {
  return (
    circuitsAbove(site, circuit).find((id) => site.circuits.find((one) => one.id === id)?.tripsOnLeakMA !== null) ??
    null
  );
}

/** Rooms of what is plugged into a circuit or below it. */
export function roomsOn(site: Site, circuit: string): ReadonlySet<string> {
  const roomOf = (device: Device) => site.bodies.find(({ id }) => id === device.in)?.room ?? "";
  return new Set(site.devices.filter(({ on }) => circuitsAbove(site, on).includes(circuit)).map(roomOf));
}

/** Circuits with sockets: those that no other hangs from, or that something is plugged into. */
export function socketCircuits(site: Site): readonly Circuit[] {
  return site.circuits.filter(
    ({ id }) => site.devices.some(({ on }) => on === id) || !site.circuits.some(({ on }) => on === id),
  );
}
