/** What hangs from what, and how much it takes when all of it runs at once. */
import type { Battery, Device, Site } from "../../site/index.ts";
import { HUB_W, LINK_W } from "../../twin/index.ts";
import type { BatteryLine, CircuitLoad } from "./types.ts";

/** The circuit that a plug hangs from in the end; a part on a battery draws from what charges it. */
export function circuitOf(site: Site, on: string | null): string | null {
  if (on === null) return null;
  const battery = site.batteries.find(({ id }) => id === on);
  return battery === undefined ? on : battery.on;
}

export function circuitLoads(site: Site): readonly CircuitLoad[] {
  const parent = new Map(site.circuits.map(({ id, on }) => [id, on]));
  const hangsFrom = (on: string | null, above: string): boolean => {
    const seen = new Set<string>();
    for (let at = circuitOf(site, on); at !== null && !seen.has(at); at = parent.get(at) ?? null) {
      if (at === above) return true;
      seen.add(at);
    }
    return false;
  };
  return site.circuits.map(({ id, on, limitA, tripsOnLeakMA, staysOpenAfterCut }) => {
    const devicesW = watts(site.devices.filter((device) => hangsFrom(device.on, id)));
    const talkingW =
      HUB_W * site.hubs.filter((hub) => hangsFrom(hub.on, id)).length +
      LINK_W * site.links.filter((link) => hangsFrom(link.on, id)).length;
    const loadW = devicesW + talkingW;
    const loadA = loadW / site.mains.volts;
    return {
      circuit: id,
      on,
      limitA,
      tripsOnLeakMA,
      staysOpenAfterCut,
      loadW,
      loadA,
      talkingW,
      overLimit: loadA > limitA,
    };
  });
}

function watts(devices: readonly Device[]): number {
  return devices.reduce((sum, { powerW }) => sum + powerW, 0);
}

/** Everything that a battery carries: what its list names, and what is plugged into it. */
export function fedBy(site: Site, battery: Battery): readonly string[] {
  const plugged = [...site.devices, ...site.hubs, ...site.links].filter(({ on }) => on === battery.id);
  return [...new Set([...battery.feeds, ...plugged.map(({ id }) => id)])];
}

export function batteryLine(site: Site, battery: Battery): BatteryLine {
  const { id, kind, energyWh, powerW, on, startsItself } = battery;
  const feeds = fedBy(site, battery);
  const loadW =
    watts(site.devices.filter((device) => feeds.includes(device.id))) +
    HUB_W * site.hubs.filter((hub) => feeds.includes(hub.id)).length +
    LINK_W * site.links.filter((link) => feeds.includes(link.id)).length;
  return {
    battery: id,
    kind,
    energyWh,
    powerW,
    feeds,
    on,
    startsItself,
    loadW,
    lastsH: loadW === 0 ? null : energyWh / loadW,
  };
}
