/** Where the parts of a site can be moved to in its picture, and that the file can be read with them there. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { editSite, loadSite, type Site, writtenSite } from "../src/site/index.ts";
import { boxesOf, targetAt } from "../src/web/site-picture/boxes.ts";
import { layOutScene } from "../src/web/site-picture/lay-out-scene.ts";
import { connectionsOf, type Target, targetsOf } from "../src/web/site-picture/targets.ts";

const text = readFileSync(new URL("../examples/alder-row-school.yaml", import.meta.url), "utf8");
const written = writtenSite(text);
const site = loaded(text);

function loaded(one: string): Site {
  const { site: read, errors } = loadSite(one, "test.yaml");
  if (read === null) throw new Error(errors.map(({ message }) => message).join("\n"));
  return read;
}

const idsOf = (targets: readonly Target[]): readonly string[] => targets.map(({ id }) => id);

/** What the server would answer to the change. */
function after(target: Target | undefined): Site {
  const edited = editSite(text, target?.edits ?? []);
  if (edited.text === null) throw new Error(edited.problem.message);
  return loaded(edited.text);
}

it("a heater goes into any other water and barrel, and onto any other circuit or battery", () => {
  const ids = idsOf(targetsOf(site, written, "reef-heater-1"));
  expect(ids).toEqual(
    expect.arrayContaining(["reef-display", "lagoon-sump", "reef-barrel", "lab-strip", "air-pump-cells"]),
  );
  expect(ids).not.toContain("reef-sump");
  expect(ids).not.toContain("hall-strip");
  expect(ids).not.toContain("reef-calcium-can");
});

it("a plug alone goes into sockets only", () => {
  expect(idsOf(targetsOf(site, written, "reef-heater-1", true))).toEqual([
    "main-board",
    "ring-hall",
    "ring-lab",
    "lab-strip",
    "air-pump-cells",
  ]);
});

it("a sensor goes where such a sensor can sit, by the key under which its place is written", () => {
  const temperature = targetsOf(site, written, "reef-temp").find(({ id }) => id === "reef-display");
  expect(temperature?.edits).toEqual([{ op: "set", path: ["sensors", "reef-temp", "in"], value: "reef-display" }]);
  expect(after(temperature).sensors.find(({ id }) => id === "reef-temp")?.at).toBe("reef-display");
  const leak = targetsOf(site, written, "hall-leak");
  expect(idsOf(leak)).toContain("lab");
  expect(leak.every(({ edits }) => edits.every((edit) => "path" in edit && edit.path.at(-1) === "at"))).toBe(true);
});

it("waters, rooms and people stay where they are", () => {
  for (const id of ["reef-display", "reef-barrel", "atrium", "teacher", "sump", "reef-sump-to-reef-display"])
    expect(targetsOf(site, written, id), id).toEqual([]);
});

it("a pump that drives a way of water stays in its system, and takes the way with it", () => {
  expect(idsOf(targetsOf(site, written, "reef-return")).filter((id) => id.includes("reef"))).toEqual([]);
  expect(idsOf(targetsOf(site, written, "reef-return"))).not.toContain("lagoon-sump");
});

it("a circuit hangs from any other that does not hang from it", () => {
  const ids = idsOf(targetsOf(site, written, "ring-hall"));
  expect(ids).toEqual(["ring-lab", "lab-strip"]);
  expect(after(targetsOf(site, written, "hall-strip").find(({ id }) => id === "ring-lab")).circuits).toContainEqual(
    expect.objectContaining({ id: "hall-strip", on: "ring-lab" }),
  );
});

it("the file can be read with a part of each kind at the first and the last place that is offered", () => {
  const devices = [...new Map(site.devices.map((device) => [device.kind, device])).values()];
  const movable = [...devices, ...site.sensors.slice(0, 3), site.links[0], site.hubs[0], site.batteries[0]];
  // A top-off's float says litres of the water that it stands in: elsewhere they may not fit, which only the check knows.
  const fixed = movable.filter((part) => !("ownFloat" in part) || part.ownFloat === null);
  for (const { id } of fixed) {
    const targets = targetsOf(site, written, id);
    for (const target of new Set([targets[0], targets.at(-1)]))
      if (target !== undefined) expect(() => after(target), target.label).not.toThrow();
  }
});

it("two waters of a system are joined by a new pump in the lower one", () => {
  const withTray = loaded(
    text.replace(
      "      reef-barrel:",
      "      reef-tray: { role: frag, volume: 60 L, holds: { salt: 35 ppt } }\n      reef-barrel:",
    ),
  );
  const target = connectionsOf(withTray, written, "reef-tray").find(({ id }) => id === "reef-sump");
  expect(target?.label).toBe("reef-tray-return lifts water from reef-sump to reef-tray");
  expect(target?.edits).toEqual([
    {
      op: "set",
      path: ["devices", "reef-tray-return"],
      value: { kind: "return-pump", in: "reef-sump", on: "hall-strip" },
    },
    {
      op: "set",
      path: ["systems", "atrium-reef", "circulation", 1],
      value: { from: "reef-sump", to: "reef-tray", by: "reef-tray-return" },
    },
  ]);
});

it("waters that are joined already, stores, and waters of other systems are not offered", () => {
  expect(connectionsOf(site, written, "reef-display")).toEqual([]);
  expect(connectionsOf(site, written, "reef-barrel")).toEqual([]);
});

it("the place under the hand is the smallest that lies there", () => {
  const { scene } = layOutScene({
    site,
    systemIds: site.systems.map(({ id }) => id),
    settled: null,
    width: 1150,
    shown: { messages: false, people: false },
    nameOf: (id) => id,
    before: null,
  });
  const boxes = boxesOf(scene);
  const targets = targetsOf(site, written, "reef-temp");
  const [box] = boxes.get("reef-display") ?? [];
  const inside = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  expect(targetAt(targets, boxes, inside)?.id).toBe("reef-display");
  expect(targetAt(targets, boxes, { x: -5, y: -5 })).toBeNull();
});
