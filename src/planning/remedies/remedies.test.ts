/** Remedies: that each can be written into the file it is meant for, is true of it, and is not offered twice. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { randomSites } from "../../../test/random-sites.ts";
import { siteOf } from "../../../test/sites.ts";
import { type DrillResult, planSingles } from "../../drills/index.ts";
import { editSite, formatSiteError, loadSite, type Site, type SiteEdit } from "../../site/index.ts";
import { compile } from "../../twin/index.ts";
import { EFFORTS, ranked, remediesFor } from "./index.ts";
import { harmfulSalinity, harmlessBySaltL, harmlessL } from "./litres.ts";
import { connectedW } from "./loads.ts";

/** What may be said of a fault, so that every remedy that applies finds something to aim at. */
const WAYS: readonly Partial<DrillResult>[] = [
  "heat",
  "cold",
  "hypoxia",
  "low-salinity",
  "high-ph",
  "low-ph",
  "ammonia",
  "darkness",
  "water on the floor",
].map((stressor) => ({ verdict: "unseen", harm: `corals, ${stressor}`, floor_l: 30 }));
const MORE: readonly Partial<DrillResult>[] = [
  { verdict: "unseen", harm: null },
  { verdict: "handled", harm: null },
];

const MINUTES = {
  sign: 1,
  noticed: null,
  told: null,
  acting: null,
  harm_early: 600,
  harm_likely: 900,
  harm_late: 1200,
};

/** Every fault of a site as a finding of every kind. Nothing is simulated: only what is offered is asked. */
function everyFinding(site: Site): readonly DrillResult[] {
  const [{ circumstance: first }] = planSingles(compile(site));
  const faults = planSingles(compile(site)).filter(({ circumstance }) => circumstance.id === first.id);
  return faults.flatMap(({ faults: [fault], circumstance }) =>
    [...WAYS, ...MORE].map(
      (way, index): DrillResult => ({
        id: `${fault.part}.${fault.mode.mode}@${circumstance.id}-${index}`,
        faults: [{ part: fault.part, mode: fault.mode.mode }],
        circumstance: circumstance.id,
        verdict: "unseen",
        minutes: MINUTES,
        margin_min: null,
        floor_l: 0,
        finding: "Something goes wrong.",
        name: fault.mode.name,
        system: site.devices.find(({ id }) => id === fault.part)?.system ?? null,
        onset: fault.mode.onset,
        harm: null,
        told_by: null,
        found_by_chance: false,
        last_useful: 600,
        ended: null,
        would_help: [],
        flips_in_band: false,
        derived: null,
        ...way,
      }),
    ),
  );
}

function edited(text: string, edits: readonly SiteEdit[]): string {
  const result = editSite(text, edits);
  if (result.text === null) throw new Error(result.problem.message);
  return result.text;
}

/** Loads what an edit made of the text; says all errors. */
function after(text: string, edits: readonly SiteEdit[]): Site {
  const { site, errors } = loadSite(edited(text, edits), "changed.yaml");
  if (site === null) throw new Error(errors.map((error) => formatSiteError(error)).join("\n"));
  return site;
}

/** Parts that differ between two sites, by id. */
function changedParts(before: Site, now: Site): readonly string[] {
  const all = (site: Site) =>
    [
      site.rooms,
      site.circuits,
      site.batteries,
      site.links,
      site.hubs,
      site.bodies,
      site.flows,
      site.devices,
      site.sensors,
      // When a rule was tried follows from when its hub was.
      site.rules.map((rule) => ({ ...rule, testedMonths: null })),
      site.people,
    ].flatMap((parts) => parts.map((part): [string, string] => [part.id, JSON.stringify(part)]));
  const was = new Map(all(before));
  return all(now)
    .filter(([id, part]) => was.has(id) && was.get(id) !== part)
    .map(([id]) => id);
}

/** Names that an edit touches: the keys of its path, and a place in a list by its system. */
function namedBy(edits: readonly SiteEdit[]): ReadonlySet<string> {
  return new Set(edits.flatMap((edit) => (edit.op === "set" ? edit.path.map(String) : [])));
}

const EXAMPLES = ["alder-row-school", "alder-row-school-mended", "first-tank"].map((name) => ({
  name,
  text: readFileSync(new URL(`../../../examples/${name}.yaml`, import.meta.url), "utf8"),
}));

function holdsFor(text: string): number {
  const site = siteOf(text);
  const drills = everyFinding(site);
  const remedies = remediesFor(site, drills);
  for (const remedy of remedies) {
    const now = after(text, remedy.edits);
    const aimed = drills.filter(({ id }) => remedy.aims.slice(0, 4).includes(id));
    const again = remediesFor(now, aimed).map(({ id }) => id);
    expect(again, `${remedy.id} is offered twice`).not.toContain(remedy.id);
    const named = namedBy(remedy.edits);
    const flows = new Set(site.flows.filter(({ system }) => named.has(system)).map(({ id }) => id));
    // A sensor of level is as fine as its body is small.
    const levels = new Set(site.sensors.filter(({ at }) => named.has(at)).map(({ id }) => id));
    const beside = changedParts(site, now).filter((id) => !named.has(id) && !flows.has(id) && !levels.has(id));
    expect(beside, `${remedy.id} changes what it does not name`).toEqual([]);
    for (const circuit of now.circuits) {
      const was = site.circuits.some(({ id }) => id === circuit.id) ? connectedW(site, circuit.id) : 0;
      const limitW = circuit.limitA * now.mains.volts;
      const isLight = connectedW(now, circuit.id) <= Math.max(limitW, was + 100);
      expect(isLight, `${remedy.id} overloads ${circuit.id}`).toBe(true);
    }
  }
  return remedies.length;
}

describe("every remedy", () => {
  it.each(EXAMPLES)("of $name can be written into it, touches what it names, and is not offered twice", ({ text }) => {
    expect(holdsFor(text)).toBeGreaterThan(10);
  });

  it("does so on any place that somebody could own", () => {
    fc.assert(
      fc.property(randomSites, (text) => {
        expect(holdsFor(text)).toBeGreaterThan(0);
      }),
      { numRuns: 4 },
    );
  });

  it("has a title without a stop, a reason and a task of one sentence or more, and an id of its own", () => {
    const site = siteOf(EXAMPLES[0].text);
    const remedies = remediesFor(site, everyFinding(site));
    expect(new Set(remedies.map(({ id }) => id)).size).toBe(remedies.length);
    for (const { title, why, needs, caution, costEUR, kind } of remedies) {
      expect(title).toMatch(/^\S.*[^.]$/);
      for (const sentence of [why, needs, ...(caution === null ? [] : [caution])]) expect(sentence).toMatch(/\.$/);
      expect(costEUR.words).toContain("rough");
      expect(EFFORTS).toHaveProperty(kind);
    }
  });

  it("aims only at findings of the rehearsal", () => {
    const site = siteOf(EXAMPLES[0].text);
    const drills = everyFinding(site).map((drill, index) => (index % 2 === 0 ? drill : { ...drill, finding: null }));
    const found = new Set(drills.filter(({ finding }) => finding !== null).map(({ id }) => id));
    for (const { aims } of remediesFor(site, drills)) for (const id of aims) expect(found).toContain(id);
  });
});

it("a site without findings needs no remedy", () => {
  const site = siteOf(EXAMPLES[0].text);
  expect(
    remediesFor(
      site,
      everyFinding(site).map((drill) => ({ ...drill, finding: null })),
    ),
  ).toEqual([]);
});

it("a top-off that has a second float is never offered another", () => {
  const text = `site: A tank
systems:
  tank:
    bodies:
      display: { volume: 200 L, brim: 215 L, livestock: { corals: soft } }
      can: { volume: 20 L, holds: fresh }
devices:
  top-off: { kind: top-off, in: display, from: can, own-float: { fills-below: 199 L, stops-at: 200 L, spare-stops-at: 203 L } }
`;
  const site = siteOf(text);
  expect(remediesFor(site, everyFinding(site)).map(({ id }) => id)).not.toContain("spare-stops-at.top-off");
});

describe("the smaller reservoir", () => {
  // 710 L of 35 brought to 30.5: 710 (35 / 30.5 - 1) = 104.75 L of fresh water.
  it("dilutes the reef to half a part per thousand above what corals bear, and no further", () => {
    expect(harmlessBySaltL(710, 35, 30)).toBeCloseTo(104.75, 2);
    const mixed = (710 * 35) / (710 + harmlessBySaltL(710, 35, 30));
    expect(mixed).toBeCloseTo(30.5, 9);
  });

  it("holds to the strictest of the animals, and to the rim of the sump", () => {
    const site = siteOf(EXAMPLES[0].text);
    expect(harmfulSalinity(site, "atrium-reef")).toBe(30);
    expect(harmfulSalinity(site, "lagoon")).toBe(29);
    const topOff = site.devices.find(({ id }) => id === "reef-top-off");
    // The sump has 130 - 90 = 40 L of room, of which nine tenths are used.
    expect(topOff && harmlessL(site, topOff)).toBeCloseTo(36, 9);
  });
});

it("a second circuit carries half of the life support, and no circuit passes its limit", () => {
  const { text } = EXAMPLES[0];
  const site = siteOf(text);
  const remedy = remediesFor(site, everyFinding(site)).find(({ id }) => id === "new-circuit.ring-hall");
  const now = after(text, remedy?.edits ?? []);
  const fresh = now.circuits.find(({ id }) => !site.circuits.some((one) => one.id === id));
  // The second heater and the first wave pump: 300 + 18 W.
  expect(fresh && connectedW(now, fresh.id)).toBe(318);
  expect(connectedW(now, "hall-strip")).toBe(connectedW(site, "hall-strip") - 318);
});

it("what aims at more and worse findings for less stands first", () => {
  const site = siteOf(EXAMPLES[0].text);
  const drills = everyFinding(site);
  const [remedy] = remediesFor(site, drills);
  const dear = { ...remedy, id: "dear", costEUR: { low: 5000, high: 9000, words: "rough" } };
  const few = { ...remedy, id: "few", aims: remedy.aims.slice(0, 1) };
  expect(ranked([dear, few, remedy], drills)[0]).toBe(remedy);
});
