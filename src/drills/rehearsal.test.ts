import { describe, expect, it } from "vitest";
import { siteOf } from "../../test/sites.ts";
import { planPairs, planSingles } from "./plan.ts";
import { rehearse } from "./rehearsal.ts";
import { Stage } from "./stage.ts";
import type { RehearsalReport } from "./types.ts";

const site = siteOf(`
site: One tank
systems: { tank: { bodies: { display: { volume: 150 L, surface: 0.4 m2, livestock: { corals: soft, fish: 50 g } }, can: { volume: 20 L, holds: fresh } } } }
hubs: { hub: { reads-every: 60 s } }
devices:
  heater: { kind: heater, power: 200 W, in: display, own-thermostat: 25.5 degC, cut-out: 28 degC }
  wave: { kind: wave-pump, flow: 2500 L/h, power: 7 W, in: display }
  top-off: { kind: top-off, flow: 40 L/h, in: display, from: can }
sensors: { probe: { measures: temperature, in: display, hub: hub } }
rules: { too-warm: { hub: hub, when: { probe: above 28 degC, for: 5 min }, notice: urgent, says: too warm } }
people: { keeper: { reached-by: push, can: everything, looks: [ "08:00" ] } }
circumstances: { spring: { starts: 2026-04-15T10:00, horizon: 3 days } }
`);

const options = { seed: 1, pairs: false, nowS: () => 0 } as const;

function bytes(report: RehearsalReport): string {
  return JSON.stringify({ ...report, threads: 0, elapsed_s: 0 });
}

describe("a rehearsal", () => {
  it("gives the same bytes with one and with two threads, and counts every drill once", async () => {
    const one = await rehearse(site, { ...options, threads: 1 });
    const two = await rehearse(site, { ...options, threads: 2 });
    expect(bytes(two)).toBe(bytes(one));
    expect(one.complete).toBe(true);
    expect(one.drills.length).toBe(planSingles(new Stage(site, 1).model).length);
    expect(new Set(one.drills.map((drill) => drill.id)).size).toBe(one.drills.length);
    expect(Object.values(one.summary).reduce((sum, count) => sum + count, 0)).toBe(one.drills.length);
  });

  it("that is stopped keeps what was done and says what was not", async () => {
    const stop = new AbortController();
    const report = await rehearse(site, {
      ...options,
      threads: 1,
      signal: stop.signal,
      onProgress: (done) => void (done > 0 && stop.abort()),
    });
    expect(report.complete).toBe(false);
    expect(report.drills.length).toBeGreaterThan(0);
    expect(report.not_run).toBe(planSingles(new Stage(site, 1).model).length - report.drills.length);
  });

  it("with pairs gives the same bytes on any number of threads, and runs them all", async () => {
    const one = await rehearse(site, { ...options, pairs: true, threads: 1 });
    const two = await rehearse(site, { ...options, pairs: true, threads: 2 });
    expect(bytes(two)).toBe(bytes(one));
    expect(one.complete).toBe(true);
    expect(one.drills.filter((drill) => drill.faults.length === 2).length).toBe(
      planPairs(new Stage(site, 1).model).drills.length,
    );
  });

  it("gives every drill the fields that programs read", async () => {
    const { drills } = await rehearse(site, { ...options, threads: 1 });
    for (const drill of drills) {
      expect(Object.keys(drill.minutes).sort()).toEqual([
        "acting",
        "harm_early",
        "harm_late",
        "harm_likely",
        "noticed",
        "sign",
        "told",
      ]);
      expect(["absorbed", "handled", "handed over", "late", "unseen"]).toContain(drill.verdict);
      if (drill.minutes.harm_early === null) expect(drill.margin_min).toBeNull();
      if (drill.verdict === "late" || drill.verdict === "unseen") expect(drill.finding).not.toBeNull();
      expect(Number.isFinite(drill.floor_l)).toBe(true);
    }
  });
});
