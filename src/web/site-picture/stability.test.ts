/** A change moves only what it touches: one more device in a water leaves the drawing of every other system as it was. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { device } from "../../../test/browser/fixtures/parts.ts";
import { school, twelveSystems } from "../../../test/browser/fixtures/sites.ts";
import type { Device, Site } from "../../server/contract/index.ts";
import { layOutScene } from "./lay-out-scene.ts";

const KINDS: readonly Device["kind"][] = ["heater", "wave-pump", "fan", "skimmer", "light", "air-pump", "steriliser"];

function draw(site: Site, width: number, before: Parameters<typeof layOutScene>[0]["before"]) {
  const shown = { messages: false, people: false };
  const systemIds = site.systems.map(({ id }) => id);
  return layOutScene({ site, systemIds, settled: null, width, shown, nameOf: (id) => id, before });
}

/** Every part of a system with where it is, and the order of its waters. */
function placesIn(site: ReturnType<typeof draw>["scene"]) {
  const all = site.storeys.flatMap(({ systems }) => systems);
  return new Map(
    all.map(({ id, x, y, vessels, spots }) => [
      id,
      {
        order: vessels.map(({ body }) => body.id),
        places: new Map([
          ...vessels.map(({ body, ...box }) => [body.id, [x + box.x, y + box.y]] as const),
          ...spots.map(({ part, ...spot }) => [part.id, [x + spot.x, y + spot.y]] as const),
        ]),
      },
    ]),
  );
}

const additions = fc.record({
  place: fc.constantFrom("school", "twelve systems"),
  body: fc.nat(),
  kind: fc.constantFrom(...KINDS),
  name: fc.stringMatching(/^[a-z]{3,9}(-[a-z]{2,9})?$/),
  width: fc.integer({ min: 640, max: 1500 }),
});

it("one more device moves no order, and every other system by one common shift at most", () => {
  fc.assert(
    fc.property(additions, ({ place, body, kind, name, width }) => {
      const site = place === "school" ? school() : twelveSystems();
      const waters = site.bodies.filter(({ role }) => role !== "reservoir" && role !== "container");
      const home = waters[body % waters.length];
      const more = { ...site, devices: [...site.devices, device(`new-${name}`, kind, home.system, home.id, 20)] };
      const was = draw(site, width, null);
      const now = draw(more, width, was.drawn);
      const before = placesIn(was.scene);
      const after = placesIn(now.scene);
      expect([...after.keys()]).toEqual([...before.keys()]);
      for (const [id, { order, places }] of before) {
        expect(after.get(id)?.order).toEqual(order);
        if (id === home.system) continue;
        const shifts = [...places].map(([part, [x, y]]) => {
          const [toX, toY] = after.get(id)?.places.get(part) ?? [Number.NaN, Number.NaN];
          return [toX - x, toY - y] as const;
        });
        for (const [right, down] of shifts) {
          expect(right, id).toBeCloseTo(shifts[0][0], 6);
          expect(down, id).toBeCloseTo(shifts[0][1], 6);
        }
      }
    }),
    { numRuns: 60 },
  );
});

it("what is taken back stands where it stood", () => {
  const site = school();
  const was = draw(site, 1150, null);
  const more = { ...site, devices: [...site.devices, device("new-one", "heater", "lagoon", "lagoon-sump", 20)] };
  const back = draw(site, 1150, draw(more, 1150, was.drawn).drawn);
  expect(placesIn(back.scene).get("atrium-reef")?.places).toEqual(placesIn(was.scene).get("atrium-reef")?.places);
});
