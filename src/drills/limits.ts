/** Values of a body's water at which something switches or tells: limits of rules, and of the switches that devices have. */
import type { Comparison, Sensor, Site } from "../site/index.ts";

/** Quantities of sensors, by the columns in which a drill looks at them. */
const MEASURED: Readonly<Record<string, readonly Sensor["measures"][]>> = {
  temperature: ["temperature"],
  salinity: ["salinity"],
  oxygen: ["oxygen"],
  ph: ["ph"],
  alkalinity: ["alkalinity"],
  volume: ["level", "float"],
};
/** Instruments show pH on the NBS scale, which reads about so much higher than the total one. */
const NBS_ABOVE_TOTAL = 0.13;

export function limitsOf(site: Site, body: string, quantity: string): readonly number[] {
  const sensors = site.sensors.filter(
    (sensor) => sensor.at === body && MEASURED[quantity]?.includes(sensor.measures) === true,
  );
  const ofRules = sensors.flatMap((sensor) => [
    ...valuesInRules(site, sensor.id),
    ...(sensor.floatAtL ? [sensor.floatAtL] : []),
  ]);
  const scaled = quantity === "ph" ? ofRules.map((value) => value - NBS_ABOVE_TOTAL) : ofRules;
  return [...scaled, ...(quantity === "temperature" ? pointsOfDevices(site, body) : [])];
}

function valuesInRules(site: Site, sensor: string): readonly number[] {
  const terms = site.rules.flatMap((rule) => [...rule.when.all, ...(rule.until?.all ?? [])]);
  return terms.filter((term) => term.sensor === sensor).flatMap(({ is }) => valuesIn(is));
}

function valuesIn(is: Comparison): readonly number[] {
  if (is.op === "below" || is.op === "above") return [is.value];
  return is.op === "between" || is.op === "outside" ? [is.low, is.high] : [];
}

function pointsOfDevices(site: Site, body: string): readonly number[] {
  return site.devices
    .filter((device) => device.in === body)
    .flatMap(({ ownThermostatC, cutOutC }) => [ownThermostatC, cutOutC].filter((point) => point !== null));
}
