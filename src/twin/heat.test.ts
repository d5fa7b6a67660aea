/** Heat: worked by hand for a 400 L display over a 100 L sump, then what follows for heaters, probes and cut-outs. */
import { describe, expect, it } from "vitest";
import { type HeldAir, HOUR_S, type Run, runInAir, startRun } from "../../test/sites.ts";
import { BODY_COLUMNS, HEAT, HEAT_CAPACITY, MASS, SENSOR_COLUMNS, SENSOR_READING } from "./columns.ts";
import { worstDose } from "./harm.ts";
import { timeS } from "./state.ts";

/**
 * Display 120 x 60 x 55 cm, sump 70 x 45 x 32 cm: 2.04 MJ/K, 1.035 m2 of open water, 22.8 W/K through the walls. Dry losses
 * are then 31.8 W/K, evaporation 9.4 W/K more near 26 degrees C; together a time constant of 13.8 h.
 */
const WORKED = `
site: Worked example
systems:
  reef:
    bodies:
      display: { volume: 400 L, surface: 0.72 m2, depth: 55.5 cm, walls: 16.5 W/K, rock: 0 kg, holds: { temperature: 26 degC } }
      sump: { volume: 100 L, brim: 130 L, surface: 0.315 m2, walls: 6.3 W/K, heater-dry: 20 L, intake: 15 L }
    circulation: [ { from: sump, to: display, by: return, back-siphon: 16 L, weir-head: 6 L } ]
devices:
  return: { kind: return-pump, in: sump, flow: 1000 L/h, power: 1 W, heat: 0 W }
  pumps: { kind: other, in: display, power: 120 W, heat: 120 W }
  heater: { kind: heater, power: 300 W, in: sump, own-thermostat: 26 degC }`;

const ROOM_22: HeldAir = { airC: 22, relativeHumidity: 0.5 };

/** Mean temperature of all circulating water, degrees C. */
function meanC({ twin }: Run): number {
  let heat = 0;
  let mass = 0;
  for (const body of twin.model.systems[0].waters) {
    heat += twin.bodies[body * BODY_COLUMNS + HEAT];
    mass += twin.bodies[body * BODY_COLUMNS + MASS];
  }
  return heat / (mass * HEAT_CAPACITY);
}

/** Hours until the mean temperature first reaches `degrees` from either side. */
function hoursTo(run: Run, degrees: number, air: HeldAir): number {
  let found = Number.NaN;
  const start = Math.sign(meanC(run) - degrees);
  runInAir(run, 48, air, (hours) => {
    if (Number.isNaN(found) && Math.sign(meanC(run) - degrees) !== start) found = hours;
  });
  return found;
}

function worked(heaterW: number, pumpsW: number): Run {
  return startRun(WORKED)
    .set("heater", "thermostat", 1)
    .set("heater", "output", heaterW / 300)
    .set("pumps", pumpsW === 0 ? "dead" : "output", 1);
}

describe("a 400 L display with a 100 L sump in a room of 22 degrees C", () => {
  // The example takes still water (activity 0.5), the twin a little more where water is pumped: up to 6 % more evaporation.
  it.each([
    ["120 W of pumps alone", 0, 120, 23.5],
    ["nothing", 0, 0, 20.4],
    ["120 W of pumps and 102 W of heating", 102, 120, 26],
    ["120 W of pumps and a heater of 300 W stuck on", 300, 120, 30.7],
  ])("comes to rest with %s", (_, heaterW, pumpsW, expectedC) => {
    const run = runInAir(worked(heaterW, pumpsW), 96, ROOM_22);
    expect(Math.abs(meanC(run) - expectedC)).toBeLessThan(0.45);
  });

  it("closes its gap to rest with a time constant of 13.8 h", () => {
    const run = worked(0, 120);
    const restC = meanC(runInAir(worked(0, 120), 96, ROOM_22));
    runInAir(run, 0.1, ROOM_22);
    const gap = meanC(run) - restC;
    runInAir(run, 13.8, ROOM_22);
    expect((meanC(run) - restC) / gap).toBeGreaterThan(0.33);
    expect((meanC(run) - restC) / gap).toBeLessThan(0.4);
  });

  it.each([
    ["600 W stuck on reach 30 degrees C", 600, 120, 30, ROOM_22, 5.6, 0.4],
    ["600 W stuck on reach 32 degrees C", 600, 120, 32, ROOM_22, 9.6, 0.6],
    ["120 W of pumps alone let it cool to 24 degrees C", 0, 120, 24, ROOM_22, 22, 3],
    [
      "without power in a room of 18 degrees C it falls to 22 degrees C",
      0,
      0,
      22,
      { airC: 18, relativeHumidity: 0.5 },
      8.3,
      0.4,
    ],
    [
      "without power in a room of 18 degrees C it falls to 20 degrees C",
      0,
      0,
      20,
      { airC: 18, relativeHumidity: 0.5 },
      15.4,
      0.7,
    ],
    ["300 W in a room of 32 degrees C reach 30 degrees C", 180, 120, 30, { airC: 32, relativeHumidity: 0.5 }, 6.4, 0.5],
    [
      "300 W in a room of 32 degrees C reach 32 degrees C",
      180,
      120,
      32,
      { airC: 32, relativeHumidity: 0.5 },
      11.3,
      0.8,
    ],
  ])("%s", (_, heaterW, pumpsW, degrees, air, expectedH, toleranceH) => {
    expect(Math.abs(hoursTo(worked(heaterW, pumpsW), degrees, air) - expectedH)).toBeLessThan(toleranceH);
  });

  it("gives off 3.4 L of water a day", () => {
    const run = runInAir(worked(102, 120), 1, ROOM_22);
    const before = run.volumeL("display") + run.volumeL("sump");
    runInAir(run, 24, ROOM_22);
    expect(before - run.volumeL("display") - run.volumeL("sump")).toSatisfy(
      (litres: number) => litres > 3.2 && litres < 3.8,
    );
  });
});

describe("a heater in the sump", () => {
  it("with the return stopped heats the sump alone while the display cools, as a probe in each would tell", () => {
    const run = startRun(`${WORKED}
sensors:
  sump-temp: { measures: temperature, in: sump }
  display-temp: { measures: temperature, in: display }
hubs:
  shelf-hub: {}`);
    runInAir(run, 6, ROOM_22);
    run.set("return", "dead", 1).set("heater", "thermostat", 1).set("pumps", "dead", 1);
    runInAir(run, 0.1, ROOM_22);
    const before = run.temperatureC("sump");
    const kg = run.twin.bodies[run.body("sump") * BODY_COLUMNS + MASS];
    expect(run.volumeL("sump")).toBeGreaterThan(115);
    runInAir(run, 0.5, ROOM_22);
    // 300 W less what the warm sump gives off (about 9 W/K dry and 3 W/K wet).
    const perHour = (300 * 3600) / (kg * HEAT_CAPACITY);
    expect((run.temperatureC("sump") - before) / 0.5).toSatisfy(
      (rate: number) => rate > 0.75 * perHour && rate < perHour,
    );
    runInAir(run, 9, ROOM_22);
    expect(run.temperatureC("sump")).toBeGreaterThan(36);
    expect(run.temperatureC("display")).toBeLessThan(25);
    const [sump, display] = [...run.twin.model.sensorIndex.values()].map(
      (place) => run.twin.sensors[place * SENSOR_COLUMNS + SENSOR_READING],
    );
    expect(sump).toBeCloseTo(run.temperatureC("sump"), 0);
    expect(display).toBeCloseTo(run.temperatureC("display"), 0);
  });

  it("cycles as often as its power, the losses and its hysteresis say", () => {
    const run = startRun(`
site: One tank
systems:
  reef:
    bodies:
      display: { volume: 500 L, surface: 1.035 m2, walls: 22.8 W/K, rock: 0 kg, holds: { temperature: 26 degC } }
devices:
  heater: { kind: heater, power: 300 W, in: display, own-thermostat: 26 degC, own-hysteresis: 0.5 K }`);
    runInAir(run, 24, ROOM_22);
    run.events.length = 0;
    runInAir(run, 72, ROOM_22);
    const starts = run.events
      .filter((event) => event.part === "heater" && event.text.endsWith("runs"))
      .map((event) => event.tS / HOUR_S);
    const meanH = (starts[starts.length - 1] - starts[0]) / (starts.length - 1);
    // 31.8 W/K dry over 3.75 K and 92 W of vapour; each 0.5 K is 1.02 MJ to gain and to lose again.
    const lossW = 31.8 * 3.75 + 92;
    const kilojoules = 0.5 * 2040;
    const cycleH = (kilojoules / lossW + kilojoules / (300 - lossW)) / 3.6;
    expect(starts.length).toBeGreaterThan(10);
    expect(meanH / cycleH).toSatisfy((share: number) => share > 0.95 && share < 1.05);
  });

  it("keeps the water between its two points, to the thousandth of a degree", () => {
    const run = startRun(WORKED);
    runInAir(run, 24, ROOM_22);
    let [low, high] = [100, 0];
    run.pieces(24, 120, () => {
      low = Math.min(low, run.temperatureC("sump"));
      high = Math.max(high, run.temperatureC("sump"));
    });
    expect(low).toBeGreaterThan(25.5 - 0.002);
    expect(low).toBeLessThan(25.52);
    expect(high).toBeLessThan(26 + 0.002);
    expect(high).toBeGreaterThan(25.98);
  });

  it("stuck on is stopped by its cut-out, and only there", () => {
    const text = WORKED.replace("own-thermostat: 26 degC", "own-thermostat: 26 degC, cut-out: 28 degC").replace(
      "300 W",
      "600 W",
    );
    const run = startRun(text).set("heater", "thermostat", 1);
    let high = 0;
    run.pieces(48, 600, () => {
      high = Math.max(high, run.temperatureC("sump"));
    });
    expect(high).toBeGreaterThan(27.95);
    expect(high).toBeLessThan(28.003);
    run.set("heater", "cutOut", 1).hours(24);
    expect(run.temperatureC("sump")).toBeGreaterThan(30);
  });

  it("that fell dry heats nothing", () => {
    const text = WORKED.replace("heater-dry: 20 L", "heater-dry: 99 L");
    const run = startRun(text).set("heater", "thermostat", 1).set("pumps", "dead", 1);
    run.hours(24);
    expect(run.volumeL("sump")).toBeLessThan(99);
    expect(run.runs("heater")).toBe(true);
    expect(run.temperatureC("display")).toBeLessThan(25.9);
  });

  it("runs from the first moment where the water is cold", () => {
    const run = startRun(WORKED.replace("own-thermostat: 26 degC", "own-thermostat: 27 degC")).hours(0.01);
    expect(run.runs("heater")).toBe(true);
  });
});

describe("a chiller", () => {
  const CHILLED = `${WORKED}
  chiller: { kind: chiller, in: sump, power: 200 W, own-thermostat: 24 degC }`;

  it("takes out its 500 W: 500 L that lose nothing to speak of cool by 0.88 K in an hour", () => {
    const run = startRun(CHILLED).set("heater", "dead", 1).set("pumps", "dead", 1);
    const air = { airC: meanC(run), relativeHumidity: 0.98 };
    const before = meanC(runInAir(run, 0.1, air));
    runInAir(run, 1, air);
    // 500 W over 2.04 MJ/K for an hour.
    expect(before - meanC(run)).toBeCloseTo(0.88, 1);
  });

  it("whose pump draws air cools nothing, and does not freeze the dregs", () => {
    const run = startRun(CHILLED).set("heater", "dead", 1).set("return", "dead", 1).set("sump", "leakLPerH", 200);
    run.hours(24);
    expect(run.volumeL("sump")).toBeLessThan(15);
    expect(run.temperatureC("sump")).toBeGreaterThan(14);
  });
});

/** Hours until the cold (or heat) has done so much harm, in a cold (or hot) room. */
function hoursToHarm(run: Run, limitH: number): number {
  while (worstDose(run.twin, "early") < 0.5 && timeS(run.twin) < limitH * 3600) run.hours(1);
  return timeS(run.twin) / 3600;
}

function animals(volumeL: number, heaterW: number, roomC: number): string {
  return `
site: Animals
rooms: { hall: { holds: ${roomC} degC, time-constant: 10 h } }
systems:
  reef:
    bodies:
      display: { volume: ${volumeL} L, rock: 5 kg, livestock: { fish: 50 g }, holds: { temperature: 25.5 degC } }
devices:
  heater: { kind: heater, power: ${heaterW} W, in: display, own-thermostat: 25.5 degC }
  skimmer: { kind: skimmer, in: display, heat: 0 W }`;
}

describe("harm", () => {
  it("by cold never comes sooner with a stronger heater", () => {
    const times = [1, 80, 160, 320, 1500].map((watts) =>
      hoursToHarm(startRun(animals(300, watts, 4), { startsLocal: "2026-01-14T00:00" }), 400),
    );
    for (let place = 1; place < times.length; place++) expect(times[place]).toBeGreaterThanOrEqual(times[place - 1]);
    expect(times[0]).toBeLessThan(100);
    expect(times.at(-1)).toBe(400);
  });

  it("by a heater stuck on never comes sooner in more water", () => {
    const times = [60, 120, 240, 480].map((litres) =>
      hoursToHarm(startRun(animals(litres, 400, 20)).set("heater", "thermostat", 1), 300),
    );
    for (let place = 1; place < times.length; place++) expect(times[place]).toBeGreaterThanOrEqual(times[place - 1]);
    expect(times[0]).toBeLessThan(40);
    expect(times[0]).toBeLessThan(times[2]);
  });
});
