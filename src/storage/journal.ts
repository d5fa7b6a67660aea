/**
 * The journal beside a site file: `my-tank.journal.jsonl`, one JSON line an entry, only ever appended to.
 *
 * A line that cannot be read, such as one that a power cut tore, is told and skipped, and loses no other: an entry that is written
 * after it begins on a line of its own.
 */
import { open, readFile } from "node:fs/promises";
import type { JournalLine } from "../planning/index.ts";

/** What a journal holds. */
export interface Kept {
  readonly lines: readonly JournalLine[];
  /** Lines that could not be read, in words. */
  readonly unread: readonly string[];
}

/** `my-tank.yaml` -> `my-tank.journal.jsonl`, in the same folder. */
export function journalFileOf(siteFile: string): string {
  return `${siteFile.replace(/\.ya?ml$/i, "")}.journal.jsonl`;
}

/** All of a journal; nothing where there is no such file yet. */
export async function readJournal(file: string): Promise<Kept> {
  let text: string;
  try {
    text = await readFile(file, "utf8");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return { lines: [], unread: [] };
    throw error;
  }
  const rows = text.split("\n");
  const lines: JournalLine[] = [];
  const unread: string[] = [];
  for (const [index, row] of rows.entries()) {
    if (row.trim() === "") continue;
    const line = lineOf(row);
    if (line !== null) lines.push(line);
    else
      unread.push(
        `Line ${index + 1} of the journal cannot be read${index === rows.length - 1 ? ": it was torn while it was written" : ""}, and was skipped.`,
      );
  }
  return { lines, unread };
}

/** Adds an entry; when this resolves it is on the disk and not in a cache. */
export async function appendToJournal(file: string, line: JournalLine): Promise<void> {
  const handle = await open(file, "a+");
  try {
    const { size } = await handle.stat();
    const last = Buffer.alloc(1);
    if (size > 0) await handle.read(last, 0, 1, size - 1);
    const torn = size > 0 && last.toString() !== "\n";
    await handle.appendFile(`${torn ? "\n" : ""}${JSON.stringify(line)}\n`);
    await handle.sync();
  } finally {
    await handle.close();
  }
}

function lineOf(row: string): JournalLine | null {
  let value: unknown;
  try {
    value = JSON.parse(row);
  } catch {
    return null;
  }
  if (typeof value !== "object" || value === null) return null;
  const { id, at, trial, part, held, note, by, takesBack } = value as Readonly<Record<string, unknown>>;
  if (typeof id !== "string" || typeof at !== "string" || Number.isNaN(Date.parse(at))) return null;
  if (typeof takesBack === "string") return { id, at, takesBack };
  if (typeof trial !== "string" || typeof part !== "string" || typeof held !== "boolean") return null;
  return {
    id,
    at,
    trial,
    part,
    held,
    note: typeof note === "string" ? note : "",
    by: typeof by === "string" ? by : "",
  };
}
