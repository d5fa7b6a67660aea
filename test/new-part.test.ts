/** New parts are written with what they can not be without, so that the file always describes a place. */
import { expect, it } from "vitest";
import { type DeviceKind, editSite, loadSite, type Site, writtenSite } from "../src/site/index.ts";
import { companionsOf } from "../src/web/site-edit/companions.ts";
import { editsOf, type NewPart } from "../src/web/site-edit/new-part.ts";
import { freeName, placeOf, valueAt } from "../src/web/site-edit/part-path.ts";

const TEXT = `site: Boat Shed
systems:
  tank:
    bodies:
      display: { volume: 180 L }
      sump: { volume: 60 L }
    circulation:
      - { from: sump, to: display, by: return-1 }
devices:
  return-1: { kind: return-pump, flow: 900 L/h, in: sump }
sensors:
  t: { measures: temperature, in: display }
`;
const SITE = loadSite(TEXT, "x").site as Site;

const base: NewPart = {
  kind: "device",
  sort: "heater",
  name: "new-one",
  said: { in: "sump" },
  system: "tank",
  into: "display",
  container: null,
  displayVolume: "200 L",
};

const KINDS: readonly DeviceKind[] = [
  "heater",
  "chiller",
  "fan",
  "return-pump",
  "wave-pump",
  "air-pump",
  "skimmer",
  "light",
  "feeder",
  "steriliser",
  "siren",
  "other",
];
const can = { name: "new-can", volume: "10 L", holds: "alkalinity" };

it.each([
  ...KINDS.map((sort) => [sort, { ...base, sort }] as const),
  ["doser with a container", { ...base, sort: "doser", container: can }] as const,
  ["top-off with a reservoir", { ...base, sort: "top-off", container: { ...can, holds: "fresh" } }] as const,
  ["water change with a container", { ...base, sort: "water-change", container: { ...can, holds: "salt" } }] as const,
  ["reservoir", { ...base, kind: "body", sort: "reservoir", said: { volume: "40 L" } }] as const,
  ["system", { ...base, kind: "system", sort: "", said: {} }] as const,
  ["sensor", { ...base, kind: "sensor", sort: "", said: { measures: "ph", in: "sump" } }] as const,
  ["rule", { ...base, kind: "rule", sort: "", said: { when: { t: "above 28 degC" }, notice: "urgent" } }] as const,
  ["person", { ...base, kind: "person", sort: "", said: { "reached-by": "call" } }] as const,
  ["circuit", { ...base, kind: "circuit", sort: "", said: { limit: "13 A" } }] as const,
  ["battery", { ...base, kind: "battery", sort: "", said: { energy: "300 Wh", feeds: "return-1" } }] as const,
  [
    "corals in a body",
    { ...base, kind: "body", sort: "frag", said: { volume: "90 L", "livestock.corals": "soft" } },
  ] as const,
])("a new %s leaves a file that describes a place", (_name, part) => {
  const { text, problem } = editSite(TEXT, editsOf(SITE, part as NewPart));
  expect(problem).toBeNull();
  const { site, errors } = loadSite(text ?? "", "x");
  expect(errors).toEqual([]);
  const name = part.kind === "system" ? "new-one-display" : part.name;
  const place = placeOf(site as Site, writtenSite(text ?? ""), name);
  expect(place?.written).not.toBeNull();
});

it("the first word about a float brings what the float does now", () => {
  const text = TEXT.replace("sensors:", "  top-off: { kind: top-off, in: sump, from: can }\nsensors:").replace(
    "    circulation:",
    "      can: { volume: 10 L, holds: fresh }\n    circulation:",
  );
  const site = loadSite(text, "x").site as Site;
  const value = { ...companionsOf(site, "top-off", "own-float"), "longest-run": "5 min" };
  const edited = editSite(text, [{ op: "set", path: ["devices", "top-off", "own-float"], value }]);
  const float = loadSite(edited.text ?? "", "x").site?.devices.find(({ id }) => id === "top-off")?.ownFloat;
  const before = site.devices.find(({ id }) => id === "top-off")?.ownFloat;
  expect(float?.longestRunS).toBe(300);
  expect(float?.offL).toBeCloseTo(before?.offL ?? 0, 1);
  expect(float?.onL).toBeCloseTo(before?.onL ?? 0, 1);
});

it("a free name counts on from the one that is taken", () => {
  expect(freeName(SITE, "heater")).toBe("heater");
  expect(freeName(SITE, "return-1")).toBe("return-2");
  expect(freeName(SITE, "sump")).toBe("sump-2");
});

it("a way of water is found by its ends in the list that it stands in", () => {
  const place = placeOf(SITE, writtenSite(TEXT), "sump-to-display");
  expect(place?.path).toEqual(["systems", "tank", "circulation", 0]);
  expect(valueAt(writtenSite(TEXT), place?.path ?? [])).toMatchObject({ by: "return-1" });
});
