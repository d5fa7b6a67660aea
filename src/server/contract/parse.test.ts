import { expect, it } from "vitest";
import { reportOf } from "../../../test/browser/fixtures/results.ts";
import { school } from "../../../test/browser/fixtures/sites.ts";
import { drillReport } from "../../../test/browser/fixtures/traces.ts";
import { ContractError, parseDrillReport, parseProblem, parseRehearsalAnswer, parseSiteAnswer } from "./index.ts";

const noSite = {
  file: "school.yaml",
  errors: [],
  readAt: null,
  settled: null,
  text: null,
  etag: '"a"',
  defaults: [],
  others: [],
};

const rehearsal = {
  state: "done",
  version: 1,
  done: 1,
  total: 1,
  secondsLeft: null,
  finishedAt: null,
  report: null,
  partial: [],
  from: 0,
  problem: null,
};

it("what the server sends passes the doors unchanged", () => {
  const site = school();
  const answer = { ...noSite, written: null, site };
  const report = reportOf(site);
  expect(parseSiteAnswer(answer)).toBe(answer);
  expect(parseRehearsalAnswer({ ...rehearsal, report })).toMatchObject({ report });
  const drill = drillReport(site, report.drills[0], 60);
  expect(parseDrillReport(drill)).toBe(drill);
});

it.each([
  ["a site answer without a site", () => parseSiteAnswer(noSite), "site answer.site: have nothing, want an object"],
  [
    "a site without bodies",
    () => parseSiteAnswer({ ...noSite, site: { ...school(), bodies: 3 } }),
    "site answer.site.bodies: have 3, want a list",
  ],
  [
    "a state that nobody knows",
    () => parseRehearsalAnswer({ ...rehearsal, state: "asleep" }),
    'have "asleep", want one of none, at work',
  ],
  [
    "a report without drills",
    () => parseRehearsalAnswer({ ...rehearsal, report: {} }),
    "rehearsal answer.report.drills",
  ],
  [
    "a drill without a trace",
    () =>
      parseDrillReport({
        id: "a",
        name: "b",
        verdict: "late",
        starts: "2026-01-01T00:00",
        faults: [],
        events: [],
        people: [],
        thresholds: [],
        later: [],
        would_help: [],
        minutes: {},
      }),
    "drill report.trace",
  ],
  ["a problem without words", () => parseProblem({ title: "No", status: 404 }), "problem.detail"],
  ["a list in place of an object", () => parseSiteAnswer([]), "site answer: have [], want an object"],
])("%s is refused with what was wanted", (_, parse, words) => {
  expect(parse).toThrow(ContractError);
  expect(parse).toThrow(words);
});
