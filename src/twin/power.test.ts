/** Power: what runs on what, for how long, and what opens. */
import { describe, expect, it } from "vitest";
import { HOUR_S, type Run, startRun } from "../../test/sites.ts";
import { circuitLive, energyWh, hubPowered, linkCarries, openAfterCut, resetCircuit, startBattery } from "./power.ts";

function site(
  more: {
    readonly circuits?: string;
    readonly batteries?: string;
    readonly devices?: string;
    readonly rest?: string;
  } = {},
): string {
  return `
site: Power
power:
  circuits:
    ring: { limit: 16 A, trips-on-leak: 30 mA }
    strip: { on: ring, limit: 10 A, trips-on-leak: none }
    other-ring: { limit: 16 A, trips-on-leak: 30 mA }
${more.circuits ?? ""}
  batteries:
    shelf-battery: { energy: 300 Wh, on: ring, feeds: [ return, air ] }
${more.batteries ?? ""}
systems:
  reef:
    bodies:
      display: { volume: 300 L, livestock: { fish: 50 g } }
      sump: { volume: 80 L, brim: 130 L }
    circulation: [ { from: sump, to: display, by: return } ]
devices:
  return: { kind: return-pump, in: sump, power: 50 W, on: strip }
  air: { kind: air-pump, in: display, power: 10 W, on: strip }
  heater: { kind: heater, in: sump, power: 300 W, on: strip }
  lamp: { kind: light, in: display, power: 100 W, on: other-ring, schedule: "10:00-20:00" }
${more.devices ?? ""}
${more.rest ?? ""}`;
}

function live(run: Run, circuit: string): boolean {
  return circuitLive(run.twin, run.twin.model.circuitIndex.get(circuit) ?? -1);
}

function cut(run: Run, down: boolean): Run {
  return run.set("mains", "down", down ? 1 : 0);
}

/** Hours after `fromH` at which a part told something. */
function toldAtH(run: Run, part: string, words: string): number[] {
  return run.events
    .filter((event) => event.part === part && event.text.includes(words))
    .map((event) => event.tS / HOUR_S);
}

describe("a battery", () => {
  it("carries what hangs on it through a cut, and nothing else", () => {
    const run = cut(startRun(site()).hours(1), true).hours(0.1);
    expect([run.runs("return"), run.runs("air"), run.runs("heater"), run.runs("lamp")]).toEqual([
      true,
      true,
      false,
      false,
    ]);
  });

  it("is empty after its energy over its load: 300 Wh at 60 W last 5 h", () => {
    const run = cut(startRun(site()).hours(1), true).hours(8);
    expect(toldAtH(run, "shelf-battery", "empty")[0]).toBeCloseTo(6, 2);
    expect(toldAtH(run, "return", "stops")[0]).toBeCloseTo(6, 2);
    expect(run.runs("air")).toBe(false);
  });

  it("lasts half as long with half its capacity, and not at all where it does not take over", () => {
    const half = cut(startRun(site()).set("shelf-battery", "capacity", 0.5).hours(1), true).hours(8);
    expect(toldAtH(half, "return", "stops")[0]).toBeCloseTo(3.5, 2);
    const none = cut(startRun(site()).set("shelf-battery", "noTakeover", 1).hours(1), true).hours(0.1);
    expect(none.runs("return")).toBe(false);
  });

  it("fills again when the mains are back, never above what it holds", () => {
    const run = cut(startRun(site()).hours(1), true).hours(3);
    expect(energyWh(run.twin, 0)).toBeCloseTo(300 - 3 * 60, 0);
    cut(run, false).hours(1);
    expect(energyWh(run.twin, 0)).toBeGreaterThan(121);
    run.hours(48);
    expect(energyWh(run.twin, 0)).toBe(300);
  });

  it("that is loose cells is not filled", () => {
    const run = cut(
      startRun(site().replace("energy: 300 Wh, on: ring", "energy: 300 Wh, on: none")).hours(1),
      true,
    ).hours(2);
    cut(run, false).hours(24);
    expect(energyWh(run.twin, 0)).toBeCloseTo(180, 0);
  });

  it("lasts longer the larger it is and the less it carries", () => {
    const stopsAtH = (energyWhs: number, feeds: string) => {
      const text = site()
        .replace("energy: 300 Wh", `energy: ${energyWhs} Wh`)
        .replace("feeds: [ return, air ]", `feeds: [ ${feeds} ]`);
      return toldAtH(cut(startRun(text), true).hours(60), "air", "stops").at(-1) ?? 60;
    };
    expect(stopsAtH(100, "return, air")).toBeLessThan(stopsAtH(200, "return, air"));
    expect(stopsAtH(200, "return, air")).toBeLessThan(stopsAtH(200, "air"));
  });

  it("that a person must start carries nothing until then", () => {
    const text = site().replace("feeds: [ return, air ]", "feeds: air");
    const withGenerator = text.replace(
      "    shelf-battery:",
      "    generator: { kind: generator, energy: 5000 Wh, feeds: return }\n    shelf-battery:",
    );
    const run = cut(startRun(withGenerator).hours(1), true).hours(1);
    expect(run.runs("return")).toBe(false);
    startBattery(run.twin, run.twin.model.batteryIndex.get("generator") ?? -1);
    run.hours(0.1);
    expect(run.runs("return")).toBe(true);
  });
});

describe("a breaker", () => {
  it("opens on a leak of more than it bears, with all that hangs from it, and stays open", () => {
    const run = startRun(site()).hours(1).set("heater", "leakMA", 60);
    run.hours(0.1);
    expect([live(run, "ring"), live(run, "strip"), live(run, "other-ring")]).toEqual([false, false, true]);
    expect(run.runs("heater")).toBe(false);
    expect(run.runs("return"), "its battery carries it on").toBe(true);
    run.set("heater", "leakMA", 0).hours(1);
    expect(live(run, "ring")).toBe(false);
    resetCircuit(run.twin, run.twin.model.circuitIndex.get("ring") ?? -1);
    run.hours(0.1);
    expect(live(run, "strip")).toBe(true);
  });

  it("holds on a leak of less", () => {
    const run = startRun(site()).hours(1).set("heater", "leakMA", 20);
    expect(live(run.hours(1), "ring")).toBe(true);
  });

  it("adds up small leaks", () => {
    const run = startRun(site()).hours(1).set("heater", "leakMA", 20).set("return", "leakMA", 20);
    expect(live(run.hours(1), "ring")).toBe(false);
  });

  it("opens again when it is closed on the same leak", () => {
    const run = startRun(site()).hours(1).set("heater", "leakMA", 60);
    run.hours(0.1);
    resetCircuit(run.twin, run.twin.model.circuitIndex.get("ring") ?? -1);
    expect(live(run.hours(0.1), "ring")).toBe(false);
  });

  it("opens on more current than it carries, and only that circuit", () => {
    // 300 W, 50 W and 10 W on the strip; 2400 W more are 12 A of its 10 A.
    const run = startRun(
      site({ devices: '  kettle: { kind: other, in: display, power: 2400 W, on: strip, schedule: "06:00-06:30" }' }),
    );
    run.hours(5.9);
    expect(live(run, "strip")).toBe(true);
    run.hours(0.2);
    expect([live(run, "ring"), live(run, "strip")]).toEqual([true, false]);
  });

  it("of the kind that needs a hand stays open after a cut", () => {
    const run = cut(
      startRun(site().replace("trips-on-leak: none }", "trips-on-leak: none, stays-open-after-cut: yes }")).hours(1),
      true,
    ).hours(1);
    cut(run, false);
    openAfterCut(run.twin);
    run.hours(1);
    expect([live(run, "ring"), live(run, "strip")]).toEqual([true, false]);
  });
});

describe("voltage too low for motors", () => {
  it("stops pumps and leaves heaters", () => {
    const run = startRun(site().replace("feeds: [ return, air ]", "feeds: []")).hours(1).set("mains", "sag", 1);
    run.hours(0.1).set("heater", "thermostat", 1).hours(0.2);
    expect([run.runs("return"), run.runs("heater")]).toEqual([false, true]);
  });
});

describe("a pump that has not been cleaned", () => {
  it("runs on until the power blinks, then not again", () => {
    const run = startRun(site().replace("feeds: [ return, air ]", "feeds: []"))
      .hours(1)
      .set("return", "noRestart", 1)
      .hours(5);
    expect(run.runs("return")).toBe(true);
    cut(run, true).hours(0.1);
    cut(run, false).hours(1);
    expect(run.runs("return")).toBe(false);
    expect(run.runs("air")).toBe(true);
  });
});

describe("hubs and links", () => {
  const withHub = () =>
    site({
      batteries: "    hub-battery: { energy: 64 Wh, on: ring }",
      rest: `links:
  router: { on: hub-battery }
  line: { via: router }
hubs:
  hub: { on: hub-battery, sends-over: line }
sensors:
  display-temp: { measures: temperature, in: display }`,
    });

  it("live on their battery: 6 W and 10 W empty 64 Wh in 4 h", () => {
    const run = cut(startRun(withHub()).hours(1), true).hours(3.9);
    expect([hubPowered(run.twin, 0), linkCarries(run.twin, 1)]).toEqual([true, true]);
    run.hours(0.2);
    expect([hubPowered(run.twin, 0), linkCarries(run.twin, 1)]).toEqual([false, false]);
  });

  it("a socket falls to what is written when its hub dies", () => {
    const falls = (word: string) => {
      const text = withHub().replace("power: 50 W, on: strip", `power: 50 W, on: strip, by: hub, without-hub: ${word}`);
      return startRun(text).hours(1).set("hub", "dead", 1).hours(0.2).runs("return");
    };
    expect([falls("on"), falls("off"), falls("as it was")]).toEqual([true, false, true]);
  });
});
