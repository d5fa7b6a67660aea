/** Reported accidents: that all can be rehearsed, and that their verdicts fit the reports or are listed as not fitting. */
import { readdirSync, readFileSync } from "node:fs";
import { basename, dirname } from "node:path";
import { describe, expect, it } from "vitest";
import { drillIncident } from "../validation/incidents/drilled.ts";
import { readIncidents } from "../validation/incidents/record.ts";

const incidents = readIncidents();
const page = readFileSync(new URL("../docs/incidents.md", import.meta.url), "utf8");

describe("the incidents", () => {
  it("are at least twenty, over at least eight families, each told once", () => {
    expect(incidents.length).toBeGreaterThanOrEqual(20);
    expect(new Set(incidents.map(({ family }) => family)).size).toBeGreaterThanOrEqual(8);
    expect(new Set(incidents.map(({ incident }) => incident)).size).toBe(incidents.length);
  });

  it("have a report for every site and a site for every report", () => {
    const sites = readdirSync(dirname(incidents[0].siteFile)).map((file) => basename(file, ".yaml"));
    expect(sites.sort()).toEqual(incidents.map(({ name }) => name).sort());
  });

  it.each(incidents)(
    "$incident $name names its fault and moment in the site file and stands on the page",
    (incident) => {
      const lines = readFileSync(incident.siteFile, "utf8").split("\n");
      const moment = `${incident.faults.join(" + ")} in ${incident.circumstance}`;
      expect(lines.some((line) => line.startsWith(`# Fault: ${moment}`))).toBe(true);
      expect(page).toContain(`## ${incident.incident} `);
    },
  );

  it.each(incidents)("$incident $name ends as reported, or is listed as not fitting", (incident) => {
    const { lines, report } = drillIncident(incident);
    const fits = incident.expected.some((verdict) => verdict === report.verdict);
    expect({ verdict: report.verdict, fits }).toEqual({
      verdict: report.verdict,
      fits: incident.misfits.verdict === undefined,
    });
    const names = new Set(lines.map(({ what }) => what));
    expect(Object.keys(incident.misfits).filter((name) => !names.has(name))).toEqual([]);
  });
});
