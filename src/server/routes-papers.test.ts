/** Papers and journal through the server: what is recorded lies beside the site file and moves the ages of the open site. */
import { appendFileSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { fixtureEngine } from "../../test/browser/fixtures/engine.ts";
import type { Papers, RehearsalAnswer, ResultToRecord, SiteAnswer, TrialAnswer } from "./contract/index.ts";
import { parsePapers } from "./contract/index.ts";
import { buildServer } from "./index.ts";

const SITE = `site: Boat Shed
zone: Europe/London
systems:
  tank:
    bodies:
      display: { volume: 180 L, livestock: { corals: soft } }
devices:
  heater: { kind: heater, power: 200 W, in: display }
sensors:
  temp: { measures: temperature, in: display, hub: brain, tested: 9 months }
hubs: { brain: { sends-over: line } }
links: { line: { kind: internet } }
rules:
  warm: { hub: brain, when: { temp: above 27 degC }, notice: urgent, says: Too warm }
people: { keeper: { reached-by: push, can: everything } }
ladder: [ keeper ]
`;
const NOW = Date.parse("2026-11-25T12:00:00Z");
const HELD: ResultToRecord = {
  trial: "temp.reads-true",
  on: "2026-11-25",
  held: true,
  note: " 0.1 off ",
  by: "keeper",
};

let folder: string;
let app: FastifyInstance;
let nowMs: number;
let rehearsals: number;

async function start(): Promise<FastifyInstance> {
  const engine = fixtureEngine();
  return buildServer({
    file: join(folder, "shed.yaml"),
    pages: folder,
    clock: () => nowMs,
    engine: {
      ...engine,
      rehearse(site, options) {
        rehearsals += 1;
        return engine.rehearse(site, options);
      },
    },
  });
}

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "slackwater-papers-"));
  writeFileSync(join(folder, "shed.yaml"), SITE);
  nowMs = NOW;
  rehearsals = 0;
  app = await start();
  await rehearsed();
});
afterEach(async () => {
  await app.close();
  rmSync(folder, { recursive: true });
});

const headers = { host: "localhost:4780" };
const get = async <T>(url: string): Promise<T> => (await app.inject({ url, headers })).json<T>();
const post = async (url: string, payload: object) => app.inject({ method: "POST", url, headers, payload });
const papers = async (): Promise<Papers> => parsePapers(await get("/api/papers"));
const item = (all: Papers, id: string) => all.proving.items.find((one) => one.id === id);
const testedMonths = async () => (await get<SiteAnswer>("/api/site")).site?.sensors[0].testedMonths;

async function rehearsed(): Promise<void> {
  await vi.waitFor(async () => expect((await get<RehearsalAnswer>("/api/rehearsal")).state).toBe("done"));
}

it("all four papers come as one answer, with the rehearsal that was brought to an end", async () => {
  const all = await papers();
  expect(all.site).toBe("Boat Shed");
  expect(all.madeAt).toBe(new Date(NOW).toISOString());
  expect(all.setUp.rules[0].words).toContain("above 27 °C");
  expect(all.report?.drills).toBeGreaterThan(0);
  expect(all.report?.assumptionsInAll).toBeGreaterThan(0);
  expect(all.keyHolders.map(({ person }) => person)).toEqual(["keeper"]);
});

it("a recorded result stands in the journal beside the site file, renews the age, and is rehearsed", async () => {
  expect(await testedMonths()).toBe(9);
  const before = rehearsals;
  const answer = parsePapers((await post("/api/journal", HELD)).json());
  expect(item(answer, HELD.trial)).toMatchObject({ ageMonths: 0, ageFrom: "journal", due: false });
  expect(item(answer, HELD.trial)?.last).toMatchObject({ held: true, note: "0.1 off", by: "keeper" });
  const [line] = readFileSync(join(folder, "shed.journal.jsonl"), "utf8").trim().split("\n");
  expect(JSON.parse(line)).toMatchObject({
    trial: HELD.trial,
    part: "temp",
    held: true,
    at: new Date(NOW).toISOString(),
  });
  expect(await testedMonths()).toBe(0);
  await rehearsed();
  expect(rehearsals).toBe(before + 1);
  expect(readFileSync(join(folder, "shed.yaml"), "utf8")).toBe(SITE);
});

it("the ages are there again when the program starts again, and have grown", async () => {
  await post("/api/journal", HELD);
  await app.close();
  nowMs = NOW + 61 * 86_400_000;
  app = await start();
  expect(await testedMonths()).toBe(2.1);
});

it("what did not hold makes the part one that was never proved", async () => {
  const answer = parsePapers((await post("/api/journal", { ...HELD, held: false })).json());
  expect(item(answer, HELD.trial)).toMatchObject({ ageMonths: null, due: true });
  expect(answer.proving.items[0].id).toBe(HELD.trial);
  expect(await testedMonths()).toBeNull();
});

it("a result that was a mistake is taken back by a line more, once", async () => {
  const recorded = parsePapers((await post("/api/journal", HELD)).json());
  const id = item(recorded, HELD.trial)?.last?.id;
  const answer = parsePapers((await post("/api/journal/take-back", { id })).json());
  expect(item(answer, HELD.trial)).toMatchObject({ last: null, ageMonths: 9, ageFrom: "file" });
  expect(await testedMonths()).toBe(9);
  expect(readFileSync(join(folder, "shed.journal.jsonl"), "utf8").trim().split("\n")).toHaveLength(2);
  expect((await post("/api/journal/take-back", { id })).statusCode).toBe(404);
});

it("a trial of an earlier day counts from that day", async () => {
  const answer = parsePapers((await post("/api/journal", { ...HELD, on: "2026-10-25" })).json());
  expect(item(answer, HELD.trial)?.ageMonths).toBe(1.1);
});

it.each([
  ["a trial that the site does not have", { ...HELD, trial: "gone.works" }, 404],
  ["a day that has not come", { ...HELD, on: "2026-11-26" }, 422],
  ["what is no day", { ...HELD, on: "yesterday" }, 400],
  ["a day that no calendar has", { ...HELD, on: "2026-13-45" }, 422],
  ["a result that is neither", { ...HELD, held: "perhaps" }, 400],
])("%s is refused as a problem, and nothing is written", async (_, body, status) => {
  const answer = await post("/api/journal", body);
  expect(answer.statusCode).toBe(status);
  expect(answer.headers["content-type"]).toContain("application/problem+json");
  expect(existsSync(join(folder, "shed.journal.jsonl"))).toBe(false);
});

it("a torn line of the journal is told, and the rest of it counts", async () => {
  await post("/api/journal", HELD);
  appendFileSync(join(folder, "shed.journal.jsonl"), '{"id":"torn","at":"2026');
  const all = await papers();
  expect(all.proving.unread).toHaveLength(1);
  expect(item(all, HELD.trial)?.last?.held).toBe(true);
});

it("a change that is tried beside the open site is tried with the same journal", async () => {
  await post("/api/journal", HELD);
  const { id } = (await post("/api/trials", { text: SITE.replace("200 W", "300 W") })).json<TrialAnswer>();
  await vi.waitFor(async () => expect((await get<TrialAnswer>(`/api/trials/${id}`)).state).toBe("done"));
  const described = (await post("/api/site/edit", { text: SITE, edits: [] })).json<{ site: SiteAnswer["site"] }>();
  expect(described.site?.sensors[0].testedMonths).toBe(0);
});

it("without a site that could be read there are no papers", async () => {
  await app.close();
  writeFileSync(join(folder, "shed.yaml"), "site: [");
  app = await start();
  expect((await app.inject({ url: "/api/papers", headers })).statusCode).toBe(409);
});
