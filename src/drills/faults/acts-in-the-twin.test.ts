/** Faults as the water feels them: what each of these does to a running twin, and that its end undoes it. */
import { describe, expect, it } from "vitest";
import { DAY_S, type Run, startRun } from "../../../test/sites.ts";
import { advance, floorL, restore, snapshot } from "../../twin/index.ts";
import { makeBench } from "./bench.ts";
import { aerateByHand } from "./ends.ts";
import { fullSite } from "./full-site-for-tests.ts";
import { type Fault, faultId, faultsOf, findFault } from "./index.ts";

const site = fullSite();

function fault(id: string): Fault {
  const found = findFault(site, id);
  if ("error" in found) throw new Error(`${found.error}; ${found.hint}`);
  return found;
}

/** The place after a day of settling; restored for every run, a second later so that all its quantities are worked out. */
const settled = startRun(site, { fromS: -DAY_S, toS: 20 * DAY_S });
advance(settled.twin, 0);
const start = snapshot(settled.twin);

function runWith(hours: number, ...ids: string[]): Run {
  settled.twin.onEvent = (event) => settled.events.push(event);
  restore(settled.twin, start);
  settled.events.length = 0;
  advance(settled.twin, 1);
  for (const id of ids) fault(id).mode.inject(makeBench(settled.twin), fault(id).part);
  return settled.hours(hours);
}

/** What is left of a run after the next one has begun. */
interface Seen {
  readonly sumpC: number;
  readonly displayL: number;
  readonly freshL: number;
  readonly alkalinityCanL: number;
  readonly sumpSalinity: number;
  readonly displayDKH: number;
  readonly displayPh: number;
  readonly sumpPh: number;
  readonly oxygenMgL: number;
  readonly floorL: number;
}

function seeAfter(hours: number, ...ids: string[]): Seen {
  const run = runWith(hours, ...ids);
  return {
    sumpC: run.temperatureC("sump"),
    displayL: run.volumeL("display"),
    freshL: run.volumeL("fresh"),
    alkalinityCanL: run.volumeL("alkalinity-can"),
    sumpSalinity: run.salinity("sump"),
    displayDKH: run.alkalinityDKH("display"),
    displayPh: run.phTotal("display"),
    sumpPh: run.phTotal("sump"),
    oxygenMgL: run.oxygenMgL("display"),
    floorL: floorL(run.twin),
  };
}

describe("heat", () => {
  it("rises when both heaters weld on, and falls when both die", () => {
    const usual = seeAfter(24).sumpC;
    expect(seeAfter(24, "heater-1.batch-stays-on").sumpC).toBeGreaterThan(usual + 0.5);
    expect(seeAfter(24, "heater-1.batch-stops").sumpC).toBeLessThan(usual - 0.5);
  });

  it("is held by the cut-out, until that is dead too", () => {
    const hot = ["heater-1.stays-on", "chiller.stops", "fan.stops", "hall.cooling-fails", "hall.overheated"];
    expect(seeAfter(48, "heater-1.cut-out-dead", ...hot).sumpC).toBeGreaterThan(seeAfter(48, ...hot).sumpC + 0.5);
  });

  it("is misread: a probe that reads low hides a warm tank from the rule that would tell of it", () => {
    const hot = ["heater-1.batch-stays-on", "chiller.stops", "fan.stops", "hall.cooling-fails", "hall.overheated"];
    const told = () => settled.events.some((event) => event.kind === "notice" && event.part === "warm");
    runWith(24, ...hot);
    expect(told()).toBe(true);
    runWith(24, "display-temp.reads-low", ...hot);
    expect(told()).toBe(false);
  });
});

describe("water", () => {
  it("grows fresh when the top-off will not stop, and its second float stops it unless that is seized", () => {
    const guarded = seeAfter(12, "main-top-off.run-limit-off", "main-top-off.will-not-stop").sumpSalinity;
    const all = ["main-top-off.run-limit-off", "main-top-off.second-float-dead", "main-top-off.will-not-stop"];
    expect(seeAfter(12, ...all).sumpSalinity).toBeLessThan(guarded - 1);
  });

  it("grows salt when no top-off fills", () => {
    const dry = seeAfter(96, "main-top-off.does-not-fill", "lime-top-off.stops").sumpSalinity;
    expect(dry).toBeGreaterThan(seeAfter(96).sumpSalinity + 0.3);
  });

  it("siphons out of the reservoir with the pump off", () => {
    const left = seeAfter(2, "main-top-off.siphons", "refill.stays-shut").freshL;
    expect(left).toBeLessThan(seeAfter(2).freshL - 30);
  });

  it.each(["up.hose-off", "display.seam-opens", "display.hose-left-running", "sump.bulkhead-fails", "fresh.splits"])(
    "reaches the floor by %s",
    (id) => {
      expect(seeAfter(6, id).floorL).toBeGreaterThan(seeAfter(6).floorL + 5);
    },
  );

  it("stays off the floor behind a blocked drain while the spare drain is free", () => {
    const usual = seeAfter(6).floorL;
    expect(seeAfter(6, "up.drain-blocked").floorL).toBeCloseTo(usual, 6);
    expect(seeAfter(6, "up.spare-drain-blocked", "up.drain-blocked").floorL).toBeGreaterThan(usual + 5);
  });

  it("runs back further through an open check valve, and further still past a plugged siphon-break hole", () => {
    const held = seeAfter(1, "mains.cut-4-h").displayL;
    const open = seeAfter(1, "up.check-valve-open", "mains.cut-4-h").displayL;
    const both = seeAfter(1, "up.check-valve-open", "up.siphon-break-plugged", "mains.cut-4-h").displayL;
    expect(open).toBeLessThan(held - 5);
    expect(both).toBeLessThan(open - 20);
  });
});

describe("chemistry", () => {
  it("moves with a doser that will not stop, one that is dead, and one that is filled twice as strong", () => {
    const usual = seeAfter(48).displayDKH;
    expect(seeAfter(48, "alkalinity-doser.will-not-stop").displayDKH).toBeGreaterThan(usual + 1);
    expect(seeAfter(48, "alkalinity-doser.stops").displayDKH).toBeLessThan(usual - 0.1);
    expect(seeAfter(48, "alkalinity-doser.mixed-double").displayDKH).toBeGreaterThan(usual + 0.1);
  });

  it("turns acid when the gas sticks open", () => {
    expect(seeAfter(12, "reactor.gas-stuck-open").displayPh).toBeLessThan(seeAfter(12).displayPh - 0.02);
  });

  it("turns caustic when lime is pumped over", () => {
    expect(seeAfter(1, "lime-top-off.lime-slurry").sumpPh).toBeGreaterThan(seeAfter(1).sumpPh + 0.05);
  });

  it("gets a repeated day's dose out of the container, not out of nothing", () => {
    const given = seeAfter(0).alkalinityCanL - seeAfter(0, "alkalinity-doser.dose-repeated").alkalinityCanL;
    expect(given).toBeCloseTo(0.12, 3);
  });
});

describe("oxygen", () => {
  it.each([
    "display.overfed",
    "display.tin-emptied",
    "display.large-animal-dies",
    "carbon-doser.carbon-overdose",
    "display.mass-spawning",
    "display.tank-clouds",
    "return.stops",
  ])("falls by %s", (id) => {
    expect(seeAfter(10, id).oxygenMgL).toBeLessThan(seeAfter(10).oxygenMgL);
  });

  it("falls in a power cut, and aeration by hand holds it up", () => {
    const usual = seeAfter(6).oxygenMgL;
    const unaided = seeAfter(12, "mains.cut-12-h").oxygenMgL;
    expect(seeAfter(6, "mains.cut-12-h").oxygenMgL).toBeLessThan(usual - 0.3);
    const run = runWith(6, "mains.cut-12-h");
    aerateByHand(makeBench(run.twin));
    expect(run.hours(6).oxygenMgL("display")).toBeGreaterThan(unaided + 1);
  });
});

describe("power", () => {
  it.each(["heater-1.cracks", "return.leaks-current", "strip.gets-wet", "lamp.falls-in-wet"])(
    "opens the protection by %s, and comes back when it is ended",
    (id) => {
      const run = runWith(0.1, id);
      expect(run.runs("wave")).toBe(false);
      fault(id).mode.end.apply(makeBench(run.twin), fault(id).part);
      expect(run.hours(0.1).runs("wave")).toBe(true);
    },
  );

  it("leaves the pump standing after a cut when it will not start again", () => {
    const run = runWith(0.5, "return.no-restart", "mains.cut-40-min");
    makeBench(run.twin).release("mains");
    run.hours(0.5);
    expect(run.runs("wave")).toBe(true);
    expect(run.runs("return")).toBe(false);
  });

  it("is missed by a stand-in whose battery does not take over", () => {
    expect(runWith(1, "mains.cut-4-h").runs("spare-air")).toBe(true);
    expect(runWith(1, "cells.no-takeover", "mains.cut-4-h").runs("spare-air")).toBe(false);
  });
});

describe("every fault of a place that has everything", () => {
  it("leaves finite water, before and after its end", () => {
    const { bodies, devices } = settled.twin.model.layout;
    const unsound: string[] = [];
    const look = (id: string) => {
      if (!settled.twin.state.subarray(bodies, devices).every(Number.isFinite)) unsound.push(id);
    };
    const seen = new Set<string>();
    for (const one of faultsOf(site)) {
      if (seen.has(one.mode.name)) continue;
      seen.add(one.mode.name);
      const run = runWith(4, faultId(one));
      look(faultId(one));
      one.mode.end.apply(makeBench(run.twin), one.part);
      run.hours(1);
      look(`${faultId(one)}, ended`);
    }
    expect(unsound).toEqual([]);
  });
});
