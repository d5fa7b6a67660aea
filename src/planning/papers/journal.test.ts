import { describe, expect, it } from "vitest";
import { siteOf } from "../../../test/sites.ts";
import { applyJournal, type JournalEntry, type JournalLine } from "./journal.ts";
import { provingList } from "./proving.ts";

const DAY_MS = 86_400_000;
const NOW = Date.parse("2026-11-25T12:00:00Z");
const site = siteOf(`
site: Boat Shed
power: { batteries: { shelf: { energy: 60 Wh, feeds: air, last-tried: never } } }
hubs: { brain: { reads-every: 15 s, sends-over: line, tested: 5 months } }
links: { line: { kind: internet } }
systems:
  tank:
    bodies:
      display: { volume: 180 L, livestock: { corals: soft } }
      sump: { volume: 60 L }
    circulation: [ { from: sump, to: display, by: return, check-valve: yes, spare-drain: 500 L/h, tested: 8 months } ]
devices:
  return: { kind: return-pump, in: sump }
  heater: { kind: heater, power: 200 W, in: sump, cut-out: 28 degC, tested: 7 months }
  air: { kind: air-pump, in: display, spare: { last-tried: never } }
sensors: { temp: { measures: temperature, in: sump, hub: brain, tested: 9 months } }
rules: { warm: { hub: brain, when: { temp: above 27 degC }, notice: urgent, says: Too warm, tested: 6 months } }
people: { keeper: { reached-by: push, can: everything } }
ladder: [ keeper ]
silence-watch: { after: 20 min, tells: [ keeper ] }
`);

let count = 0;
function result(trial: string, daysAgo: number, held = true): JournalEntry {
  count += 1;
  const at = new Date(NOW - daysAgo * DAY_MS).toISOString();
  return { id: `e${count}`, at, trial, part: trial.split(".")[0], held, note: "", by: "keeper" };
}

const ruleAge = (lines: readonly JournalLine[]) => applyJournal(site, lines, NOW).rules[0].testedMonths;
const flowAge = (lines: readonly JournalLine[]) => applyJournal(site, lines, NOW).flows[0].testedMonths;

describe("what was recorded", () => {
  it("renews the age of a part, rounded up to a tenth of a month", () => {
    expect(ruleAge([])).toBe(6);
    expect(ruleAge([result("warm.works", 0)])).toBe(0);
    // 31 days are 1.02 months.
    expect(ruleAge([result("warm.works", 31)])).toBe(1.1);
  });

  it("makes a part whose trial failed one that was never proved", () => {
    expect(ruleAge([result("warm.works", 2, false)])).toBeNull();
    expect(ruleAge([result("warm.works", 2, false), result("warm.works", 1)])).toBe(0.1);
    expect(ruleAge([result("warm.works", 2), result("warm.works", 1, false)])).toBeNull();
  });

  it("counts by the day of the trial, whenever it was written down", () => {
    expect(ruleAge([result("warm.works", 1), result("warm.works", 60, false)])).toBe(0.1);
  });

  it("counts as never written once it was taken back, and the result before it again", () => {
    const wrong = result("warm.works", 0, false);
    const back: JournalLine = { id: "b", at: new Date(NOW).toISOString(), takesBack: wrong.id };
    expect(ruleAge([wrong, back])).toBe(6);
    expect(ruleAge([result("warm.works", 31), wrong, back])).toBe(1.1);
  });

  it("renews a part of several trials only as far as the oldest of them", () => {
    const flow = site.flows[0].id;
    expect(flowAge([result(`${flow}.check-valve`, 0)])).toBe(8);
    const all = ["siphon-break", "check-valve", "spare-drain"].map((what) => result(`${flow}.${what}`, 0));
    expect(flowAge(all)).toBe(0);
    expect(flowAge([...all, result(`${flow}.spare-drain`, 0, false)])).toBeNull();
  });

  it("reaches batteries, spares, cut-outs, people and the watch outside", () => {
    const renewed = applyJournal(
      site,
      ["shelf.carries", "air.runs", "heater.cut-out", "keeper.answers", "*.silence", "temp.reads-true"].map((id) =>
        result(id, 0),
      ),
      NOW,
    );
    expect(renewed.batteries[0].lastTriedMonths).toBe(0);
    expect(renewed.devices.find(({ id }) => id === "air")?.spare?.lastTriedMonths).toBe(0);
    expect(renewed.devices.find(({ id }) => id === "heater")?.testedMonths).toBe(0);
    expect(renewed.people[0].testedMonths).toBe(0);
    expect(renewed.silenceWatch?.testedMonths).toBe(0);
    expect(renewed.sensors[0].testedMonths).toBe(0);
    expect(Object.isFrozen(renewed)).toBe(true);
  });

  it("leaves a site alone that it says nothing of", () => {
    expect(applyJournal(site, [], NOW)).toBe(site);
    expect(applyJournal(site, [result("gone.works", 1)], NOW)).toBe(site);
  });
});

describe("the proving list", () => {
  it("begins with what failed, then what was never proved, then the oldest", () => {
    const { items } = provingList(site, [result("warm.works", 1, false), result("temp.reads-true", 200)], [], NOW);
    expect(items[0]).toMatchObject({ id: "warm.works", ageMonths: null, due: true });
    expect(items[1]).toMatchObject({ ageMonths: null, last: null });
    const ages = items.slice(1).map(({ ageMonths }) => ageMonths ?? Number.POSITIVE_INFINITY);
    expect(ages).toEqual(ages.toSorted((a, b) => b - a));
  });

  it("says what is due: a trial of three months ago is, one of yesterday is not", () => {
    const due = (days: number) =>
      provingList(site, [result("warm.works", days)], [], NOW).items.find(({ id }) => id === "warm.works")?.due;
    expect(due(1)).toBe(false);
    expect(due(92)).toBe(true);
  });

  it("counts results of trials that the site no longer has", () => {
    expect(provingList(site, [result("gone.works", 1)], [], NOW).orphans).toBe(1);
  });
});
