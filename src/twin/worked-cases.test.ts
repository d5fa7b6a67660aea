/**
 * Processes of docs/science.md as the running twin shows them, each against a number that is worked out by hand here. What has a
 * file of its own (heat, oxygen, plumbing, harm) is tested there.
 */
import { describe, expect, it } from "vitest";
import { type Run, runInAir, startRun } from "../../test/sites.ts";
import { omegaAragonite, solveHydrogen } from "../science/index.ts";
import {
  BODY_COLUMNS,
  CA,
  DIC,
  MASS,
  NO2,
  NO3,
  O2,
  ORGANIC,
  ROOM_AIR_C,
  ROOM_CO2,
  ROOM_HUMIDITY,
  SALT,
  SOLID,
  TA,
  TAN,
} from "./columns.ts";
import { addMol } from "./habits.ts";
import { SLOW } from "./state.ts";

/** A bare tank of 400 L at 26 degrees C. */
function tank(devices = "", more = ""): string {
  return `
site: Tank
systems:
  reef:
    bodies:
      display: { role: display, volume: 400 L, surface: 0.72 m2, rock: 0 kg, holds: { temperature: 26 degC }${more} }
${devices}`;
}

const MILD = { airC: 26, relativeHumidity: 0.98, co2Ppm: 450 };

/** Amount of a column in the first body. */
function held({ twin }: Run, column: number): number {
  return twin.bodies[column];
}

function add({ twin }: Run, column: number, amount: number): void {
  addMol(twin, twin.model.systems[0], 0, column, amount);
}

/** Expects a number within a share of what was worked out. */
function near(found: number, workedOut: number, share: number): void {
  expect(Math.abs(found / workedOut - 1), `${found} for ${workedOut}`).toBeLessThan(share);
}

describe("mixing", () => {
  it("closes a difference between two waters as exp(-Q (1/V1 + 1/V2) t): to 22 % in six minutes at 1000 L/h over 200 and 100 L", () => {
    const run = startRun(`
site: Two waters
systems:
  reef:
    bodies:
      display: { volume: 200 L, rock: 0 kg }
      sump: { volume: 100 L, brim: 150 L }
    circulation: [ { from: sump, to: display, by: return, weir-head: 0.1 L } ]
devices: { return: { kind: return-pump, in: sump, flow: 1000 L/h } }`).hours(1);
    const sump = run.body("sump") * BODY_COLUMNS;
    const gap = () => run.salinity("sump") - run.salinity("display");
    run.twin.bodies[sump + SALT] += 0.3;
    run.hours(0.001);
    const before = gap();
    run.pieces(0.1, 30);
    near(gap() / before, Math.exp(-1.5), 0.03);
    run.pieces(0.9, 60);
    // All of it is then in 300 L: one part in a thousand of salt.
    near(run.salinity("display"), 36, 0.002);
  });
});

describe("limewater", () => {
  it("of one part in a hundred of the water a day brings 0.45 meq/L, 1.25 dKH, with half as much calcium and no salt", () => {
    const text = tank(
      "devices: { drip: { kind: top-off, in: display, from: lime, flow: 0.166667 L/h, own-float: none } }",
    ).replace("devices:", "      lime: { volume: 20 L, holds: limewater }\ndevices:");
    const run = startRun(text).hours(0.1);
    const limeL = run.volumeL("lime");
    const before = { alkalinity: held(run, TA), calcium: held(run, CA), salt: held(run, SALT) };
    run.hours(24);
    expect(limeL - run.volumeL("lime")).toBeCloseTo(4, 1);
    // Saturated at the 20 degrees C of the room: 1.69 g/L of 26.99 meq/g.
    near((held(run, TA) - before.alkalinity) / 400, 0.45e-3, 0.03);
    near((held(run, CA) - before.calcium) / (held(run, TA) - before.alkalinity), 0.5, 0.01);
    expect(held(run, SALT) / before.salt).toBeCloseTo(1, 9);
  });
});

describe("a calcium reactor", () => {
  const withReactor = (run: Run) => runInAir(run, 24, MILD);
  const REACTOR = "devices: { reactor: { kind: calcium-reactor, in: display, flow: 0.6 L/h, heat: 0 W } }";

  it("of 0.6 L/h at 40 dKH brings 206 meq a day, half as much calcium, and lowers the pH by its carbon dioxide", () => {
    const [run, without] = [startRun(tank(REACTOR)), startRun(tank(REACTOR)).set("reactor", "dead", 1)];
    const before = { alkalinity: held(run, TA), calcium: held(run, CA) };
    for (const one of [run, without]) withReactor(one);
    near(held(run, TA) - before.alkalinity, 0.206, 0.01);
    near(held(run, CA) - before.calcium, 0.103, 0.01);
    // As much alkalinity as bicarbonate and carbon dioxide besides: the pH falls though alkalinity rises.
    expect(without.phTotal("display") - run.phTotal("display")).toSatisfy((fall: number) => fall > 0 && fall < 0.2);
  });

  it("whose gas valve stays open brings 26 mmol/L of carbon dioxide and lowers it far more", () => {
    const [run, open] = [startRun(tank(REACTOR)), startRun(tank(REACTOR)).set("reactor", "gasOpen", 1)];
    for (const one of [run, open]) withReactor(one);
    expect(run.phTotal("display") - open.phTotal("display")).toBeGreaterThan(0.2);
    expect(open.alkalinityDKH("display")).toBeCloseTo(run.alkalinityDKH("display"), 1);
  });

  it("whose gas has run out brings nothing", () => {
    const run = startRun(tank(REACTOR)).set("reactor", "strength", 0);
    const before = held(run, CA);
    expect(held(withReactor(run), CA)).toBeCloseTo(before, 9);
  });
});

describe("calcium carbonate", () => {
  /** A tank to which so many mmol/kg of hydroxide were added at once, days later. */
  function afterHydroxide(
    mmolPerKg: number,
    days: number,
  ): { run: Run; before: Record<"ta" | "ca", number>; omega: number } {
    const run = startRun(tank()).hours(0.1);
    add(run, TA, (mmolPerKg / 1000) * held(run, MASS));
    const before = { ta: held(run, TA), ca: held(run, CA) };
    const kg = held(run, MASS);
    const constants = run.twin.scratch.constants[0];
    const hydrogen = solveHydrogen(constants, before.ta / kg, held(run, DIC) / kg, 0);
    const omega = omegaAragonite(constants, before.ca / kg, held(run, DIC) / kg, hydrogen);
    run.hours(24 * days);
    return { run, before, omega };
  }

  it("does not fall out of water at five times saturation, as with lime in the sea (Moras et al. 2022)", () => {
    const { run, omega } = afterHydroxide(0.15, 10);
    expect(omega).toSatisfy((first: number) => first > 4.5 && first < 6);
    expect(held(run, SOLID)).toBe(0);
    // It came as 0.43 dKH.
    expect(run.alkalinityDKH("display")).toBeGreaterThan(8.3);
  });

  it("falls out of water far above seven, two charges with each calcium, until nine tenths of the dose are gone", () => {
    const { run, before, omega } = afterHydroxide(4, 8);
    expect(omega).toBeGreaterThan(15);
    near((before.ta - held(run, TA)) / (before.ca - held(run, CA)), 2, 0.01);
    expect((before.ta - held(run, TA)) / (0.004 * held(run, MASS))).toBeGreaterThan(0.9);
  });
});

describe("nitrification", () => {
  it("turns over half of its capacity where ammonia stands at its half-saturation of 0.2 mg/L", () => {
    const run = startRun(tank("devices: { air: { kind: air-pump, in: display } }")).hours(6);
    const { nitrifyMolH, nitrateLossPerH } = run.twin.model.life[0];
    run.twin.bodies[TAN] = (0.2 / 14_007) * 400;
    const made = () => held(run, NO2) + held(run, NO3);
    const before = made();
    run.hours(0.25);
    const lost = 0.25 * nitrateLossPerH * held(run, NO3) * run.twin.scratch.slow[SLOW.q10];
    near((made() - before + lost) / 0.25, 0.5 * nitrifyMolH * run.twin.scratch.slow[SLOW.q10], 0.1);
  });

  it("stops without oxygen", () => {
    const run = startRun(tank()).hours(1);
    run.twin.bodies[TAN] = 0.01;
    run.twin.bodies[O2] = 1e-6;
    const before = held(run, TAN);
    run.hours(0.05);
    near(held(run, TAN), before, 0.001);
  });
});

describe("a skimmer", () => {
  it("takes a fifth of what rots a day: exp(-0.2) is left beside a tank that is stirred as much", () => {
    const [skimmed, stirred] = ["skimmer", "air-pump"].map((kind) => {
      const run = startRun(tank(`devices: { bubbles: { kind: ${kind}, in: display, flow: 500 L/h } }`)).hours(1);
      add(run, ORGANIC, 0.01);
      return held(run.hours(24), ORGANIC);
    });
    near(skimmed / stirred, Math.exp(-0.2), 0.02);
  });
});

describe("light", () => {
  /** Gross oxygen at noon against that in full light, under a lamp of so much PAR. */
  function atNoon(par: number): number {
    const run = startRun(
      tank(`devices: { lamp: { kind: light, in: display, par: ${par} PAR, schedule: "08:00-16:00" } }`),
    );
    return run.hours(12).twin.scratch.slow[SLOW.light];
  }

  it("drives photosynthesis as tanh(I / 200), and too much of it hinders: exp(-(I - 800) / 1500) above 800", () => {
    near(atNoon(100), Math.tanh(0.5), 0.01);
    near(atNoon(800), 1, 0.01);
    near(atNoon(2000), Math.exp(-1200 / 1500), 0.01);
  });

  it("of 200 W leaves 30 W in the water: 0.13 K in two hours in 400 L", () => {
    const degrees = (state: number) => {
      const run = startRun(
        tank('devices: { lamp: { kind: light, in: display, power: 200 W, schedule: "00:00-24:00" } }'),
      ).set("lamp", "dead", state);
      return runInAir(run, 2, { airC: 26, relativeHumidity: 0.98 }).temperatureC("display");
    };
    // 30 W over 409 kg of 3993 J/(kg K) for two hours, of which little is lost again.
    near(degrees(0) - degrees(1), 0.132, 0.06);
  });
});

describe("evaporation", () => {
  const AT_22 = { airC: 22 };
  const evaporation = (run: Run) => run.twin.scratch.slow[SLOW.evaporationKgH];

  it("follows the room: by the difference of vapour pressures, 2.1 times as much at 30 % as at 80 % and 22 degrees C", () => {
    const [dry, damp] = [0.3, 0.8].map((relativeHumidity) =>
      evaporation(runInAir(startRun(tank()), 0.2, { ...AT_22, relativeHumidity })),
    );
    // Water 0.98 of 3.364 kPa; air 0.3 and 0.8 of 2.645 kPa.
    near(dry / damp, (3.297 - 0.794) / (3.297 - 2.116), 0.02);
  });

  it("turns to dew on water that is colder than the air is damp", () => {
    expect(evaporation(runInAir(startRun(tank()), 0.2, { airC: 33, relativeHumidity: 0.9 }))).toBeLessThan(0);
  });

  it("damps a shut room", () => {
    const humidity = (lid: string) =>
      startRun(
        `rooms: { closet: { air: 20 m3, air-changes: 0.1 /h, people: 0 } }\n${tank("devices: { heater: { kind: heater, in: display } }", `, lid: ${lid}`).trimStart()}`,
      ).hours(24).twin.rooms[ROOM_HUMIDITY];
    // 0.1 kg/h into 2 m3 of fresh air an hour are 40 g/kg, more than the air can hold.
    expect(humidity("open")).toBeGreaterThan(1.15 * humidity("lid"));
  });
});

describe("the room", () => {
  it("is warmed by what a chiller takes out of the water and by what it draws", () => {
    const airC = (dead: number) =>
      startRun(
        `rooms: { closet: { air: 30 m3, holds: 5 degC, air-changes: 0.1 /h, time-constant: 100 h } }\n${tank(
          "devices: { chiller: { kind: chiller, in: display, power: 200 W, own-thermostat: 10 degC } }",
        ).trimStart()}`,
      )
        .set("chiller", "dead", dead)
        .hours(3).twin.rooms[ROOM_AIR_C];
    // 500 W and 200 W over 30 m3 of 100 kJ/(m3 K) for three hours: 2.5 K, less what the colder water takes back.
    expect(airC(0) - airC(1)).toSatisfy((risen: number) => risen > 1.6 && risen < 2.6);
  });

  it("holds 425 ppm of carbon dioxide and what people breathe out: 2667 ppm more with four in 60 m3 at half a change an hour", () => {
    const run = startRun(
      `rooms: { den: { air: 60 m3, air-changes: 0.5 /h, people: 4, occupied: "00:00-24:00" } }\n${tank().trimStart()}`,
    ).hours(24);
    near(run.twin.rooms[ROOM_CO2], 425 + 2667, 0.02);
  });
});
