/**
 * Nothing appears or vanishes: what the waters of a system lose, the other side of their border gains. That all of it closes to
 * the last digits, for any place and any fault, is for test/balances.test.ts.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { HOUR_S, type Run, startRun } from "../../test/sites.ts";
import {
  BODY_COLUMNS,
  CA,
  COLUMN_NAMES,
  DIC,
  MASS,
  META,
  MG,
  NO2,
  NO3,
  O2,
  ORGANIC,
  ROOM_FLOOR,
  SALT,
  TA,
  TAN,
  UNROTTED,
} from "./columns.ts";
import { addFood, addMol } from "./habits.ts";
import { kgPerL } from "./hydraulics.ts";
import { FOOD_MOL_N_PER_G } from "./life.ts";
import { SLOW, SLOW_COLUMNS } from "./state.ts";

interface Sketch {
  readonly displayL: number;
  readonly sumpL: number | null;
  readonly frag: boolean;
  /** The display runs into a refugium, and that into the sump. */
  readonly refugium: boolean;
  readonly topOff: "fresh" | "limewater" | null;
  readonly dosers: boolean;
  readonly waterChange: boolean;
  readonly light: boolean;
  readonly fishG: number;
  readonly corals: boolean;
  readonly skimmer: boolean;
  readonly hands: boolean;
}

const sketches: fc.Arbitrary<Sketch> = fc.record({
  displayL: fc.integer({ min: 60, max: 800 }),
  sumpL: fc.option(fc.integer({ min: 40, max: 200 })),
  frag: fc.boolean(),
  refugium: fc.boolean(),
  topOff: fc.constantFrom("fresh", "limewater", null),
  dosers: fc.boolean(),
  waterChange: fc.boolean(),
  light: fc.boolean(),
  fishG: fc.integer({ min: 0, max: 300 }),
  corals: fc.boolean(),
  skimmer: fc.boolean(),
  hands: fc.boolean(),
});

function textOf(sketch: Sketch): string {
  const { displayL, sumpL, frag, refugium, topOff, dosers, waterChange, light, fishG, corals, skimmer } = sketch;
  const main = sumpL === null ? "display" : "sump";
  const withFrag = sumpL !== null && frag;
  const withRefugium = sumpL !== null && refugium;
  const lines = [
    "site: Any",
    "systems:",
    "  reef:",
    "    bodies:",
    `      display: { volume: ${displayL} L, livestock: { fish: ${fishG} g${corals ? ", corals: mixed, alkalinity-use: 1 dKH/d" : ""} } }`,
    ...(sumpL === null ? [] : [`      sump: { volume: ${sumpL} L, brim: ${1.6 * sumpL} L }`]),
    ...(withFrag ? ["      tray: { role: frag, volume: 50 L }"] : []),
    ...(withRefugium ? ["      refugium: { role: refugium, volume: 60 L, livestock: { plants: 20 g } }"] : []),
    ...(topOff === null ? [] : [`      barrel: { volume: 40 L, holds: ${topOff} }`]),
    ...(dosers
      ? [
          "      alkalinity-can: { volume: 3 L, holds: { solution: alkalinity, strength: 1 meq/mL } }",
          "      calcium-can: { volume: 3 L, holds: { solution: calcium, strength: 1 mmol/mL } }",
          "      magnesium-can: { volume: 3 L, holds: { solution: magnesium, strength: 1 mmol/mL } }",
          "      carbon-can: { volume: 3 L, holds: { solution: carbon, strength: 0.3 g/mL } }",
        ]
      : []),
    ...(waterChange
      ? ["      fresh-salt-water: { role: reservoir, volume: 100 L, holds: { salt: 34 ppt, nitrate: 0 mg/L } }"]
      : []),
    ...(sumpL === null ? [] : ["    circulation:", "      - { from: sump, to: display, by: return }"]),
    ...(withFrag ? ["      - { from: sump, to: tray, by: tray-pump }"] : []),
    ...(withRefugium ? ["      - { from: display, to: refugium }", "      - { from: refugium, to: sump }"] : []),
    "devices:",
    `  heater: { kind: heater, in: ${main} }`,
    ...(sumpL === null ? [] : ["  return: { kind: return-pump, in: sump }"]),
    ...(withFrag ? ["  tray-pump: { kind: return-pump, in: sump, flow: 300 L/h }"] : []),
    ...(topOff === null ? [] : [`  top-off: { kind: top-off, in: ${main}, from: barrel }`]),
    ...(dosers
      ? ["alkalinity", "calcium", "magnesium", "carbon"].map(
          (what) =>
            `  ${what}-doser: { kind: doser, in: ${main}, from: ${what}-can, amount: ${what === "carbon" ? 3 : 60} mL/d }`,
        )
      : []),
    ...(waterChange
      ? [`  water-change: { kind: water-change, in: ${main}, from: fresh-salt-water, amount: 12 L/d }`]
      : []),
    ...(light ? ["  lamp: { kind: light, in: display }"] : []),
    ...(skimmer ? [`  skimmer: { kind: skimmer, in: ${main} }`] : []),
    ...(fishG > 0 ? ["  feeder: { kind: feeder, in: display, amount: 3 g/d }"] : []),
  ];
  return lines.join("\n");
}

const PLAIN: Sketch = {
  displayL: 200,
  sumpL: 80,
  frag: false,
  refugium: false,
  topOff: null,
  dosers: false,
  waterChange: false,
  light: false,
  fishG: 0,
  corals: false,
  skimmer: false,
  hands: false,
};

/** Levers that bend where water and matter go. Those of parts that a site lacks pull nothing. */
type Fault = readonly [part: string, lever: string, value: number];

const FAULTS: readonly Fault[] = [
  ["return", "dead", 1],
  ["return", "idle", 1],
  ["return", "output", 0.4],
  ["tray-pump", "dead", 1],
  ["mains", "down", 1],
  ["display-to-refugium", "drain", 0.05],
  ["refugium-to-sump", "drain", 0.05],
  ["sump-to-display", "hoseOff", 1],
  ["sump-to-display", "hoseOff", 0.05],
  ["sump-to-display", "drain", 0],
  ["sump-to-display", "drain", 0.35],
  ["sump-to-display", "siphonBreak", 1],
  ["sump-to-display", "shut", 1],
  ["display", "leakLPerH", 30],
  ["sump", "leakLPerH", 20],
  ["top-off", "float", 1],
  ["top-off", "siphonLPerH", 25],
  ["alkalinity-doser", "thermostat", 1],
  ["calcium-doser", "thermostat", 1],
  ["carbon-doser", "output", 3],
  ["skimmer", "wasteLPerH", 2],
  ["water-change", "wasteLPerH", 0.2],
  ["heater", "thermostat", 1],
  ["display", "carbonDioxideMolH", 0.05],
  ["display", "filter", 0.1],
];

/** What once went wrong: water from nowhere, amounts below nothing. */
const ONCE_WRONG: [Sketch, readonly Fault[]][] = [
  [{ ...PLAIN, displayL: 614, sumpL: 139, topOff: "fresh", skimmer: true }, [["sump-to-display", "drain", 0]]],
  [{ ...PLAIN, displayL: 60, sumpL: null, topOff: "fresh", fishG: 1, hands: true }, [["display", "leakLPerH", 30]]],
  [{ ...PLAIN, displayL: 60, sumpL: 40, topOff: "fresh", waterChange: true }, [["sump", "leakLPerH", 20]]],
  [
    { ...PLAIN, displayL: 102, sumpL: 40, topOff: "fresh", skimmer: true, hands: true },
    [["sump-to-display", "hoseOff", 1]],
  ],
];

const faults = fc
  .uniqueArray(fc.nat(FAULTS.length - 1), { maxLength: 3 })
  .map((places) => places.map((place) => FAULTS[place]));

function pull(run: Run, pulled: readonly Fault[]): void {
  for (const [part, lever, value] of pulled)
    if (run.twin.model.levers.index.has(`${part}:${lever}`)) run.set(part, lever, value);
}

/** What the circulating waters hold, by column, then their water. */
function held(run: Run): Float64Array {
  const sum = new Float64Array(MASS + 1);
  for (const body of run.twin.model.systems[0].waters)
    for (let column = 0; column <= MASS; column++) sum[column] += run.twin.bodies[body * BODY_COLUMNS + column];
  return sum;
}

/** One column over all bodies, reservoirs too. */
function everywhere(run: Run, column: number): number {
  let sum = 0;
  for (let body = 0; body < run.site.bodies.length; body++) sum += run.twin.bodies[body * BODY_COLUMNS + column];
  return sum;
}

/** Water that lies on the floor, L. */
function floorL(run: Run): number {
  return run.twin.rooms[ROOM_FLOOR];
}

/** Amount of a column that leaves by a rate, integrated over a run in short pieces (trapezoids), mol. */
function integrated(run: Run, hours: number, pieceS: number, ratePerH: () => number): number {
  let sum = 0;
  let before = ratePerH();
  run.pieces(hours, pieceS, () => {
    const now = ratePerH();
    sum += ((before + now) / 2) * (pieceS / HOUR_S);
    before = now;
  });
  return sum;
}

describe("whatever fails", () => {
  it("the waters stay within what water can be", () => {
    const property = (sketch: Sketch, pulled: readonly Fault[]) => {
      const run = startRun(textOf(sketch), { hands: sketch.hands }).hours(6);
      pull(run, pulled);
      run.pieces(72, 4 * HOUR_S, () => {
        for (const { id, volumeL, brimL } of run.site.bodies) {
          expect(run.volumeL(id), `${id}, L`).toSatisfy((litres: number) => litres > 0 && litres < brimL + 0.1);
          // What lies in the corners of a body that ran out is no water to speak of.
          if (run.volumeL(id) < 0.05 * volumeL) continue;
          expect(run.temperatureC(id), `${id}, degrees C`).toSatisfy(
            (degrees: number) => degrees > 10 && degrees < 100,
          );
          const at = run.body(id) * BODY_COLUMNS;
          for (const column of [SALT, O2, DIC, CA, TAN, NO2, NO3, META, ORGANIC, UNROTTED]) {
            const scale = Math.max(1e-3, Math.abs(run.twin.bodies[at + column]));
            expect(run.twin.bodies[at + column] / scale, `${id}, ${COLUMN_NAMES[column]}`).toBeGreaterThan(-1e-9);
          }
        }
      });
    };
    fc.assert(fc.property(sketches, faults, property), { seed: 7, numRuns: 16, examples: ONCE_WRONG });
  });
});

describe("salt", () => {
  it("stays where it is, to the last grain, while water evaporates and fresh water replaces it", () => {
    const run = startRun(`
site: Evaporation
systems:
  reef:
    bodies:
      display: { volume: 300 L }
      sump: { volume: 80 L }
      barrel: { volume: 60 L, holds: fresh }
    circulation: [ { from: sump, to: display, by: return } ]
devices:
  heater: { kind: heater, in: sump }
  return: { kind: return-pump, in: sump }
  top-off: { kind: top-off, in: sump }`);
    run.hours(0.1);
    const salt = everywhere(run, SALT);
    const waterL = run.volumeL("display") + run.volumeL("sump");
    run.hours(10 * 24);
    // A pulse of the top-off that has just run in is first in the sump alone.
    run.set("top-off", "thermostat", -1).hours(0.5);
    expect(run.volumeL("barrel")).toBeLessThan(45);
    expect(everywhere(run, SALT) / salt).toBeCloseTo(1, 12);
    expect(run.volumeL("display") + run.volumeL("sump")).toSatisfy((litres: number) => Math.abs(litres - waterL) < 1.2);
    const massKg = held(run)[MASS];
    expect(run.salinity("display")).toBeCloseTo((1000 * salt) / massKg, 2);
  });

  it("that dosers bring came out of their bottles", () => {
    const run = startRun(textOf({ ...PLAIN, dosers: true, light: true }));
    for (const column of [SALT, MG]) {
      const before = everywhere(run, column);
      run.hours(48);
      expect(everywhere(run, column) / before, COLUMN_NAMES[column]).toBeCloseTo(1, 11);
    }
    expect(run.volumeL("alkalinity-can")).toBeCloseTo(3 - 4 * 0.06, 3);
  });

  it("that is lost through a hole lies on the floor with its water", () => {
    const run = startRun(textOf({ ...PLAIN, sumpL: null })).hours(1);
    const before = held(run);
    const salinity = run.salinity("display");
    const density = kgPerL(run.twin, run.body("display"));
    run.set("display", "leakLPerH", 2).hours(12);
    const lostKg = before[SALT] - held(run)[SALT];
    expect(floorL(run)).toBeGreaterThan(20);
    // What evaporates meanwhile makes the water a little saltier: a quarter of a litre in two hundred.
    expect(lostKg / (floorL(run) * density * (salinity / 1000))).toSatisfy(
      (share: number) => share >= 1 && share < 1.01,
    );
  });

  it("that is missing after any spill lies on the floor, in water as salty as the tank was", () => {
    const spills: readonly Fault[] = FAULTS.filter(
      ([part, lever]) => /^(return|sump-to-display|display|sump)$/.test(part) && lever !== "filter",
    );
    const property = (place: number, displayL: number, sumpL: number) => {
      const run = startRun(textOf({ ...PLAIN, displayL, sumpL, topOff: "fresh" })).hours(1);
      const before = everywhere(run, SALT);
      let [low, high] = [run.salinity("display"), run.salinity("display")];
      pull(run, [spills[place]]);
      run.pieces(20, 1800, () => {
        const salinities = ["display", "sump"].map((body) => run.salinity(body));
        low = Math.min(low, ...salinities);
        high = Math.max(high, ...salinities);
      });
      const missingG = 1000 * (before - everywhere(run, SALT));
      const floorKg = floorL(run) * kgPerL(run.twin, run.body("display"));
      expect(missingG).toBeGreaterThanOrEqual(0.998 * floorKg * low - 1e-6);
      expect(missingG).toBeLessThanOrEqual(1.002 * floorKg * high + 1e-6);
    };
    const places = fc.nat(spills.length - 1);
    fc.assert(fc.property(places, fc.integer({ min: 100, max: 600 }), fc.integer({ min: 50, max: 150 }), property), {
      seed: 4,
      numRuns: 16,
    });
  });

  it("stays together when levels settle: stopping and starting the return neither makes nor loses any", () => {
    const run = startRun(textOf({ ...PLAIN, sumpL: 150 })).hours(2);
    const before = held(run);
    for (let time = 0; time < 5; time++) run.set("return", "dead", 1).hours(0.5).set("return", "dead", 0).hours(0.5);
    expect(held(run)[SALT] / before[SALT]).toBeCloseTo(1, 12);
    expect(held(run)[TA] / before[TA]).toBeCloseTo(1, 3);
    expect(floorL(run)).toBe(0);
  });
});

describe("alkalinity", () => {
  /** Explicitly conservative alkalinity (Wolf-Gladrow et al. 2007): 2 Ca, 2 Mg, NH4, NO2 and NO3 account for every change of TA. */
  const unexplained = (run: Run) =>
    everywhere(run, TA) -
    2 * (everywhere(run, CA) + everywhere(run, MG)) -
    everywhere(run, TAN) +
    everywhere(run, NO2) +
    everywhere(run, NO3);

  it("changes only with calcium and with the forms of nitrogen, whatever lives, eats, decays or falls out", () => {
    const run = startRun(
      textOf({ ...PLAIN, topOff: "limewater", fishG: 200, corals: true, light: true, skimmer: true }),
    );
    const before = unexplained(run);
    const alkalinity = everywhere(run, TA);
    run.hours(30);
    addFood(run.twin, run.twin.model.systems[0], run.body("display"), 40, 1);
    run.set("top-off", "float", 1).hours(40);
    expect(Math.abs(everywhere(run, TA) - alkalinity) / alkalinity).toBeGreaterThan(0.01);
    expect(unexplained(run) / before).toBeCloseTo(1, 9);
  });

  it("falls by two for every mole of ammonia that ends as nitrate", () => {
    const run = startRun(textOf({ ...PLAIN, sumpL: null }));
    const display = run.body("display");
    addMol(run.twin, run.twin.model.systems[0], display, TAN, 0.02);
    const before = held(run);
    run.hours(72);
    const after = held(run);
    const nitrified = before[TAN] - after[TAN];
    expect(nitrified).toBeGreaterThan(0.008);
    const denitrified = before[TAN] + before[NO2] + before[NO3] - after[TAN] - after[NO2] - after[NO3];
    expect(after[TA] - before[TA]).toBeCloseTo(-2 * nitrified + denitrified, 4);
  });
});

describe("nitrogen", () => {
  it("of a meal is found again as waste, ammonia, nitrite or nitrate, less what plants and the skimmer took", () => {
    const run = startRun(textOf({ ...PLAIN, sumpL: null, fishG: 200 })).set("feeder", "dead", 1);
    const display = run.body("display");
    const nitrogen = () =>
      [TAN, NO2, NO3, META, ORGANIC, UNROTTED].reduce((sum, column) => sum + everywhere(run, column), 0);
    const before = nitrogen();
    const foodG = 20;
    addFood(run.twin, run.twin.model.systems[0], display, foodG, 1);
    const eatenG = 200 * 0.04;
    expect(nitrogen() - before).toBeCloseTo((foodG - 0.25 * eatenG) * FOOD_MOL_N_PER_G, 9);
    const life = run.twin.model.life[display];
    const slow = () => run.twin.scratch.slow[display * SLOW_COLUMNS + SLOW.q10];
    run.hours(0.01);
    const start = nitrogen();
    const lost = integrated(run, 72, 300, () => life.nitrateLossPerH * slow() * everywhere(run, NO3));
    expect(lost).toBeGreaterThan(1e-3);
    expect(start - nitrogen()).toBeCloseTo(lost, 5);
  });
});

describe("reservoirs", () => {
  it("lose what was delivered: the water of a top-off, minus nothing", () => {
    const run = startRun(textOf({ ...PLAIN, topOff: "fresh" })).hours(1);
    run.set("top-off", "float", 1);
    const before = everywhere(run, MASS);
    const barrel = run.twin.bodies[run.body("barrel") * BODY_COLUMNS + MASS];
    run.hours(0.25);
    const given = barrel - run.twin.bodies[run.body("barrel") * BODY_COLUMNS + MASS];
    expect(given).toBeCloseTo(15, 0);
    // 14 kg came, and only what evaporated in a quarter of an hour is gone from the place.
    expect(before - everywhere(run, MASS)).toSatisfy((kg: number) => kg > 0 && kg < 0.1);
  });

  it("pass on what is dissolved in them, also to another reservoir that gives at the same time", () => {
    const run = startRun(`
site: Two vessels
systems:
  reef:
    bodies:
      display: { volume: 300 L, rock: 0 kg }
      day-vessel: { volume: 10 L, holds: limewater, fill: 50 % }
      barrel: { volume: 60 L, holds: limewater }
devices:
  fill: { kind: top-off, in: day-vessel, from: barrel, flow: 6 L/h, own-float: { fills-below: 9 L, stops-at: 10 L } }
  top-off: { kind: top-off, in: display, from: day-vessel, flow: 2 L/h, own-float: { fills-below: 301 L, stops-at: 302 L } }`);
    const before = everywhere(run, CA);
    const vessel = run.body("day-vessel") * BODY_COLUMNS;
    const strength = () => run.twin.bodies[vessel + CA] / run.twin.bodies[vessel + MASS];
    const label = strength();
    run.hours(0.7);
    expect(run.volumeL("day-vessel")).toBeGreaterThan(7);
    expect(run.volumeL("display")).toBeGreaterThan(301.2);
    expect(strength() / label).toBeCloseTo(1, 9);
    expect(everywhere(run, CA) / before).toBeCloseTo(1, 9);
  });
});
