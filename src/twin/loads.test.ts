/** What is too much for a circuit or a battery. */
import { expect, it } from "vitest";
import { type Run, startRun } from "../../test/sites.ts";
import { circuitLive, hubPowered, startBattery } from "./power.ts";

/** A pump of 50 W and an air pump of 10 W on a strip and on a battery; a router on the strip. */
function site(strip: string, battery: string): string {
  return `
site: Loads
power:
  mains: 230 V
  circuits: { ring: { limit: 16 A }, strip: { on: ring, ${strip}, trips-on-leak: none } }
  batteries: { shelf: { energy: 300 Wh, on: ring, ${battery} } }
links: { router: { kind: mobile, on: strip } }
hubs: { hub: { on: shelf, sends-over: router } }
systems:
  reef:
    bodies: { display: { volume: 300 L }, sump: { volume: 80 L, brim: 130 L } }
    circulation: [ { from: sump, to: display, by: return } ]
devices:
  return: { kind: return-pump, in: sump, power: 50 W, on: strip }
  air: { kind: air-pump, in: display, power: 10 W, on: strip }`;
}

const strip = (run: Run) => circuitLive(run.twin, run.twin.model.circuitIndex.get("strip") ?? -1);
const told = (run: Run, part: string) => run.events.filter((event) => event.part === part).map((event) => event.text);

it("a router counts towards what its circuit carries: 60 W of pumps and its 10 W are too much for 66 W", () => {
  // A breaker opens at 1.05 times its rating.
  const enough = startRun(site("limit: 0.30 A", "feeds: air")).hours(1);
  expect(strip(enough)).toBe(true);
  const tooMuch = startRun(site("limit: 0.275 A", "feeds: air")).hours(1);
  expect(strip(tooMuch)).toBe(false);
  expect(told(tooMuch, "strip")).toEqual(["strip opens: 70 W is more than it carries"]);
});

it("a battery carries what it has the power for", () => {
  const run = startRun(site("limit: 10 A", "power: 70 W, feeds: [ return, air ]")).hours(1);
  run.set("mains", "down", 1).hours(1);
  expect([run.runs("return"), run.runs("air"), hubPowered(run.twin, 0)]).toEqual([true, true, true]);
});

it("a battery that is asked for more than its power lets go of everything, and says so", () => {
  const run = startRun(site("limit: 10 A", "power: 60 W, feeds: [ return, air ]")).hours(1);
  run.set("mains", "down", 1).hours(1);
  expect([run.runs("return"), run.runs("air"), hubPowered(run.twin, 0)]).toEqual([false, false, false]);
  expect(told(run, "shelf")).toEqual(["shelf lets go: 66 W is more than its 60 W"]);
});

it("a battery that has let go carries again when the load is gone and someone switches it on, or after the mains were back", () => {
  const run = startRun(site("limit: 10 A", "power: 60 W, feeds: [ return, air ]")).hours(1);
  run.set("mains", "down", 1).hours(1).set("return", "dead", 1);
  startBattery(run.twin, 0);
  run.hours(1);
  expect([run.runs("air"), hubPowered(run.twin, 0)]).toEqual([true, true]);
  run.set("mains", "down", 0).hours(1).set("mains", "down", 1).hours(1);
  expect([run.runs("air"), hubPowered(run.twin, 0)]).toEqual([true, true]);
});
