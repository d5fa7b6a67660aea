import { expect, it, vi } from "vitest";
import { fixtureEngine } from "../../test/browser/fixtures/engine.ts";
import { school } from "../../test/browser/fixtures/sites.ts";
import { openDrillShelf, readDrillId } from "./drill-shelf.ts";

it.each([
  ["heater-1.stays-on@night", ["heater-1.stays-on"], "night"],
  ["air-pump.dead+mains.cut@away", ["air-pump.dead", "mains.cut"], "away"],
])("readDrillId() takes %s apart", (id, faultIds, circumstance) => {
  expect(readDrillId(id)).toEqual({ faultIds, circumstance });
});

it.each(["", "heater-1@night", "heater-1.stays-on", "@night", "a.b@", "a.b c.d@night", "a.b+@night"])(
  "readDrillId() refuses %j",
  (id) => {
    expect(readDrillId(id)).toBeNull();
  },
);

it("the shelf forgets the drill that was asked for longest ago", async () => {
  const engine = fixtureEngine();
  const drill = vi.spyOn(engine, "drill");
  const shelf = openDrillShelf({ engine, seed: 1, keeps: 2 });
  const take = (faultId: string) => shelf.take(school(), 1, { faultIds: [faultId], circumstance: "day" }, 60);
  await take("heater-1.stays-on");
  await take("heater-2.stays-on");
  await take("heater-1.stays-on");
  await take("heater-3.stays-on");
  await take("heater-1.stays-on");
  expect(drill).toHaveBeenCalledTimes(3);
  await take("heater-2.stays-on");
  expect(drill).toHaveBeenCalledTimes(4);
});

it("the shelf answers nothing from an earlier version of the site", async () => {
  const engine = fixtureEngine();
  const drill = vi.spyOn(engine, "drill");
  const shelf = openDrillShelf({ engine, seed: 1, keeps: 5 });
  const id = { faultIds: ["heater-1.stays-on"], circumstance: "day" };
  await shelf.take(school(), 1, id, 60);
  await shelf.take(school(), 2, id, 60);
  expect(drill).toHaveBeenCalledTimes(2);
});

it("the shelf tries a failed drill again", async () => {
  const engine = fixtureEngine();
  const drill = vi.spyOn(engine, "drill").mockRejectedValueOnce(new Error("out of memory"));
  const shelf = openDrillShelf({ engine, seed: 1, keeps: 5 });
  const id = { faultIds: ["heater-1.stays-on"], circumstance: "day" };
  await expect(shelf.take(school(), 1, id, 60)).rejects.toThrow("out of memory");
  expect((await shelf.take(school(), 1, id, 60)).id).toBe("heater-1.stays-on@day");
  expect(drill).toHaveBeenCalledTimes(2);
});
