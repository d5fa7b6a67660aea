/** Changing the site through the server: nothing is written before it is kept, and nobody's change is lost. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { fixtureEngine, type Pace } from "../../test/browser/fixtures/engine.ts";
import type { EditAnswer, KeepConflict, RehearsalAnswer, SiteAnswer, SiteEdit, TrialAnswer } from "./contract/index.ts";
import { buildServer } from "./index.ts";

const SITE = `site: Boat Shed # by the water
systems:
  tank:
    bodies:
      display: { volume: 180 L, livestock: { corals: soft } }
devices:
  heater: { kind: heater, power: 200 W, in: display }
`;
const WARMER: SiteEdit = { op: "set", path: ["devices", "heater", "power"], value: "300 W" };

let folder: string;
let app: FastifyInstance;
let rehearsals: number;
let pace: Pace;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "slackwater-edit-"));
  writeFileSync(join(folder, "shed.yaml"), SITE);
  writeFileSync(join(folder, "other.yaml"), SITE.replace("200 W", "50 W"));
  rehearsals = 0;
  pace = { batch: Number.POSITIVE_INFINITY, pauseMs: 0 };
  const engine = fixtureEngine(() => pace);
  app = await buildServer({
    file: join(folder, "shed.yaml"),
    pages: folder,
    engine: {
      ...engine,
      rehearse(site, options) {
        rehearsals += 1;
        return engine.rehearse(site, options);
      },
    },
  });
});

afterEach(async () => {
  await app.close();
  rmSync(folder, { recursive: true });
});

async function ask<T>(method: "GET" | "POST" | "PUT", url: string, payload?: object, headers: object = {}): Promise<T> {
  const response = await app.inject({
    method,
    url,
    headers: { host: "localhost:4780", ...headers },
    ...(payload === undefined ? {} : { payload }),
  });
  return response.json<T>();
}

const onDisk = (): string => readFileSync(join(folder, "shed.yaml"), "utf8");
const edit = (text: string, edits: readonly SiteEdit[]) => ask<EditAnswer>("POST", "/api/site/edit", { text, edits });
const keep = <T = SiteAnswer>(text: string, etag: string) => ask<T>("PUT", "/api/site", { text }, { "if-match": etag });

async function trialDone(id: string): Promise<TrialAnswer> {
  return vi.waitFor(async () => {
    const trial = await ask<TrialAnswer>("GET", `/api/trials/${id}`);
    expect(trial.state).toBe("done");
    return trial;
  });
}

it("a change is made on a text, and the file stays as it is until the change is kept", async () => {
  const before = await ask<SiteAnswer>("GET", "/api/site");
  const changed = await edit(SITE, [WARMER]);
  expect(changed.site?.devices[0].powerW).toBe(300);
  expect(onDisk()).toBe(SITE);
  const after = await keep(changed.text, before.etag);
  expect(after.site?.devices[0].powerW).toBe(300);
  expect(onDisk()).toBe(SITE.replace("200 W", "300 W"));
  expect(readdirSync(folder).sort()).toEqual(["other.yaml", "shed.yaml"]);
});

it("a change that describes no place is answered with what is wrong, as the check would say it", async () => {
  const { site, errors } = await edit(SITE, [{ op: "set", path: ["devices", "heater", "power"], value: "a lot" }]);
  expect(site).toBeNull();
  expect(errors[0]).toMatchObject({ line: 7, where: "heater.power" });
});

it("what can not be read is not kept", async () => {
  const { etag } = await ask<SiteAnswer>("GET", "/api/site");
  const refused = await keep<{ status: number; detail: string }>(SITE.replace("200 W", "a lot"), etag);
  expect(refused).toMatchObject({ status: 422, detail: expect.stringContaining("Line 7: heater.power") });
  expect(onDisk()).toBe(SITE);
});

it("the second of two who changed the same version is told, is shown what stands there now, and overwrites nothing", async () => {
  const { etag } = await ask<SiteAnswer>("GET", "/api/site");
  const first = await edit(SITE, [WARMER]);
  const second = await edit(SITE, [{ op: "set", path: ["devices", "heater", "age"], value: "2 months" }]);
  const [a, b] = await Promise.all([keep<KeepConflict>(first.text, etag), keep<KeepConflict>(second.text, etag)]);
  expect(a.status).toBeUndefined();
  expect(b).toMatchObject({ status: 412, current: { text: first.text } });
  expect(onDisk()).toBe(first.text);
  const onTop = await edit(b.current.text as string, [
    { op: "set", path: ["devices", "heater", "age"], value: "2 months" },
  ]);
  await keep(onTop.text, b.current.etag);
  expect(onDisk()).toContain("power: 300 W, in: display, age: 2 months");
});

it("an editor that saved in between, even half a file, is not written over", async () => {
  const { etag } = await ask<SiteAnswer>("GET", "/api/site");
  writeFileSync(join(folder, "shed.yaml"), "site: Boat Sh");
  const { text } = await edit(SITE, [WARMER]);
  const conflict = await keep<KeepConflict>(text, etag);
  expect(conflict).toMatchObject({ status: 412, current: { text: "site: Boat Sh", site: { name: "Boat Shed" } } });
  expect(conflict.current.errors.length).toBeGreaterThan(0);
  expect(onDisk()).toBe("site: Boat Sh");
});

it("keeping without saying what was changed is refused", async () => {
  expect(await ask("PUT", "/api/site", { text: SITE })).toMatchObject({ status: 428 });
});

it("a tried change tells its verdicts, and once kept is not rehearsed again", async () => {
  const { etag } = await ask<SiteAnswer>("GET", "/api/site");
  const { text } = await edit(SITE, [WARMER]);
  const begun = await ask<TrialAnswer>("POST", "/api/trials", { text });
  const trial = await trialDone(begun.id);
  expect(trial.report?.drills.length).toBeGreaterThan(0);
  const before = rehearsals;
  await keep(text, etag);
  await vi.waitFor(async () => {
    const { report } = await ask<RehearsalAnswer>("GET", "/api/rehearsal");
    expect(report).toEqual(trial.report);
  });
  expect(rehearsals).toBe(before);
});

it("another file is rehearsed beside the open one, to compare", async () => {
  const begun = await ask<TrialAnswer>("POST", "/api/trials", { file: "other.yaml" });
  const trial = await trialDone(begun.id);
  expect(trial).toMatchObject({ file: "other.yaml", site: { devices: [{ powerW: 50 }] } });
  expect(await ask("POST", "/api/trials", { file: "../other.yaml" })).toMatchObject({ status: 404 });
});

it("every kind of part has its fields, with what to write and what holds otherwise", async () => {
  const fields = await ask<Record<string, { path: string[]; choices: string[]; names: string[] }[]>>(
    "GET",
    "/api/fields",
  );
  const of = (kind: string, key: string) => fields[kind].find(({ path }) => path.join(".") === key);
  expect(of("device", "without-hub")?.choices).toEqual(["on", "off", "as it was"]);
  expect(of("device", "on")?.names).toEqual(["circuit", "battery"]);
  expect(of("body", "livestock.corals")?.choices).toContain("soft");
  expect(of("rule", "when")).toMatchObject({ pairs: "condition" });
});

it("another file that is asked for again while it is at work goes on, and is not begun anew", async () => {
  await vi.waitUntil(async () => (await ask<RehearsalAnswer>("GET", "/api/rehearsal")).state === "done");
  pace = { batch: 1, pauseMs: 50 };
  const first = await ask<TrialAnswer>("POST", "/api/trials", { file: "other.yaml" });
  expect((await ask<TrialAnswer>("POST", "/api/trials", { file: "other.yaml" })).id).toBe(first.id);
  await app.inject({ method: "POST", url: `/api/trials/${first.id}/stop`, headers: { host: "localhost:4780" } });
  expect((await ask<TrialAnswer>("POST", "/api/trials", { file: "other.yaml" })).id).not.toBe(first.id);
});
