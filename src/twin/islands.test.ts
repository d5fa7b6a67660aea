/** Systems that share nothing go through time apart: each is the same, bit for bit, whatever goes on beside it. */
import { describe, expect, it } from "vitest";
import { siteOf, startRun } from "../../test/sites.ts";
import { BODY_COLUMNS, DEVICE_COLUMNS } from "./columns.ts";
import { compile } from "./compile.ts";
import { advance, type Model, RoomGains, startTwin, type Twin } from "./index.ts";

/** Two reefs in one room and a third elsewhere, each with a hub's thermostat and a top-off of its own, and one hub for the first two. */
function place(more: { readonly rules?: string; readonly sensors?: string; readonly power?: string } = {}): string {
  const system = (id: string, room: string, litres: number) => `
  ${id}:
    room: ${room}
    bodies:
      ${id}-tank: { volume: ${litres} L, livestock: { corals: mixed, fish: 40 g } }
      ${id}-sump: { volume: ${litres / 3} L }
      ${id}-can: { volume: 40 L, holds: fresh }
    circulation: [ { from: ${id}-sump, to: ${id}-tank, by: ${id}-return } ]`;
  const devices = (id: string, hub: string) => `
  ${id}-return: { kind: return-pump, in: ${id}-sump, power: 20 W, on: strip }
  ${id}-heater: { kind: heater, in: ${id}-sump, power: 200 W, by: ${hub}, own-thermostat: none, on: strip }
  ${id}-lamp: { kind: light, in: ${id}-tank, schedule: "10:00-20:00", on: strip }
  ${id}-fill: { kind: top-off, in: ${id}-sump, from: ${id}-can, on: strip }`;
  const rule = (id: string, hub: string) =>
    `${id}-warmth: { hub: ${hub}, when: { ${id}-temp: below 25 degC }, do: { ${id}-heater: on }, until: { ${id}-temp: above 25.4 degC } }`;
  return `
site: Three
rooms: { hall: { air: 90 m3 }, cellar: { air: 60 m3 } }
power:
  circuits: { strip: { limit: ${more.power ?? "16 A"} } }
hubs: { upstairs: { reads-every: 15 s }, downstairs: { reads-every: 15 s } }
systems:${system("one", "hall", 300)}${system("two", "hall", 120)}${system("three", "cellar", 200)}
devices:${devices("one", "upstairs")}${devices("two", "upstairs")}${devices("three", "downstairs")}
sensors:
  one-temp: { measures: temperature, in: one-sump, hub: upstairs }
  two-temp: { measures: temperature, in: two-sump, hub: upstairs }
  three-temp: { measures: temperature, in: three-sump, hub: downstairs }
  ${more.sensors ?? ""}
rules:
  ${rule("one", "upstairs")}
  ${rule("two", "upstairs")}
  ${rule("three", "downstairs")}
  ${more.rules ?? ""}`;
}

/** Ids of the systems of each island; the house is left out. */
function islandsOf(text: string): string[] {
  return compile(siteOf(text))
    .islands.slice(0, -1)
    .map(({ systems }) => systems.map(({ id }) => id).join(" "));
}

describe("the islands of a place", () => {
  it("are its systems, where nothing but rooms, mains and hubs is shared", () => {
    expect(islandsOf(place())).toEqual(["one", "two", "three"]);
  });

  it("are tied by a rule that looks at one system and acts in another", () => {
    const rules = "guard: { hub: upstairs, when: { one-temp: above 29 degC }, do: { two-heater: off } }";
    expect(islandsOf(place({ rules }))).toEqual(["one two", "three"]);
  });

  it("are tied by a circuit that all of them together could open", () => {
    expect(islandsOf(place({ power: "2 A" }))).toEqual(["one two three"]);
  });

  it("are tied by a leak sensor on which a rule acts, and not by one that only gives notice", () => {
    const sensors = "hall-wet: { measures: leak, at: hall, hub: upstairs }";
    const tells = "wet: { hub: upstairs, when: { hall-wet: wet }, notice: urgent, says: Water }";
    const acts = "wet: { hub: upstairs, when: { hall-wet: wet }, do: { one-fill: off } }";
    expect(islandsOf(place({ sensors, rules: tells }))).toEqual(["one", "two", "three"]);
    expect(islandsOf(place({ sensors, rules: acts }))).toEqual(["one two", "three"]);
  });
});

function stateOf(twin: Twin, model: Model, system: number): readonly number[] {
  const { bodies, devices } = model.systems[system];
  return [
    ...bodies.flatMap((body) => [...twin.bodies.subarray(body * BODY_COLUMNS, (body + 1) * BODY_COLUMNS)]),
    ...devices.flatMap((one) => [...twin.devices.subarray(one * DEVICE_COLUMNS, (one + 1) * DEVICE_COLUMNS)]),
  ];
}

describe("a system that is simulated alone", () => {
  it("is what it is in the whole place, bit for bit, where the others give to the rooms what they gave there", () => {
    const whole = startRun(place()).twin;
    whole.gains = new RoomGains();
    advance(whole, 5 * 86_400);
    for (const { index } of whole.model.systems) {
      const alone = startRun(place()).twin;
      startTwin(alone, 0);
      alone.active.fill(0);
      alone.active[index] = 1;
      alone.elsewhere = whole.gains;
      advance(alone, 5 * 86_400);
      expect(stateOf(alone, alone.model, index)).toEqual(stateOf(whole, whole.model, index));
      expect([...alone.rooms]).toEqual([...whole.rooms]);
    }
  });
});

describe("what happens", () => {
  it("is told in the order of time, whatever island it happens in", () => {
    const { events } = startRun(place()).hours(24);
    expect(new Set(events.map(({ part }) => part.split("-")[0]))).toEqual(new Set(["one", "two", "three"]));
    const times = events.map(({ tS }) => tS);
    expect(times).toEqual([...times].sort((a, b) => a - b));
  });
});

describe("water on the floor of a room in which several systems stand", () => {
  it("is noticed within a look of when it came, whichever of them it comes from", () => {
    const sensors = "hall-wet: { measures: leak, at: hall, hub: upstairs }";
    const rules = "wet: { hub: upstairs, when: { hall-wet: wet }, notice: urgent, says: Water }";
    for (const body of ["one-sump", "two-sump"]) {
      const run = startRun(place({ sensors, rules })).hours(1.1);
      run.set(body, "leakLPerH", 30).hours(1);
      const noticed = run.events.find(({ kind }) => kind === "notice");
      // A litre is more than a splash: two minutes, and a few looks of the sensor.
      expect(noticed?.tS).toBeGreaterThan(1.1 * 3600);
      expect(noticed?.tS).toBeLessThan(1.1 * 3600 + 240);
    }
  });
});
