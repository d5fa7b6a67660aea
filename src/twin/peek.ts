/** What a hub would read if it looked now. It reads every few seconds in fact; looks at which nothing can change are left out. */
import { SENSOR_COLUMNS, SENSOR_READING } from "./columns.ts";
import { hubWorks } from "./hub.ts";
import { tickAt } from "./look-soon.ts";
import { readSensor } from "./sensing.ts";
import { type Twin, timeS } from "./state.ts";

/** Reading of a sensor, without a trace in the twin's state; its last one while its hub does not work. NaN = none. */
export function peekSensor(twin: Twin, sensor: number): number {
  const { hubIndex, site } = twin.model;
  const hub = hubIndex.get(site.sensors[sensor].hub ?? "");
  const at = sensor * SENSOR_COLUMNS;
  if (hub === undefined || !hubWorks(twin, hub)) return twin.sensors[at + SENSOR_READING];
  const before = twin.sensors.slice(at, at + SENSOR_COLUMNS);
  const reading = readSensor(twin, sensor, timeS(twin), tickAt(timeS(twin), site.hubs[hub].readsEveryS));
  twin.sensors.set(before, at);
  return reading;
}
