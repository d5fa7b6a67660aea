import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { siteOf } from "../../test/sites.ts";
import type { Site } from "../site/index.ts";
import { sparedIfDoneAt } from "./attempt.ts";
import { runCourse } from "./course.ts";
import { judge, sceneOf } from "./drill.ts";
import type { Fault } from "./faults/fault.ts";
import { findFault } from "./faults/index.ts";
import { planSingles } from "./plan.ts";
import { reachOf } from "./reach.ts";
import { Stage } from "./stage.ts";
import type { DrillResult } from "./types.ts";

interface Place {
  readonly heaterW?: number;
  readonly travelMin?: number;
  readonly limitC?: number;
  readonly notice?: boolean;
  readonly second?: boolean;
  readonly ladder?: string;
  readonly extra?: string;
  readonly cutOut?: string;
  readonly room?: string;
}

/** A display over a sump in a cool room, one heater, one person who is called. */
function place(given: Place = {}): Site {
  const {
    heaterW = 200,
    travelMin = 30,
    limitC = 28,
    notice = true,
    second = false,
    extra = "",
    cutOut = "none",
    room = "21 degC",
  } = given;
  return siteOf(`
site: Test place
zone: Europe/Berlin
rooms: { den: { air: 80 m3, holds: ${room} } }
power: { circuits: { ring: { limit: 16 A, trips-on-leak: 30 mA } } }
links: { router: { kind: local }, line: { kind: internet, via: router } }
hubs: { hub: { reads-every: 30 s, sends-over: line } }
systems:
  tank:
    room: den
    bodies:
      display: { volume: 200 L, surface: 0.5 m2, livestock: { corals: mixed, coral-area: 0.2 m2, fish: 80 g } }
      sump: { volume: 40 L, brim: 70 L, intake: 10 L }
      can: { volume: 60 L, holds: fresh }
    circulation: [ { from: sump, to: display, by: pump, back-siphon: 8 L } ]
devices:
  heater: { kind: heater, power: ${heaterW} W, in: sump, on: ring, own-thermostat: 25.5 degC, cut-out: ${cutOut} }
  pump: { kind: return-pump, power: 20 W, flow: 1500 L/h, in: sump, on: ring }
  lamp: { kind: light, power: 60 W, par: 150 PAR, in: display, on: ring, schedule: "10:00-20:00" }
  top-off: { kind: top-off, flow: 40 L/h, in: sump, from: can, on: ring, own-float: { fills-below: 39.5 L, stops-at: 40 L } }
sensors:
  probe: { measures: temperature, in: display, hub: hub }
${second ? "  probe-2: { measures: temperature, in: display, hub: hub, type: thermistor }" : ""}
rules:
  too-warm: { hub: hub, when: { probe: above ${limitC} degC, for: 5 min }, ${notice ? "notice: urgent, says: too warm" : "do: { lamp: off }"} }
  too-cold: { hub: hub, when: { probe: below 23.5 degC, for: 5 min }, ${notice ? "notice: urgent, says: too cold" : "do: { lamp: off }"} }
${second ? `  too-warm-2: { hub: hub, when: { probe-2: above ${limitC} degC, for: 5 min }, notice: urgent, says: too warm }` : ""}
people:
  keeper: { reached-by: [push, call], asleep: 23:00-06:30, travel: ${travelMin} min, can: everything }
ladder: [ keeper ]
circumstances:
  winter: { starts: 2026-01-14T10:00, horizon: 6 days }
${extra}
`);
}

function faultOf(site: Site, id: string): Fault {
  const found = findFault(site, id);
  if (!("mode" in found)) throw new Error(`${id}: ${JSON.stringify(found)}`);
  return found;
}

function drill(site: Site, ...ids: string[]): DrillResult {
  return judged(site, ...ids).result;
}

function judged(site: Site, ...ids: string[]) {
  const stage = new Stage(site, 1);
  const faults = ids.map((id) => faultOf(site, id));
  return judge(stage.setting(site.circumstances[0], reachOf(stage.model, faults)), faults);
}

describe("verdicts", () => {
  it("a heater that will not switch off and is noticed in time is handed over, with a margin", () => {
    const result = drill(place({ heaterW: 400 }), "heater.stays-on");
    expect(result.verdict).toBe("handed over");
    expect(result.minutes.noticed).not.toBeNull();
    expect(result.minutes.told).toBeGreaterThan(result.minutes.noticed ?? 0);
    expect(result.minutes.acting).toBeGreaterThan(result.minutes.told ?? 0);
    expect(result.margin_min).toBeGreaterThan(0);
    expect(result.finding).toBeNull();
  });

  it("the same heater without any notice is unseen", () => {
    const result = drill(place({ heaterW: 400, notice: false }), "heater.stays-on");
    expect(result.verdict).toBe("unseen");
    expect(result.minutes.noticed).toBeNull();
    expect(result.finding).toContain("nothing had told anyone");
  });

  it("the same heater with someone who needs two days to come is late", () => {
    const result = drill(place({ heaterW: 400, travelMin: 4320 }), "heater.stays-on");
    expect(result.verdict).toBe("late");
    expect(result.margin_min).toBeLessThan(0);
  });

  it("an independent cut-out handles it, and silence about it is a finding", () => {
    const result = drill(place({ heaterW: 400, cutOut: "27 degC" }), "heater.stays-on");
    expect(result.verdict).toBe("handled");
    expect(result.minutes.harm_early).toBeNull();
    expect(result.finding).toContain("nobody is told");
  });

  it("a heater that is a little too small in a warm room is absorbed when it fails", () => {
    const result = drill(place({ room: "24 degC" }), "heater.stops");
    expect(result.verdict).toBe("absorbed");
    expect(result.margin_min).toBeNull();
  });

  it("a dead cut-out by itself is unseen: nobody tries it", () => {
    const latent = planSingles(new Stage(place({ cutOut: "27 degC" }), 1).model).find(
      (one) => one.faults[0].mode.onset === "latent" && one.faults[0].part === "heater",
    );
    expect(latent).toBeDefined();
    const result = drill(place({ cutOut: "27 degC" }), `heater.${latent?.faults[0].mode.mode}`);
    expect(result.verdict).toBe("unseen");
    expect(result.minutes.harm_early).toBeNull();
  });

  it("times are in order: early harm before likely before late, sign before notice", () => {
    const { minutes } = drill(place({ heaterW: 500 }), "heater.stays-on");
    expect(minutes.sign).toBeLessThanOrEqual(minutes.noticed ?? 0);
    expect(minutes.harm_early).toBeLessThanOrEqual(minutes.harm_likely ?? Number.POSITIVE_INFINITY);
    expect(minutes.harm_likely ?? 0).toBeLessThanOrEqual(minutes.harm_late ?? Number.POSITIVE_INFINITY);
  });
});

describe("what must be true of every site", () => {
  it("more heater power in the second heater never makes cold harm come sooner", () => {
    const twoHeaters = (watts: number) =>
      siteOf(`
site: Two heaters
systems: { tank: { bodies: { display: { volume: 150 L, surface: 0.4 m2, livestock: { corals: mixed, fish: 50 g } } } } }
rooms: { room: { air: 60 m3, holds: 12 degC } }
devices:
  heater-1: { kind: heater, power: 300 W, in: display, own-thermostat: 25.5 degC }
  heater-2: { kind: heater, power: ${watts} W, in: display, own-thermostat: 24.5 degC }
  wave: { kind: wave-pump, flow: 2500 L/h, power: 7 W, in: display }
people: { keeper: { reached-by: push, can: everything } }
circumstances: { winter: { starts: 2026-01-14T10:00, horizon: 5 days } }
`);
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 120 }), fc.integer({ min: 5, max: 100 }), (watts, more) => {
        const less = drill(twoHeaters(watts), "heater-1.stops").minutes.harm_early ?? Number.POSITIVE_INFINITY;
        const greater =
          drill(twoHeaters(watts + more), "heater-1.stops").minutes.harm_early ?? Number.POSITIVE_INFINITY;
        expect(greater).toBeGreaterThanOrEqual(less);
      }),
      { numRuns: 6, seed: 11 },
    );
  });

  it("a shorter way never lowers the margin", () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 2000 }), fc.integer({ min: 1, max: 900 }), (travelMin, less) => {
        const far = drill(place({ heaterW: 400, travelMin: travelMin + less }), "heater.stays-on");
        const near = drill(place({ heaterW: 400, travelMin }), "heater.stays-on");
        expect(near.margin_min).toBeGreaterThanOrEqual(far.margin_min ?? Number.NEGATIVE_INFINITY);
      }),
      { numRuns: 5, seed: 12 },
    );
  });

  it("another independent sensor never turns noticed into unseen, nor makes the notice later", () => {
    for (const fault of ["heater.stays-on", "heater.stops", "probe.freezes", "pump.stops"]) {
      const before = drill(place({ heaterW: 400 }), fault);
      const after = drill(place({ heaterW: 400, second: true }), fault);
      if (before.verdict !== "unseen") expect(after.verdict).not.toBe("unseen");
      expect(after.minutes.noticed ?? Number.POSITIVE_INFINITY).toBeLessThanOrEqual(
        before.minutes.noticed ?? Number.POSITIVE_INFINITY,
      );
    }
  });

  it("a fault that acts on nothing leaves the course bit-identical", () => {
    const site = place();
    const stage = new Stage(site, 1);
    const muted = planSingles(stage.model)
      .map((one) => one.faults[0])
      .find((fault) => fault.part === "line");
    if (!muted) throw new Error("no fault of the line");
    const setting = stage.setting(site.circumstances[0], [0]);
    const states: Float64Array[] = [];
    const { layout } = stage.model;
    const water = () => states.push(setting.twin.state.slice(0, layout.levers));
    runCourse(setting, [muted], sceneOf(setting, [muted]), {
      early: false,
      onGrid: (tS) => void (tS % 86_400 === 0 && tS > 0 && water()),
    });
    states.forEach((state, day) => {
      const normal = setting.normal.days[day + 1].slice(0, layout.levers);
      expect(Buffer.from(state.buffer).equals(Buffer.from(normal.buffer))).toBe(true);
    });
    expect(states.length).toBe(6);
  });

  it("stopping a course early changes no verdict and no time by more than one look", () => {
    const site = place({ heaterW: 400, second: true });
    const stage = new Stage(site, 1);
    const plan = planSingles(stage.model).filter((_, index) => index % 4 === 0);
    for (const { faults } of plan) {
      const setting = stage.setting(site.circumstances[0], reachOf(stage.model, faults));
      const scene = sceneOf(setting, faults);
      const early = runCourse(setting, faults, scene, { early: true });
      const full = runCourse(setting, faults, scene, { early: false });
      const same = (a: number, b: number) => a === b || Math.abs(a - b) <= 1800;
      expect(same(early.harm.early, full.harm.early), faults[0].mode.mode).toBe(true);
      expect(same(early.signS, full.signS), faults[0].mode.mode).toBe(true);
      expect(early.acted.length > 0, faults[0].mode.mode).toBe(full.acted.length > 0);
    }
  });

  it("an attempt right away spares what an attempt after late harm does not", () => {
    const site = place({ heaterW: 400, notice: false });
    const stage = new Stage(site, 1);
    const faults = [faultOf(site, "heater.stays-on")];
    const setting = stage.setting(site.circumstances[0], [0]);
    const course = runCourse(setting, faults, sceneOf(setting, faults), { early: true });
    expect(sparedIfDoneAt(setting, course, 60)).toBe(true);
    expect(sparedIfDoneAt(setting, course, course.harm.late + 60)).toBe(false);
  });
});

describe("messages", () => {
  it("a power cut that takes the router keeps the notice in the house until power is back", () => {
    const onMains = place({ extra: "", heaterW: 200 });
    const site: Site = {
      ...onMains,
      hubs: [{ ...onMains.hubs[0], on: null }],
      links: onMains.links.map((link) => (link.id === "router" ? { ...link, on: "ring" } : link)),
    };
    const long = planSingles(new Stage(site, 1).model)
      .map((one) => one.faults[0])
      .filter((fault) => fault.part === "mains" && (fault.mode.lastsMin ?? 0) >= 2000);
    expect(long.length).toBeGreaterThan(0);
    const stage = new Stage(site, 1);
    const setting = stage.setting(site.circumstances[0], [0]);
    const { course } = judge(setting, [long[0]]);
    const cold = course.notices.find((notice) => notice.rule === "too-cold");
    expect(cold).toBeDefined();
    expect(cold?.sentS ?? 0).toBeGreaterThanOrEqual((long[0].mode.lastsMin ?? 0) * 60);
  });
});
