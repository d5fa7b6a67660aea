import fc from "fast-check";
import { expect, it } from "vitest";
import { resultsOf } from "../../../test/browser/fixtures/results.ts";
import { school } from "../../../test/browser/fixtures/sites.ts";
import { drillReport } from "../../../test/browser/fixtures/traces.ts";
import type { DrillEvent, DrillReport } from "../../server/contract/index.ts";
import { linearScale } from "../parts/scale.ts";
import { csvOf, fileName, offsetAt } from "./csv.ts";
import { curvePath, heldAt, stepPath, valueAt } from "./curve-path.ts";
import { markOf } from "./message-lane.tsx";
import { choosable, curvesOf, lanesOf, sensedKey, tellingCurves, tellingDevices, withSensors } from "./quantities.ts";
import { delaysOf, runWith, spansOf } from "./run.ts";
import { tellingEvents } from "./telling-events.ts";
import { extremeOf } from "./water-lane.tsx";
import { fitted, holding, LEAST_WINDOW_MIN, moved, zoomed } from "./window.ts";

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

it("a window is never outside of the run nor too small, and zooming keeps the moment under the pointer in its place", () => {
  const whole = 20_160;
  const moment = fc.double({ min: 0, max: whole, noNaN: true });
  fc.assert(
    fc.property(
      moment,
      moment,
      fc.double({ min: 0.1, max: 10, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (a, b, factor, share) => {
        const window = fitted({ fromMin: Math.min(a, b), endMin: Math.max(a, b) }, whole);
        const at = window.fromMin + share * (window.endMin - window.fromMin);
        for (const next of [
          window,
          zoomed(window, factor, at, whole),
          moved(window, factor - 3, whole),
          holding(window, a, whole),
        ]) {
          expect(next.fromMin).toBeGreaterThanOrEqual(0);
          expect(next.endMin).toBeLessThanOrEqual(whole + 1e-6);
          expect(next.endMin - next.fromMin).toBeGreaterThanOrEqual(LEAST_WINDOW_MIN - 1e-6);
        }
        const next = zoomed(window, factor, at, whole);
        const isFree = next.fromMin > 0 && next.endMin < whole;
        if (isFree) expect((at - next.fromMin) / (next.endMin - next.fromMin)).toBeCloseTo(share, 6);
      },
    ),
  );
  const held = holding({ fromMin: 100, endMin: 200 }, 5000, whole);
  expect(held).toEqual({ fromMin: 4900, endMin: 5000 });
});

it("a curve in a window begins and ends at its edges, where it is between its points", () => {
  const path = curvePath([0, 10, 20, 30], [0, 10, 20, 30], linearScale(0, 100, 25, 5), (value) => value, 25, 5);
  expect(path).toBe("M0.0 5.0L25.0 10.0L75.0 20.0L100.0 25.0");
  expect(stepPath([0, 10, 20], [1, 2, 3], linearScale(0, 10, 15, 5), (value) => value, 15, 5)).toBe(
    "M0.0 1.0H5.0V2.0H10.0",
  );
  expect(valueAt([0, 10], [1, 3], 5)).toBe(2);
  expect(valueAt([0, 10], [1, null], 5)).toBeNull();
  expect(heldAt([0, 10], [1, 3], 5)).toBe(1);
  expect(heldAt([0, 10], [1, 3], 10)).toBe(3);
});

it("what is chosen of one quantity of a part shares a lane, true and sensed told apart", () => {
  const { waters } = curvesOf(report, site);
  const all = choosable(waters, report, site);
  const truth = "lagoon-sump.temperature_c";
  expect(withSensors([truth], waters)).toEqual([truth, sensedKey("sump-temp-2")]);
  const [both] = lanesOf([truth, sensedKey("sump-temp-2")], waters, all);
  expect(both).toMatchObject({ part: "lagoon-sump", sensors: ["sump-temp-2"] });
  const [alone] = lanesOf([sensedKey("sump-temp-2")], waters, all);
  expect(alone).toMatchObject({ part: "lagoon-sump", quantity: "temperature", sensedOnly: true });
  expect(all.filter(({ sensor }) => sensor !== null).map(({ sensor }) => sensor)).toEqual(
    Object.keys(report.trace.sensed),
  );
});

it("the table that is saved can be read back: every true and sensed value at its moment, units in the heads", () => {
  const { waters, devices } = curvesOf(report, site);
  const all = choosable(waters, report, site);
  const curves = [...lanesOf(withSensors(["lagoon-sump.temperature_c"], waters), waters, all), devices[0]];
  const lines = csvOf(report, runWith(report, 0), curves, site.zone)
    .trimEnd()
    .split("\r\n")
    .map((line) => line.split(","));
  const [head, ...rows] = lines;
  expect(head).toContain("true temperature of lagoon-sump [°C]");
  expect(head).toContain("sensed temperature by sump-temp-2 [°C]");
  expect(rows).toHaveLength(report.trace.t_min.length);
  const column = (name: string) => head.indexOf(name);
  for (const [i, row] of rows.entries()) {
    expect(Number(row[2])).toBe(report.trace.t_min[i]);
    expect(Date.parse(row[0])).toBe(Date.parse(row[1]));
    expect(Number(row[column("true temperature of lagoon-sump [°C]")])).toBeCloseTo(
      report.trace.truth["lagoon-sump.temperature_c"][i],
      6,
    );
    const sensed = row[column("sensed temperature by sump-temp-2 [°C]")];
    expect(sensed === "" ? Number.NaN : Number(sensed)).toBeCloseTo(
      report.trace.sensed["sump-temp-2"][i] ?? Number.NaN,
      6,
    );
  }
});

it("local times become UTC by the zone of the site, also next to a change of its clocks", () => {
  expect(offsetAt("2026-08-15T09:00", "Europe/London")).toBe(60);
  expect(offsetAt("2026-01-15T09:00", "Europe/London")).toBe(0);
  expect(offsetAt("2026-03-29T03:30", "Europe/London")).toBe(60);
  expect(offsetAt("2026-08-15T09:00", "America/St_Johns")).toBe(-150);
  expect(offsetAt("2026-08-15T09:00", "Asia/Kathmandu")).toBe(345);
});

it("a file is named by its drill in letters that every disk takes", () => {
  const named = { ...report, id: "heater-1.stays-on+hub.hangs@away" };
  expect(fileName(named, runWith(named, 0), "png")).toBe("heater-1.stays-on+hub.hangs_away.png");
  expect(fileName({ ...named, id: 'a/b:c."d"@e' }, runWith(named, 0), "csv")).toBe("a-b-c.-d-_e.csv");
});
