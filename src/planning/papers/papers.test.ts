/** Papers of small places whose figures can be worked out by hand, and of random ones. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { reportOf } from "../../../test/browser/fixtures/results.ts";
import { school } from "../../../test/browser/fixtures/sites.ts";
import { randomSites } from "../../../test/random-sites.ts";
import { siteOf } from "../../../test/sites.ts";
import { RATE_WINDOW_S } from "../../rules/index.ts";
import type { Site } from "../../site/index.ts";
import { makePapers } from "./papers.ts";
import { setUpSheet } from "./set-up.ts";
import { provingTrials } from "./trials/proving-trials.ts";

const SHED = `
site: Boat Shed
zone: Europe/London
rooms: { shed: { air: 60 m3, holds: 19 degC } }
power:
  mains: 230 V
  circuits:
    ring: { limit: 32 A, trips-on-leak: 30 mA }
    strip: { on: ring, limit: 13 A, trips-on-leak: none }
  batteries:
    shelf: { energy: 60 Wh, power: 100 W, on: strip, feeds: [ router, spare-air ], last-tried: 2 months }
links: { router: { kind: local, on: strip }, line: { kind: internet, via: router }, mobile: { kind: mobile } }
hubs: { brain: { on: strip, reads-every: 15 s, sends-over: [ line, mobile ], siren: yes, tested: 2 months } }
systems:
  tank:
    room: shed
    bodies:
      display: { volume: 180 L, brim: 190 L, livestock: { corals: soft, fish: 60 g } }
      sump: { volume: 60 L, brim: 100 L, intake: 15 L }
      barrel: { volume: 40 L, holds: fresh }
    circulation:
      - { from: sump, to: display, by: return, back-siphon: 12 L, back-siphon-unbroken: 40 L, weir-head: 3 L, spare-drain: 1000 L/h, tested: 1 month }
devices:
  heater: { kind: heater, power: 300 W, in: sump, on: strip, by: brain, without-hub: off, own-thermostat: 26 degC, cut-out: 28 degC }
  return: { kind: return-pump, power: 60 W, flow: 1500 L/h, in: sump, on: strip }
  lamp: { kind: light, power: 115 W, in: display, on: strip, schedule: "10:00-20:00" }
  spare-air: { kind: air-pump, power: 5 W, in: display, on: strip, spare: { last-tried: never } }
  top-off: { kind: top-off, power: 8 W, flow: 60 L/h, in: sump, from: barrel, on: strip, own-float: { fills-below: 59 L, stops-at: 60 L, spare-stops-at: 63 L, longest-run: 10 min } }
sensors:
  temp: { measures: temperature, in: sump, type: thermistor, hub: brain }
  pump-flow: { measures: flow, at: return, hub: brain }
rules:
  warmth: { hub: brain, when: { temp: below 25 degC }, do: { heater: on }, until: { temp: above 25.4 degC } }
  too-warm: { hub: brain, when: { temp: above 27 degC, for: 15 min }, do: { heater: off }, at-most: 2 h, not-oftener: 30 min, notice: urgent, says: The tank is too warm }
  no-flow: { hub: brain, when: { pump-flow: below 500 L/h, for: 1 h }, notice: soon, says: The return stands }
people:
  keeper: { reached-by: [ push, call ], travel: 20 min, can: everything }
  neighbour: { reached-by: call, busy: weekdays 09:00-17:00, travel: 3 min, can: [ unplug, top-off ] }
ladder: [ keeper, after 20 min neighbour ]
silence-watch: { after: 20 min, tells: [ keeper ], tested: never }
circumstances: { night: { starts: 2026-01-17T02:00 } }
`;

const shed = siteOf(SHED);
const sheet = setUpSheet(shed);
const trials = new Map(provingTrials(shed).map((trial) => [trial.id, trial]));
const papersOf = (site: Site) =>
  makePapers({
    site,
    defaults: [],
    journal: [],
    unread: [],
    rehearsal: { report: reportOf(site), finishedAt: "2026-11-25T10:00:00.000Z" },
    nowMs: Date.parse("2026-11-25T12:00:00Z"),
  });

function trial(id: string) {
  const found = trials.get(id);
  if (found === undefined) throw new Error(`no trial ${id} among ${[...trials.keys()].join(", ")}`);
  return found;
}

describe("the set-up sheet", () => {
  it("sums a circuit with all that hangs from it, at the volts of the place", () => {
    // 300 + 60 + 115 + 5 + 8 W of devices, 6 W of the hub, 10 W of the router.
    const strip = sheet.circuits.find(({ circuit }) => circuit === "strip");
    expect(strip).toMatchObject({ loadW: 504, talkingW: 16, limitA: 13, overLimit: false });
    expect(strip?.loadA).toBeCloseTo(504 / 230, 9);
    expect(sheet.circuits.find(({ circuit }) => circuit === "ring")?.loadW).toBe(504);
  });

  it("says where a circuit carries more than its limit", () => {
    const weak: Site = { ...shed, circuits: shed.circuits.map((one) => ({ ...one, limitA: 2 })) };
    expect(setUpSheet(weak).circuits.map(({ overLimit }) => overLimit)).toEqual([true, true]);
  });

  it("has each plug with its load, what it falls to and its own hours", () => {
    const socket = (id: string) => sheet.sockets.find(({ device }) => device === id);
    expect(socket("heater")).toMatchObject({ circuit: "strip", hub: "brain", withoutHub: "off", loadW: 300 });
    expect(socket("heater")?.loadA).toBeCloseTo(1.304, 3);
    expect(socket("return")).toMatchObject({ hub: null, withoutHub: null, hours: "" });
    expect(socket("lamp")).toMatchObject({ loadA: 0.5, hours: "10:00-20:00" });
  });

  it("tells a rule with its threshold, hold time, limit, at-most and not-oftener", () => {
    const words = sheet.rules.find(({ rule }) => rule === "too-warm")?.words;
    expect(words).toContain("above 27 °C for 15 min");
    expect(words).toContain("switch heater off");
    expect(words).toContain("after 2 h at most");
    expect(words).toContain("at most once in 30 min");
  });

  it("tells the ladder of a notice with minutes from its sending, and whom it does not reach", () => {
    const [urgent, soon] = sheet.notices;
    expect(urgent).toMatchObject({ rule: "too-warm", urgency: "urgent", says: "The tank is too warm" });
    expect(urgent.ladder).toEqual([
      { person: "keeper", afterMin: 0, over: ["push", "call"] },
      { person: "neighbour", afterMin: 20, over: ["call"] },
    ]);
    expect(soon.ladder[1]).toEqual({ person: "neighbour", afterMin: 20, over: [] });
  });

  it("knows how long a battery lasts with all that it feeds", () => {
    // 10 W of the router and 5 W of the air pump out of 60 Wh.
    expect(sheet.batteries[0]).toMatchObject({ loadW: 15, lastsH: 4 });
  });
});

describe("a trial", () => {
  it("of a rule waits for the sensor, two readings of the hub and the hold time", () => {
    // 30 s of the thermistor, 2 x 15 s, 15 min.
    expect(trial("too-warm.works").withinS).toBe(30 + 30 + 900);
    // Without a hold time one reading is enough.
    expect(trial("warmth.works").withinS).toBe(30 + 15);
  });

  it("of what a hub works out every five minutes waits for that, and for a rate the half hour of its line", () => {
    const within = (when: string) => {
      const site = siteOf(SHED.replace("rules:\n", `rules:\n  fast: { hub: brain, when: ${when}, notice: urgent }\n`));
      return provingTrials(site).find(({ id }) => id === "fast.works")?.withinS;
    };
    expect(within("{ temp: rising 1 degC/h }")).toBe(30 + 15 + RATE_WINDOW_S + 300);
    expect(within("{ temp: rising 1 degC/h, for: 10 min }")).toBe(30 + 30 + 600 + RATE_WINDOW_S + 300);
    expect(within("{ temp: unchanged for 10 min }")).toBe(30 + 30 + 600 + 300);
  });

  it("of a rule on warmth warms a cup and not the tank, and holds the heater back where it would go on", () => {
    const warm = trial("too-warm.works");
    expect(warm.steps.join(" ")).toContain("cup");
    expect(warm.steps.join(" ")).not.toContain("lamp");
    const cold = trial("warmth.works");
    expect(cold.steps[0]).toMatch(/^Unplug heater \(on strip\) and put a lamp/);
    expect(cold.putBack).toContain("plug heater in again");
  });

  it("lets no pump stand still for an hour: the hold time is shortened and set back", () => {
    const { steps, putBack, withinS } = trial("no-flow.works");
    expect(steps.join(" ")).toContain("from 1 h to 1 min");
    expect(putBack).toContain("back to 1 h");
    expect(withinS).toBeLessThan(300);
  });

  it("says who is told, by what and who is next", () => {
    const told = trial("too-warm.works").must.find((line) => line.includes("The tank is too warm"));
    expect(told).toContain("reaches keeper by push and call");
    expect(told).toContain("neighbour after 20 min");
  });

  it("of a siphon break knows what comes back and that there is room for it", () => {
    const { steps, must } = trial("sump-to-display.siphon-break");
    expect(steps[0]).toContain("room for about 40 L");
    expect(must[0]).toContain("about 15 L");
  });

  it("makes room first where the sump has none for what runs back", () => {
    const low = siteOf(SHED.replace("sump: { volume: 60 L, brim: 100 L", "sump: { volume: 60 L, brim: 70 L"));
    const steps = provingTrials(low).find(({ id }) => id === "return.starts-again")?.steps ?? [];
    // 15 L run back, a tenth more is wanted, and there is room for 10.
    expect(steps[0]).toContain("Take 7 L of water out of sump first");
  });

  it("of a longest run says how much the bucket must take", () => {
    expect(trial("top-off.longest-run").steps.join(" ")).toContain("10 L");
    expect(trial("top-off.longest-run").withinS).toBe(600);
  });

  it("of a battery runs half an hour of its four, and takes over at once", () => {
    expect(trial("shelf.carries").steps.at(-1)).toBe("Leave it so for 30 min.");
    expect(trial("shelf.carries").must.join(" ")).toContain("about 4 h");
    expect(trial("shelf.carries").withinS).toBe(10);
  });

  it("of the watch outside waits for the silence and for the quickest way to a person", () => {
    expect(trial("*.silence").withinS).toBe((20 + 3) * 60);
    expect(trial("*.silence").steps[0]).toContain("leave the power of brain on");
  });

  it("of a way out cuts the others", () => {
    expect(trial("brain.over-line").steps[0]).toContain("mobile");
    expect(trial("brain.over-mobile").steps[0]).toContain("line");
  });
});

describe("the proving list of any place", () => {
  it("has a trial for every rule, battery, spare, hub and person who is told, and no two of one name", () => {
    fc.assert(
      fc.property(randomSites, (text) => {
        const site = siteOf(text);
        const list = provingTrials(site);
        const ids = list.map(({ id }) => id);
        expect(new Set(ids).size).toBe(ids.length);
        const proved = new Set(
          list.filter(({ renews }) => renews !== null).map(({ part, renews }) => `${renews?.of} ${part}`),
        );
        const wanted = [
          ...site.rules.map(({ id }) => `rule ${id}`),
          ...site.sensors.map(({ id }) => `sensor ${id}`),
          ...site.batteries.map(({ id }) => `battery ${id}`),
          ...site.devices.filter(({ spare }) => spare !== null).map(({ id }) => `spare ${id}`),
          ...site.hubs.map(({ id }) => `hub ${id}`),
          ...(site.rules.some(({ notice }) => notice !== null)
            ? site.ladder.map(({ person }) => `person ${person}`)
            : []),
        ];
        expect(wanted.filter((part) => !proved.has(part))).toEqual([]);
      }),
      { numRuns: 40 },
    );
  });

  it("asks nobody to warm, cool, dose or drain a tank, or to open anything live", () => {
    const forbidden =
      /unscrew|open the (socket|plug|strip|housing)|(heat|warm|cool|drain|empty) the (tank|display|sump|water)/i;
    fc.assert(
      fc.property(randomSites, (text) => {
        for (const { steps, putBack } of provingTrials(siteOf(text)))
          expect([...steps, putBack].filter((step) => forbidden.test(step))).toEqual([]);
      }),
      { numRuns: 40 },
    );
  });

  it("has a caution wherever a plug is pulled or a hand comes near water", () => {
    for (const { id, steps, caution } of trials.values())
      if (/nplug|rod|bucket|cup/.test(steps.join(" "))) expect(caution, id).not.toBeNull();
  });
});

describe("the report", () => {
  const site = school();
  const { report } = papersOf(site);
  const rehearsed = reportOf(site);
  const singles = rehearsed.drills.filter(({ faults }) => faults.length === 1);

  it("counts every single drill once, by verdict, by system and by circumstance", () => {
    const sum = (counts: Readonly<Record<string, number>>) => Object.values(counts).reduce((a, b) => a + b, 0);
    expect(report?.drills).toBe(singles.length);
    expect(sum(report?.counts ?? {})).toBe(singles.length);
    for (const rows of [report?.bySystem, report?.byCircumstance])
      expect((rows ?? []).reduce((all, row) => all + row.drills, 0)).toBe(singles.length);
  });

  it("counts as held what ended without a finding, and not what was not simulated", () => {
    const held = singles.filter(({ finding, verdict }) => finding === null && verdict !== "not simulated");
    expect(report?.held).toBe(held.length);
  });

  it("has its findings worst first, one a fault, with pairs apart", () => {
    const rank = (verdict: string) => ["unseen", "late", "handed over", "handled"].indexOf(verdict);
    const ranks = (report?.findings ?? []).map(({ verdict }) => rank(verdict));
    expect(ranks.length).toBeGreaterThan(0);
    expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
    expect(new Set(report?.findings.map(({ drill }) => drill.split("@")[0])).size).toBe(ranks.length);
    expect(report?.pairs?.drills).toBe(rehearsed.drills.length - singles.length);
  });
});

describe("the key-holder's sheet", () => {
  it("has five acts at most, only those that the person can do, and whom to call in the order of the ladder", () => {
    const { keyHolders } = papersOf(shed);
    const neighbour = keyHolders.find(({ person }) => person === "neighbour");
    expect(neighbour?.acts.length).toBeLessThanOrEqual(5);
    expect(neighbour?.acts.map(({ act }) => act).join(" ")).not.toMatch(/breaker|generator/);
    expect(neighbour?.calls.map(({ person }) => person)).toEqual(["keeper"]);
    expect(neighbour?.systems[0]).toMatchObject({ highC: 27, vessels: [{ body: "barrel", holds: "fresh" }] });
  });

  it("says no word of the product and no verdict", () => {
    const text = JSON.stringify(papersOf(shed).keyHolders);
    expect(text).not.toMatch(/slackwater|rehears|drill|verdict|absorbed|unseen|handed over/i);
  });

  it("tells a heater that sticks in the words of its plug and its place", () => {
    const site: Site = {
      ...shed,
      people: [{ ...shed.people[0], id: "helper", can: ["unplug"] }],
      ladder: [],
    };
    const { keyHolders } = makePapers({ site, defaults: [], journal: [], unread: [], rehearsal: null, nowMs: 0 });
    const warm = keyHolders[0].acts.find(({ see }) => see.includes("temperature"));
    expect(warm?.plugs).toEqual([{ device: "heater", on: "strip" }]);
  });
});
