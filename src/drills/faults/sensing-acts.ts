/** What the sensing modes share: pulling one lever, and what people do to a sensor. */
import type { Sensor, Site } from "../../site/index.ts";
import { mend } from "./ends.ts";
import type { FaultMode } from "./fault.ts";

export function sensorById(site: Site, id: string): Sensor | undefined {
  return site.sensors.find((sensor) => sensor.id === id);
}

/** Sets a lever to a value on the part itself. */
export function pull(lever: string, value: number): FaultMode["inject"] {
  return (bench, part) => bench.set(part, lever, value);
}

export const REPLACE: FaultMode["end"] = { act: "replace or clean {part}", needs: "repair", minutes: 20, apply: mend };
export const CALIBRATE: FaultMode["end"] = {
  act: "clean and calibrate {part}",
  needs: "repair",
  minutes: 30,
  apply: mend,
};
