/** What probes say of a water that is known: late, off, noisy, in steps, or wrong in the way in which they break. */
import { describe, expect, it } from "vitest";
import { DAY_S, type Run, startRun } from "../../test/sites.ts";
import { HEAT, HEAT_CAPACITY, MASS, ROOM_AIR_C, SENSOR_COLUMNS, SENSOR_READING } from "./columns.ts";
import { peekSensor } from "./peek.ts";
import { readSensor } from "./sensing.ts";
import { timeS } from "./state.ts";
import { trueValue } from "./true-value.ts";

/** A tank with one probe; `what` says more of it. */
function withProbe(what: string): Run {
  return startRun(`
site: Probe
systems:
  reef:
    bodies:
      display: { role: display, volume: 400 L, rock: 0 kg, holds: { temperature: 26 degC } }
hubs: { hub: {} }
sensors:
  probe: { in: display, hub: hub, ${what} }`);
}

const THERMOMETER = "measures: temperature, noise: 0 degC, resolution: 0 degC, lag: 0 s, drift: 0 degC/month";

/** Reads the probe so many seconds from now without running the water. */
function read({ twin }: Run, afterS = 0, tick = 0): number {
  return readSensor(twin, 0, timeS(twin) + afterS, tick);
}

/** Makes the water warmer at once, K. */
function warm({ twin }: Run, kelvin: number): void {
  twin.bodies[HEAT] += twin.bodies[MASS] * HEAT_CAPACITY * kelvin;
  twin.scratch.slow[0] += kelvin;
}

describe("a probe", () => {
  it("without fault and lag says what is so", () => {
    const run = withProbe(THERMOMETER);
    expect(read(run)).toBeCloseTo(run.temperatureC("display"), 9);
  });

  it("has come 63 % of the way after its lag, and 95 % after three", () => {
    const run = withProbe(THERMOMETER.replace("lag: 0 s", "lag: 60 s"));
    const before = read(run, 1);
    warm(run, 2);
    expect((read(run, 61) - before) / 2).toBeCloseTo(1 - Math.exp(-1), 3);
    expect((read(run, 181) - before) / 2).toBeCloseTo(1 - Math.exp(-3), 3);
  });

  it("is off by what it is off, and drifts by its drift in a month", () => {
    const run = withProbe(`${THERMOMETER.replace("drift: 0", "drift: 0.3")}, offset: 0.2 degC`);
    const truth = run.temperatureC("display");
    expect(read(run) - truth).toBeCloseTo(0.2, 6);
    expect(read(run, 30.44 * DAY_S) - truth).toBeCloseTo(0.5, 6);
  });

  it("shows steps of its resolution", () => {
    const run = withProbe(THERMOMETER.replace("resolution: 0", "resolution: 0.25"));
    warm(run, 0.06);
    expect((read(run) * 4) % 1).toBe(0);
  });

  it("scatters by its noise around the truth, the same at the same tick", () => {
    const run = withProbe(THERMOMETER.replace("noise: 0 ", "noise: 0.05 "));
    const truth = run.temperatureC("display");
    const errors = Array.from({ length: 2000 }, (_, tick) => read(run, 10 * tick, tick) - truth);
    const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
    const spread = Math.sqrt(errors.reduce((sum, error) => sum + (error - mean) ** 2, 0) / errors.length);
    // The mean of 2000 lies within three of its own deviations.
    expect(Math.abs(mean)).toBeLessThan((3 * 0.05) / Math.sqrt(2000));
    expect(Math.abs(spread / 0.05 - 1)).toBeLessThan(0.1);
    expect(read(run, 0, 7)).toBe(read(run, 100, 7));
  });

  it("for pH shows the NBS scale, 0.13 above the total scale", () => {
    const run = withProbe("measures: ph, noise: 0 pH, resolution: 0 pH, lag: 0 s, drift: 0 pH/month");
    expect(read(run) - run.phTotal("display")).toBeCloseTo(0.134, 2);
  });
});

describe("a broken probe", () => {
  it("says nothing where its line is cut", () => {
    expect(read(withProbe(THERMOMETER).set("probe", "silent", 1))).toBeNaN();
  });

  it("goes on saying the last where it hangs", () => {
    const run = withProbe(THERMOMETER);
    const before = read(run);
    run.set("probe", "frozen", 1);
    warm(run, 3);
    expect(read(run, 60)).toBe(before);
  });

  it("says seven where the glass of a pH probe is cracked, whatever the water", () => {
    const run = withProbe("measures: ph").set("probe", "fixed", 7);
    expect(read(run)).toBe(7);
    run.hours(24);
    expect(read(run)).toBe(7);
  });

  it("that has fallen out shows the air of the room, so that a heater it rules would heat without end", () => {
    const run = withProbe(THERMOMETER).set("probe", "dry", 1);
    expect(read(run)).toBeCloseTo(run.twin.rooms[ROOM_AIR_C], 6);
    expect(read(run)).toBeLessThan(run.temperatureC("display") - 2);
  });

  it("of conductivity reads no salt at all in air", () => {
    const run = withProbe("measures: salinity, noise: 0 ppt, drift: 0 ppt/month").set("probe", "dry", 1);
    expect(read(run)).toBeCloseTo(0, 6);
  });
});

describe("what is told of a probe between two looks of its hub", () => {
  it("is what the hub would read then, and leaves no trace", () => {
    const run = withProbe(THERMOMETER).hours(1);
    warm(run, 0.4);
    const before = run.twin.state.slice();
    expect(peekSensor(run.twin, 0)).toBeCloseTo(run.temperatureC("display"), 9);
    expect(run.twin.state).toEqual(before);
  });

  it("is its last word while the hub does not work", () => {
    const run = withProbe(THERMOMETER).hours(1);
    const last = run.twin.sensors[SENSOR_READING];
    run.set("hub", "hung", 1);
    warm(run, 0.4);
    expect(peekSensor(run.twin, 0)).toBe(last);
  });
});

describe("a probe that no rule reads", () => {
  it("shows the water as it is at every mark, though only heaters switch", () => {
    const run = startRun(`
site: Probe
systems:
  reef:
    bodies:
      display: { volume: 300 L, livestock: { corals: mixed, fish: 60 g } }
      sump: { volume: 80 L }
    circulation: [ { from: sump, to: display, by: return } ]
devices:
  return: { kind: return-pump, in: sump }
  heater: { kind: heater, in: sump, power: 300 W, by: hub, own-thermostat: none }
  lamp: { kind: light, in: display, schedule: "08:00-20:00" }
hubs: { hub: {} }
sensors:
  warm: { measures: temperature, in: sump }
  ph: { measures: ph, in: display, noise: 0, resolution: 0, lag: 0 s, drift: 0 /month }
rules:
  warmth: { when: { warm: below 25 degC }, do: { heater: on }, until: { warm: above 25.4 degC } }`);
    const place = run.site.sensors.findIndex(({ id }) => id === "ph");
    let swing = 0;
    run.pieces(24, 1200, () => {
      const shown = run.twin.sensors[place * SENSOR_COLUMNS + SENSOR_READING];
      expect(shown).toBeCloseTo(trueValue(run.twin, place), 9);
      swing = Math.max(swing, Math.abs(shown - 8.2));
    });
    expect(swing).toBeGreaterThan(0.02);
  });
});
