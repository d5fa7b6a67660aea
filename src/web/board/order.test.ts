import { expect, it } from "vitest";
import { resultsOf } from "../../../test/browser/fixtures/results.ts";
import { school } from "../../../test/browser/fixtures/sites.ts";
import type { DrillResult, VerdictKind } from "../../server/contract/index.ts";
import { isFiltered, NO_CHOICE, readChoice, writeChoice } from "./choice.ts";
import { facetsOf } from "./facets.ts";
import { findingsOf } from "./findings-of.ts";
import { isShort, marginText } from "./margin.ts";
import { chosen, FOLD, folded, grouped, ordered, reordered, tally } from "./order.ts";

const site = school();
const drills = ordered(resultsOf(site));

function drill(id: string, verdict: VerdictKind, margin: number | null, harmEarly: number | null = null): DrillResult {
  return { ...drills[0], id, verdict, margin_min: margin, minutes: { ...drills[0].minutes, harm_early: harmEarly } };
}

it("what to fix first stands first: unseen by earliest harm, then by margin, then absorbed, then not simulated", () => {
  const given = [
    drill("a", "absorbed", null),
    drill("b", "handed over", 30),
    drill("c", "not simulated", null),
    drill("d", "late", -90),
    drill("e", "unseen", null, 500),
    drill("f", "handled", 20),
    drill("g", "unseen", null, 60),
    drill("h", "unseen", null, null),
    drill("i", "late", null),
    drill("j", "handled", null),
  ];
  expect(
    ordered(given)
      .map(({ id }) => id)
      .join(""),
  ).toBe("geh" + "idfbj" + "ac");
});

it("the order does not depend on the order of the results", () => {
  const reversed = ordered([...resultsOf(site)].reverse());
  expect(reversed.map(({ id }) => id)).toEqual(drills.map(({ id }) => id));
});

it("the tally counts all drills", () => {
  const counts = tally(drills);
  expect([...counts.values()].reduce((sum, count) => sum + count, 0)).toBe(drills.length);
});

it("a folded board keeps the order, shows every verdict that there is, and no more than the fold", () => {
  const rows = folded(drills);
  expect(rows.length).toBeLessThanOrEqual(FOLD);
  expect(rows).toEqual(drills.filter((row) => rows.includes(row)));
  for (const verdict of ["unseen", "late", "handed over", "handled", "absorbed"]) {
    const first = drills.find((row) => row.verdict === verdict);
    expect(rows, verdict).toContain(first);
  }
});

it("a short board is not folded", () => {
  expect(folded(drills.slice(0, FOLD))).toHaveLength(FOLD);
});

it("a board of one verdict is folded to one row of each kind of fault before a second of any", () => {
  const late = drills.filter(({ verdict }) => verdict === "handled");
  const rows = folded(late);
  const kinds = new Set(late.map(({ name }) => name));
  expect(new Set(rows.map(({ name }) => name)).size).toBe(Math.min(kinds.size, rows.length));
});

it("every choice leaves only what fits it", () => {
  const choice = { ...NO_CHOICE, verdict: "late" as const, system: "lagoon", find: "probe NIGHT" };
  const rows = chosen(drills, choice);
  expect(rows.length).toBeGreaterThan(0);
  for (const row of rows) {
    expect(row).toMatchObject({ verdict: "late", system: "lagoon", circumstance: "night" });
    expect(row.name.toLowerCase()).toContain("probe");
  }
});

it("the search finds parts with and without their hyphens", () => {
  const find = (text: string) => chosen(drills, { ...NO_CHOICE, find: text }).length;
  expect(find("air pump 2")).toBeGreaterThan(0);
  expect(find("air pump 2")).toBe(find("air-pump-2"));
  expect(find("no such thing")).toBe(0);
});

it("groups keep all rows and stand in the order of their worst", () => {
  for (const groupBy of ["system", "circumstance", "verdict", "part", "kind", "fault"] as const) {
    const groups = grouped(drills, groupBy, site);
    expect(groups.flatMap((group) => group.drills)).toHaveLength(drills.length);
    const worst = groups.map((group) => drills.indexOf(group.drills[0]));
    expect(worst).toEqual([...worst].sort((a, b) => a - b));
  }
});

it("grouped by part kind, heaters are together", () => {
  const heaters = grouped(drills, "kind", site).find(({ key }) => key === "heater");
  expect(heaters?.drills.every(({ faults }) => faults[0].part.startsWith("heater"))).toBe(true);
});

it("the address keeps what was chosen, and forgets what it does not know", () => {
  const choice = {
    verdict: "handed over" as const,
    system: "lagoon",
    circumstance: "away",
    part: "heater-2",
    fault: "Heater stops heating",
    groupBy: "circumstance" as const,
    order: "harm" as const,
    find: "heater",
  };
  const query = new URLSearchParams(
    Object.entries(writeChoice(choice)).map(([key, value]): [string, string] => [key, value ?? ""]),
  );
  expect(readChoice(query)).toEqual(choice);
  expect(readChoice(new URLSearchParams("verdict=splendid&group=colour&order=name"))).toEqual(NO_CHOICE);
  expect(isFiltered({ ...NO_CHOICE, groupBy: "system" })).toBe(false);
});

it("a margin is a signed time, or the reason why there is none", () => {
  const said = (verdict: VerdictKind, margin: number | null) =>
    marginText({ verdict, margin_min: margin }).replaceAll("\u00a0", " ");
  expect(said("handed over", 275)).toBe("+ 4 h 35 min");
  expect(said("late", -38)).toBe("\u2212 38 min");
  expect(said("unseen", -300)).toBe("nobody told");
  expect(said("late", null)).toBe("nobody came");
  expect(said("absorbed", null)).toBe("no harm");
  expect(isShort({ verdict: "late", margin_min: null })).toBe(true);
  expect(isShort({ verdict: "handled", margin_min: 10 })).toBe(false);
});

it("drills of one fault are one finding, at the place of its worst, and each drill with a finding is in one", () => {
  const findings = findingsOf(drills);
  const found = drills.filter(({ finding }) => finding !== null);
  expect(findings.flatMap((finding) => finding.drills)).toHaveLength(found.length);
  expect(findings.length).toBeLessThan(found.length);
  expect(findings[0].text).toBe(found[0].finding);
  const worst = findings.map((finding) => drills.indexOf(finding.drills[0]));
  expect(worst).toEqual([...worst].sort((a, b) => a - b));
});

it("by first harm the earliest stands first, by water on the floor the wettest", () => {
  const harms = reordered(drills, "harm").map(({ minutes }) => minutes.harm_early ?? Number.MAX_VALUE);
  expect(harms).toEqual([...harms].sort((a, b) => a - b));
  const litres = reordered(drills, "floor").map(({ floor_l }) => floor_l);
  expect(litres).toEqual([...litres].sort((a, b) => b - a));
});

it("by being told, harm that nobody is told of stands first, then the longest silence, then what harms nobody", () => {
  const given = [
    { ...drill("a", "absorbed", null), minutes: { ...drills[0].minutes, told: null, harm_early: null } },
    { ...drill("b", "handed over", 30), minutes: { ...drills[0].minutes, told: 5, harm_early: 90 } },
    { ...drill("c", "late", -30), minutes: { ...drills[0].minutes, told: 500, harm_early: 90 } },
    { ...drill("d", "unseen", null), minutes: { ...drills[0].minutes, told: null, harm_early: 90 } },
  ];
  expect(reordered(given, "told").map(({ id }) => id)).toEqual(["d", "c", "b", "a"]);
});

it("another order shows its first rows when it is folded", () => {
  const byHarm = reordered(drills, "harm");
  expect(folded(byHarm, "harm")).toEqual(byHarm.slice(0, FOLD));
  expect(reordered(drills, "margin")).toBe(drills);
});

it("what can be chosen is what some drill has, and each choice leaves just that", () => {
  const facets = facetsOf(drills, site);
  for (const circumstance of facets.circumstances)
    for (const row of chosen(drills, { ...NO_CHOICE, circumstance })) expect(row.circumstance).toBe(circumstance);
  const parts = facets.parts.flatMap((group) => group.parts);
  expect(new Set(parts).size).toBe(parts.length);
  for (const part of parts) expect(chosen(drills, { ...NO_CHOICE, part }).length).toBeGreaterThan(0);
  for (const fault of facets.faults) expect(chosen(drills, { ...NO_CHOICE, fault })[0].name).toBe(fault);
});

it("the search finds what is harmed", () => {
  const rows = chosen(drills, { ...NO_CHOICE, find: "corals heat" });
  expect(rows.length).toBeGreaterThan(0);
});
