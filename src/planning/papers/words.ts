/** Words that several papers share: units of readings, names of kinds, ways by which people are reached. */

import { formatWindow } from "../../foundation/index.ts";
import { listWords } from "../../rules/index.ts";
import type { Channel, Person, Quantity, Site, TimeWindow } from "../../site/index.ts";

const UNITS: Readonly<Record<Quantity, string>> = {
  temperature: "°C",
  ph: "",
  salinity: "ppt",
  oxygen: "mg/L",
  alkalinity: "dKH",
  orp: "mV",
  level: "L",
  float: "",
  flow: "L/h",
  power: "W",
  leak: "",
  mains: "",
  "air-temperature": "°C",
  "air-co2": "ppm",
  light: "PAR",
};

/** Unit of a sensor's readings, by its id. */
export function unitOf(site: Site): (sensor: string) => string {
  const units = new Map(site.sensors.map(({ id, measures }) => [id, UNITS[measures]]));
  return (sensor) => units.get(sensor) ?? "";
}

/** Hours of the week in words; empty where there are none. */
export function windowsWords(windows: readonly TimeWindow[]): string {
  return listWords(windows.map(formatWindow));
}

/** Ways by which a notice of this urgency reaches a person. Only an urgent one calls, as in a drill. */
export function waysTo(person: Person, urgency: "urgent" | "soon" | "note", siren: boolean): readonly Channel[] {
  return person.reachedBy.filter((channel) => {
    if (channel === "siren") return siren;
    return channel !== "call" || urgency === "urgent";
  });
}
