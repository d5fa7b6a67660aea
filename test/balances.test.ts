/**
 * Nothing appears and nothing vanishes: over thirty days, whatever stands there and whatever fails, the stock of every system
 * changes by what crossed its border (books.ts), to a part in a thousand million.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { makeBench } from "../src/drills/faults/bench.ts";
import { fullSite } from "../src/drills/faults/full-site-for-tests.ts";
import { type Fault, faultId, faultModes, faultsOf } from "../src/drills/faults/index.ts";
import { restore, snapshot, type Twin } from "../src/twin/index.ts";
import { BorderBooks, CROSSINGS, type Crossing, columnOf, QUANTITIES } from "./books.ts";
import { randomSites } from "./random-sites.ts";
import { type Run, startRun } from "./sites.ts";

const DAYS = 30;
const DAY_H = 24;
const CLOSES_TO = 1e-9;
/** For a machine that has other things to do. */
const LONG_MS = 300_000;

/** What does not close, in words; nothing where all does. */
function gaps({ twin }: Run, books: BorderBooks): string[] {
  return twin.model.systems.flatMap((system) =>
    books
      .balances(system)
      .filter(({ relativeError }) => !(Math.abs(relativeError) <= CLOSES_TO))
      .map(
        ({ quantity, start, end, crossed, relativeError }) =>
          `${quantity} of ${system.id}: ${start} to ${end}, but ${crossed} crossed the border (${relativeError})`,
      ),
  );
}

/** A fault of the site, the day on which it strikes, and how many days later somebody ends it, if anybody does. */
interface Blow {
  readonly pick: number;
  readonly day: number;
  readonly lastsDays: number | null;
}

const blows: fc.Arbitrary<readonly Blow[]> = fc.array(
  fc.record({
    pick: fc.nat(1_000_000),
    day: fc.integer({ min: 0, max: DAYS - 2 }),
    lastsDays: fc.option(fc.integer({ min: 1, max: 12 })),
  }),
  { minLength: 2, maxLength: 6 },
);

function strike(twin: Twin, { mode, part }: Fault): void {
  mode.inject(makeBench(twin), part);
}

function mend(twin: Twin, { mode, part }: Fault): void {
  mode.end.apply(makeBench(twin), part);
}

/** Runs thirty days in which the blows fall, in the order of their days. */
function live(run: Run, falling: readonly Blow[]): void {
  const faults = faultsOf(run.site);
  const acts = falling
    .flatMap(({ pick, day, lastsDays }) => {
      const fault = faults[pick % faults.length];
      const struck = { day, act: () => strike(run.twin, fault) };
      return lastsDays === null ? [struck] : [struck, { day: day + lastsDays, act: () => mend(run.twin, fault) }];
    })
    .filter(({ day }) => day < DAYS)
    .toSorted((one, other) => one.day - other.day);
  let today = 0;
  for (const { day, act } of acts) {
    run.hours((day - today) * DAY_H);
    today = day;
    act();
  }
  run.hours((DAYS - today) * DAY_H);
}

describe("over thirty days water, salt, heat, carbon, calcium, magnesium, alkalinity, nitrogen, phosphorus and oxygen", () => {
  it(
    "of any place balance in plain life",
    () => {
      const property = (text: string, hands: boolean) => {
        const run = startRun(text, { hands });
        const books = new BorderBooks(run.twin);
        live(run, []);
        expect(gaps(run, books)).toEqual([]);
      };
      fc.assert(fc.property(randomSites, fc.boolean(), property), {
        seed: 20_260_513,
        numRuns: 10,
        endOnFailure: true,
      });
    },
    LONG_MS,
  );

  it(
    "of any place balance whatever fails, and whoever mends it",
    () => {
      const property = (text: string, hands: boolean, falling: readonly Blow[]) => {
        const run = startRun(text, { hands });
        const books = new BorderBooks(run.twin);
        live(run, falling);
        expect(gaps(run, books)).toEqual([]);
      };
      fc.assert(fc.property(randomSites, fc.boolean(), blows, property), { seed: 7, numRuns: 20, endOnFailure: true });
    },
    LONG_MS,
  );
});

describe("every way to fail", () => {
  it("takes and gives only what crosses the border, and so does whoever ends it", () => {
    const run = startRun(fullSite(), { hands: true }).hours(DAY_H);
    const start = snapshot(run.twin);
    const faults = faultsOf(run.site);
    const wrong: string[] = [];
    for (const mode of faultModes) {
      const fault = faults.find((one) => one.mode === mode);
      if (fault === undefined) continue;
      restore(run.twin, start);
      run.hours(0.01);
      const books = new BorderBooks(run.twin);
      strike(run.twin, fault);
      run.hours(4);
      mend(run.twin, fault);
      run.hours(2);
      wrong.push(...gaps(run, books).map((gap) => `${faultId(fault)}: ${gap}`));
    }
    expect(wrong).toEqual([]);
  });
});

describe("the books", () => {
  // Everything that can cross, in a day: corals and fish in the light, a skimmer, a reactor, a doser of carbon, crystals.
  const BUSY = `
site: Busy
systems:
  reef:
    bodies:
      display: { volume: 200 L, rock: 20 kg, livestock: { corals: mixed, alkalinity-use: 1 dKH/d, fish: 100 g } }
      sump: { volume: 60 L }
      lime: { volume: 60 L, holds: limewater }
      carbon-can: { volume: 2 L, holds: { solution: carbon, strength: 0.3 g/mL } }
    circulation: [ { from: sump, to: display, by: return } ]
devices:
  return: { kind: return-pump, in: sump }
  heater: { kind: heater, in: sump }
  lamp: { kind: light, in: display }
  skimmer: { kind: skimmer, in: sump }
  reactor: { kind: calcium-reactor, in: sump }
  carbon-doser: { kind: doser, in: sump, from: carbon-can, amount: 5 mL/d }
  feeder: { kind: feeder, in: display, amount: 3 g/d, holds: 60 g }
  top-off: { kind: top-off, in: sump }`;

  /** A day in which limewater runs in until it snows, a hand bubbles in CO2, and something is left to rot. */
  function busyDay(misread: Readonly<Partial<Record<Crossing, number>>>): { run: Run; books: BorderBooks } {
    const run = startRun(BUSY);
    makeBench(run.twin).food("display", 20);
    const books = new BorderBooks(run.twin, misread);
    run.set("display", "carbonDioxideMolH", 0.001).set("top-off", "float", 1).hours(DAY_H);
    return { run, books };
  }

  it("close on a day on which everything happens", () => {
    const { run, books } = busyDay({});
    expect(gaps(run, books)).toEqual([]);
  });

  it.each(Object.keys(CROSSINGS) as Crossing[])(
    "no longer close if %s is misread by one in ten thousand",
    (crossing) => {
      const { run, books } = busyDay({ [crossing]: 1 + 1e-4 });
      expect(gaps(run, books).length).toBeGreaterThan(0);
    },
  );

  it.each(QUANTITIES)("miss a millionth of the %s that comes from nowhere", (quantity) => {
    const { run, books } = busyDay({});
    const stock = books.balances(run.twin.model.systems[0]).find((one) => one.quantity === quantity);
    books.moved(0, columnOf(quantity), 1e-6 * Math.abs(stock?.end ?? 0));
    expect(gaps(run, books).length).toBeGreaterThan(0);
  });
});
