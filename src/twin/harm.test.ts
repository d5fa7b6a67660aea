/** Harm in the twin is time beyond what animals bear, weighed as the tolerances say, and heals when it is over. */
import { describe, expect, it } from "vitest";
import { type Run, startRun } from "../../test/sites.ts";
import { BODY_COLUMNS, HEAT, HEAT_CAPACITY, MASS, O2, SALT } from "./columns.ts";
import { worstDose, worstHarm } from "./harm.ts";
import { kgPerL } from "./hydraulics.ts";

const O2_MG_PER_MOL = 31_998.8;

function tank(livestock: string, devices = ""): Run {
  return startRun(`
site: Harm
rooms: { den: { air-changes: 2 /h } }
systems:
  reef:
    bodies:
      display: { role: display, volume: 200 L, rock: 0 kg, livestock: { ${livestock} } }
${devices}`);
}

interface Held {
  readonly temperatureC?: number;
  readonly oxygenMgL?: number;
  readonly salinity?: number;
}

/** Runs on with some of the water's qualities held, a minute at a time. */
function hold(run: Run, hours: number, { temperatureC, oxygenMgL, salinity }: Held): Run {
  const { bodies } = run.twin;
  const set = () => {
    if (temperatureC !== undefined) bodies[HEAT] = bodies[MASS] * HEAT_CAPACITY * temperatureC;
    if (oxygenMgL !== undefined) bodies[O2] = (oxygenMgL / O2_MG_PER_MOL / kgPerL(run.twin, 0)) * bodies[MASS];
    if (salinity !== undefined) bodies[SALT] = (bodies[MASS] * salinity) / 1000;
  };
  set();
  return run.pieces(hours, 60, set);
}

describe("the dose", () => {
  it.each([
    ["reef fish at 35 degrees C lose half in 8.6 h", "fish: 50 g", { temperatureC: 35, oxygenMgL: 6.5 }, 8.6],
    ["reef fish at 2.0 mg/L of oxygen lose half in 100 h", "fish: 50 g", { temperatureC: 26, oxygenMgL: 2 }, 100],
    ["reef fish at 1.0 mg/L of oxygen lose half in 2.2 h", "fish: 50 g", { temperatureC: 26, oxygenMgL: 1 }, 2.2],
    [
      "mixed corals at 33 degrees C, used to 27.5, are bleached by half in 20 h",
      "corals: mixed, invertebrates: no",
      { temperatureC: 33, oxygenMgL: 6.5 },
      20,
    ],
    [
      "corals at a salinity of 22 are lost by half in 72 h",
      "corals: mixed, invertebrates: no",
      { temperatureC: 26, oxygenMgL: 6.5, salinity: 22 },
      72,
    ],
  ])("of %s is one after that time", (_, livestock, held, hours) => {
    const run = hold(tank(livestock), hours, held);
    // What drifts within a minute before it is held again makes a few hundredths.
    expect(worstDose(run.twin, "likely")).toSatisfy((dose: number) => dose > 0.93 && dose < 1.07);
  });

  it("comes as much earlier or later as the band says", () => {
    const run = hold(tank("fish: 50 g"), 8.6, { temperatureC: 35, oxygenMgL: 6.5 });
    const likely = worstDose(run.twin, "likely");
    expect(worstDose(run.twin, "early") / likely).toBeCloseTo(3, 6);
    expect(worstDose(run.twin, "late") / likely).toBeCloseTo(1 / 3, 6);
    expect(worstHarm(run.twin)).toEqual({ body: "display", group: "reef-fish", stressor: "heat" });
  });

  it("adds up over two bouts, and heals in between with its time constant", () => {
    const hot = { temperatureC: 34.5, oxygenMgL: 6.5 };
    const mild = { temperatureC: 26, oxygenMgL: 6.5 };
    const run = hold(tank("fish: 50 g"), 4, hot);
    const first = worstDose(run.twin, "likely");
    hold(run, 48, mild);
    expect(worstDose(run.twin, "likely") / first).toBeCloseTo(Math.exp(-1), 1);
    const healed = worstDose(run.twin, "likely");
    hold(run, 4, hot);
    expect(worstDose(run.twin, "likely") - healed).toBeCloseTo(first, 1);
  });

  it("stays nothing in water that animals bear", () => {
    const run = startRun(`
site: Calm
rooms: { den: { air-changes: 2 /h } }
systems:
  reef:
    bodies:
      display: { volume: 300 L, livestock: { corals: mixed, fish: 80 g } }
      barrel: { volume: 40 L, holds: fresh }
devices:
  heater: { kind: heater, in: display }
  wave: { kind: wave-pump, in: display }
  skimmer: { kind: skimmer, in: display }
  lamp: { kind: light, in: display }
  top-off: { kind: top-off, in: display }`).hours(7 * 24);
    expect(worstDose(run.twin, "early")).toBe(0);
    expect(run.twin.dark[0]).toBeLessThan(24);
  });

  it("of darkness begins when a lamp stays off, never where there is no lamp", () => {
    const lamp = "devices: { lamp: { kind: light, in: display }, skimmer: { kind: skimmer, in: display } }";
    const run = tank("corals: soft", lamp)
      .set("lamp", "dead", 1)
      .hours(9 * 24);
    expect(run.twin.dark[0]).toBeCloseTo(9 * 24, 0);
    const dark = tank("corals: soft", "devices: { skimmer: { kind: skimmer, in: display } }").hours(9 * 24);
    expect(dark.twin.dark[0]).toBe(0);
  });

  it("counts only for animals of the body that suffers", () => {
    const run = startRun(`
site: Two
systems:
  reef:
    bodies:
      display: { volume: 200 L, livestock: { fish: 50 g } }
      other: { volume: 200 L, role: display, livestock: { fish: 50 g } }`);
    const at = run.body("other") * BODY_COLUMNS;
    run.pieces(4, 300, () => {
      run.twin.bodies[at + HEAT] = run.twin.bodies[at + MASS] * HEAT_CAPACITY * 35;
    });
    expect(worstHarm(run.twin)?.body).toBe("other");
  });
});
