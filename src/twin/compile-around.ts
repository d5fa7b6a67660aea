/** What acts on each water of a system, sorted by its effect. */
import type { Device, Site } from "../site/index.ts";
import type { Around, PumpEdge, WeirEdge } from "./model.ts";

export function compileAround(
  site: Site,
  place: number,
  devices: readonly number[],
  pumps: readonly PumpEdge[],
  weirs: readonly WeirEdge[],
): Around {
  const { id } = site.bodies[place];
  const here = devices.filter((device) => site.devices[device].in === id);
  const those = (wanted: (device: Device) => boolean) => here.filter((device) => wanted(site.devices[device]));
  return {
    place,
    warming: those((device) => device.heatW !== 0),
    lamps: those((device) => device.kind === "light"),
    stirring: those((device) => device.kind === "wave-pump"),
    bubbling: those((device) => device.kind === "skimmer" || device.kind === "air-pump"),
    skimmers: those((device) => device.kind === "skimmer"),
    fans: those((device) => device.kind === "fan"),
    passing: pumps.filter((pump) => pump.to === place || pump.from === place).map((pump) => pump.flow),
    falling: weirs
      .filter((weir) => weir.to === place)
      .flatMap(({ from, dropM }) => pumps.filter((pump) => pump.to === from).map(({ flow }) => ({ flow, dropM }))),
  };
}
