/** Salt, lime, acid, air and food: what a bottle, a room or a meal does to the water, worked by hand. */
import { describe, expect, it } from "vitest";
import { type HeldAir, type Run, runInAir, startRun } from "../../test/sites.ts";
import { CARBONATE, co2FromHydrogen } from "../science/index.ts";
import { BODY_COLUMNS, CA, CARBON, DIC, HYDROGEN, MASS, MG, NO2, NO3, O2, ORGANIC, SALT, TA, TAN } from "./columns.ts";
import { addFood, addMol } from "./habits.ts";
import { changeWater } from "./new-water.ts";
import { SLOW, timeS } from "./state.ts";

const N_MG_PER_MOL = 14_007;
const O2_MG_PER_MOL = 31_998.8;
const WARM_AND_DAMP: HeldAir = { airC: 26, relativeHumidity: 0.98 };

/** Amount per litre of a body, mol/L. */
function perL(run: Run, body: string, column: number): number {
  return run.twin.bodies[run.body(body) * BODY_COLUMNS + column] / run.volumeL(body);
}

/** One tank without a device. */
function tank(more: string, devices = ""): string {
  return `
site: Tank
systems:
  reef:
    bodies:
      display: { role: display, volume: 400 L, surface: 0.72 m2, holds: { temperature: 26 degC }, ${more} }
${devices}`;
}

/** Display and sump, all that a stony reef needs, its two parts dosed by hand-worked amounts. */
function reef(more: { readonly bodies?: string; readonly devices?: string; readonly livestock?: string } = {}): string {
  return `
site: Reef
systems:
  reef:
    bodies:
      display: { volume: 320 L, livestock: { ${more.livestock ?? "corals: small-polyp, alkalinity-use: 2 dKH/d"} } }
      sump: { volume: 80 L, brim: 130 L }
      barrel: { volume: 150 L, holds: fresh }
${more.bodies ?? ""}
    circulation: [ { from: sump, to: display, by: return } ]
devices:
  return: { kind: return-pump, in: sump }
  skimmer: { kind: skimmer, in: sump }
  heater: { kind: heater, in: sump }
  lamp: { kind: light, in: display }
  top-off: { kind: top-off, in: sump, from: barrel }
${more.devices ?? ""}`;
}

/** 2 dKH a day in 400 L are 285 meq: 285 mL of 1 meq/mL and 142 mL of 1 mmol/mL. */
const TWO_PART_CANS = `
      alkalinity-can: { volume: 5 L, holds: { solution: alkalinity, strength: 1 meq/mL } }
      calcium-can: { volume: 5 L, holds: { solution: calcium, strength: 1 mmol/mL } }`;
const TWO_PART_DOSERS = `
  alkalinity-doser: { kind: doser, in: sump, from: alkalinity-can, amount: 285 mL/d, doses: 24 a day }
  calcium-doser: { kind: doser, in: sump, from: calcium-can, amount: 142.5 mL/d, doses: 24 a day }`;

describe("salinity", () => {
  it("rises as water evaporates: S = S0 M0 / M", () => {
    const run = startRun(tank("rock: 0 kg"));
    const massKg = run.twin.bodies[MASS];
    run.hours(5 * 24);
    expect(run.salinity("display")).toBeGreaterThan(35.2);
    expect(run.salinity("display")).toBeCloseTo((35 * massKg) / run.twin.bodies[MASS], 9);
  });

  it("nears that of the new water as changes by hand do: C = Ci + (C0 - Ci) (1 - f)^n", () => {
    const run = startRun(tank("rock: 0 kg"));
    run.twin.bodies[SALT] *= 1.1;
    const start = run.twin.bodies[SALT] / run.twin.bodies[MASS];
    for (let time = 0; time < 4; time++) changeWater(run.twin, run.twin.model.systems[0], 0.2);
    expect((run.twin.bodies[SALT] / run.twin.bodies[MASS] - 0.035) / (start - 0.035)).toBeCloseTo(0.8 ** 4, 12);
  });

  const CHANGED = `
site: Water change
systems:
  reef:
    bodies:
      display: { role: display, volume: 100 L, rock: 0 kg, holds: { salt: 33 ppt } }
      mixed: { role: reservoir, volume: 2000 L, intake: 1 L, holds: { salt: 35 ppt } }
      barrel: { volume: 100 L, holds: fresh }
devices:
  top-off: { kind: top-off, in: display, own-float: { fills-below: 99.9 L, stops-at: 100 L } }
  change: { kind: water-change, in: display, from: mixed, amount: 100 L/d }`;

  it("nears that of the new water as a steady change does: C = Ci + (C0 - Ci) exp(-Q t / V)", () => {
    const run = startRun(CHANGED).hours(24);
    expect((run.salinity("display") - 35) / (33 - 35)).toBeCloseTo(Math.exp(-1), 1);
    run.hours(9 * 24);
    expect(run.salinity("display")).toBeCloseTo(35, 1);
  });

  it("of a tank whose change takes out 2 % more than it brings ends at Sin Qin / Qout, not at Sin", () => {
    const run = startRun(CHANGED)
      .set("change", "wasteLPerH", (0.02 * 100) / 24)
      .hours(14 * 24);
    expect(run.salinity("display")).toSatisfy((end: number) => end > 34.2 && end < 34.4);
    expect(run.volumeL("display")).toBeCloseTo(100, 0);
  });

  it("creeps up by 0.02 a day for each dKH a day of balanced two-part", () => {
    const run = startRun(reef({ bodies: TWO_PART_CANS, devices: TWO_PART_DOSERS })).hours(24);
    const before = run.salinity("display");
    run.hours(10 * 24);
    expect((run.salinity("display") - before) / (10 * 2)).toSatisfy((rise: number) => rise > 0.019 && rise < 0.0215);
  });

  it("does not creep with limewater, which leaves no salt", () => {
    const run = startRun(reef().replace("holds: fresh", "holds: limewater")).hours(24);
    const salt = run.twin.bodies[SALT] + run.twin.bodies[BODY_COLUMNS + SALT];
    run.hours(5 * 24);
    expect((run.twin.bodies[SALT] + run.twin.bodies[BODY_COLUMNS + SALT]) / salt).toBeCloseTo(1, 12);
  });
});

describe("alkalinity", () => {
  it("of a reef that is dosed what its owner says it uses stands still, where the water holds 850 uatm of carbon dioxide", () => {
    // So much water through the skimmer that it holds what the air holds: 97 % of 876 ppm.
    const text = reef({ bodies: TWO_PART_CANS, devices: TWO_PART_DOSERS }).replace(
      "skimmer, in: sump",
      "skimmer, in: display, flow: 20000 L/h, heat: 0 W",
    );
    const run = runInAir(startRun(text), 4 * 24, { airC: 22, relativeHumidity: 0.5, co2Ppm: 876 });
    // Eight dKH went in.
    expect(Math.abs(run.alkalinityDKH("display") - 8)).toBeLessThan(0.3);
  });

  it("falls ever more slowly where nothing is dosed, and stops above nothing", () => {
    const run = startRun(reef());
    const falls: number[] = [];
    for (let time = 0; time < 4; time++) {
      const before = run.alkalinityDKH("display");
      falls.push(before - run.hours(3 * 24).alkalinityDKH("display"));
    }
    for (let time = 1; time < falls.length; time++) expect(falls[time]).toBeLessThan(falls[time - 1]);
    expect(run.alkalinityDKH("display")).toBeGreaterThan(1.5);
  });

  it("takes with it half as much calcium and magnesium as charge, 3 % of it magnesium: 0.36 mg/L for each meq/L", () => {
    const run = startRun(reef({ livestock: "corals: small-polyp, alkalinity-use: 3 dKH/d" }));
    const system = ["display", "sump"];
    const total = (column: number) =>
      system.reduce((sum, body) => sum + perL(run, body, column) * run.volumeL(body), 0);
    const [alkalinity, calcium, magnesium] = [total(TA), total(CA), total(MG)];
    run.hours(72);
    const [charge, calciumTaken, magnesiumTaken] = [alkalinity - total(TA), calcium - total(CA), magnesium - total(MG)];
    expect(charge / (calciumTaken + magnesiumTaken)).toBeCloseTo(2, 1);
    expect((magnesiumTaken * 24.305) / charge).toBeCloseTo(0.36, 1);
  });

  it("rises by 2.38 meq/L, 6.7 dKH, for 100 g of bicarbonate in 500 L", () => {
    const run = startRun(tank("rock: 0 kg").replace("400 L", "500 L"));
    const before = run.alkalinityDKH("display");
    addMol(run.twin, run.twin.model.systems[0], 0, TA, 100 / 84.01);
    addMol(run.twin, run.twin.model.systems[0], 0, DIC, 100 / 84.01);
    run.hours(0.01);
    expect(run.alkalinityDKH("display") - before).toBeCloseTo(6.7, 1);
  });

  it("of a doser stuck on rises by its flow times its strength", () => {
    const run = startRun(
      reef({
        bodies: "      can: { volume: 5 L, holds: { solution: alkalinity, strength: 1 meq/mL } }",
        devices: "  doser: { kind: doser, flow: 1.2 L/h, in: sump, from: can, amount: 40 mL/d }",
        livestock: "fish: 10 g",
      }),
    ).hours(1);
    const before = run.alkalinityDKH("display");
    run.set("doser", "thermostat", 1).hours(1).set("doser", "thermostat", 0).hours(0.2);
    // 1.2 eq into 400 L are 3 meq/L or 8.4 dKH.
    expect(run.alkalinityDKH("display") - before).toSatisfy((rise: number) => rise > 8.2 && rise < 8.6);
  });
});

describe("pH", () => {
  /** Change of pH, five minutes after so many mol of charge with so many mol of carbon came in. */
  function afterDose(eq: number, carbon: number): number {
    const run = startRun(tank("rock: 0 kg")).hours(0.1);
    const before = run.phTotal("display");
    addMol(run.twin, run.twin.model.systems[0], 0, TA, eq);
    addMol(run.twin, run.twin.model.systems[0], 0, DIC, carbon);
    return run.hours(1 / 12).phTotal("display") - before;
  }

  it("hardly moves with bicarbonate, rises with carbonate and rises most with hydroxide", () => {
    const [bicarbonate, carbonate, hydroxide] = [afterDose(0.2, 0.2), afterDose(0.2, 0.1), afterDose(0.2, 0)];
    expect(bicarbonate).toSatisfy((change: number) => change > -0.1 && change < 0);
    expect(carbonate).toBeGreaterThan(0.1);
    expect(hydroxide).toBeGreaterThan(1.5 * carbonate);
  });

  it("swings with the light: highest towards the evening, lowest before the lamp comes on", () => {
    const run = startRun(reef({ livestock: "corals: small-polyp, alkalinity-use: 1 dKH/d" }));
    runInAir(run, 24 * 3, { airC: 22, relativeHumidity: 0.5, co2Ppm: 500 });
    const byHour: number[] = [];
    for (let hour = 0; hour < 24; hour++) {
      byHour.push(run.phTotal("display"));
      runInAir(run, 1, { airC: 22, relativeHumidity: 0.5, co2Ppm: 500 });
    }
    const [low, high] = [Math.min(...byHour), Math.max(...byHour)];
    expect(high - low).toSatisfy((swing: number) => swing > 0.03 && swing < 0.6);
    expect(byHour.indexOf(low)).toSatisfy((hour: number) => hour >= 5 && hour <= 11);
    expect(byHour.indexOf(high)).toSatisfy((hour: number) => hour >= 15 && hour <= 20);
  });

  it("settles where the water's carbon dioxide is that of the room's air", () => {
    const ends = [450, 900, 1800].map((co2Ppm) => {
      const run = startRun(tank("rock: 0 kg", "devices: { skimmer: { kind: skimmer, in: display } }"));
      runInAir(run, 6 * 24, { airC: 26, relativeHumidity: 0.98, co2Ppm });
      const constants = run.twin.scratch.constants[0];
      const atm =
        co2FromHydrogen(constants, run.twin.bodies[DIC] / run.twin.bodies[MASS], run.twin.bodies[HYDROGEN]) /
        constants[CARBONATE.K0];
      // Water vapour takes 3 % of the air over the water.
      expect((atm * 1e6) / (0.97 * co2Ppm)).toSatisfy((share: number) => share > 0.97 && share < 1.06);
      return run.phTotal("display");
    });
    expect(ends[0] - ends[1]).toSatisfy((fall: number) => fall > 0.2 && fall < 0.3);
    expect(ends[1] - ends[2]).toSatisfy((fall: number) => fall > 0.2 && fall < 0.3);
  });

  it("follows the air more slowly than oxygen does, by the buffer of the water", () => {
    const run = startRun(tank("rock: 0 kg", "devices: { skimmer: { kind: skimmer, in: display, flow: 400 L/h } }"));
    runInAir(run, 96, { ...WARM_AND_DAMP, co2Ppm: 450 });
    const start = { ph: run.phTotal("display"), oxygen: run.oxygenMgL("display") };
    run.twin.bodies[O2] *= 0.5;
    const fallen = run.oxygenMgL("display");
    runInAir(run, 4, { ...WARM_AND_DAMP, co2Ppm: 1800 });
    const oxygenDone = (run.oxygenMgL("display") - fallen / 2) / (start.oxygen - fallen / 2);
    const end = startRun(tank("rock: 0 kg", "devices: { skimmer: { kind: skimmer, in: display, flow: 400 L/h } }"));
    runInAir(end, 14 * 24, { ...WARM_AND_DAMP, co2Ppm: 1800 });
    const phDone = (start.ph - run.phTotal("display")) / (start.ph - end.phTotal("display"));
    expect(oxygenDone).toBeGreaterThan(0.9);
    expect(phDone).toBeGreaterThan(0.1);
    expect(phDone).toBeLessThan(0.6);
  });
});

describe("limewater that will not stop", () => {
  // 57 L into 680 L, stopped by a second float. 57 L of about 43 meq/L in 737 L are 3.3 meq/L, 9.3 dKH.
  const LIME = `
site: Limewater
systems:
  reef:
    bodies:
      display: { volume: 560 L, livestock: { corals: small-polyp, alkalinity-use: 2 dKH/d } }
      sump: { volume: 120 L, brim: 220 L }
      barrel: { volume: 58 L, intake: 1 L, holds: limewater }
    circulation: [ { from: sump, to: display, by: return } ]
devices:
  return: { kind: return-pump, in: sump }
  skimmer: { kind: skimmer, in: sump }
  heater: { kind: heater, in: sump }
  lamp: { kind: light, in: display }
  top-off: { kind: top-off, in: sump, flow: 60 L/h, own-float: { fills-below: 110 L, stops-at: 112 L } }`;

  it("sends alkalinity and pH up at once, then a snowfall takes more than came", () => {
    const run = startRun(LIME).hours(2);
    const before = { alkalinity: run.alkalinityDKH("display"), ph: run.phTotal("display") };
    run.set("top-off", "float", 1).hours(1.2);
    expect(run.volumeL("barrel")).toBeCloseTo(1, 1);
    const diluted = (before.alkalinity * 680) / 737;
    expect(run.alkalinityDKH("display") - diluted).toSatisfy((rise: number) => rise > 8.3 && rise < 10);
    expect(run.phTotal("display")).toSatisfy((ph: number) => ph > 9 && ph < 10.4);
    let lowest = Number.POSITIVE_INFINITY;
    run.pieces(5 * 24, 3 * 3600, () => {
      lowest = Math.min(lowest, run.alkalinityDKH("display"));
    });
    expect(lowest).toBeLessThan(before.alkalinity - 1);
    expect(run.phTotal("display")).toBeLessThan(8.2);
  });

  it("does less in more water", () => {
    const peaks = [560, 1120, 2240].map((litres) =>
      startRun(LIME.replace("560 L", `${litres} L`))
        .set("top-off", "float", 1)
        .hours(1.1)
        .phTotal("display"),
    );
    expect(peaks[0]).toBeGreaterThan(peaks[1]);
    expect(peaks[1]).toBeGreaterThan(peaks[2]);
  });
});

describe("oxygen", () => {
  it("with everything off falls as C = Ceq + (C0 - Ceq) exp(-k t), and 0.27 mg/L/h leave 2 mg/L after about 21 hours", () => {
    const run = startRun(tank("rock: 0 kg, livestock: { fish: 370 g }"));
    const { life } = run.twin.model;
    const slow = (column: number) => run.twin.scratch.slow[column];
    runInAir(run, 0.01, WARM_AND_DAMP);
    const k = slow(SLOW.oxygenKgH) / run.twin.bodies[MASS];
    const saturated = slow(SLOW.oxygenSaturation) * slow(SLOW.kgPerL) * O2_MG_PER_MOL;
    const demand = ((life[0].fishO2MolH + life[0].benthosO2MolH) * O2_MG_PER_MOL) / 400;
    expect(k).toSatisfy((perH: number) => perH > 0.015 && perH < 0.035);
    expect(demand).toBeCloseTo(0.27, 2);
    run.twin.bodies[O2] *= 0.95;
    const start = run.oxygenMgL("display");
    const rest = saturated - demand / k;
    let hours = Number.NaN;
    runInAir(run, 30, WARM_AND_DAMP, (gone) => {
      const expected = rest + (start - rest) * Math.exp(-k * gone);
      if (run.oxygenMgL("display") > 2) expect(Math.abs(run.oxygenMgL("display") - expected)).toBeLessThan(0.1);
      else if (Number.isNaN(hours)) hours = gone;
    });
    expect(hours).toSatisfy((found: number) => found > 18 && found < 24);
  });

  it("never comes to harm sooner with less fish, more surface or a pump that still runs", () => {
    const hoursTo2 = (fishG: number, surfaceM2: number, wave: boolean) => {
      const devices = wave ? "devices: { wave: { kind: wave-pump, in: display } }" : "";
      const run = startRun(
        tank(`rock: 0 kg, livestock: { fish: ${fishG} g }`, devices).replace("0.72", String(surfaceM2)),
      );
      let found = 100;
      runInAir(run, 72, WARM_AND_DAMP, (hours) => {
        if (run.oxygenMgL("display") < 2) found = Math.min(found, hours);
      });
      return found;
    };
    expect(hoursTo2(800, 0.72, false)).toBeLessThan(hoursTo2(400, 0.72, false));
    expect(hoursTo2(400, 0.72, false)).toBeLessThan(hoursTo2(400, 1, false));
    expect(hoursTo2(800, 0.72, false)).toBeLessThan(hoursTo2(800, 0.72, true));
  });

  it("that is all used up stays just above nothing, however long the steps, while 60 g of food rot in 60 L", () => {
    const oxygenBy = (pieceS: number) => {
      const run = startRun(tank("rock: 0 kg").replace("400 L", "60 L").replace("0.72", "0.15"));
      addFood(run.twin, run.twin.model.systems[0], 0, 60, 1);
      const found: number[] = [];
      run.pieces(48, pieceS, () => {
        expect(run.twin.bodies[O2]).toBeGreaterThan(0);
        if (timeS(run.twin) % (6 * 3600) === 0) found.push(run.oxygenMgL("display"));
      });
      return found;
    };
    const [long, short] = [oxygenBy(3600), oxygenBy(60)];
    expect(short.length).toBe(8);
    expect(Math.max(...short.slice(2))).toBeLessThan(0.2);
    for (const [place, mgL] of short.entries()) expect(Math.abs(long[place] - mgL)).toBeLessThan(0.03);
  });

  it("is lost to an overdose of carbon, and comes back", () => {
    const lived = tank("rock: 5 kg, livestock: { fish: 50 g }", "devices: { wave: { kind: wave-pump, in: display } }");
    const [run, same] = [startRun(lived), startRun(lived)];
    for (const one of [run, same]) runInAir(one, 24, WARM_AND_DAMP);
    // 4 g of ethanol, all burned within a day.
    addMol(run.twin, run.twin.model.systems[0], 0, CARBON, (4 * 2) / 46.07);
    let most = 0;
    for (let hour = 0; hour < 120; hour++) {
      for (const one of [run, same]) runInAir(one, 1, WARM_AND_DAMP);
      most = Math.max(most, same.oxygenMgL("display") - run.oxygenMgL("display"));
    }
    expect(most).toBeGreaterThan(1);
    expect(run.oxygenMgL("display")).toBeCloseTo(same.oxygenMgL("display"), 1);
  });
});

describe("food and waste", () => {
  it("a drum emptied at once raises ammonia, then nitrite and nitrate", () => {
    const run = startRun(
      tank("livestock: { fish: 100 g }", "devices: { skimmer: { kind: skimmer, in: display } }"),
    ).hours(24);
    const at = (column: number) => run.twin.bodies[column];
    const before = { tan: at(TAN), nitrite: at(NO2), nitrate: at(NO3) };
    addFood(run.twin, run.twin.model.systems[0], 0, 60, 1);
    run.hours(24);
    const ammonia = at(TAN) - before.tan;
    expect(ammonia * N_MG_PER_MOL).toBeGreaterThan(20);
    expect(at(NO2)).toBeGreaterThan(before.nitrite);
    run.hours(9 * 24);
    expect(at(TAN) - before.tan).toBeLessThan(0.3 * ammonia);
    expect(at(NO3) - before.nitrate).toBeGreaterThan(0.05);
  });

  it("a dead fish of 100 g in 400 L without bacteria ends in 6 to 7.5 mg/L of ammonia nitrogen", () => {
    const run = startRun(tank("rock: 0 kg", "devices: { skimmer: { kind: air-pump, in: display } }")).set(
      "display",
      "filter",
      0,
    );
    addMol(run.twin, run.twin.model.systems[0], 0, ORGANIC, 2.75 / 14.007);
    runInAir(run, 12 * 24, WARM_AND_DAMP);
    expect(perL(run, "display", TAN) * N_MG_PER_MOL).toSatisfy((mg: number) => mg > 6 && mg < 7.5);
  });

  it("of a normal day leave nitrate about where the owner says it stands", () => {
    const run = startRun(
      tank(
        "livestock: { fish: 200 g }",
        "devices: { feeder: { kind: feeder, in: display, amount: 2.4 g/d, holds: 100 g } }",
      ).replace("temperature: 26 degC", "temperature: 26 degC, nitrate: 10 mg/L"),
    );
    runInAir(run, 14 * 24, WARM_AND_DAMP);
    expect(perL(run, "display", NO3) * 62_005).toSatisfy((mg: number) => mg > 7.5 && mg < 12.5);
  });
});
