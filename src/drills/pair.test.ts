import { beforeAll, describe, expect, it } from "vitest";
import { siteOf } from "../../test/sites.ts";
import { judge } from "./drill.ts";
import { faultId } from "./faults/index.ts";
import { Rehearser } from "./pair.ts";
import { type PlannedDrill, planPairs, planSingles } from "./plan.ts";
import { reachOf } from "./reach.ts";
import { Stage } from "./stage.ts";
import type { DrillResult } from "./types.ts";

const ONE_MINUTE_MS = 60_000;

/** Two tanks in two rooms; a cut-out, a battery, a leak sensor, two ladders of which one is short. */
const site = siteOf(`
site: Two tanks
rooms: { hall: { air: 80 m3, holds: 19 degC }, den: { air: 50 m3, holds: 20 degC } }
power:
  circuits: { ring: { limit: 16 A, trips-on-leak: 30 mA } }
  batteries: { cells: { energy: 300 Wh, power: 60 W, feeds: [ air ], on: ring } }
links: { router: { kind: local }, line: { kind: internet, via: router } }
hubs: { hub: { reads-every: 60 s, sends-over: line, on: ring } }
systems:
  reef:
    room: hall
    bodies:
      display: { volume: 200 L, surface: 0.5 m2, livestock: { corals: mixed, fish: 80 g } }
      sump: { volume: 40 L, brim: 55 L, intake: 10 L }
      can: { volume: 40 L, holds: fresh }
    circulation: [ { from: sump, to: display, by: pump, back-siphon: 6 L, back-siphon-unbroken: 30 L } ]
  frag:
    room: den
    bodies: { tray: { volume: 100 L, surface: 0.4 m2, livestock: { corals: soft, fish: 8 g } } }
devices:
  heater: { kind: heater, power: 400 W, in: sump, on: ring, own-thermostat: 25.5 degC, cut-out: 27 degC }
  pump: { kind: return-pump, power: 20 W, flow: 1500 L/h, in: sump, on: ring }
  air: { kind: air-pump, power: 5 W, flow: 200 L/h, in: display, on: ring, spare: { last-tried: never } }
  top-off: { kind: top-off, flow: 40 L/h, in: sump, from: can, on: ring, own-float: { fills-below: 39.5 L, stops-at: 40 L } }
  frag-heater: { kind: heater, power: 150 W, in: tray, on: ring, own-thermostat: 25.5 degC }
  frag-wave: { kind: wave-pump, flow: 2500 L/h, power: 7 W, in: tray, on: ring }
sensors:
  probe: { measures: temperature, in: display, hub: hub }
  floor: { measures: leak, in: hall, hub: hub }
rules:
  too-warm: { hub: hub, when: { probe: above 28 degC, for: 5 min }, notice: urgent, says: too warm }
  too-cold: { hub: hub, when: { probe: below 23.5 degC, for: 5 min }, notice: urgent, says: too cold }
  wet: { hub: hub, when: { floor: wet }, notice: urgent, says: water on the floor }
people:
  keeper: { reached-by: [ push, call ], travel: 30 min, can: everything }
  helper: { reached-by: call, travel: 10 min, can: [ unplug, call keeper ] }
ladder: [ keeper, after 10 min helper ]
circumstances: { winter: { starts: 2026-01-14T10:00, horizon: 4 days } }
`);

const stage = new Stage(site, 1);
const plan = planPairs(stage.model).drills;

/** Those of every twelfth trigger, and of the heaters. */
const NAMED = ["heater.stays-on", "heater.stops", "frag-heater.stops"];
const triggers = [...new Set(plan.map(({ faults }) => faults[1]))];
const sample = plan.filter(({ faults: [, trigger] }) => {
  const isNamed = trigger !== undefined && NAMED.includes(faultId(trigger));
  return isNamed || triggers.indexOf(trigger) % 12 === 5;
});

function named(first: string, second: string): PlannedDrill {
  const found = plan.find(({ faults }) => faults.map(faultId).join("+") === `${first}+${second}`);
  if (!found)
    throw new Error(`${first}+${second} is not among ${plan.map((one) => one.faults.map(faultId).join("+"))}`);
  return found;
}

function alone(drill: PlannedDrill): DrillResult {
  const trigger = drill.faults.slice(-1);
  return judge(stage.setting(drill.circumstance, reachOf(stage.model, trigger)), trigger).result;
}

describe("the pairs of a site", () => {
  it("are every latent fault with every other fault, two latent ones once", () => {
    const faults = planSingles(stage.model).map((one) => one.faults[0]);
    const latent = faults.filter((fault) => fault?.mode.onset === "latent").length;
    expect(latent).toBeGreaterThan(4);
    expect(plan.length).toBe(latent * (faults.length - latent) + (latent * (latent - 1)) / 2);
    expect(new Set(plan.map(({ faults }) => faults.map(faultId).sort().join())).size).toBe(plan.length);
    for (const { faults } of plan) expect(faults[0]?.mode.onset).toBe("latent");
  });
});

describe("a pair", () => {
  let results: readonly DrillResult[];

  beforeAll(() => {
    const rehearser = new Rehearser(stage);
    results = sample.map((drill) => rehearser.run(drill));
  }, ONE_MINUTE_MS);

  const resultOf = (first: string, second: string) => results[sample.indexOf(named(first, second))];

  it("of a dead cut-out and a heater that stays on does the harm from which the cut-out saves", () => {
    const pair = named("heater.cut-out-dead", "heater.stays-on");
    expect(alone(pair).verdict).toBe("handled");
    const result = resultOf("heater.cut-out-dead", "heater.stays-on");
    expect(result?.derived).toBeNull();
    expect(result?.minutes.harm_early).not.toBeNull();
  });

  it("with muted notices is told to nobody, though the trigger alone is", () => {
    const pair = named("hub.notices-muted", "heater.stops");
    expect(alone(pair).minutes.told).not.toBeNull();
    expect(resultOf("hub.notices-muted", "heater.stops")?.minutes.told).toBeNull();
  });

  it("with a person who cannot be reached takes the water from the trigger and works out help anew", () => {
    const pair = named("keeper.cannot-be-reached", "heater.stops");
    const result = resultOf("keeper.cannot-be-reached", "heater.stops");
    expect(result?.derived).toContain("heater.stops");
    expect(result?.minutes.harm_early).toBe(alone(pair).minutes.harm_early);
    expect(result?.told_by).toBe("helper");
  });

  it("of a dead leak sensor and a cold tank is that of the cold tank", () => {
    const pair = named("floor.dead", "heater.stops");
    const result = resultOf("floor.dead", "heater.stops");
    expect(result?.derived).toContain("heater.stops");
    expect(result?.minutes).toEqual(alone(pair).minutes);
    expect(result?.id).toBe("floor.dead+heater.stops@winter");
  });

  it("of stock that has grown in one room and a fault in the other adds nothing but its own sign", () => {
    const result = resultOf("display.outgrown", "frag-heater.stops");
    expect(result?.derived).toContain("shares nothing");
    expect(result?.verdict).toBe(alone(named("display.outgrown", "frag-heater.stops")).verdict);
  });

  it("is derived in most cases, always with a reason, and told as two faults", () => {
    expect(results.filter((one) => one.derived !== null).length).toBeGreaterThan(0.6 * results.length);
    for (const { faults, finding, verdict } of results) {
      expect(faults.length).toBe(2);
      if (verdict === "late" || verdict === "unseen") expect(finding).toContain(", then ");
    }
  });

  it("that is derived is field by field what running it gives", () => {
    const derived = sample.filter((_, place) => results[place]?.derived?.startsWith("nothing asks") && place % 5 === 4);
    expect(derived.length).toBeGreaterThan(10);
    for (const drill of derived) {
      const setting = stage.setting(drill.circumstance, reachOf(stage.model, drill.faults.slice(-1)));
      const { derived: _, ...full } = judge(setting, drill.faults).result;
      expect(results[sample.indexOf(drill)]).toMatchObject(full);
    }
  });
});
