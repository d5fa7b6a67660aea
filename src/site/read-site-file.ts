/** Reads a site file from disk: the only file of this room that touches one. */
import type { LoadedSite } from "./load-site.ts";
import { loadSite } from "./load-site.ts";
import type { SiteError } from "./text/site-error.ts";
import { LARGEST_FILE_BYTES } from "./text/yaml-tree.ts";

/** What came of loading, and the text that was there; null where it could not be had. */
export interface ReadFile extends LoadedSite {
  readonly text: string | null;
}

function unreadable(file: string, code: string, message: string, hint: string): ReadFile {
  const error: SiteError = { code, file, line: 1, column: 1, where: "", message, hint };
  return { site: null, errors: [error], defaults: [], names: [], text: null };
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file",
  EACCES: "it may not be read",
  EISDIR: "it is a folder",
};

/** Loads a site file; a file that can not be read is told like any other error. */
export async function readSiteFile(path: string): Promise<ReadFile> {
  try {
    // Asked for here and not above, so that the room can be loaded where there are no files.
    const { readFile, stat } = await import("node:fs/promises");
    const { size } = await stat(path);
    if (size > LARGEST_FILE_BYTES) {
      return unreadable(
        path,
        "file/too-large",
        `the file has ${size} bytes; more than ${LARGEST_FILE_BYTES} are not read`,
        "split the place into several sites",
      );
    }
    const text = await readFile(path, "utf8");
    return { ...loadSite(text, path), text };
  } catch (error) {
    if (!(error instanceof Error && "code" in error && typeof error.code === "string")) throw error;
    return unreadable(
      path,
      "file/unreadable",
      `the file can not be read: ${REASONS[error.code] ?? error.code}`,
      "check the path",
    );
  }
}
