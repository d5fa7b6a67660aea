import type { Body, Device, Sensor, SettledLife, Site } from "../../server/contract/index.ts";
import { clockOfDay } from "../parts/clock.ts";
import { difference, figure, measure, span } from "../parts/format.ts";
import { words } from "../words.ts";

export interface Field {
  readonly name: string;
  readonly value: string;
}

/** What a part is: its kind in words, and at most six fields, what matters to its faults first. */
export interface PartFacts {
  readonly id: string;
  readonly kind: string;
  /** Where it is: an id, or nothing. */
  readonly where: string | null;
  readonly fields: readonly Field[];
  /** Hands go near mains and salt water. */
  readonly caution: boolean;
}

const MOST_FIELDS = 6;
const { field, units } = words;

export function factsOf(site: Site, id: string, settled: SettledLife | null): PartFacts | null {
  const facts = findFacts(site, id, settled);
  return facts === null
    ? null
    : { ...facts, fields: facts.fields.filter(({ value }) => value !== "").slice(0, MOST_FIELDS) };
}

function findFacts(site: Site, id: string, settled: SettledLife | null): PartFacts | null {
  const named = <T extends { readonly id: string }>(parts: readonly T[]): T | undefined =>
    parts.find((part) => part.id === id);
  const device = named(site.devices);
  if (device !== undefined) return deviceFacts(device);
  const sensor = named(site.sensors);
  if (sensor !== undefined) return sensorFacts(sensor);
  const body = named(site.bodies);
  if (body !== undefined) return bodyFacts(body, settled);
  const circuit = named(site.circuits);
  if (circuit !== undefined) {
    const carried = site.devices.filter(({ on }) => on === id);
    return plain(id, words.part.circuit, null, [
      [field.limit, measure(circuit.limitA, units.A)],
      [
        field.carries,
        carried.length === 0
          ? field.nothing
          : measure(
              carried.reduce((sum, { powerW }) => sum + powerW, 0),
              units.W,
            ),
      ],
      [field.leak, circuit.tripsOnLeakMA === null ? field.no : measure(circuit.tripsOnLeakMA, units.mA)],
      [field.hangsFrom, circuit.on ?? field.straight],
    ]);
  }
  const battery = named(site.batteries);
  if (battery !== undefined) {
    return plain(id, words.part[battery.kind], null, [
      [field.energy, measure(battery.energyWh, units.Wh)],
      [field.power, measure(battery.powerW, units.W)],
      [field.feeds, battery.feeds.join(", ")],
      [field.startsItself, battery.startsItself ? field.yes : field.byHand],
      [field.tried, monthsAgo(battery.lastTriedMonths)],
    ]);
  }
  const link = named(site.links);
  if (link !== undefined) {
    return plain(id, words.part.link, null, [
      [field.kind, words.linkKind[link.kind]],
      [field.on, link.on ?? field.nothing],
      [field.via, link.via ?? field.nothing],
    ]);
  }
  const hub = named(site.hubs);
  if (hub !== undefined) {
    return plain(id, words.part.hub, null, [
      [field.on, hub.on ?? field.nothing],
      [field.sends, hub.sendsOver.join(", ") || field.nothing],
      [field.readsEvery, span(hub.readsEveryS / 60)],
      [field.watchdog, hub.watchdog ? field.yes : field.no],
      [field.siren, hub.siren ? field.yes : field.no],
    ]);
  }
  const person = named(site.people);
  if (person !== undefined) {
    const step = site.ladder.find((candidate) => candidate.person === id);
    return plain(id, words.part.person, null, [
      [
        field.ladder,
        step === undefined
          ? field.notOnLadder
          : step.afterMin === 0
            ? words.picture.atOnce
            : words.picture.after(span(step.afterMin)),
      ],
      [field.reached, person.reachedBy.join(", ") || field.nothing],
      [
        field.asleep,
        person.asleep === null ? "" : `${clockOfDay(person.asleep.fromMin)}\u2013${clockOfDay(person.asleep.toMin)}`,
      ],
      [field.travel, span(person.travelMin)],
      [field.can, person.can.join(", ") || field.nothing],
    ]);
  }
  const flow = named(site.flows);
  if (flow !== undefined) {
    const now = settled?.flowsLPerH[id];
    return plain(id, words.part.flow, null, [
      [field.now, now === undefined ? "" : measure(now, units.LPerH)],
      [field.pump, flow.by ?? field.open],
      [field.drainCapacity, measure(flow.drainLPerH, units.LPerH)],
      [field.spareDrain, flow.spareDrainLPerH === 0 ? field.no : measure(flow.spareDrainLPerH, units.LPerH)],
      [field.backSiphon, measure(flow.backSiphonL, units.L)],
      [field.drop, measure(flow.dropM, units.m, 1)],
    ]);
  }
  const room = named(site.rooms);
  if (room !== undefined) {
    return plain(id, words.part.room, null, [
      [field.set, measure(room.holdsC, units.C, 0)],
      [field.air, measure(room.airM3, units.m3)],
      [field.occupants, figure(room.occupants)],
      [field.drain, room.floorDrain ? field.yes : field.no],
    ]);
  }
  return null;
}

function plain(
  id: string,
  kind: string,
  where: string | null,
  pairs: readonly (readonly [string, string])[],
): PartFacts {
  return { id, kind, where, fields: pairs.map(([name, value]) => ({ name, value })), caution: false };
}

function deviceFacts(device: Device): PartFacts {
  const given = device.amountPerDay;
  const perDay =
    device.kind === "doser"
      ? measure(given, units.mLPerDay)
      : device.kind === "feeder"
        ? measure(given, units.gPerDay)
        : measure(given, units.LPerDay);
  const facts = plain(device.id, words.deviceKind[device.kind], device.in, [
    [field.power, device.powerW === 0 ? "" : measure(device.powerW, units.W)],
    [field.thermostat, device.ownThermostatC === null ? "" : measure(device.ownThermostatC, units.C, 1)],
    [field.flow, device.flowLPerH === 0 || device.kind === "doser" ? "" : measure(device.flowLPerH, units.LPerH)],
    [field.perDay, given === 0 ? "" : perDay],
    [field.from, device.from ?? ""],
    [field.on, device.on ?? field.ownCells],
    [field.withoutHub, device.by === null ? field.alwaysPlugged : device.withoutHub],
    [
      field.cutOut,
      device.kind !== "heater" ? "" : device.cutOutC === null ? field.no : measure(device.cutOutC, units.C, 1),
    ],
    [field.spare, device.spare === null ? "" : monthsAgo(device.spare.lastTriedMonths)],
    [field.bought, months(device.ageMonths)],
  ]);
  return { ...facts, caution: true };
}

function sensorFacts(sensor: Sensor): PartFacts {
  const unit = sensor.measures === "temperature" || sensor.measures === "air-temperature" ? units.C : "";
  const offset =
    sensor.offset === 0
      ? field.true
      : sensor.offset > 0
        ? field.high(difference(sensor.offset, unit, 2))
        : field.low(difference(-sensor.offset, unit, 2));
  const facts = plain(sensor.id, words.part.sensor, sensor.at, [
    [field.measures, words.measures[sensor.measures]],
    [field.readBy, sensor.hub ?? field.nothing],
    [
      field.reads,
      sensor.measures === "leak" || sensor.measures === "float" || sensor.measures === "mains" ? "" : offset,
    ],
    [field.everyH, sensor.everyH === 0 ? "" : span(sensor.everyH * 60)],
    [
      field.resolution,
      sensor.resolution === 0 ? "" : difference(sensor.resolution, unit, neededDigits(sensor.resolution)),
    ],
    [field.tested, monthsAgo(sensor.testedMonths)],
    [field.type, sensor.type],
  ]);
  return { ...facts, caution: sensor.atKind === "body" };
}

function bodyFacts(body: Body, settled: SettledLife | null): PartFacts {
  const life = settled?.bodies[body.id];
  const isStore = body.role === "reservoir" || body.role === "container";
  const facts = plain(body.id, words.part[body.role], body.room, [
    [field.volume, measure(life?.volumeL ?? body.volumeL * body.fill, units.L)],
    [field.brim, measure(body.brimL, units.L)],
    [field.holds, isStore ? words.waterKind[body.holds.kind] : ""],
    [field.temperature, life === undefined || isStore ? "" : measure(life.temperatureC, units.C, 1)],
    [field.salinity, life === undefined || body.holds.kind !== "salt" ? "" : figure(life.salinity, 1)],
    [field.livestock, livestockWords(body)],
  ]);
  return { ...facts, caution: !isStore };
}

function livestockWords({ livestock }: Body): string {
  const corals = livestock.corals === null ? "" : words.corals[livestock.corals];
  const fish = livestock.fishG === 0 ? "" : words.fish(measure(livestock.fishG, units.g));
  return [corals, fish].filter((part) => part !== "").join(", ");
}

function months(count: number): string {
  return field.months(figure(count), count);
}

function monthsAgo(count: number | null): string {
  return count === null ? field.never : field.monthsAgo(figure(count), count);
}

/** Digits after the point without which a value would be another, two at most. */
function neededDigits(value: number): number {
  return [0, 1].find((digits) => Number(value.toFixed(digits)) === value) ?? 2;
}
