/** Sensors, from what was written of them. */

import type { Dimension } from "../../foundation/index.ts";
import { didYouMean, formatQuantity, parseQuantity, parseRate } from "../../foundation/index.ts";
import { SENSOR_KEYS } from "../keys/sensors-and-rules.ts";
import type { Body, Device, Hub, Sensor } from "../model.ts";
import type { WrittenPart } from "../shape/fields.ts";
import type { Found } from "../shape/reader.ts";
import type { Building } from "./building.ts";
import { rounded, takerFor } from "./building.ts";
import type { Measure, SensorType } from "./measures.ts";
import { differenceDimension, MEASURES } from "./measures.ts";

type Keys = typeof SENSOR_KEYS;

export interface SensorSurroundings {
  readonly bodies: readonly Body[];
  readonly devices: readonly Device[];
  readonly hubs: readonly Hub[];
}

const HOURS_PER_MONTH = 730.5;

function placeOf(
  building: Building,
  part: WrittenPart<Keys>,
  measure: Measure,
): { at: string; kind: Sensor["atKind"] } | null {
  const { id, written } = part;
  if (written.in !== undefined && written.at !== undefined) {
    building.error(
      written.at,
      `${id}.at`,
      "sensor/two-places",
      "both 'in' and 'at' are written",
      "write one of them: in for a body, at for a room, device or circuit",
    );
    return null;
  }
  const found = written.in ?? written.at;
  if (found === undefined) {
    building.error(
      part,
      `${id}.in`,
      "sensor/no-place",
      `it is not said where ${id} sits`,
      `write in: a body, or at: ${measure.sits.join(" or ")}`,
    );
    return null;
  }
  if (!building.refers(found.value, found.place, measure.sits, `${id}.${written.in !== undefined ? "in" : "at"}`))
    return null;
  return { at: found.value, kind: building.kindOf(found.value) as Sensor["atKind"] };
}

function typeOf(building: Building, part: WrittenPart<Keys>, measure: Measure): SensorType {
  const { type } = part.written;
  if (type === undefined) {
    building.noteDefault(part.id, "type", measure.types[0].name, 3, "", part.idPlace.line);
    return measure.types[0];
  }
  const found = measure.types.find((entry) => entry.name === type.value.toLowerCase());
  if (found !== undefined) return found;
  const names = measure.types.map((entry) => entry.name);
  building.error(
    type,
    `${part.id}.type`,
    "sensor/type",
    `'${type.value}' is not a type of sensor for ${measure.words}`,
    didYouMean(type.value, names),
  );
  return measure.types[0];
}

/** Full flow or power of what a sensor watches, so that shares become amounts; millimetres become litres. */
function unitScale(measure: Measure, at: { at: string; kind: Sensor["atKind"] }, around: SensorSurroundings): number {
  if (measure.scale === "millimetre") return around.bodies.find((body) => body.id === at.at)?.surfaceM2 ?? 1;
  if (measure.scale === "unit") return 1;
  const device = around.devices.find((entry) => entry.id === at.at);
  if (measure.dimension === "flow") return Math.max(1, device?.flowLPerH ?? 1000);
  return Math.max(
    10,
    device?.powerW ??
      around.devices.filter((entry) => entry.on === at.at).reduce((total, entry) => total + entry.powerW, 0),
  );
}

interface ErrorReader {
  readonly amount: (key: "noise" | "resolution" | "offset", usual: number) => number;
  readonly drift: (usual: number) => number;
}

function errorReader(building: Building, part: WrittenPart<Keys>, dimension: Dimension | null): ErrorReader {
  const { id, written } = part;
  const line = part.idPlace.line;
  const noUnit = (found: Found<string>, key: string): number => {
    building.error(
      found,
      `${id}.${key}`,
      "sensor/contact",
      `${id} is a contact: it has no '${key}'`,
      "take the key out",
    );
    return 0;
  };
  const difference = dimension === null ? null : differenceDimension(dimension);
  return {
    amount: (key, usual) => {
      const found = written[key];
      if (found === undefined) {
        if (difference !== null) building.noteDefault(id, key, formatQuantity(usual, difference), 3, "", line);
        return usual;
      }
      if (difference === null) return noUnit(found, key);
      // An offset may be negative although the quantity itself may not: read the sign apart.
      const negative = key === "offset" && found.value.startsWith("-");
      const result = parseQuantity(negative ? found.value.slice(1) : found.value, difference, { min: 0 });
      if (result.ok) return negative ? -result.value.value : result.value.value;
      building.error(found, `${id}.${key}`, result.problem.code, result.problem.message, result.problem.hint);
      return usual;
    },
    drift: (usual) => {
      const found = written.drift;
      if (found === undefined) {
        if (difference !== null && usual !== 0) {
          building.noteDefault(
            id,
            "drift",
            `${formatQuantity(usual, difference)}/month`,
            SENSOR_KEYS.drift.weight,
            SENSOR_KEYS.drift.why,
            line,
          );
        }
        return usual;
      }
      if (difference === null) return noUnit(found, "drift");
      const result = parseRate(found.value, difference);
      if (result.ok) return rounded(result.value.perHour * HOURS_PER_MONTH, 9);
      building.error(found, `${id}.drift`, result.problem.code, result.problem.message, result.problem.hint);
      return usual;
    },
  };
}

function hubOf(building: Building, part: WrittenPart<Keys>, hubs: readonly Hub[], usual: string | null): string | null {
  const { hub } = part.written;
  if (hub === undefined) return usual;
  if (hub.value !== null && !building.refers(hub.value, hub.place, ["hub"], `${part.id}.hub`)) return null;
  return hubs.some((entry) => entry.id === hub.value) ? hub.value : null;
}

function floatAt(
  building: Building,
  part: WrittenPart<Keys>,
  measures: Sensor["measures"],
  body: Body | undefined,
  usual: (volumeL: number) => number,
): number | null {
  const found = part.written["float-at"];
  if (measures !== "float" || body === undefined) {
    if (found !== undefined)
      building.error(
        found,
        `${part.id}.float-at`,
        "sensor/float-at",
        `'float-at' belongs to a float; ${part.id} measures ${measures}`,
        "take the key out",
      );
    return null;
  }
  const volumeL = found?.value ?? usual(body.volumeL);
  if (found !== undefined && volumeL > body.brimL) {
    building.error(
      found,
      `${part.id}.float-at`,
      "sensor/float-at",
      `a float at ${volumeL} L never floats: ${body.id} runs over at ${body.brimL} L`,
      "float-at is the volume of the body at which it begins to float",
    );
  }
  return volumeL;
}

function buildSensor(building: Building, part: WrittenPart<Keys>, around: SensorSurroundings): Sensor | null {
  const { id, written } = part;
  if (written.measures === undefined) return null;
  const measures = written.measures.value;
  const measure = MEASURES[measures];
  const place = placeOf(building, part, measure);
  const type = typeOf(building, part, measure);
  if (place === null) return null;
  const take = takerFor(building, id, part.idPlace.line, SENSOR_KEYS, written);
  const scale = unitScale(measure, place, around);
  const errors = errorReader(building, part, measure.dimension);
  const usualHub = written.hub === undefined ? take("hub", around.hubs[0]?.id ?? null) : null;
  const body = around.bodies.find((entry) => entry.id === place.at);
  return {
    id,
    measures,
    at: place.at,
    atKind: place.kind,
    hub: hubOf(building, part, around.hubs, usualHub),
    type: type.name,
    noise: errors.amount("noise", rounded(type.noise * scale, 6)),
    resolution: errors.amount("resolution", rounded(type.resolution * scale, 6)),
    lagS: take("lag", type.lagS),
    offset: errors.amount("offset", 0),
    driftPerMonth: errors.drift(rounded(type.driftPerMonth * scale, 6)),
    floatAtL: floatAt(building, part, measures, body, (volumeL) => take("float-at", volumeL)),
    everyH: written.every?.value ?? (measures === "alkalinity" ? take("every", 6) : 0),
    testedMonths: take("tested", null),
  };
}

export function buildSensors(
  building: Building,
  parts: readonly WrittenPart<Keys>[],
  around: SensorSurroundings,
): readonly Sensor[] {
  return parts.map((part) => buildSensor(building, part, around)).filter((sensor) => sensor !== null);
}
