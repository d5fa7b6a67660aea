/** What a circuit or a battery can not carry, whatever runs: who hangs on one that may open has to be in step with the others there. */
import type { Site } from "../site/index.ts";
import type { PowerTables } from "./model.ts";

/** Power of a hub or a link, W. */
export const HUB_W = 6;
export const LINK_W = 10;
/** Share of a breaker's rating at which it opens. */
export const TRIP_SHARE = 1.05;

/** Circuits that open though nothing leaks if all that hangs on them runs. */
export function overloadableCircuits(
  { circuits, devices, mains }: Site,
  power: Pick<PowerTables, "devicesUnder" | "hubsUnder" | "linksUnder">,
): Int32Array {
  const isTooMuch = ({ limitA }: Site["circuits"][number], circuit: number) => {
    const talkingW = HUB_W * power.hubsUnder[circuit].length + LINK_W * power.linksUnder[circuit].length;
    return (allW(devices, power.devicesUnder[circuit]) + talkingW) / mains.volts > limitA * TRIP_SHARE;
  };
  return Int32Array.from([...circuits.keys()].filter((circuit) => isTooMuch(circuits[circuit], circuit)));
}

/** Sets of devices that together could open a circuit, or be too much for the battery that carries them. */
export function overloadableSets({ batteries, devices }: Site, power: PowerTables): (readonly number[])[] {
  const { carriedDevices, carriedHubs, carriedLinks } = power;
  const carried = batteries.flatMap(({ powerW }, battery) => {
    const talkingW = HUB_W * carriedHubs[battery].length + LINK_W * carriedLinks[battery].length;
    return allW(devices, carriedDevices[battery]) + talkingW > powerW ? [[...carriedDevices[battery]]] : [];
  });
  return [...Array.from(power.overloadable, (circuit) => [...power.devicesUnder[circuit]]), ...carried];
}

function allW(devices: Site["devices"], places: Int32Array): number {
  return places.reduce((sum, device) => sum + devices[device].powerW, 0);
}
