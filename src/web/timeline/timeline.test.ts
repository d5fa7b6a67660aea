import { expect, it } from "vitest";
import { resultsOf } from "../../../test/browser/fixtures/results.ts";
import { school } from "../../../test/browser/fixtures/sites.ts";
import { drillReport } from "../../../test/browser/fixtures/traces.ts";
import type { DrillEvent, DrillReport } from "../../server/contract/index.ts";
import { linearScale } from "../parts/scale.ts";
import { curvePath, stepPath } from "./curve-path.ts";
import { markOf } from "./message-lane.tsx";
import { curvesOf, tellingCurves, tellingDevices } from "./quantities.ts";
import { delaysOf, runWith, spansOf } from "./run.ts";
import { tellingEvents } from "./telling-events.ts";
import { extremeOf } from "./water-lane.tsx";

const site = school();

function reportOf(verdict: string): DrillReport {
  const result = resultsOf(site).find(
    (drill) =>
      drill.verdict === verdict &&
      drill.faults.length === 1 &&
      drill.system === "lagoon" &&
      drill.minutes.acting !== null,
  );
  if (result === undefined) throw new Error(`the fixture has no ${verdict} drill`);
  return drillReport(site, result, 5);
}

const report = reportOf("handed over");
const pixels = (path: string): string[] => path.match(/[MLHV]/g) ?? [];

it("help that comes later shifts the act and its margin by as much, and the verdict turns late beyond the last useful moment", () => {
  const delays = delaysOf(report);
  expect(delays[0]).toBe(0);
  for (const delay of delays) {
    const run = runWith(report, delay);
    expect(run.actMin).toBeCloseTo((report.minutes.acting ?? 0) + delay);
    expect(run.marginMin).toBeCloseTo((report.margin_min ?? 0) - delay);
    expect(run.verdict === "late").toBe((run.marginMin ?? 0) < 0);
  }
});

it("a later run is the unattended one until the act", () => {
  const key = "lagoon-display.temperature_c";
  const delay = delaysOf(report)[4];
  const later = runWith(report, delay).truth(key);
  const free = report.unattended.trace.truth[key];
  const actMin = (report.minutes.acting ?? 0) + delay;
  report.trace.t_min.forEach((t, i) => {
    if (t <= actMin) expect(later[i]).toBeCloseTo(free[i], 9);
  });
});

it("a later run that was kept in steps of its own is read between them", () => {
  const key = "lagoon-display.temperature_c";
  const acting = 40;
  const kept = { t_min: [120, 140, 160], [key]: [30, 32, 33] };
  const given: DrillReport = {
    ...report,
    minutes: { ...report.minutes, acting },
    later: [{ delay_min: 60, verdict: "late", harm_early: 90, harm_likely: null, trace: kept }],
  };
  const truth = runWith(given, 60).truth(key);
  const at = (t: number) => truth[report.trace.t_min.indexOf(t)];
  expect(at(110)).toBe(30);
  expect(at(120)).toBe(30);
  expect(at(130)).toBe(31);
  expect(at(150)).toBeCloseTo(32.5);
  expect(runWith(given, 60).truth("lagoon-display.ph_total").at(-1)).toBeNaN();
});

it("a drill in which nobody acts has no delays to choose from", () => {
  expect(delaysOf({ ...report, minutes: { ...report.minutes, acting: null } })).toEqual([]);
});

it("a timeline looks as far as the harm and no further than the run", () => {
  const { fit, whole } = spansOf(report);
  expect(fit).toBeGreaterThanOrEqual(Math.min(whole, report.minutes.harm_late ?? 0));
  expect(fit).toBeLessThanOrEqual(whole);
});

it("curves are known by their quantity whatever unit is written behind it, and found by the sensors that measure them", () => {
  const { waters, devices } = curvesOf(report, site);
  const temperature = waters.find(({ key }) => key === "lagoon-sump.temperature_c");
  expect(temperature).toMatchObject({
    part: "lagoon-sump",
    quantity: "temperature",
    unit: "°C",
    sensors: ["sump-temp-2"],
  });
  expect(waters.find(({ key }) => key === "lagoon-sump.ph_total")?.name).toBe("pH");
  expect(devices.find(({ part }) => part === "heater-2")).toMatchObject({ unit: "W", factor: 300 });
});

it("the curves that tell a drill are the one that the engine names, then others of its system, each of another quantity", () => {
  const { waters } = curvesOf(report, site);
  const told = tellingCurves(waters, report, site, spansOf(report).fit);
  expect(told[0]).toBe(report.telling);
  expect(told.every((key) => key.startsWith("lagoon") || key.startsWith("top-off-tank-2"))).toBe(true);
});

it("the device of the fault is told first", () => {
  const { devices } = curvesOf(report, site);
  expect(tellingDevices(devices, report, spansOf(report).whole)[0].part).toBe(report.faults[0].part);
});

it("at most six events tell the story, in order, the fault among them and nothing after its end", () => {
  const callsOn: DrillEvent = {
    t_min: 9000,
    kind: "person",
    part: null,
    person: "caretaker",
    text: "caretaker calls on",
  };
  const events: DrillEvent[] = [
    ...report.events,
    ...Array.from(
      { length: 40 },
      (_, i): DrillEvent => ({
        t_min: i,
        kind: "device",
        part: "heater-2",
        person: null,
        text: `heater-2 switches ${i}`,
      }),
    ),
    callsOn,
  ].sort((a, b) => a.t_min - b.t_min);
  const told = tellingEvents(events, 5000, 6);
  expect(told.length).toBeLessThanOrEqual(6);
  expect(told.map(({ kind }) => kind)).toContain("fault");
  expect(told.map(({ kind }) => kind)).toContain("notice");
  expect(told.every(({ t_min }) => t_min <= 5000)).toBe(true);
  expect([...told].sort((a, b) => a.t_min - b.t_min)).toEqual(told);
});

it.each([
  ["notice", "The reef is too warm", "sent"],
  ["message", "the notice of too-warm leaves the house", "sent"],
  ["message", "the notice of too-warm finds no way out", "lost"],
  ["message", "keeper: no answer, the phone is off", "lost"],
  ["message", "teacher reads it (push)", "read"],
] as const)("a %s that says %j is drawn as %s", (kind, text, mark) => {
  expect(markOf({ kind, text })).toBe(mark);
});

it("a path of many points keeps the peak that lies between pixels, and leaves gaps where nothing is known", () => {
  const times = Array.from({ length: 10_000 }, (_, i) => i);
  const values = times.map((t) => (t === 5003 ? 99 : 1));
  const x = linearScale(0, 100, 9999);
  const path = curvePath(times, values, x, (value) => 100 - value, 9999);
  expect(path).toContain(" 1.0");
  expect(pixels(path).length).toBeLessThanOrEqual(4 * 102);
  const gap = curvePath([0, 1, 2, 3], [1, null, Number.NaN, 2], linearScale(0, 100, 3), (value) => value, 3);
  expect(gap).toBe("M0.0 1.0M100.0 2.0");
});

it("a sensor holds what it said until it says something else, and falls silent", () => {
  const path = stepPath([0, 10, 20, 30, 40], [1, 1, 2, null, null], linearScale(0, 40, 40), (value) => value, 40);
  expect(path).toBe("M0.0 1.0H20.0V2.0H30.0");
});

it("the extreme of a curve is where it is furthest from its beginning, if that is worth a word", () => {
  expect(extremeOf([0, 1, 2], [25, 29, 27], 2, 1)).toEqual({ min: 1, value: 29, isHigh: true });
  expect(extremeOf([0, 1, 2], [25, 21, 27], 2, 1)).toEqual({ min: 1, value: 21, isHigh: false });
  expect(extremeOf([0, 1, 2], [25, 25.1, 25], 2, 1)).toBeNull();
});
