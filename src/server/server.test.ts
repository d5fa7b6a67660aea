import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { fixtureEngine, fixtureReader, type Pace } from "../../test/browser/fixtures/engine.ts";
import { resultsOf } from "../../test/browser/fixtures/results.ts";
import { oneTank, school } from "../../test/browser/fixtures/sites.ts";
import type { RehearsalAnswer, SiteAnswer } from "./contract/index.ts";
import { buildServer, startServer } from "./index.ts";

const AT_ONCE: Pace = { batch: Number.POSITIVE_INFINITY, pauseMs: 0 };
const SLOWLY: Pace = { batch: 10, pauseMs: 20 };
const HOST = { host: "localhost:4780" };

let folder: string;
let pace: Pace;
let closers: (() => Promise<unknown>)[];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "slackwater-server-"));
  writeFileSync(join(folder, "school.yaml"), "school");
  writeFileSync(join(folder, "kitchen.yaml"), "kitchen");
  writeFileSync(join(folder, "notes.txt"), "not a site");
  pace = AT_ONCE;
  closers = [];
});

afterEach(async () => {
  for (const close of closers) await close();
  rmSync(folder, { recursive: true });
});

function parts(more: Partial<Parameters<typeof buildServer>[0]> = {}): Parameters<typeof buildServer>[0] {
  return {
    file: join(folder, "school.yaml"),
    engine: fixtureEngine(() => pace),
    readSite: fixtureReader({ school, kitchen: oneTank }, (file) => readFile(file, "utf8")),
    rehearsesByItself: false,
    pages: folder,
    ...more,
  };
}

async function server(more: Partial<Parameters<typeof buildServer>[0]> = {}): Promise<FastifyInstance> {
  const app = await buildServer(parts(more));
  closers.push(() => app.close());
  return app;
}

async function get<T>(app: FastifyInstance, url: string): Promise<T> {
  return (await app.inject({ url, headers: HOST })).json<T>();
}

async function post(app: FastifyInstance, url: string, payload?: object, headers: Record<string, string> = {}) {
  return app.inject({
    method: "POST",
    url,
    headers: { ...HOST, ...headers },
    ...(payload === undefined ? {} : { payload }),
  });
}

async function untilState(app: FastifyInstance, state: RehearsalAnswer["state"]): Promise<RehearsalAnswer> {
  return vi.waitFor(async () => {
    const answer = await get<RehearsalAnswer>(app, "/api/rehearsal");
    expect(answer.state).toBe(state);
    return answer;
  }, 10_000);
}

it("the site is answered with its name, its file without the folder, and the site files beside it", async () => {
  const answer = await get<SiteAnswer>(await server(), "/api/site");
  expect(answer.site?.name).toBe("Alder Row School");
  expect(answer.file).toBe("school.yaml");
  expect(answer.others).toEqual(["kitchen.yaml", "school.yaml"]);
  expect(answer.errors).toEqual([]);
});

it("levels and flows follow once they are known", async () => {
  const app = await server();
  await vi.waitFor(async () => {
    const { settled } = await get<SiteAnswer>(app, "/api/site");
    expect(settled?.bodies["lagoon-display"].volumeL).toBe(260);
  });
});

it("no rehearsal has been run until someone asks for one", async () => {
  const app = await server();
  expect((await get<RehearsalAnswer>(app, "/api/rehearsal")).state).toBe("none");
  expect((await post(app, "/api/rehearsal/start")).statusCode).toBe(202);
  const { report } = await untilState(app, "done");
  expect(report?.drills).toHaveLength(resultsOf(school()).length);
});

it("a server that rehearses by itself begins when the site is read", async () => {
  const app = await server({ rehearsesByItself: true });
  const { report } = await untilState(app, "done");
  expect(report?.complete).toBe(true);
});

it("a rehearsal that is stopped keeps what was tried", async () => {
  pace = SLOWLY;
  const app = await server();
  await post(app, "/api/rehearsal/start");
  await vi.waitFor(async () => expect((await get<RehearsalAnswer>(app, "/api/rehearsal")).done).toBeGreaterThan(0));
  await post(app, "/api/rehearsal/stop");
  const answer = await get<RehearsalAnswer>(app, "/api/rehearsal");
  expect(answer.state).toBe("stopped");
  expect(answer.partial).toHaveLength(answer.done);
});

it("a rehearsal that fails says why and leaves the last good report", async () => {
  const app = await server();
  await post(app, "/api/rehearsal/start");
  await untilState(app, "done");
  pace = { batch: 100, pauseMs: 0, failsWith: "the twin lost its water" };
  await post(app, "/api/rehearsal/start");
  const answer = await untilState(app, "failed");
  expect(answer.problem).toBe("the twin lost its water");
  expect(answer.report?.drills).toHaveLength(resultsOf(school()).length);
});

it("a drill is answered with its traces, and worked out only once", async () => {
  const engine = fixtureEngine();
  const drill = vi.spyOn(engine, "drill");
  const app = await server({ engine });
  const url = `/api/drill?id=${encodeURIComponent("heater-1.stays-on@night")}&step=10`;
  const first = await get<{ id: string; trace: { t_min: number[] } }>(app, url);
  await get(app, url);
  expect(first.id).toBe("heater-1.stays-on@night");
  expect(first.trace.t_min[1]).toBe(10);
  expect(drill).toHaveBeenCalledTimes(1);
});

it.each([
  ["heater-1", 400, "want part.mode@circumstance"],
  ["heater-1.stays-on@christmas", 404, "want one of day, night, away"],
  ["heater-1.explodes@night", 404, 'has no drill "heater-1.explodes@night"'],
  ["a.b+c.d+e.f@night", 400, "want part.mode@circumstance"],
])("the drill %s is refused with what would be right", async (id, status, words) => {
  const answer = await (await server()).inject({ url: `/api/drill?id=${encodeURIComponent(id)}`, headers: HOST });
  expect(answer.statusCode).toBe(status);
  expect(answer.headers["content-type"]).toContain("application/problem+json");
  expect(answer.json().detail).toContain(words);
});

it("a trace finer than a quarter of a minute is refused", async () => {
  const answer = await (await server()).inject({ url: "/api/drill?id=heater-1.stays-on@night&step=0", headers: HOST });
  expect(answer.statusCode).toBe(400);
});

it("another site of the folder can be opened, and what was rehearsed before is forgotten", async () => {
  const app = await server();
  await post(app, "/api/rehearsal/start");
  await untilState(app, "done");
  const opened = await post(app, "/api/open", { name: "kitchen.yaml" });
  expect(opened.json<SiteAnswer>().site?.name).toBe("Kitchen");
  const { report } = await untilState(app, "done");
  expect(report?.site).toBe("Kitchen");
});

it.each(["../kitchen.yaml", "notes.txt", "absent.yaml", "/etc/passwd", "sub/../kitchen.yaml"])(
  "the file %s cannot be opened",
  async (name) => {
    const app = await server();
    expect((await post(app, "/api/open", { name })).statusCode).toBe(404);
    expect((await get<SiteAnswer>(app, "/api/site")).file).toBe("school.yaml");
  },
);

it("opening nothing is refused", async () => {
  expect((await post(await server(), "/api/open", {})).statusCode).toBe(400);
});

it.each(["slackwater.example", "localhost.example:4780", "192.168.1.5:4780", "127.0.0.1.example"])(
  "a request for the host %j is refused",
  async (host) => {
    const answer = await (await server()).inject({ url: "/api/site", headers: { host } });
    expect(answer.statusCode).toBe(403);
    expect(answer.body).not.toContain("Alder Row");
  },
);

it.each(["localhost", "127.0.0.1:4780", "[::1]:4780", "LOCALHOST:80"])(
  "a request for the host %s is answered",
  async (host) => {
    expect((await (await server()).inject({ url: "/api/site", headers: { host } })).statusCode).toBe(200);
  },
);

it.each([
  ["another page", { origin: "https://elsewhere.example" }],
  ["another port of this machine", { origin: "http://localhost:9999" }],
  ["a page without a name", { origin: "null" }],
  ["a form on another page", { "sec-fetch-site": "cross-site" }],
])("%s cannot start a rehearsal", async (_, headers) => {
  const app = await server();
  expect((await post(app, "/api/rehearsal/start", undefined, headers)).statusCode).toBe(403);
  expect((await get<RehearsalAnswer>(app, "/api/rehearsal")).state).toBe("none");
});

it("the app's own page can start a rehearsal", async () => {
  const headers = { origin: "http://localhost:4780", "sec-fetch-site": "same-origin" };
  expect((await post(await server(), "/api/rehearsal/start", undefined, headers)).statusCode).toBe(202);
});

it("pages may load scripts from this server only, and none inline", async () => {
  const policy = String(
    (await (await server()).inject({ url: "/healthz", headers: HOST })).headers["content-security-policy"],
  );
  expect(policy).toContain("script-src 'self'");
  expect(policy).toContain("default-src 'none'");
  expect(policy).toContain("worker-src 'self'");
  expect(policy).not.toContain("unsafe");
});

it("views of the app get its page, and what does not exist gets a problem", async () => {
  writeFileSync(join(folder, "index.html"), "<title>Slackwater</title>");
  const app = await server();
  const view = await app.inject({ url: "/drill?id=heater-1.stays-on@night", headers: HOST });
  expect(view.body).toContain("<title>Slackwater</title>");
  for (const url of ["/api/nothing", "/absent.js"]) {
    const answer = await app.inject({ url, headers: HOST });
    expect(answer.statusCode, url).toBe(404);
    expect(answer.headers["content-type"], url).toContain("application/problem+json");
  }
});

it("a site file that breaks is told with its line while the last good version stays, and one that is mended is rehearsed again", async () => {
  const app = await server({ rehearsesByItself: true });
  await untilState(app, "done");
  writeFileSync(join(folder, "school.yaml"), "ringb");
  await vi.waitFor(async () => {
    const { errors, site } = await get<SiteAnswer>(app, "/api/site");
    expect(errors[0]).toMatchObject({ line: 31, where: "heater-3.on" });
    expect(site?.name).toBe("Alder Row School");
  }, 5000);
  writeFileSync(join(folder, "school.yaml"), "kitchen");
  await vi.waitFor(async () => {
    expect((await get<SiteAnswer>(app, "/api/site")).errors).toEqual([]);
    expect((await get<RehearsalAnswer>(app, "/api/rehearsal")).report?.site).toBe("Kitchen");
  }, 5000);
});

it("a reading that breaks off is told as a fault of the program, and the last good version stays", async () => {
  const good = fixtureReader({ school }, (file) => readFile(file, "utf8"));
  let breaks = false;
  const app = await server({
    readSite: async (file) => (breaks ? Promise.reject(new Error("no such key")) : good(file)),
  });
  breaks = true;
  writeFileSync(join(folder, "school.yaml"), "school ");
  await vi.waitFor(async () => {
    const { errors, site } = await get<SiteAnswer>(app, "/api/site");
    expect(errors[0]?.message).toContain("no such key");
    expect(site?.name).toBe("Alder Row School");
  }, 5000);
});

it("saving a site file without changing the site rehearses nothing", async () => {
  const app = await server({ rehearsesByItself: true });
  const before = await untilState(app, "done");
  const read = (await get<SiteAnswer>(app, "/api/site")).readAt;
  writeFileSync(join(folder, "school.yaml"), `${readFileSync(join(folder, "school.yaml"), "utf8")}\n`);
  await vi.waitFor(async () => expect((await get<SiteAnswer>(app, "/api/site")).readAt).not.toBe(read), 5000);
  const after = await get<RehearsalAnswer>(app, "/api/rehearsal");
  expect(after.state).toBe("done");
  expect(after.finishedAt).toBe(before.finishedAt);
});

it("a rehearsal cannot be started while no site can be read", async () => {
  writeFileSync(join(folder, "school.yaml"), "ringb");
  const answer = await post(await server(), "/api/rehearsal/start");
  expect(answer.statusCode).toBe(409);
  expect(answer.json().detail).toContain("/api/site");
});

it("the live stream tells every drill once and ends with the state done", async () => {
  pace = SLOWLY;
  const running = await startServer({ ...parts(), port: 0 });
  closers.push(running.close);
  const stream = await fetch(`${running.address}/api/rehearsal/live`);
  expect(stream.headers.get("content-type")).toContain("text/event-stream");
  await fetch(`${running.address}/api/rehearsal/start`, { method: "POST" });

  const seen: string[] = [];
  let messages = 0;
  for await (const answer of eventsOf(stream)) {
    if (answer.state === "none") continue;
    messages += 1;
    if (answer.state === "done") break;
    expect(answer.from).toBe(seen.length);
    seen.push(...answer.partial.map((drill) => drill.id));
  }
  expect(messages).toBeGreaterThan(2);
  expect(new Set(seen).size).toBe(seen.length);
  expect(seen.length).toBeGreaterThan(0);
});

it("a port that another program has is named in the message", async () => {
  const other = createServer();
  await new Promise<void>((resolve) => other.listen(0, "127.0.0.1", resolve));
  closers.push(() => new Promise((resolve) => other.close(resolve)));
  const { port } = other.address() as AddressInfo;
  await expect(startServer({ ...parts(), port })).rejects.toThrow(
    `Cannot listen on port ${port}: another program has it`,
  );
});

/** Reads server-sent events until the reader breaks off. */
async function* eventsOf(response: Response): AsyncGenerator<RehearsalAnswer> {
  const decoder = new TextDecoder();
  let text = "";
  for await (const chunk of response.body ?? []) {
    text += decoder.decode(chunk, { stream: true });
    for (let end = text.indexOf("\n\n"); end >= 0; end = text.indexOf("\n\n")) {
      const event = text.slice(0, end);
      text = text.slice(end + 2);
      if (event.startsWith("data: ")) yield JSON.parse(event.slice(6)) as RehearsalAnswer;
    }
  }
}
