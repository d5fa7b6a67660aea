/** A twin that goes back to a snapshot goes on as if it had never been away. */
import { expect, it } from "vitest";
import { type Run, startRun } from "../../test/sites.ts";
import { restore, snapshot } from "./state.ts";

const SCHOOL = `
site: Two hubs
power:
  mains: 230 V
  circuits: { ring: { limit: 16 A } }
  batteries: { cells: { energy: 40 Wh, power: 30 W, on: ring, feeds: reef-hub } }
systems:
  reef:
    bodies:
      display: { volume: 320 L, livestock: { corals: mixed, fish: 150 g, alkalinity-use: 1 dKH/d } }
      sump: { volume: 80 L, brim: 130 L }
      barrel: { volume: 150 L, holds: fresh }
      can: { volume: 15 L, holds: { solution: alkalinity, strength: 1 meq/mL } }
    circulation: [ { from: sump, to: display, by: return } ]
  lagoon:
    bodies: { pool: { volume: 200 L, livestock: { fish: 50 g } } }
devices:
  return: { kind: return-pump, in: sump, on: ring }
  skimmer: { kind: skimmer, in: sump, on: ring }
  heater: { kind: heater, in: sump, power: 320 W, by: reef-hub, own-thermostat: none, on: ring }
  lamp: { kind: light, in: display, on: ring, schedule: "10:00-20:00" }
  top-off: { kind: top-off, in: sump, from: barrel, on: ring }
  doser: { kind: doser, in: sump, from: can, amount: 140 mL/d, doses: 24 a day, on: ring }
  pool-heater: { kind: heater, in: pool, power: 200 W, own-thermostat: 24 degC, on: ring }
hubs:
  reef-hub: { reads-every: 15 s, on: ring }
  pool-hub: { reads-every: 20 s, on: ring }
sensors:
  sump-temp: { measures: temperature, in: sump, hub: reef-hub }
  display-ph: { measures: ph, in: display, hub: reef-hub }
  pool-temp: { measures: temperature, in: pool, hub: pool-hub }
rules:
  warmth: { hub: reef-hub, when: { sump-temp: below 25.2 degC }, do: { heater: on }, until: { sump-temp: above 25.6 degC } }
  falls: { hub: reef-hub, when: { sump-temp: falling 1 degC/h }, notice: soon, says: colder }
  pool-warm: { hub: pool-hub, when: { pool-temp: above 24.4 degC, for: 10 min }, notice: soon, says: warm }`;

/** Runs on for a while and returns everything that the twin then is. */
function goOn(run: Run): readonly number[] {
  return [...run.pieces(9, 1800).twin.state];
}

it.each([
  ["in plain life", 30, () => undefined],
  ["just after the heater failed", 31.7, (run: Run) => run.set("heater", "dead", 1)],
  ["just after the mains went", 26.1, (run: Run) => run.set("mains", "down", 1)],
  ["at a moment at which a timer turns", 34, () => undefined],
])("a twin with hubs that is put back %s goes on bit for bit as the one that was not", (_, hours, act) => {
  const run = startRun(SCHOOL).hours(hours);
  act(run);
  const kept = snapshot(run.twin);
  const onward = goOn(run);
  restore(run.twin, kept);
  expect(goOn(run)).toEqual(onward);
});
