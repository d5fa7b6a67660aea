import fc from "fast-check";
import { expect, it } from "vitest";
import { plainLife, Stage } from "../../drills/index.ts";
import { formatSiteError, type Site } from "../../site/index.ts";
import { type FirstSiteAnswers, type TankAnswers, USUAL_ANSWERS, USUAL_TANK } from "./answers.ts";
import { anyAnswers } from "./answers-for-tests.ts";
import { type FirstSite, firstSite } from "./first-site.ts";

const FILE = "first.yaml";

function withTank(changes: Partial<TankAnswers>, more: Partial<FirstSiteAnswers> = {}): FirstSite {
  return firstSite({ ...USUAL_ANSWERS, ...more, tanks: [{ ...USUAL_TANK, ...changes }] }, FILE);
}

function siteOf(made: FirstSite): Site {
  expect(made.errors.map(formatSiteError)).toEqual([]);
  if (made.site === null) throw new Error("no site, and no error that says why");
  return made.site;
}

const device = (site: Site, id: string) => site.devices.find((each) => each.id === id);

it("whatever a person answers that can be read makes a site without an error", () => {
  fc.assert(
    fc.property(anyAnswers, (answers) => {
      const { site, errors } = firstSite(answers, FILE);
      expect(errors.map(formatSiteError)).toEqual([]);
      expect(site?.systems).toHaveLength(answers.tanks.length);
      expect(site?.people).toHaveLength(answers.people.length);
    }),
    { numRuns: 60 },
  );
});

it("every blank that is taken as usual may be written out and gives the same site", () => {
  const made = withTank({});
  const { usual } = made;
  const spoken = withTank({
    volume: usual["tanks.0.volume"],
    temperature: usual["tanks.0.temperature"],
    sumpVolume: usual["tanks.0.sumpVolume"],
    heaterPower: usual["tanks.0.heaterPower"],
    returnFlow: usual["tanks.0.returnFlow"],
    waveFlow: usual["tanks.0.waveFlow"],
    lightHours: usual["tanks.0.lightHours"],
    topOffVolume: usual["tanks.0.topOffVolume"],
  });
  expect(siteOf(spoken)).toEqual(siteOf(made));
  expect(spoken.assumptions.length).toBeLessThan(made.assumptions.length);
});

it("pressing Next throughout gives one steady tank: three days of plain life keep it warm and raise no notice", () => {
  const site = siteOf(firstSite({ ...USUAL_ANSWERS, zone: "Europe/Berlin" }, FILE));
  const life = plainLife(new Stage(site, 1), site.circumstances[1], {
    stepMin: 60,
    only: [],
    everywhere: true,
    days: 3,
  });
  const warmth = life.trace.truth["display.temperature_c"];
  expect(Math.min(...warmth)).toBeGreaterThan(24.5);
  expect(Math.max(...warmth)).toBeLessThan(26.5);
  expect(life.events.filter(({ kind }) => kind === "notice")).toEqual([]);
});

it.each([
  ["a hub heats, and tops off by a float", { heaterSwitch: "hub", topOffSwitch: "hub", dosing: "two-part" }],
  [
    "a small tank without a sump is kept for seahorses",
    { life: "seahorses", volume: "20 gal", hasSump: false, wavePumps: 1 },
  ],
  [
    "limewater tops off corals that a reactor feeds",
    { topOff: "limewater", dosing: "reactor", heaterSwitch: "hub-and-own-thermostat" },
  ],
] satisfies [string, Partial<TankAnswers>][])("it can be rehearsed when %s", (_, changes) => {
  const made = withTank(changes, { plugging: "two-circuits", airBattery: true, routerBattery: true, leakSensor: true });
  const site = siteOf(made);
  const life = plainLife(new Stage(site, 1), site.circumstances[0], {
    stepMin: 60,
    only: [],
    everywhere: true,
    days: 2,
  });
  const wanted = "life" in changes ? 23 : 25.5;
  const warmth = life.trace.truth["display.temperature_c"];
  for (const value of warmth) expect(Math.abs(value - wanted)).toBeLessThan(1.5);
  expect(life.trace.truth["display.salinity"].at(-1)).toBeCloseTo(35, 0);
});

it.each([
  ["100 L", 1, 150],
  ["200 L", 1, 200],
  ["200 L", 2, 100],
  ["1000 L", 2, 400],
  ["50 gal", 2, 100],
])("a bare tank of %s with %d heaters gets %d W each, by the trade's watt a litre", (volume, heaters, watts) => {
  const site = siteOf(withTank({ volume, heaters, hasSump: false }));
  const found = site.devices.filter(({ kind }) => kind === "heater").map(({ powerW }) => powerW);
  expect(found).toEqual(Array.from({ length: heaters }, () => watts));
});

it("a full can of top-off water thins the salt of a usual tank by less than a tenth when all of it runs in", () => {
  for (const volume of ["80 L", "200 L", "600 L", "2000 L"]) {
    const site = siteOf(withTank({ volume }));
    const can = site.bodies.find(({ id }) => id === "top-off-can")?.volumeL ?? Number.NaN;
    const water = site.bodies.filter(({ holds }) => holds.kind === "salt").reduce((sum, each) => sum + each.volumeL, 0);
    expect(can / (can + water), volume).toBeLessThan(0.1);
  }
});

it("what is said in gallons is guessed in gallons", () => {
  const { usual } = withTank({ volume: "55 gal" });
  expect(usual["tanks.0.sumpVolume"]).toBe("11 gal");
  expect(usual["tanks.0.returnFlow"]).toMatch(/ gal\/h$/);
});

it("seahorses are kept cooler, in gentler water, and are counted as seahorses", () => {
  const site = siteOf(withTank({ life: "seahorses" }));
  const display = site.bodies.find(({ id }) => id === "display");
  expect(display?.livestock).toMatchObject({ corals: null, fishGroup: "seahorses" });
  expect(device(site, "heater-1")?.ownThermostatC).toBe(23);
  expect(device(site, "wave-1")?.flowLPerH).toBe(500);
});

it("two circuits leave some heat and some flow on either", () => {
  const site = siteOf(withTank({}, { plugging: "two-circuits" }));
  for (const circuit of ["circuit-a", "circuit-b"]) {
    const kinds = site.devices.filter(({ on }) => on === circuit).map(({ kind }) => kind);
    expect(kinds, circuit).toContain("heater");
    expect(kinds, circuit).toContain("wave-pump");
  }
});

it("a breaker carries at least a quarter more than hangs on it, also of twelve large tanks on one strip", () => {
  const tanks = Array.from({ length: 12 }, () => ({ ...USUAL_TANK, volume: "900 L" }));
  const site = siteOf(firstSite({ ...USUAL_ANSWERS, tanks }, FILE));
  const drawn = site.devices.reduce((sum, { powerW }) => sum + powerW, 0) / site.mains.volts;
  for (const { limitA } of site.circuits) expect(limitA).toBeGreaterThanOrEqual(1.25 * drawn);
});

it("American sockets are guessed from the zone, with breakers that fit them", () => {
  const site = siteOf(firstSite({ ...USUAL_ANSWERS, zone: "America/New_York" }, FILE));
  expect(site.mains.volts).toBe(120);
  expect(site.circuits[0]).toMatchObject({ limitA: 15, tripsOnLeakMA: 5 });
});

it("a siren that nobody answers for is heard by those who are there, and by nobody else", () => {
  const [keeper] = USUAL_ANSWERS.people;
  const people = [keeper, { ...keeper, name: "Aunt", whereabouts: "elsewhere" as const }];
  const site = siteOf(firstSite({ ...USUAL_ANSWERS, messages: "beep", people }, FILE));
  expect(site.people.map(({ reachedBy }) => reachedBy.includes("siren"))).toEqual([true, false]);
  expect(site.hubs[0].sendsOver).toEqual([]);
});

it("with nothing that measures there is no hub and no rule, and the looking is left to people", () => {
  const site = siteOf(firstSite({ ...USUAL_ANSWERS, hub: false }, FILE));
  expect([site.hubs, site.sensors, site.rules]).toEqual([[], [], []]);
  expect(site.people[0].looks).toHaveLength(2);
});

it.each([
  ["volume", "200", "'200' has no unit"],
  ["volume", "2,5 m3", "has a comma in its number"],
  ["sumpVolume", "40 W", "is an electrical power, but a volume is wanted"],
  ["heaterPower", "lots", "does not begin with a number"],
  ["lightHours", "25:00-20:00", "25:00"],
  ["temperature", "250 degC", "the most that makes sense here"],
  ["waveFlow", "-3 L/h", "is negative"],
  ["returnFlow", "0 L/h", "moves no water"],
  ["topOffVolume", "0 L", "more than nothing"],
] satisfies [keyof TankAnswers, string, string][])(
  "a %s of %j is told at its field, in the loader's words",
  (key, written, words) => {
    const { site, errors, text } = withTank({ [key]: written });
    expect(site).toBeNull();
    expect(errors).toHaveLength(1);
    expect(errors[0].field).toBe(`tanks.0.${key}`);
    expect(errors[0].message).toContain(words);
    expect(text).toContain(written);
  },
);

it.each(["1 mL", "1e7 L", "1e9 L"])(
  "a tank of %s is refused or built, and nothing is told beside a field",
  (volume) => {
    const { errors } = withTank({ volume, hasSump: false });
    expect(errors.filter(({ field }) => field === "")).toEqual([]);
  },
);

it.each([
  ["zone", { zone: "Europe/Atlantis" }],
  ["away", { away: "a while" }],
  ["mains", { mains: "230" }],
  ["people.0.asleep", { people: [{ ...USUAL_ANSWERS.people[0], asleep: "at night" }] }],
  ["people.0.travel", { people: [{ ...USUAL_ANSWERS.people[0], travel: "far" }] }],
  ["people.0.reachedBy", { people: [{ ...USUAL_ANSWERS.people[0], reachedBy: [] }] }],
  ["place", { place: "x".repeat(150) }],
] satisfies [string, Partial<FirstSiteAnswers>][])("what is wrong with %s is told there", (field, changes) => {
  const { errors } = firstSite({ ...USUAL_ANSWERS, ...changes }, FILE);
  expect(errors.map((error) => error.field)).toEqual([field]);
});

it("each assumption stands in the file above what it is about", () => {
  const { text, assumptions } = withTank({});
  const flat = text.replace(/\n *# (?!Assumed)/g, " ");
  const said = [...flat.matchAll(/# Assumed: (.*)/g)].map(([, words]) => words.toLowerCase());
  expect(assumptions.filter(({ why }) => why === "").map(({ text: words }) => words.toLowerCase())).toEqual(said);
});

it("no words of a person can become keys or comments of the file", () => {
  const made = withTank({ name: "x\n  heater: { power: 9 kW } #" }, { place: "Reef # two\nrooms: {}" });
  const site = siteOf(made);
  expect(site.name).toBe("Reef # two\nrooms: {}");
  expect(site.devices.map(({ id }) => id)).not.toContain("heater");
});
