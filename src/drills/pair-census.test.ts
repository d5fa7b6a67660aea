import { expect, it } from "vitest";
import { siteOf } from "../../test/sites.ts";
import { pairCensus, planPairs } from "./plan.ts";
import { Stage } from "./stage.ts";

const site = siteOf(`
site: One tank
systems: { tank: { bodies: { display: { volume: 150 L, surface: 0.4 m2, livestock: { corals: soft, fish: 50 g } }, can: { volume: 20 L, holds: fresh } } } }
hubs: { hub: { reads-every: 60 s } }
devices:
  heater: { kind: heater, power: 200 W, in: display, own-thermostat: 25.5 degC, cut-out: 28 degC }
  top-off: { kind: top-off, flow: 40 L/h, in: display, from: can }
sensors: { probe: { measures: temperature, in: display, hub: hub } }
rules: { too-warm: { hub: hub, when: { probe: above 28 degC, for: 5 min }, notice: urgent, says: too warm } }
people: { keeper: { reached-by: push, can: everything, looks: [ "08:00" ] } }
circumstances: { spring: { starts: 2026-04-15T10:00, horizon: 3 days } }
`);

it("every pair of two faults is tried once, or left out because neither of them waits unseen", () => {
  const { drills, leftOut } = planPairs(new Stage(site, 1).model);
  const census = pairCensus(site);
  expect(census.planned).toBe(drills.length);
  expect(2 * census.open).toBe(leftOut);
  expect(census.planned + census.open).toBe(census.pairs);
  expect(census.cells.reduce((sum, { planned }) => sum + planned, 0)).toBe(drills.length);
  expect(census.planned).toBeGreaterThan(0);
});
