/** Waters mix as their flows say, exactly, and what came into one of them reacts as it would in the finest steps. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { startRun } from "../../test/sites.ts";
import { BODY_COLUMNS, TA } from "./columns.ts";
import { makeMixingRoom, mix, mixingShares } from "./mixing.ts";
import type { Twin } from "./state.ts";

const TANK = `
site: Limewater
systems:
  reef:
    bodies:
      display: { volume: 140 L, livestock: { corals: small-polyp, fish: 20 g, alkalinity-use: 1 dKH/d } }
      plants: { volume: 30 L }
      sump: { volume: 40 L }
    circulation:
      - { from: sump, to: display, by: return }
      - { from: sump, to: plants, by: feed }
devices:
  return: { kind: return-pump, in: sump, flow: 1200 L/h }
  feed: { kind: return-pump, in: sump, flow: 300 L/h }
  air: { kind: air-pump, in: sump, flow: 120 L/h }`;

/** Shares after some hours in a twin's first system. */
function sharesOf(twin: Twin, mass: Float64Array, hours: number): Float64Array {
  const [system] = twin.model.systems;
  const shares = new Float64Array(mass.length ** 2);
  mixingShares(twin, system, mass, hours, shares, makeMixingRoom(mass.length));
  return shares;
}

describe("the mixing of waters", () => {
  const { twin } = startRun(TANK).hours(1);
  const mass = Float64Array.from([143, 31, 41]);

  it("keeps every amount and makes none of any less than nothing", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 50, noNaN: true }), (hours) => {
        const shares = sharesOf(twin, mass, hours);
        for (let from = 0; from < 3; from++)
          expect(shares[from] + shares[3 + from] + shares[6 + from]).toBeCloseTo(1, 14);
        for (const share of shares) expect(share).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it("for an hour is that for half an hour, twice", () => {
    const room = makeMixingRoom(3);
    const start = [0.2, 5, 1];
    const once = Float64Array.from(start);
    const twice = Float64Array.from(start);
    mix(sharesOf(twin, mass, 1), 3, once, 1, room);
    const half = sharesOf(twin, mass, 0.5);
    mix(half, 3, twice, 1, room);
    mix(half, 3, twice, 1, room);
    for (let water = 0; water < 3; water++) expect(twice[water]).toBeCloseTo(once[water], 11);
  });

  it("ends as one water", () => {
    const amounts = Float64Array.from([3, 0, 0]);
    mix(sharesOf(twin, mass, 20), 3, amounts, 1, makeMixingRoom(3));
    const perKg = amounts.map((amount, water) => amount / mass[water]);
    expect(perKg[1] / perKg[0]).toBeCloseTo(1, 2);
    expect(perKg[2] / perKg[0]).toBeCloseTo(1, 2);
  });
});

describe("a pulse of limewater into the sump", () => {
  /** The display an hour after it, in steps of so many minutes. */
  function afterAnHour(minutes: number) {
    const run = startRun(TANK).hours(2);
    run.twin.bodies[run.body("sump") * BODY_COLUMNS + TA] += 0.03;
    run.pieces(1, minutes * 60);
    return { ph: run.phTotal("display"), alkalinityDKH: run.alkalinityDKH("display") };
  }

  it("moves pH and alkalinity in steps of twenty minutes as in steps of one", () => {
    const [coarse, fine] = [afterAnHour(20), afterAnHour(1)];
    expect(Math.abs(coarse.ph - fine.ph)).toBeLessThan(0.003);
    expect(Math.abs(coarse.alkalinityDKH - fine.alkalinityDKH)).toBeLessThan(0.01);
  });
});
