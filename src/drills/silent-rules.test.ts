import { expect, it } from "vitest";
import { siteOf } from "../../test/sites.ts";
import { circumstanceNamed } from "./by-name.ts";
import { findFault } from "./faults/index.ts";
import { reportDrill } from "./report.ts";
import { Stage } from "./stage.ts";

/** The probe sits in the sump beside the heater: with the return pump stopped it knows nothing of the display. */
const site = siteOf(`
site: Cellar
rooms: { cellar: { holds: 12 degC } }
systems:
  reef:
    room: cellar
    bodies:
      display: { volume: 200 L, surface: 0.5 m2, livestock: { corals: mixed, fish: 20 g } }
      sump: { volume: 40 L, brim: 60 L }
    circulation: [ { from: sump, to: display, by: return-pump } ]
hubs: { hub: { reads-every: 60 s } }
links: { line: { kind: internet } }
devices:
  return-pump: { kind: return-pump, flow: 900 L/h, power: 12 W, in: sump }
  heater: { kind: heater, power: 300 W, in: sump, own-thermostat: 25.5 degC }
  wave: { kind: wave-pump, flow: 4000 L/h, power: 7 W, in: display }
sensors: { probe: { measures: temperature, in: sump, hub: hub } }
rules:
  too-cold: { hub: hub, when: { probe: below 23 degC, for: 10 min }, notice: urgent, says: too cold }
  too-warm: { hub: hub, when: { probe: above 28 degC, for: 10 min }, notice: urgent, says: too warm }
people: { keeper: { reached-by: push, can: everything } }
circumstances: { winter: { starts: 2026-01-15T10:00, horizon: 6 days } }
`);

function reportOf(id: string) {
  const fault = findFault(site, id);
  if ("error" in fault) throw new Error(`${fault.error}; ${fault.hint}`);
  const options = { stepMin: 30, only: ["display.temperature_c"], everywhere: false };
  return reportDrill(new Stage(site, 1), [fault], circumstanceNamed(site, "winter"), options);
}

it("a rule whose probe sits in another body says what it read there and what was true where harm came", () => {
  const report = reportOf("return-pump.stops");
  expect(report.verdict).toBe("unseen");
  expect(report.harm).toMatch(/cold$/);
  const [silent, ...others] = report.silent_rules;
  expect(others).toEqual([]); // the rule against warmth could not have noticed the cold
  expect(silent).toMatchObject({ rule: "too-cold", sensor: "probe" });
  expect(silent.at_min).toBeGreaterThanOrEqual(report.minutes.harm_early ?? 0);
  expect(silent.why).toMatch(
    /^did not fire: probe read 2\d\.?\d* °C, needs below 23 °C for 10 min; probe sits in sump, where it was .* while display had 1\d\.\d °C$/,
  );
});

it("where nothing looks for such a harm, that is said, and the same again with the same seed", () => {
  const report = reportOf("wave.stops");
  const again = reportOf("wave.stops");
  expect(again.silent_rules).toEqual(report.silent_rules);
  if (report.minutes.harm_early !== null) expect(report.silent_rules[0].rule).toBeNull();
});
