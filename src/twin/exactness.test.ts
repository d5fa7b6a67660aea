/** What must not depend on how a run is cut, on who watches, or on levers that act on nothing. */
import { describe, expect, it } from "vitest";
import { type Run, startRun } from "../../test/sites.ts";
import { BODY_COLUMNS, SENSOR_COLUMNS, SENSOR_READING } from "./columns.ts";
import { lookSoon } from "./look-soon.ts";
import { restore, snapshot, type Twin } from "./state.ts";

interface Parts {
  /** A hub holds the warmth instead of the heater's own thermostat. */
  readonly hub?: boolean;
  /** A heater that never switches, and no top-off. */
  readonly steady?: boolean;
  readonly sensors?: string;
}

function reef({ hub = false, steady = false, sensors = "" }: Parts = {}): string {
  return `
site: Reef
systems:
  reef:
    bodies:
      display: { volume: 320 L, livestock: { corals: mixed, fish: 150 g, alkalinity-use: 1 dKH/d } }
      sump: { volume: 80 L, brim: 130 L }
      barrel: { volume: 150 L, holds: fresh }
      can: { volume: 15 L, holds: { solution: alkalinity, strength: 1 meq/mL } }
    circulation: [ { from: sump, to: display, by: return } ]
devices:
  return: { kind: return-pump, in: sump }
  skimmer: { kind: skimmer, in: sump }
  heater: { kind: heater, in: sump, power: ${steady ? "110 W, own-thermostat: none" : hub ? "320 W, by: hub, own-thermostat: none" : "320 W"} }
  lamp: { kind: light, in: display }
  feeder: { kind: feeder, in: display, amount: 2 g/d, holds: 100 g }
  ${steady ? "" : "top-off: { kind: top-off, in: sump, from: barrel }"}
  doser: { kind: doser, in: sump, from: can, amount: 140 mL/d, doses: 24 a day }
hubs: { hub: { reads-every: 15 s } }
sensors:
  sump-temp: { measures: temperature, in: sump }
  display-ph: { measures: ph, in: display }
${sensors}
rules:
  ${hub ? "warmth: { when: { sump-temp: below 25.2 degC }, do: { heater: on }, until: { sump-temp: above 25.6 degC } }" : "{}"}`;
}

const CIRCULATING = ["display", "sump"];

/** Largest difference of each quantity over the circulating waters. */
function apart(one: Run, other: Run) {
  const most = (read: (run: Run, body: string) => number) =>
    Math.max(...CIRCULATING.map((body) => Math.abs(read(one, body) - read(other, body))));
  return {
    temperatureK: most((run, body) => run.temperatureC(body)),
    salinity: most((run, body) => run.salinity(body)),
    oxygenMgL: most((run, body) => run.oxygenMgL(body)),
    alkalinityDKH: most((run, body) => run.alkalinityDKH(body)),
    ph: most((run, body) => run.phTotal(body)),
  };
}

/** Temperature, oxygen, alkalinity and pH of a steady reef every four hours of three days, cut into such pieces. */
function courseOf(pieceS: number): readonly (readonly number[])[] {
  const run = startRun(reef({ steady: true }));
  return Array.from({ length: 18 }, () => {
    run.pieces(4, pieceS);
    return [
      run.temperatureC("display"),
      run.oxygenMgL("display"),
      run.alkalinityDKH("display"),
      run.phTotal("display"),
    ];
  });
}

function largestGap(course: readonly (readonly number[])[], limit: readonly (readonly number[])[]): readonly number[] {
  return limit[0].map((_, quantity) =>
    Math.max(...course.map((row, time) => Math.abs(row[quantity] - limit[time][quantity]))),
  );
}

function starts(run: Run, device: string): number {
  return run.events.filter((event) => event.part === device && event.text.startsWith(`${device} runs`)).length;
}

/** True water of a twin: all amounts of all bodies, and the air. */
function truth({ bodies, rooms }: Twin): readonly number[] {
  return [...bodies, ...rooms];
}

function readings(run: Run): readonly number[] {
  return run.site.sensors.map((_, place) => run.twin.sensors[place * SENSOR_COLUMNS + SENSOR_READING]);
}

describe("a run that is cut into pieces", () => {
  it("of a hundred seconds ends, after five days, where one that takes its own steps does", () => {
    const whole = startRun(reef({ steady: true })).hours(120);
    const pieces = startRun(reef({ steady: true })).pieces(120, 100);
    const { temperatureK, salinity, oxygenMgL, alkalinityDKH, ph } = apart(whole, pieces);
    expect(temperatureK).toBeLessThan(0.02);
    expect(salinity).toBeLessThan(0.005);
    expect(oxygenMgL).toBeLessThan(0.05);
    expect(alkalinityDKH).toBeLessThan(0.02);
    expect(ph).toBeLessThan(0.005);
  });

  it("comes nearer to the limit the finer it is cut", () => {
    const limit = courseOf(30);
    const errors = [600, 300, 150].map((pieceS) => largestGap(courseOf(pieceS), limit));
    // Temperature and oxygen: a quarter of the step, less than half of the error.
    for (const quantity of [0, 1]) expect(errors[2][quantity]).toBeLessThan(0.5 * errors[0][quantity]);
    // Alkalinity and pH stand near the rounding of their constants before the step matters.
    for (const quantity of [2, 3]) expect(errors[2][quantity]).toBeLessThan(errors[0][quantity]);
    expect(errors[0][2]).toBeLessThan(0.005);
    expect(errors[0][3]).toBeLessThan(0.005);
  });

  it("switches as often, and stays as warm on the mean, over two weeks of thermostat, top-off and doses", () => {
    const mean = (pieceS: number) => {
      const run = startRun(reef());
      let sum = 0;
      let alkalinity = 0;
      run.pieces(14 * 24, pieceS, () => {
        sum += run.temperatureC("sump");
        alkalinity += run.alkalinityDKH("display");
      });
      const pieces = (14 * 86_400) / pieceS;
      return { run, warmth: sum / pieces, alkalinity: alkalinity / pieces };
    };
    const [coarse, fine] = [mean(600), mean(300)];
    expect(Math.abs(starts(coarse.run, "heater") - starts(fine.run, "heater"))).toBeLessThanOrEqual(2);
    expect(Math.abs(starts(coarse.run, "top-off") - starts(fine.run, "top-off"))).toBeLessThanOrEqual(1);
    expect(Math.abs(coarse.warmth - fine.warmth)).toBeLessThan(0.005);
    expect(Math.abs(coarse.alkalinity - fine.alkalinity)).toBeLessThan(0.01);
    const { salinity, oxygenMgL } = apart(coarse.run, fine.run);
    // Half a litre of top-off more or less in 400 L is 0.04.
    expect(salinity).toBeLessThan(0.08);
    expect(oxygenMgL).toBeLessThan(0.05);
  });

  it("at the same moments is the same run, bit for bit", () => {
    const one = startRun(reef({ hub: true })).pieces(48, 600);
    const other = startRun(reef({ hub: true })).pieces(48, 600);
    expect(truth(other.twin)).toEqual(truth(one.twin));
    expect(other.events).toEqual(one.events);
  });
});

describe("a snapshot", () => {
  it("leads to the same end each time it is gone on from, bit for bit, in any twin of the site", () => {
    const run = startRun(reef({ hub: true })).hours(31);
    const saved = snapshot(run.twin);
    const ends = [run, run, startRun(reef({ hub: true }))].map((one) => {
      restore(one.twin, saved);
      one.events.length = 0;
      one.hours(40);
      return { state: [...snapshot(one.twin)], events: [...one.events] };
    });
    expect(ends[1]).toEqual(ends[0]);
    expect(ends[2]).toEqual(ends[0]);
  });

  it("changes nothing for a run that goes on past it, where no hub looks", () => {
    for (const atH of [10, 33.5]) {
      const run = startRun(reef().replace(/hubs:[\s\S]*/, "")).hours(atH);
      const saved = snapshot(run.twin);
      const gone = truth(run.hours(24).twin);
      restore(run.twin, saved);
      expect(truth(run.hours(24).twin)).toEqual(gone);
    }
  });

  it("of a site with a hub is gone on from as if nothing had been", () => {
    const run = startRun(reef({ hub: true })).hours(30);
    const saved = snapshot(run.twin);
    const gone = startRun(reef({ hub: true }));
    restore(gone.twin, saved);
    run.events.length = 0;
    gone.events.length = 0;
    run.hours(48);
    gone.hours(48);
    expect(Math.abs(starts(run, "heater") - starts(gone, "heater"))).toBeLessThanOrEqual(1);
    expect(apart(run, gone).alkalinityDKH).toBeLessThan(0.01);
    expect(apart(run, gone).oxygenMgL).toBeLessThan(0.05);
  });

  it("holds a fill that its second float had stopped", () => {
    const float = "own-float: { fills-below: 79 L, stops-at: 80 L, spare-stops-at: 84 L }";
    const text = reef()
      .replace("from: barrel }", `from: barrel, ${float} }`)
      .replace(/hubs:[\s\S]*/, "");
    const run = startRun(text).set("top-off", "float", 1).hours(3);
    const saved = snapshot(run.twin);
    const before = run.volumeL("sump");
    restore(run.twin, saved);
    run.hours(0.2);
    expect(run.volumeL("sump")).toBeLessThan(Math.max(before, 84) + 0.05);
  });
});

describe("a sensor more", () => {
  it("changes no water, and none of the others' noise", () => {
    const plain = startRun(reef({ hub: true })).pieces(48, 3600);
    const watched = startRun(
      reef({
        hub: true,
        sensors:
          "  display-salinity: { measures: salinity, in: display }\n  display-oxygen: { measures: oxygen, in: display }",
      }),
    ).pieces(48, 3600);
    expect(truth(watched.twin)).toEqual(truth(plain.twin));
    expect(readings(watched).slice(0, 2)).toEqual(readings(plain));
    expect(watched.events).toEqual(plain.events);
  });

  it("another seed makes another noise, of the same water where no rule listens", () => {
    const [one, other] = [1, 2].map((seed) => startRun(reef(), { seed }).hours(20));
    const hourly = (run: Run) => Array.from({ length: 10 }, () => readings(run.hours(1)));
    expect(hourly(other)).not.toEqual(hourly(one));
    expect(truth(other.twin)).toEqual(truth(one.twin));
  });
});

describe("a hub that leaves out looks", () => {
  it("switches as often, and holds the same warmth, as one that looks at every tick", () => {
    const course = (everyTick: boolean) => {
      const run = startRun(reef({ hub: true }));
      let sum = 0;
      run.pieces(36, 15, () => {
        if (everyTick) lookSoon(run.twin);
        sum += run.temperatureC("sump");
      });
      return { starts: starts(run, "heater"), meanC: sum / (36 * 240) };
    };
    const [some, every] = [course(false), course(true)];
    expect(every.starts).toBeGreaterThan(10);
    expect(Math.abs(some.starts - every.starts)).toBeLessThanOrEqual(1);
    expect(Math.abs(some.meanC - every.meanC)).toBeLessThan(0.01);
  });
});

describe("a lever that acts on nothing", () => {
  const idle = [
    ["barrel", "filter", 0],
    ["display", "leakStopsAt", 0.5],
    ["sump-to-display", "checkValve", 1],
    ["sump-to-display", "spareDrain", 0],
    ["heater", "cutOut", 1],
    ["heater", "noRestart", 0],
    ["top-off", "spareFloat", 1],
    ["top-off", "runLimit", 1],
    ["lamp", "strength", 0.5],
    ["hub", "muted", 1],
    ["display-ph", "offset", 1],
    ["display-ph", "frozen", 1],
    ["*", "serviceDown", 1],
    ["*", "silenceWatchDead", 1],
  ] as const;

  it("leaves the water as it is, bit for bit", () => {
    const untouched = startRun(reef()).hours(24);
    const same = snapshot(untouched.twin);
    const expected = truth(untouched.set("heater", "noRestart", 0).hours(24).twin);
    for (const [part, lever, value] of idle) {
      const run = startRun(reef());
      restore(run.twin, same);
      const base = startRun(reef());
      restore(base.twin, same);
      run.set(part, lever, value).hours(24);
      base.set("heater", "noRestart", 0).hours(24);
      expect(truth(run.twin), `${part}.${lever}`).toEqual(truth(base.twin));
    }
    expect(expected.length).toBe(untouched.site.bodies.length * BODY_COLUMNS + untouched.twin.rooms.length);
  });

  it("pulled and put back leaves only what it did meanwhile", () => {
    const run = startRun(reef()).hours(24).set("return", "output", 0.5).set("return", "output", 1).hours(24);
    const other = startRun(reef()).hours(24).set("return", "output", 1).set("return", "output", 1).hours(24);
    expect(truth(run.twin)).toEqual(truth(other.twin));
  });
});
