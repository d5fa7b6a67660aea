/** Remedies through the server: for the open site and its last rehearsal, in words that the web app can read. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it, vi } from "vitest";
import { fixtureEngine } from "../../test/browser/fixtures/engine.ts";
import { reportOf } from "../../test/browser/fixtures/results.ts";
import { ContractError, parseRemediesAnswer, type RemediesAnswer } from "./contract/index.ts";
import { buildServer } from "./index.ts";

const SITE = `site: Boat Shed
systems:
  tank:
    bodies:
      display: { volume: 180 L, brim: 195 L, livestock: { corals: soft } }
      can: { volume: 40 L, holds: fresh }
devices:
  top-off: { kind: top-off, in: display, from: can }
`;

async function answersOf(rehearsesByItself: boolean): Promise<RemediesAnswer> {
  const folder = mkdtempSync(join(tmpdir(), "slackwater-remedies-"));
  writeFileSync(join(folder, "shed.yaml"), SITE);
  const engine = fixtureEngine();
  const app = await buildServer({
    file: join(folder, "shed.yaml"),
    pages: folder,
    rehearsesByItself,
    engine: {
      ...engine,
      async rehearse(site) {
        const report = reportOf(site);
        const faults = [{ part: "top-off", mode: "will-not-stop" }];
        const drill = { ...report.drills[0], id: "top-off.will-not-stop@day", faults, finding: "It runs on." };
        return { ...report, drills: [drill] };
      },
    },
  });
  const ask = async () => (await app.inject({ url: "/api/remedies", headers: { host: "localhost" } })).json<unknown>();
  try {
    return await vi.waitUntil(async () => {
      const answer = parseRemediesAnswer(await ask());
      return answer.rehearsed === rehearsesByItself ? answer : null;
    });
  } finally {
    await app.close();
    rmSync(folder, { recursive: true });
  }
}

it("offers nothing before a rehearsal has come to its end", async () => {
  expect(await answersOf(false)).toMatchObject({ rehearsed: false, remedies: [] });
});

it("offers what aims at the findings, for the version of the file that is open", async () => {
  const { etag, remedies } = await answersOf(true);
  expect(etag).not.toBe("");
  const second = remedies.find(({ id }) => id === "spare-stops-at.top-off");
  expect(second?.aims).toEqual(["top-off.will-not-stop@day"]);
  expect(second?.costEUR.words).toContain("rough");
});

it.each([
  ["no list", { etag: "a", rehearsed: true, remedies: 3 }, "remedies answer.remedies"],
  ["a remedy without words", { etag: "a", rehearsed: true, remedies: [{ id: "a" }] }, "remedies[0].title"],
  ["no version", { rehearsed: true, remedies: [] }, "remedies answer.etag"],
])("an answer with %s is refused", (_, answer, words) => {
  expect(() => parseRemediesAnswer(answer)).toThrow(ContractError);
  expect(() => parseRemediesAnswer(answer)).toThrow(words);
});
