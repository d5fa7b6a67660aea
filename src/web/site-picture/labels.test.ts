/** No label covers another or a symbol, and none is cut at the edge: over the examples, the largest place and random ones. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, it } from "vitest";
import { school, twelveSystems } from "../../../test/browser/fixtures/sites.ts";
import { randomSites } from "../../../test/random-sites.ts";
import { siteOf } from "../../../test/sites.ts";
import type { Site } from "../../server/contract/index.ts";
import { namesOf } from "../parts/names.tsx";
import { boxOf, overlap, SIZES } from "./geometry.ts";
import { layOutScene } from "./lay-out-scene.ts";
import type { Box, Label, Scene, Spot } from "./shapes.ts";
import { symbolsOf } from "./symbol-boxes.ts";

const example = (name: string): Site =>
  siteOf(readFileSync(new URL(`../../../examples/${name}.yaml`, import.meta.url), "utf8"));

const PLACES: readonly (readonly [string, Site])[] = [
  ["the example school", example("alder-row-school")],
  ["the mended school", example("alder-row-school-mended")],
  ["a first tank", example("first-tank")],
  ["three systems", school()],
  ["twelve systems", twelveSystems()],
];

function draw(site: Site, width: number, systemIds = site.systems.map(({ id }) => id)): Scene {
  const temperatureC = 25.4;
  const settled = {
    bodies: Object.fromEntries(site.bodies.map(({ id, volumeL }) => [id, { volumeL, temperatureC, salinity: 35 }])),
    flowsLPerH: Object.fromEntries(site.flows.map(({ id }) => [id, 2380])),
  };
  const nameOf = (id: string): string => namesOf(site).water(id) ?? id;
  const shown = { messages: true, people: true };
  return layOutScene({ site, systemIds, settled, width, shown, nameOf, before: null }).scene;
}

interface Written {
  readonly text: string;
  readonly box: Box;
}

function labelsOf({ storeys, below }: Scene): readonly Written[] {
  const labels: Written[] = [];
  const add = (label: Label | null | undefined, size: number, x = 0, y = 0): void => {
    if (label === null || label === undefined || label.text === "") return;
    const box = boxOf(label, size);
    labels.push({ text: label.text, box: { ...box, x: box.x + x, y: box.y + y } });
  };
  const addSpot = ({ label, reading }: Spot, x: number, y: number): void => {
    add(label, SIZES.device, x, y);
    if (label !== null && reading !== undefined)
      add({ ...label, text: reading, y: label.y + 14 }, SIZES.sounding, x, y);
  };
  for (const { rooms, systems, roomSpots } of storeys) {
    for (const { label } of rooms) add(label, SIZES.sounding);
    for (const { x, y, vessels, spots, pipes } of systems) {
      for (const { caption, note } of vessels) {
        add(caption, caption?.large === true ? SIZES.name : SIZES.sounding, x, y);
        add(note, SIZES.sounding, x, y);
      }
      for (const spot of spots) addSpot(spot, x, y);
      for (const { label, partId } of pipes) add(label, partId === label?.text ? SIZES.device : SIZES.sounding, x, y);
    }
    for (const spot of roomSpots) addSpot(spot, 0, 0);
  }
  for (const { labels: names, sensors } of below.lanes) {
    for (const label of names) add(label, label.small ? SIZES.sounding : 13.5);
    for (const { label } of sensors) add(label, SIZES.device);
  }
  for (const { notes } of below.stations) for (const note of notes) add(note, SIZES.sounding);
  for (const { name, notes, step } of below.ladder) {
    add(name, SIZES.device);
    for (const note of notes) add(note, SIZES.sounding);
    add(step?.wait, SIZES.sounding);
  }
  return labels;
}

/** In words, so that a failure tells which two. */
function faultsOf(scene: Scene): readonly string[] {
  const labels = labelsOf(scene);
  const symbols = symbolsOf(scene);
  const within = ({ x, y, width, height }: Box): boolean =>
    x >= 0 && y >= 0 && x + width <= scene.width && y + height <= scene.below.bottom;
  return labels.flatMap(({ text, box }, i) => [
    ...(within(box) ? [] : [`${text} is cut at the edge`]),
    ...labels.slice(i + 1).flatMap((other) => (overlap(box, other.box) ? [`${text} covers ${other.text}`] : [])),
    ...symbols.flatMap((symbol) =>
      overlap(box, symbol) ? [`${text} covers the symbol at ${symbol.x} ${symbol.y}`] : [],
    ),
  ]);
}

it.each(PLACES)("no label of %s covers another or a symbol, or is cut", (_, site) => {
  for (const width of [700, 1150, 1500]) expect(faultsOf(draw(site, width)), `at ${width}`).toEqual([]);
});

it.each(PLACES)("one system of %s at a time, as on a phone, has no label over another either", (_, site) => {
  for (const { id } of site.systems) expect(faultsOf(draw(site, 358, [id])), id).toEqual([]);
});

it("in any place that somebody could own no label covers another or a symbol, or is cut", () => {
  fc.assert(
    fc.property(randomSites, fc.constantFrom(358, 900, 1150), (text, width) => {
      expect(faultsOf(draw(siteOf(text), width))).toEqual([]);
    }),
    { numRuns: 25 },
  );
});

it.each(PLACES)("no device or sensor of %s stands in another", (_, site) => {
  for (const { systems } of draw(site, 1150).storeys)
    for (const { spots } of systems)
      spots.forEach((a, i) => {
        for (const b of spots.slice(i + 1)) {
          const near = Math.abs(a.x - b.x) < (a.width + b.width) / 2 && Math.abs(a.y - b.y) < (a.height + b.height) / 2;
          expect(near, `${a.part.id} and ${b.part.id}`).toBe(false);
        }
      });
});

it("every part is drawn once, however many floors its room takes", () => {
  for (const [name, site] of PLACES) {
    const ids = draw(site, 700).storeys.flatMap(({ systems, roomSpots }) => [
      ...systems.flatMap(({ spots }) => spots.map(({ part }) => part.id)),
      ...roomSpots.map(({ part }) => part.id),
    ]);
    expect(new Set(ids).size, name).toBe(ids.length);
  }
});

it("of the names of the examples all stand whole on a wide page", () => {
  for (const [, site] of PLACES) {
    const cut = labelsOf(draw(site, 1150)).filter(({ text }) => text.endsWith("\u2026"));
    expect(cut.map(({ text }) => text).filter((text) => !text.startsWith("feeds"))).toEqual([]);
  }
});

it("every part has its name in the picture, or at least its beginning, where there is any room for it", () => {
  const scene = draw(school(), 1150);
  const texts = new Set(labelsOf(scene).map(({ text }) => text));
  const nameless = scene.storeys.flatMap(({ systems }) =>
    systems.flatMap(({ spots, pipes }) =>
      spots
        .filter(({ part }) => !texts.has(part.id) && !pipes.some(({ label }) => label?.text === part.id))
        .map(({ part }) => part.id),
    ),
  );
  expect(nameless).toEqual([]);
});
