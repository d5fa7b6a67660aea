import { createHash } from "node:crypto";
import { access, readdir } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { writtenSite } from "../site/index.ts";
import type { SettledLife, Site, SiteAnswer } from "./contract/index.ts";
import type { Clock, Engine, ReadSite, SiteReading } from "./engine-port.ts";
import { writeWhole } from "./write-whole.ts";

/** Keeps the open site: the last version that could be read, and what is wrong with the file as it stands. */
export interface SiteDesk {
  /** Full path of the open file. */
  file(): string;
  site(): Site | null;
  /** Grows with each good version: part of the key under which drills are kept. */
  edition(): number;
  answer(): Promise<SiteAnswer>;
  /** Reads the file again; true where a new good version came of it. */
  read(): Promise<boolean>;
  /** Opens another site file of the same folder, by name; "no such file" where it isn't one of `others`. */
  open(name: string): Promise<"opened" | "no such file">;
  /** Writes a text over the file, where the file still is the one that `etag` names. Others that come meanwhile wait. */
  keep(text: string, etag: string): Promise<"kept" | "changed meanwhile">;
  /** Reads a site file of the same folder without opening it; null where it isn't one of `others`. */
  look(name: string): Promise<SiteReading | null>;
}

export interface SiteDeskParts {
  readonly file: string;
  readonly readSite: ReadSite;
  readonly engine: Pick<Engine, "settled">;
  readonly clock: Clock;
  /** Called when the answer has changed. */
  readonly onChange: () => void;
}

export function openSiteDesk({ file: firstFile, readSite, engine, clock, onChange }: SiteDeskParts): SiteDesk {
  let file = firstFile;
  let site: Site | null = null;
  let last: SiteReading = NOTHING_READ;
  let readAt: string | null = null;
  let settled: SettledLife | null = null;
  let edition = 0;
  let reading = 0;
  let keeping: Promise<unknown> = Promise.resolve();

  async function read(): Promise<boolean> {
    const mine = ++reading;
    const isMissing = site === null && !(await isThere(file));
    const result = isMissing ? NOTHING_READ : await readSite(file).catch((error: unknown) => programFault(file, error));
    if (mine !== reading) return false; // a later reading has overtaken this one
    last = result;
    const isNew = result.site !== null && !sameSite(result.site, site);
    if (result.site !== null) readAt = new Date(clock()).toISOString();
    if (isNew) {
      site = result.site;
      settled = null;
      edition += 1;
      void settle(edition);
    }
    onChange();
    return isNew;
  }

  /** The picture of the site does without levels until they are known, so nobody waits for this. */
  async function settle(ofEdition: number): Promise<void> {
    if (site === null) return;
    const life = await engine.settled(site).catch(() => null);
    if (ofEdition !== edition || life === null) return;
    settled = life;
    onChange();
  }

  async function others(): Promise<string[]> {
    const names = await readdir(dirname(file)).catch(() => []);
    return names.filter((name) => /\.ya?ml$/.test(name)).sort();
  }

  return {
    file: () => file,
    site: () => site,
    edition: () => edition,
    answer: async () => ({
      file: basename(file),
      site,
      errors: last.errors,
      readAt,
      settled,
      text: last.text,
      etag: etagOf(last.text),
      written: last.text === null ? null : writtenSite(last.text),
      defaults: last.defaults,
      others: await others(),
    }),
    read,
    keep(text, etag) {
      const mine = keeping.then(async () => {
        // What is on the disk decides, not what was read last: an editor may have saved a moment ago.
        const now = await readSite(file).catch((error: unknown) => programFault(file, error));
        if (etagOf(now.text) !== etag) {
          await read();
          return "changed meanwhile" as const;
        }
        await writeWhole(file, text);
        await read();
        return "kept" as const;
      });
      keeping = mine.catch(() => undefined);
      return mine;
    },
    async look(name) {
      if (!(await others()).includes(name)) return null;
      const path = join(dirname(file), name);
      return readSite(path).catch((error: unknown) => programFault(path, error));
    },
    async open(name) {
      if (!(await others()).includes(name)) return "no such file";
      file = join(dirname(file), name);
      site = null;
      settled = null;
      readAt = null;
      edition += 1;
      await read();
      return "opened";
    },
  };
}

/** Also of a file that nobody has written yet: that is no error, its description is still to be made. */
const NOTHING_READ: SiteReading = { site: null, errors: [], defaults: [], text: null };

async function isThere(file: string): Promise<boolean> {
  return access(file).then(
    () => true,
    () => false,
  );
}

/** A name for a text, as HTTP wants it: the same for the same text, and for no other. */
function etagOf(text: string | null): string {
  return `"${createHash("sha256")
    .update(text ?? "")
    .digest("base64url")
    .slice(0, 22)}"`;
}

/** A reading that broke off is told like any other: the server stays up, and the last good version on show. */
function programFault(file: string, error: unknown): SiteReading {
  const message = `the program failed while reading it (${error instanceof Error ? error.message : String(error)})`;
  return {
    site: null,
    defaults: [],
    text: null,
    errors: [
      {
        file,
        line: 1,
        column: 1,
        where: "",
        message,
        hint: "this is a fault of the program, not of the file: undo the last change and report it",
      },
    ],
  };
}

/** The same description, whatever changed in comments and spacing: then no verdict can have moved. */
function sameSite(a: Site, b: Site | null): boolean {
  return b !== null && JSON.stringify(a) === JSON.stringify(b);
}
