import { randomUUID } from "node:crypto";
import { applyJournal, type JournalEntry } from "../planning/index.ts";
import { appendToJournal, journalFileOf, type Kept, readJournal } from "../storage/index.ts";
import type { Site } from "./contract/index.ts";
import type { Clock, ReadSite, SiteReading } from "./engine-port.ts";

/** Reads sites with the ages that their journals give, and writes results down. */
export interface JournalDesk {
  /** Reads a site file and what was recorded beside it. */
  readonly readSite: ReadSite;
  /** The same reading with the ages of the journal beside a file. */
  renew<R extends Pick<SiteReading, "site">>(reading: R, file: string): Promise<R>;
  /** The last version of a file as it is written, without its journal; null where it was never read. */
  written(file: string): Site | null;
  kept(file: string): Promise<Kept>;
  record(file: string, result: Omit<JournalEntry, "id">): Promise<void>;
  /** Whether there was such a result to take back. */
  takeBack(file: string, id: string): Promise<boolean>;
}

export function openJournalDesk({
  readSite,
  clock,
}: {
  readonly readSite: ReadSite;
  readonly clock: Clock;
}): JournalDesk {
  const writtenSites = new Map<string, Site>();
  // One line after the other: two at once would both look at the same end of the file.
  let writing: Promise<unknown> = Promise.resolve();

  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const mine = writing.then(work);
    writing = mine.catch(() => undefined);
    return mine;
  }

  async function renew<R extends Pick<SiteReading, "site">>(reading: R, file: string): Promise<R> {
    if (reading.site === null) return reading;
    const { lines } = await readJournal(journalFileOf(file));
    return { ...reading, site: applyJournal(reading.site, lines, clock()) };
  }

  return {
    async readSite(file) {
      const reading = await readSite(file);
      if (reading.site !== null) writtenSites.set(file, reading.site);
      return renew(reading, file);
    },
    renew,
    written: (file) => writtenSites.get(file) ?? null,
    kept: (file) => readJournal(journalFileOf(file)),
    record: (file, result) => inTurn(() => appendToJournal(journalFileOf(file), { id: randomUUID(), ...result })),
    takeBack: (file, id) =>
      inTurn(async () => {
        const { lines } = await readJournal(journalFileOf(file));
        const isResult = lines.some((line) => line.id === id && !("takesBack" in line));
        const isTakenBack = lines.some((line) => "takesBack" in line && line.takesBack === id);
        if (!isResult || isTakenBack) return false;
        const at = new Date(clock()).toISOString();
        await appendToJournal(journalFileOf(file), { id: randomUUID(), at, takesBack: id });
        return true;
      }),
  };
}
