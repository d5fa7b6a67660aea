import { expect, it } from "vitest";
import { fixtureEngine, type Pace } from "../../test/browser/fixtures/engine.ts";
import { censusOf } from "../../test/browser/fixtures/results.ts";
import { school } from "../../test/browser/fixtures/sites.ts";
import { openPairsDesk } from "./pairs-desk.ts";

const site = school();

function desk(pace: Pace = { batch: 1, pauseMs: 0 }, failsWith?: string) {
  let edition = 1;
  const engine = fixtureEngine(() => pace);
  const opened = openPairsDesk({
    engine: failsWith === undefined ? engine : { rehearsePairs: () => Promise.reject(new Error(failsWith)) },
    seed: 1,
    clock: () => 0,
    edition: () => edition,
  });
  return { ...opened, change: () => (edition += 1) };
}

it("nothing is rehearsed until someone asks; then all pairs are, and each cell can be opened", async () => {
  const pairs = desk();
  expect(pairs.answer()).toMatchObject({ state: "none", pairs: null });
  pairs.start(site);
  expect(pairs.answer().state).toBe("at work");
  await pairs.idle();
  const answer = pairs.answer();
  expect(answer.state).toBe("done");
  expect(answer.pairs?.tried).toBe(censusOf(site).planned);
  const [worst] = answer.pairs?.cells ?? [];
  const cell = pairs.cell(worst.first, worst.trigger);
  expect(cell?.drills[0].id).toBe(worst.worst.id);
  expect(pairs.cell("nothing", worst.trigger)).toBeNull();
});

it("what was rehearsed is forgotten when the site changes, and what is at work stops", async () => {
  const pairs = desk();
  pairs.start(site);
  await pairs.idle();
  pairs.change();
  expect(pairs.answer().state).toBe("none");
  const busy = desk({ batch: 1, pauseMs: 30 });
  busy.start(site);
  busy.change();
  busy.follow();
  await busy.idle();
  expect(busy.answer().state).toBe("none");
});

it("a run can be stopped, and one that fails says why", async () => {
  const busy = desk({ batch: 1, pauseMs: 30 });
  busy.start(site);
  busy.stop();
  await busy.idle();
  expect(busy.answer().state).toBe("stopped");
  const broken = desk(undefined, "the twin lost its water");
  broken.start(site);
  await broken.idle();
  expect(broken.answer()).toMatchObject({ state: "failed", problem: "the twin lost its water" });
});
