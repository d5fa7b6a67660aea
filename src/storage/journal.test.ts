import { appendFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { JournalEntry } from "../planning/index.ts";
import { appendToJournal, journalFileOf, readJournal } from "./journal.ts";

const ENTRY: JournalEntry = {
  id: "a",
  at: "2026-11-25T12:00:00.000Z",
  trial: "warm.works",
  part: "warm",
  held: true,
  note: 'with "quotes"\nand a second line',
  by: "keeper",
};

let folder: string;
let file: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "slackwater-journal-"));
  file = journalFileOf(join(folder, "my-tank.yaml"));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe("the journal", () => {
  it("lies beside its site file and is empty before anything was written", async () => {
    expect(file).toBe(join(folder, "my-tank.journal.jsonl"));
    expect(await readJournal(file)).toEqual({ lines: [], unread: [] });
  });

  it("gives back what was written, one line an entry, in order", async () => {
    const back = { id: "b", at: "2026-11-25T12:05:00.000Z", takesBack: "a" };
    await appendToJournal(file, ENTRY);
    await appendToJournal(file, back);
    expect(await readJournal(file)).toEqual({ lines: [ENTRY, back], unread: [] });
    expect(readFileSync(file, "utf8").trimEnd().split("\n")).toHaveLength(2);
  });

  it("tells of a line that was torn, skips it, and loses no other", async () => {
    await appendToJournal(file, ENTRY);
    appendFileSync(file, JSON.stringify({ ...ENTRY, id: "torn" }).slice(0, 40));
    const torn = await readJournal(file);
    expect(torn.lines).toEqual([ENTRY]);
    expect(torn.unread).toHaveLength(1);
    expect(torn.unread[0]).toContain("Line 2");
    await appendToJournal(file, { ...ENTRY, id: "after" });
    const after = await readJournal(file);
    expect(after.lines.map(({ id }) => id)).toEqual(["a", "after"]);
    expect(after.unread).toHaveLength(1);
  });

  it("reads a last line that is whole though its end is missing", async () => {
    writeFileSync(file, JSON.stringify(ENTRY));
    expect(await readJournal(file)).toEqual({ lines: [ENTRY], unread: [] });
  });

  it("skips what is JSON but no entry", async () => {
    writeFileSync(
      file,
      `7\n{"id":"x","at":"yesterday","trial":"t","part":"p","held":true}\n${JSON.stringify(ENTRY)}\n`,
    );
    const { lines, unread } = await readJournal(file);
    expect(lines).toEqual([ENTRY]);
    expect(unread).toHaveLength(2);
  });
});
