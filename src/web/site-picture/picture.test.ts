import { expect, it } from "vitest";
import { oneTank, school, twelveSystems } from "../../../test/browser/fixtures/sites.ts";
import type { Site } from "../../server/contract/index.ts";
import { namesOf } from "../parts/names.tsx";
import { factsOf } from "./fields.ts";
import { lines, staggered, textWidth } from "./geometry.ts";
import { layOutStoreys } from "./lay-out-place.ts";
import { layOutScene } from "./lay-out-scene.ts";
import { circuitsUnder, partOfSite } from "./part-of-site.ts";

const sites = [
  ["one system", oneTank()],
  ["three systems", school()],
  ["twelve systems", twelveSystems()],
] as const;

function draw(site: Site, width: number) {
  return layOutScene({
    site,
    systemIds: site.systems.map(({ id }) => id),
    settled: null,
    width,
    shown: { messages: true, people: true },
    nameOf: (id) => namesOf(site).water(id) ?? id,
    before: null,
  }).scene;
}

it.each(sites)("every part of a site of %s has its place in the picture", (_, site) => {
  const { storeys, below } = draw(site, 1150);
  const drawn = new Set([
    ...storeys.flatMap(({ systems, roomSpots }) => [
      ...systems.flatMap(({ vessels, spots }) => [
        ...vessels.map(({ body }) => body.id),
        ...spots.map(({ part }) => part.id),
      ]),
      ...roomSpots.map(({ part }) => part.id),
    ]),
    ...below.lanes.flatMap((lane) => [lane.id, ...lane.sensors.map(({ sensor }) => sensor.id)]),
    ...below.stations.map(({ id }) => id),
    ...below.ladder.map(({ person }) => person.id),
  ]);
  const parts = [
    ...site.bodies,
    ...site.devices,
    ...site.sensors,
    ...site.circuits,
    ...site.hubs,
    ...site.links,
    ...site.batteries,
  ];
  expect(parts.map(({ id }) => id).filter((id) => !drawn.has(id))).toEqual([]);
  for (const { person } of site.ladder) expect(drawn).toContain(person);
});

it.each(sites)("the waters of a site of %s do not lie over each other and fit the width", (_, site) => {
  for (const width of [700, 1150, 1500]) {
    for (const { systems } of draw(site, width).storeys) {
      const boxes = systems.flatMap((system) =>
        system.vessels.map(({ x, y, width: w, height }) => ({ x: system.x + x, y: system.y + y, w, height })),
      );
      for (const box of boxes) expect(box.x + box.w).toBeLessThanOrEqual(width);
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1)) {
          const apart = a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;
          expect(apart, `${JSON.stringify(a)} ${JSON.stringify(b)}`).toBe(true);
        }
      });
    }
  }
});

it("the sumps of a storey stand on one floor", () => {
  for (const { systems, floor } of draw(twelveSystems(), 1150).storeys) {
    const feet = systems.flatMap((system) =>
      system.vessels.filter(({ tier }) => tier !== "upper").map(({ y, height }) => system.y + y + height),
    );
    expect(new Set(feet.map(Math.round)).size).toBe(1);
    expect(feet[0]).toBeLessThan(floor);
  }
});

it("a fuller water stands higher", () => {
  const site = school();
  const surface = (litres: number): number => {
    const bodies = { "top-off-tank-1": { volumeL: litres, temperatureC: 20, salinity: 0 } };
    const [storey] = layOutStoreys(site, ["atrium-reef"], { bodies, flowsLPerH: {} }, 1150, (id) => id);
    return storey.systems[0].vessels.find(({ body }) => body.id === "top-off-tank-1")?.waterY ?? Number.NaN;
  };
  expect(surface(50)).toBeLessThan(surface(20));
});

it("one system alone keeps the circuits, hubs and links that have to do with it", () => {
  const site = school();
  const part = partOfSite(site, new Set(["coral-nursery"]));
  expect(circuitsUnder(part, new Set(["coral-nursery"]), false).map(({ id }) => id)).toEqual(["ring-b", "strip-3"]);
  expect(part.hubs.map(({ id }) => id)).toEqual(["hub"]);
  expect(part.links.map(({ id }) => id)).toEqual(["router", "line", "mobile"]);
  expect(partOfSite(site, new Set(site.systems.map(({ id }) => id)))).toBe(site);
});

it("labels that share a line do not touch", () => {
  const labels = ["reef-heater-1", "ph", "reef-alkalinity-doser", "reef-heater-2", "temp", "reef-skimmer"];
  for (const rows of [1, 2, 3]) {
    const { slot } = staggered(labels, rows, 30);
    labels.forEach((label, i) => {
      if (i + rows < labels.length)
        expect(rows * slot).toBeGreaterThanOrEqual((textWidth(label) + textWidth(labels[i + rows])) / 2);
    });
  }
  expect(
    lines([
      { from: 0, to: 50 },
      { from: 40, to: 90 },
      { from: 100, to: 120 },
    ]),
  ).toEqual([0, 1, 0]);
});

it.each(sites)("every part of a site of %s can be told in at most six fields", (_, site) => {
  const parts = [
    ...site.bodies,
    ...site.devices,
    ...site.sensors,
    ...site.circuits,
    ...site.hubs,
    ...site.links,
    ...site.batteries,
    ...site.people,
    ...site.flows,
    ...site.rooms,
  ];
  for (const { id } of parts) {
    const facts = factsOf(site, id, null);
    expect(facts?.fields.length, id).toBeGreaterThan(0);
    expect(facts?.fields.length, id).toBeLessThanOrEqual(6);
    expect(
      facts?.fields.every(({ value }) => value !== ""),
      id,
    ).toBe(true);
  }
  expect(factsOf(site, "no-such-part", null)).toBeNull();
});
