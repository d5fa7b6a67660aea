import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { fixtureEngine } from "../../test/browser/fixtures/engine.ts";
import {
  type FirstSite,
  type FirstSiteAnswers,
  type FirstSiteStart,
  parseFirstSite,
  parseFirstSiteAnswers,
  parseFirstSiteStart,
  parseTakenIn,
  type RehearsalAnswer,
  type SiteAnswer,
  type TakenIn,
} from "./contract/index.ts";
import { buildServer } from "./index.ts";

const HOST = { host: "localhost:4780" };
const SMALL = "site: Shelf\nsystems:\n  tank:\n    bodies:\n      display: { volume: 60 L }\n";

let folder: string;
let closers: (() => Promise<unknown>)[];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "slackwater-start-"));
  writeFileSync(join(folder, "shelf.yaml"), SMALL);
  closers = [];
});

afterEach(async () => {
  for (const close of closers) await close();
  rmSync(folder, { recursive: true });
});

async function server(file = "shelf.yaml"): Promise<FastifyInstance> {
  const app = await buildServer({ file: join(folder, file), engine: fixtureEngine(), rehearsesByItself: false });
  closers.push(() => app.close());
  return app;
}

async function get<T>(app: FastifyInstance, url: string): Promise<T> {
  return (await app.inject({ url, headers: HOST })).json<T>();
}

const post = (app: FastifyInstance, url: string, payload: object) =>
  app.inject({ method: "POST", url, headers: HOST, payload });

const takeIn = (app: FastifyInstance, name: string, text: string) =>
  app.inject({
    method: "POST",
    url: `/api/take-in?name=${encodeURIComponent(name)}`,
    headers: { ...HOST, "content-type": "text/plain" },
    payload: text,
  });

async function usual(app: FastifyInstance, more: Partial<FirstSiteAnswers> = {}): Promise<FirstSiteAnswers> {
  const { answers } = parseFirstSiteStart(await get(app, "/api/first-site"));
  return { ...answers, ...more };
}

const filesOf = (): string[] => readdirSync(folder).sort();

async function untilRehearsed(app: FastifyInstance, place: string): Promise<void> {
  await vi.waitFor(async () => {
    const { state, report } = await get<RehearsalAnswer>(app, "/api/rehearsal");
    expect([state, report?.site]).toEqual(["done", place]);
  }, 10_000);
}

it("the usual answers make a site that is shown and not written", async () => {
  const app = await server();
  const answer = await post(app, "/api/first-site", await usual(app, { place: "Kitchen reef" }));
  const made = parseFirstSite(answer.json());
  expect(made.errors).toEqual([]);
  expect(made.site?.name).toBe("Kitchen reef");
  expect(made.text).toContain("site: Kitchen reef");
  expect(made.file).toBe("kitchen-reef.yaml");
  expect(made.assumptions.length).toBeGreaterThan(10);
  expect(filesOf()).toEqual(["shelf.yaml"]);
  expect((await get<SiteAnswer>(app, "/api/site")).file).toBe("shelf.yaml");
});

it("an answer that cannot be read is told with its field, and nothing of it is lost", async () => {
  const app = await server();
  const answers = await usual(app);
  const tanks = [{ ...answers.tanks[0], volume: "200" }];
  const made = (await post(app, "/api/first-site", { ...answers, tanks })).json<FirstSite>();
  expect(made.site).toBeNull();
  expect(made.errors[0]).toMatchObject({ field: "tanks.0.volume", message: "'200' has no unit" });
  const kept = await post(app, "/api/first-site/keep", { answers: { ...answers, tanks } });
  expect(kept.statusCode).toBe(422);
  expect(kept.json().detail).toContain("'200' has no unit");
  expect(filesOf()).toEqual(["shelf.yaml"]);
});

it("a site that is kept lies beside the open one, is opened and rehearsed", async () => {
  const app = await server();
  const kept = await post(app, "/api/first-site/keep", { answers: await usual(app, { place: "Kitchen reef" }) });
  expect(kept.json<SiteAnswer>()).toMatchObject({ file: "kitchen-reef.yaml", errors: [] });
  expect(filesOf()).toEqual(["kitchen-reef.yaml", "shelf.yaml"]);
  await untilRehearsed(app, "Kitchen reef");
});

it("a place of the same name gets the next free file, and the first one stays as it was", async () => {
  const app = await server();
  const shelf = { answers: await usual(app, { place: "Shelf" }) };
  expect((await post(app, "/api/first-site/keep", shelf)).json<SiteAnswer>().file).toBe("shelf-2.yaml");
  expect((await post(app, "/api/first-site/keep", shelf)).json<SiteAnswer>().file).toBe("shelf-3.yaml");
  expect(readFileSync(join(folder, "shelf.yaml"), "utf8")).toBe(SMALL);
});

it("a name that was asked for is not written over, and the answer says which is free", async () => {
  const app = await server();
  const answers = await usual(app);
  const taken = await post(app, "/api/first-site/keep", { answers, file: "shelf.yaml" });
  expect(taken.statusCode).toBe(409);
  expect(taken.json().detail).toContain("shelf-2.yaml is free");
  expect(readFileSync(join(folder, "shelf.yaml"), "utf8")).toBe(SMALL);
  const free = await post(app, "/api/first-site/keep", { answers, file: "Großes Riff.yaml" });
  expect(free.json<SiteAnswer>().file).toBe("Großes Riff.yaml");
});

it.each(["../out.yaml", "/tmp/out.yaml", ".hidden.yaml", "notes.txt", "a\\b.yaml", "a\u0000.yaml", "con:1.yaml"])(
  "a site is not kept as %j",
  async (file) => {
    const app = await server();
    const answer = await post(app, "/api/first-site/keep", { answers: await usual(app), file });
    expect(answer.statusCode).toBe(422);
    expect(filesOf()).toEqual(["shelf.yaml"]);
  },
);

it.each([
  ["no tank", { tanks: [] }, "answers.tanks"],
  ["a life that nobody knows", { tanks: [{ life: "whales" }] }, "answers.tanks.0"],
  ["a number where a text stands", { place: 7 }, "answers.place"],
  ["a text without end", { place: "x".repeat(201) }, "at most 200 signs"],
])("answers with %s are refused with what was wanted", async (_, changes, words) => {
  const app = await server();
  const answer = await post(app, "/api/first-site", { ...(await usual(app)), ...changes });
  expect(answer.statusCode).toBe(400);
  expect(answer.json().detail).toContain(words);
});

it("answers pass their door unchanged, and nothing passes beside them", async () => {
  const answers = await usual(await server());
  expect(parseFirstSiteAnswers({ ...answers, more: 1 })).toEqual(answers);
});

it("a server begins with a file that is still to be written, says nothing wrong, and writes to it", async () => {
  const app = await server("garage.yaml");
  expect(await get<SiteAnswer>(app, "/api/site")).toMatchObject({ file: "garage.yaml", site: null, errors: [] });
  expect((await post(app, "/api/rehearsal/start", {})).statusCode).toBe(409);
  const kept = await post(app, "/api/first-site/keep", { answers: await usual(app, { place: "Kitchen reef" }) });
  expect(kept.json<SiteAnswer>()).toMatchObject({ file: "garage.yaml", site: { name: "Kitchen reef" } });
  await untilRehearsed(app, "Kitchen reef");
});

it("a file that somebody writes by hand meanwhile is read when it comes", async () => {
  const app = await server("garage.yaml");
  writeFileSync(join(folder, "garage.yaml"), SMALL);
  await vi.waitFor(async () => expect((await get<SiteAnswer>(app, "/api/site")).site?.name).toBe("Shelf"), 5000);
});

it("an example is opened as a copy, and the copy serves again", async () => {
  const app = await server();
  const { examples } = await get<FirstSiteStart>(app, "/api/first-site");
  expect(examples.map(({ file }) => file)).toContain("first-tank.yaml");
  const opened = parseTakenIn((await post(app, "/api/examples/open", { file: "first-tank.yaml" })).json());
  expect(opened.opened?.site?.name).toBe("First tank");
  await post(app, "/api/examples/open", { file: "first-tank.yaml" });
  expect(filesOf()).toEqual(["first-tank.yaml", "shelf.yaml"]);
  writeFileSync(join(folder, "first-tank.yaml"), "mine");
  const again = (await post(app, "/api/examples/open", { file: "first-tank.yaml" })).json<TakenIn>();
  expect(again.opened?.file).toBe("first-tank-2.yaml");
  expect(readFileSync(join(folder, "first-tank.yaml"), "utf8")).toBe("mine");
});

it.each(["../package.json", "absent.yaml"])("there is no example called %s", async (file) => {
  expect((await post(await server(), "/api/examples/open", { file })).statusCode).toBe(404);
});

it("a file from elsewhere that can be read is kept beside the open one and rehearsed", async () => {
  const app = await server();
  const { opened } = parseTakenIn((await takeIn(app, "Shelf.YML", SMALL)).json());
  expect(opened?.file).toBe("shelf-2.yaml");
  expect(readFileSync(join(folder, "shelf-2.yaml"), "utf8")).toBe(SMALL);
  await untilRehearsed(app, "Shelf");
});

it("a file from elsewhere with an error is told line by line and not kept", async () => {
  const app = await server();
  const { errors, opened } = (await takeIn(app, "theirs.yaml", SMALL.replace("60 L", "60 W"))).json<TakenIn>();
  expect(opened).toBeNull();
  expect(errors[0]).toMatchObject({ file: "theirs.yaml", line: 5, where: "display.volume" });
  expect(errors[0].hint).toContain("write a volume");
  expect(existsSync(join(folder, "theirs.yaml"))).toBe(false);
});

it("a file name from elsewhere can not lead out of the folder", async () => {
  const app = await server();
  const { opened } = (await takeIn(app, "../../etc/reef.yaml", SMALL)).json<TakenIn>();
  expect(opened?.file).toBe("etc-reef.yaml");
  expect(filesOf()).toEqual(["etc-reef.yaml", "shelf.yaml"]);
});

it("a file of more than 5 MB is refused with the limit", async () => {
  const answer = await takeIn(await server(), "huge.yaml", `${SMALL}#${"x".repeat(5_000_000)}`);
  expect(answer.statusCode).toBe(413);
  expect(answer.headers["content-type"]).toContain("application/problem+json");
  expect(answer.json().detail).toContain("More than 5 MB");
});
