/** The catalogue as a whole: names, parts, levers, ends; that every mode can be injected and ended. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { partIndex, type Site, type Skill } from "../../site/index.ts";
import { LEVERS, type LeverKind } from "../../twin/index.ts";
import { fullSite, fullSiteWithoutGenerator } from "./full-site-for-tests.ts";
import { type Bench, type Fault, type FaultGroup, faultId, faultModes, faultsOf, findFault } from "./index.ts";

const GROUPS: readonly FaultGroup[] = [
  "heat",
  "circulation",
  "top-off",
  "dosing",
  "gas",
  "light",
  "feeding",
  "filtration",
  "plumbing",
  "sensing",
  "power",
  "network",
  "people",
  "livestock",
  "environment",
];

const SKILLS: readonly Skill[] = [
  "everything",
  "unplug",
  "reset",
  "top-off",
  "refill",
  "repair",
  "feed",
  "mop",
  "water-change",
  "start-generator",
];

const sites: readonly Site[] = [fullSite(), fullSiteWithoutGenerator()];
const everyFault = sites.flatMap((site) => faultsOf(site).map((fault) => ({ site, fault })));

function kindOf(site: Site, part: string): LeverKind {
  if (part === "mains") return "mains";
  if (part === "*") return "system";
  const found = partIndex(site).get(part);
  if (found === undefined) throw new Error(`${part} is no part of ${site.name}`);
  return found.kind;
}

/** A bench that writes down what is done to it and refuses what the twin could not do. */
function recordingBench(site: Site): { bench: Bench; done: string[]; pulled: Map<string, number> } {
  const done: string[] = [];
  const pulled = new Map<string, number>();
  const body = (id: string) => expect(site.bodies.map((one) => one.id)).toContain(id);
  const amount = (value: number) => {
    expect(Number.isFinite(value)).toBe(true);
    expect(value).toBeGreaterThanOrEqual(0);
  };
  const act = (what: string, ids: readonly string[], value = 0) => {
    for (const id of ids) body(id);
    amount(value);
    done.push(what);
  };
  const bench: Bench = {
    site,
    set(part, lever, value) {
      expect(Object.keys(LEVERS[kindOf(site, part)]), `${part} has no lever ${lever}`).toContain(lever);
      expect(Number.isFinite(value)).toBe(true);
      pulled.set(`${part}:${lever}`, value);
      done.push("set");
    },
    release(part, lever) {
      const levers = Object.keys(LEVERS[kindOf(site, part)]);
      if (lever !== undefined) expect(levers).toContain(lever);
      for (const name of lever === undefined ? levers : [lever]) pulled.delete(`${part}:${name}`);
      done.push("release");
    },
    food: (into, grams) => act("food", [into], grams),
    carcass: (into, grams) => act("carcass", [into], grams),
    pour: (into, _what, mol) => act("pour", [into], mol),
    move: (from, to, litres) => act("move", [from, to], litres),
    changeWater(system, share) {
      expect(site.systems.map((one) => one.id)).toContain(system);
      expect(share).toBeGreaterThan(0);
      expect(share).toBeLessThanOrEqual(1);
      done.push("changeWater");
    },
    takeOut: (from, share) => act("takeOut", [from], share),
    addFresh: (into, litres) => act("addFresh", [into], litres),
    spill: (from, litres) => act("spill", [from], litres),
    startBattery(battery) {
      expect(site.batteries.map((one) => one.id)).toContain(battery);
      done.push("startBattery");
    },
    refill: (into) => act("refill", [into]),
    closeCircuit(circuit) {
      expect(site.circuits.map((one) => one.id)).toContain(circuit);
      for (const key of [`${circuit}:open`]) pulled.delete(key);
      done.push("closeCircuit");
    },
  };
  return { bench, done, pulled };
}

describe("the catalogue", () => {
  it("knows far more than eighty ways to fail", () => {
    const names = new Set(faultModes.map((mode) => `${mode.group}: ${mode.name}`));
    expect(names.size).toBeGreaterThanOrEqual(150);
  });

  it("has modes in every group and of every onset", () => {
    for (const group of GROUPS)
      expect(
        faultModes.some((mode) => mode.group === group),
        group,
      ).toBe(true);
    expect(new Set(faultModes.map((mode) => mode.group)).size).toBe(GROUPS.length);
    for (const onset of ["sudden", "creeping", "latent"]) {
      expect(faultModes.filter((mode) => mode.onset === onset).length, onset).toBeGreaterThanOrEqual(15);
    }
  });

  it("finds a part for every mode in a place that has one of everything", () => {
    const idle = faultModes.filter((mode) => sites.every((site) => mode.parts(site).length === 0));
    expect(idle.map((mode) => mode.name)).toEqual([]);
  });

  it.each([
    ["with a generator", sites[0]],
    ["without one", sites[1]],
  ] as const)("gives every fault of a place %s its own id", (_, site) => {
    const ids = faultsOf(site).map(faultId);
    expect(ids.filter((id, place) => ids.indexOf(id) !== place)).toEqual([]);
  });

  it("names kebab-case modes, on parts of the kind that they say", () => {
    for (const { site, fault } of everyFault) {
      expect(fault.mode.mode).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
      expect(kindOf(site, fault.part), faultId(fault)).toBe(fault.mode.of);
    }
  });

  it("speaks of faults without the ids of parts, and of ends and helps in words with {part} at most", () => {
    for (const { site, fault } of everyFault) {
      const { name, helps, end } = fault.mode;
      expect(name).toMatch(/^([A-Z]|pH )/);
      expect(name).not.toMatch(/[{}.]$|\{part\}/);
      for (const id of partIndex(site).keys()) if (id.includes("-")) expect(name).not.toContain(id);
      expect(helps.length, faultId(fault)).toBeGreaterThanOrEqual(1);
      expect(helps.length, faultId(fault)).toBeLessThanOrEqual(4);
      for (const words of [...helps, end.act]) {
        expect(words.trim()).not.toBe("");
        expect(words.replaceAll("{part}", "")).not.toMatch(/[{}]/);
      }
    }
  });

  it("asks for skills that people can have and for minutes that people take", () => {
    for (const { end, lastsMin } of faultModes) {
      expect(SKILLS).toContain(end.needs);
      expect(end.minutes).toBeGreaterThanOrEqual(5);
      expect(end.minutes).toBeLessThanOrEqual(75);
      if (lastsMin !== undefined) expect(lastsMin).toBeGreaterThan(0);
    }
  });

  it("says how often, how surely and from what", () => {
    for (const { rate, onset, name } of faultModes) {
      expect(rate.perYear, name).toBeGreaterThan(0);
      expect(rate.perYear, name).toBeLessThanOrEqual(onset === "latent" ? 1 : 3);
      expect(rate.factor, name).toBeGreaterThanOrEqual(1.5);
      expect(rate.source, name).toMatch(/^(counted|industrial data|keepers' reports|guess): \S/);
    }
  });

  it("tells for every latent fault, and only for those, what it stands behind", () => {
    for (const mode of faultModes) {
      expect(mode.backs !== undefined, mode.name).toBe(mode.onset === "latent");
      expect(mode.triedEveryMonths !== undefined, mode.name).toBe(mode.onset === "latent");
    }
    for (const { site, fault } of everyFault) {
      const backed = fault.mode.backs?.(site, fault.part) ?? [];
      expect(new Set(backed).size, faultId(fault)).toBe(backed.length);
      for (const part of backed) kindOf(site, part);
      const months = fault.mode.triedEveryMonths?.(site, fault.part) ?? null;
      if (months !== null) expect(months).toBeGreaterThan(0);
    }
  });
});

describe("a latent fault", () => {
  const site = fullSite();
  const tried = (id: string): number | null => {
    const fault = findFault(site, id);
    if ("error" in fault) throw new Error(`${fault.error}; ${fault.hint}`);
    return fault.mode.triedEveryMonths?.(site, fault.part) ?? null;
  };

  it("is found by a trial that comes at least every quarter, and by no rarer one", () => {
    expect(tried("cells.battery-dead")).toBe(2);
    expect(tried("generator.will-not-start")).toBeNull();
    expect(tried("spare-air.spare-dead")).toBe(2);
    expect(tried("spare-heater.spare-dead")).toBeNull();
    expect(tried("floor.dead")).toBe(2);
    expect(tried("high-float.seized")).toBe(1);
    expect(tried("*.silence-watch-dead")).toBe(2);
    expect(tried("strip-live.stuck-present")).toBeNull();
  });

  it("stands behind what it is meant to replace", () => {
    const backs = (id: string): readonly string[] => {
      const fault = findFault(site, id);
      if ("error" in fault) throw new Error(fault.error);
      return fault.mode.backs?.(site, fault.part) ?? [];
    };
    expect(backs("main-top-off.second-float-dead")).toEqual(["main-top-off"]);
    expect(backs("spare-heater.spare-dead")).toEqual(["heater-1", "heater-2"]);
    expect(backs("return.no-restart")).toEqual(["mains", "strip", "ring", "board"]);
    expect(backs("up.check-valve-open")).toEqual(["return", "mains", "strip", "ring", "board"]);
    expect(backs("cells.battery-dead")).toContain("mains");
    expect(backs("floor.dead")).toEqual(expect.arrayContaining(["display", "sump", "up"]));
    expect(backs("warm.left-off")).toEqual(expect.arrayContaining(["heater-2"]));
    expect(backs("spare-air.spare-dead")).toEqual(expect.arrayContaining(["return", "wave", "mains", "strip"]));
  });
});

describe("parts that a fault can strike", () => {
  const site = fullSite();
  const parts = (mode: string) =>
    faultsOf(site)
      .filter((fault) => fault.mode.mode === mode)
      .map((fault) => fault.part);

  it("are switched by a hub where a relay welds", () => {
    for (const part of [...parts("socket-stays-on"), ...parts("socket-stays-off"), ...parts("plugged-past-hub")]) {
      expect(site.devices.find((device) => device.id === part)?.by, part).not.toBeNull();
    }
  });

  it("have what is said to fail", () => {
    expect(parts("second-float-dead")).toEqual(["main-top-off"]);
    expect(parts("run-limit-off")).toEqual(["main-top-off"]);
    expect(parts("check-valve-open")).toEqual(["up"]);
    expect(parts("spare-drain-blocked")).toEqual(["up"]);
    expect(parts("cut-out-dead")).toEqual(["heater-1"]);
    expect(parts("timer-stays-on")).toEqual(["timed-top-off"]);
    expect(parts("screen-clogs")).toEqual(["through-screen"]);
    expect(parts("drain-blocked")).toEqual(["up"]);
    expect(parts("shows-minus-127")).toEqual(["sump-temp"]);
    expect(parts("lead-broken")).toEqual(["display-temp"]);
    expect(parts("swapped")).toEqual(["alkalinity-doser", "night-doser"]);
    expect(parts("carbon-overdose")).toEqual(["carbon-doser"]);
    expect(parts("lime-slurry")).toEqual(["lime-top-off"]);
    expect(parts("hand-dose-tenfold")).toEqual(["cube"]);
    expect(parts("batch-stays-on")).toEqual(["heater-1"]);
    expect(parts("shared-batch-wrong")).toEqual(["alkalinity-can"]);
    expect(parts("stays-open-after-blink")).toEqual(["ring"]);
    expect(parts("does-not-know-how")).toEqual(["neighbour"]);
  });

  it("leaves out sensors that no rule reads", () => {
    expect(faultsOf(site).some((fault) => fault.part === "unread")).toBe(false);
  });

  it("lets leakage trip only below a protection that it exceeds", () => {
    expect(parts("gets-wet")).toEqual(["ring", "strip"]);
  });
});

/** What an end may leave as it is: a plug that stays out, bacteria that grow back slowly, breath that is answered with air. */
const LEFT = ["dead", "filter", "demand"];

describe("every fault", () => {
  it.each(everyFault.map(({ site, fault }) => [`${faultId(fault)} (${site.batteries.length})`, site, fault] as const))(
    "%s acts and can be ended",
    (_, site, fault: Fault) => {
      const { bench, done, pulled } = recordingBench(site);
      fault.mode.inject(bench, fault.part);
      expect(done.length).toBeGreaterThan(0);
      const levers = [...pulled.keys()];
      const before = done.length;
      fault.mode.end.apply(bench, fault.part);
      expect(done.length).toBeGreaterThan(before);
      const put = levers.filter((lever) => pulled.has(lever) && !LEFT.includes(lever.split(":")[1]));
      if (fault.mode.of !== "mains") expect(put, "levers that stay pulled").toEqual([]);
    },
  );
});

describe("a fault by its name", () => {
  const site = fullSite();

  it("is found where it exists", () => {
    for (const fault of faultsOf(site)) expect(findFault(site, faultId(fault))).toBe(fault);
  });

  it("is guessed after a slip of the hand", () => {
    expect(findFault(site, "heater-1.stays-no")).toMatchObject({ hint: "did you mean 'heater-1.stays-on'?" });
    expect(findFault(site, "heatr-1.stays-on")).toMatchObject({ hint: "did you mean 'heater-1.stays-on'?" });
  });

  it("is refused with what the part can do, or that there is no such part", () => {
    expect(findFault(site, "heater-1")).toMatchObject({ error: "'heater-1' names a part, not a fault" });
    expect(findFault(site, "heater-1.sings")).toMatchObject({ error: "heater-1 cannot fail as 'sings'" });
    expect(findFault(site, "unread.dead")).toMatchObject({ error: "no fault of unread is known" });
    expect(findFault(site, "zzzzzzzzzz.dead")).toMatchObject({
      error: "One of everything has no part called 'zzzzzzzzzz'",
    });
  });

  it("never throws, whatever is written", () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const found = findFault(site, text);
        if ("error" in found) expect(found.hint.length).toBeGreaterThan(0);
      }),
    );
  });
});
