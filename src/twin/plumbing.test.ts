/** Plumbing, worked by hand: what runs back, what runs over, and how much. Litres unless said otherwise. */
import { describe, expect, it } from "vitest";
import { type Run, startRun } from "../../test/sites.ts";
import { BODY_COLUMNS, MASS, ROOM_FLOOR } from "./columns.ts";
import { volumeL } from "./hydraulics.ts";

/** Display of 0.72 m2 with a weir whose head is 6 L, over a sump; the return's siphon breaks 26 L lower. */
function site(
  more: {
    readonly display?: string;
    readonly sump?: string;
    readonly flow?: string;
    readonly devices?: string;
    readonly barrelL?: number;
  } = {},
): string {
  const { display = "", sump = "", flow = "", devices = "", barrelL = 25 } = more;
  return `
site: Plumbing
systems:
  reef:
    bodies:
      display: { volume: 400 L, brim: 423 L, surface: 0.72 m2, lid: lid${display} }
      sump: { volume: 100 L, brim: 160 L, intake: 30 L, surface: 0.3 m2, lid: lid${sump} }
      barrel: { volume: ${barrelL} L, intake: 1 L, holds: fresh }
    circulation:
      - { from: sump, to: display, by: return, weir-head: 6 L, back-siphon: 26 L, back-siphon-unbroken: 70 L, drain: 4500 L/h${flow} }
devices:
  return: { kind: return-pump, in: sump, flow: 3000 L/h }
  ${devices}`;
}

const TOP_OFF = "top-off: { kind: top-off, in: sump, own-float: { fills-below: 98 L, stops-at: 100 L }, flow: 60 L/h }";

function floorL(run: Run): number {
  return run.twin.rooms[ROOM_FLOOR];
}

function waterL(run: Run): number {
  return run.twin.model.systems[0].waters.reduce((sum, body) => sum + volumeL(run.twin, body), 0);
}

describe("when the return stops", () => {
  it("what stands over the weir and what the siphon takes run into the sump", () => {
    const run = startRun(site()).hours(1);
    const sump = run.volumeL("sump");
    run.set("return", "dead", 1).hours(0.1);
    expect(run.volumeL("sump") - sump).toBeCloseTo(26 + 6, 1);
    expect(run.volumeL("display")).toBeCloseTo(400 - 6 - 26, 1);
    expect(floorL(run)).toBe(0);
  });

  it("and starts again, all of it is lifted back", () => {
    const run = startRun(site()).hours(1);
    const before = [run.volumeL("display"), run.volumeL("sump")];
    run.set("return", "dead", 1).hours(0.1).set("return", "dead", 0).hours(0.2);
    expect(run.volumeL("display")).toBeCloseTo(before[0], 1);
    expect(run.volumeL("sump")).toBeCloseTo(before[1], 0);
  });

  it("a check valve holds the siphon, not the weir", () => {
    const run = startRun(site({ flow: ", check-valve: yes" })).hours(1);
    run.set("return", "dead", 1).hours(0.1);
    expect(run.volumeL("display")).toBeCloseTo(394, 1);
  });

  it("a check valve that does not hold is as none", () => {
    const run = startRun(site({ flow: ", check-valve: yes" }))
      .hours(1)
      .set("sump-to-display", "checkValve", 1);
    run.set("return", "dead", 1).hours(0.1);
    expect(run.volumeL("display")).toBeCloseTo(368, 1);
  });

  it("with the siphon-break hole blocked, what does not fit into the sump lies on the floor", () => {
    const run = startRun(site()).hours(1).set("sump-to-display", "siphonBreak", 1);
    const sump = run.volumeL("sump");
    run.set("return", "dead", 1).hours(0.1);
    expect(run.volumeL("display")).toBeCloseTo(394 - 70, 1);
    expect(run.volumeL("sump")).toBeCloseTo(160, 1);
    expect(floorL(run)).toBeCloseTo(sump + 76 - 160, 1);
  });

  it("a hose that is off lets the siphon's water, never less than nothing, onto the floor", () => {
    const run = startRun(site()).hours(1).set("sump-to-display", "hoseOff", 1).hours(0.005);
    const before = floorL(run);
    run.set("return", "dead", 1).hours(0.1);
    expect(floorL(run) - before).toSatisfy((litres: number) => litres >= 0 && litres < 26 + 3);
  });
});

describe("with the drain blocked", () => {
  /** Pumped from the sump until its pump is dry (four fifths of its intake), less what the display's rim still holds. */
  const floodL = (sumpL: number) => sumpL - 0.8 * 30 - (423 - 400);

  it("the display runs over by what can be pumped, less its freeboard", () => {
    const run = startRun(site()).hours(1);
    const expected = floodL(run.volumeL("sump"));
    run.set("sump-to-display", "drain", 0).hours(1);
    expect(expected).toBeGreaterThan(45);
    expect(Math.abs(floorL(run) - expected)).toBeLessThan(3);
  });

  it("a top-off that sees a low sump adds its barrel to the flood", () => {
    const run = startRun(site({ devices: TOP_OFF })).hours(1);
    const expected = floodL(run.volumeL("sump")) + run.volumeL("barrel") - 1;
    run.set("sump-to-display", "drain", 0).hours(3);
    expect(run.volumeL("barrel")).toBeLessThan(1.1);
    expect(Math.abs(floorL(run) - expected)).toBeLessThan(4);
  });

  it("by two thirds, only the pumped water that finds no way goes over", () => {
    const run = startRun(site()).hours(1).set("sump-to-display", "drain", 0.8).hours(2);
    expect(floorL(run)).toBe(0);
    run.set("sump-to-display", "drain", 0.35).hours(2);
    expect(floorL(run)).toBeGreaterThan(30);
  });

  it("a second drain keeps the floor dry", () => {
    const run = startRun(site({ flow: ", spare-drain: 4500 L/h" }))
      .hours(1)
      .set("sump-to-display", "drain", 0)
      .hours(6);
    expect(floorL(run)).toBe(0);
    run.set("sump-to-display", "spareDrain", 0).hours(1);
    expect(floorL(run)).toBeGreaterThan(40);
  });

  it("the water that is left does not vanish over five days, and stays water", () => {
    const run = startRun(site()).hours(1);
    const before = waterL(run);
    run.set("sump-to-display", "drain", 0).hours(5 * 24);
    expect(run.temperatureC("display")).toSatisfy((degrees: number) => degrees > 15 && degrees < 30);
    expect(run.temperatureC("sump")).toSatisfy((degrees: number) => degrees > 15 && degrees < 30);
    expect(before - waterL(run) - floorL(run)).toSatisfy((evaporatedL: number) => evaporatedL > 0.2 && evaporatedL < 6);
  });
});

describe("a hose off the return", () => {
  it("empties the sump down to where its pump runs dry, then the siphon of the display, and no more", () => {
    const run = startRun(site()).hours(1);
    const sump = run.volumeL("sump");
    run.set("sump-to-display", "hoseOff", 1).hours(1);
    // The six litres over the weir come down into the sump and go the same way.
    expect(Math.abs(floorL(run) - (sump + 6 - 24 + 26))).toBeLessThan(3);
    expect(run.volumeL("display")).toBeCloseTo(394 - 26, 0);
    const before = floorL(run);
    run.hours(24);
    expect(floorL(run) - before).toBeLessThan(0.5);
  });
});

describe("a leak", () => {
  it("at normal level lets out what it says, whatever the level at which it ends", () => {
    for (const stopsAt of [0, 0.5, 0.9]) {
      const run = startRun(site())
        .hours(1)
        .set("display", "leakStopsAt", stopsAt)
        .set("display", "leakLPerH", 10)
        .hours(0.5);
      expect(Math.abs(floorL(run) - 5)).toBeLessThan(0.15);
    }
  });

  it("falls with the root of the head, as water from a hole does (Torricelli)", () => {
    const run = startRun(`
site: Leak
systems:
  reef:
    bodies: { display: { volume: 400 L, lid: lid, rock: 0 kg } }`);
    run.set("display", "leakLPerH", 40).hours(10);
    // dV/dt = -q sqrt(V/V0): sqrt(V/V0) = 1 - q t / (2 V0) = 1 - 40 * 10 / 800.
    expect(run.volumeL("display") / 400).toBeCloseTo(0.25, 1);
    expect(floorL(run) + run.volumeL("display")).toBeCloseTo(400, 0);
  });

  it("ends at its own level", () => {
    const run = startRun(site())
      .hours(1)
      .set("return", "dead", 1)
      .hours(0.1)
      .set("display", "leakStopsAt", 0.7)
      .set("display", "leakLPerH", 100)
      .hours(48);
    expect(run.volumeL("display") / 400).toBeCloseTo(0.7, 1);
  });
});

describe("chambers that share their water", () => {
  const THREE = `
site: Three chambers
systems:
  reef:
    bodies:
      display: { role: display, volume: 300 L, holds: { temperature: 25 degC } }
      refugium: { role: refugium, volume: 60 L }
      sump: { volume: 80 L }
    circulation:
      - { from: sump, to: display, by: return }
      - { from: display, to: refugium }
      - { from: refugium, to: sump }
devices:
  return: { kind: return-pump, in: sump }
  heater: { kind: heater, in: sump, own-thermostat: 25 degC }`;

  it("pass the pumped water on, so that all are one water", () => {
    const run = startRun(THREE).hours(24);
    expect(floorL(run)).toBe(0);
    expect(run.volumeL("display")).toBeCloseTo(300, 0);
    expect(run.volumeL("refugium")).toBeCloseTo(60, 0);
    expect(Math.abs(run.temperatureC("refugium") - run.temperatureC("display"))).toBeLessThan(0.3);
    expect(run.temperatureC("display")).toBeGreaterThan(24.2);
  });

  it("run over where the way between them is blocked", () => {
    const run = startRun(THREE).hours(1).set("display-to-refugium", "drain", 0).hours(2);
    expect(floorL(run)).toBeGreaterThan(10);
  });
});

describe("a top-off", () => {
  it("keeps the sump between its two levels", () => {
    const run = startRun(site({ devices: TOP_OFF, display: ", walls: 10 W/K" }).replaceAll("lid: lid", "lid: open"));
    run.hours(12);
    let [low, high] = [1000, 0];
    run.pieces(72, 900, () => {
      low = Math.min(low, run.volumeL("sump"));
      high = Math.max(high, run.volumeL("sump"));
    });
    expect(low).toBeGreaterThan(97.95);
    expect(high).toBeLessThan(100.05);
    expect(run.volumeL("barrel")).toBeLessThan(22);
  });

  it("that does not stop lets in all that its barrel gives, and dilutes by S M / (M + m)", () => {
    const run = startRun(site({ devices: TOP_OFF, sump: "" })).hours(1);
    const waterKg = () =>
      run.twin.model.systems[0].waters.reduce((sum, body) => sum + run.twin.bodies[body * BODY_COLUMNS + MASS], 0);
    const massKg = waterKg();
    const salinity = run.salinity("display");
    const barrel = run.twin.bodies[run.body("barrel") * BODY_COLUMNS + MASS];
    run.set("top-off", "float", 1).hours(1);
    const given = barrel - run.twin.bodies[run.body("barrel") * BODY_COLUMNS + MASS];
    expect(given).toBeGreaterThan(23);
    const evaporatedKg = massKg + given - waterKg();
    expect(evaporatedKg).toSatisfy((kg: number) => kg > 0 && kg < 0.2);
    expect(run.salinity("display")).toBeCloseTo((salinity * massKg) / (massKg + given - evaporatedKg), 2);
    // The usual figure: 25 L into 500 L take 1.67 off.
    expect(salinity - run.salinity("display")).toSatisfy((fall: number) => fall > 1.4 && fall < 1.7);
  });

  it("that does not stop washes the salt out once the sump is full: dS/dt = -S Q / V", () => {
    const run = startRun(site({ devices: TOP_OFF, barrelL: 400 })).set("top-off", "float", 1);
    run.hours(1.5);
    expect(run.volumeL("sump")).toBeCloseTo(160, 0);
    const [salinity, floor, litres] = [run.salinity("sump"), floorL(run), waterL(run)];
    run.hours(4);
    expect(floorL(run) - floor).toBeCloseTo(240, -1);
    expect(run.salinity("sump") / (salinity * Math.exp(-(60 * 4) / litres))).toSatisfy(
      (share: number) => share > 0.985 && share < 1.015,
    );
  });

  it("siphons on without power until its barrel stands at the pickup", () => {
    const run = startRun(site({ devices: TOP_OFF }))
      .hours(1)
      .set("top-off", "siphonLPerH", 25)
      .set("mains", "down", 1)
      .hours(3);
    expect(run.runs("top-off")).toBe(false);
    expect(run.volumeL("barrel")).toBeCloseTo(1, 1);
  });

  it("is stopped by its second float, by its longest run, and by neither where both fail", () => {
    const float = "own-float: { fills-below: 98 L, stops-at: 100 L, spare-stops-at: 104 L, longest-run: 10 min }";
    const withFloat = site({ devices: `top-off: { kind: top-off, in: sump, ${float}, flow: 60 L/h }` });
    const stuck = () => startRun(withFloat).hours(1).set("top-off", "float", 1);
    const one = stuck().set("top-off", "runLimit", 1).hours(2);
    expect(one.volumeL("sump")).toBeCloseTo(104, 1);
    const other = stuck();
    const before = other.volumeL("barrel");
    other.set("top-off", "spareFloat", 1).hours(2);
    expect(before - other.volumeL("barrel")).toBeCloseTo(10, 1);
    const neither = stuck().set("top-off", "spareFloat", 1).set("top-off", "runLimit", 1).hours(2);
    expect(neither.volumeL("barrel")).toBeCloseTo(1, 1);
  });

  it("never wets the floor more with a smaller barrel", () => {
    const floods = [20, 60, 120, 240].map((barrelL) =>
      floorL(
        startRun(site({ devices: TOP_OFF, barrelL }))
          .set("top-off", "float", 1)
          .hours(6),
      ),
    );
    for (let place = 1; place < floods.length; place++) expect(floods[place]).toBeGreaterThanOrEqual(floods[place - 1]);
    expect(floods[0]).toBe(0);
    expect(floods[3]).toBeGreaterThan(100);
  });

  it("lasts no shorter with a bigger barrel", () => {
    const open = site({ devices: TOP_OFF }).replaceAll("lid: lid", "lid: open");
    const days = [5, 10, 20].map((barrelL) => {
      const run = startRun(open.replace("barrel: { volume: 25 L", `barrel: { volume: ${barrelL} L`));
      for (let day = 1; day <= 20; day++) if (run.hours(24).volumeL("barrel") < 1.01) return day;
      return 20;
    });
    expect(days[0]).toBeLessThan(days[1]);
    expect(days[1]).toBeLessThan(days[2]);
  });
});
