import { watch } from "node:fs";
import { basename, dirname } from "node:path";

/** Editors write in several strokes; this long after the last one the file is taken as saved, ms. */
const SETTLE_MS = 300;

/**
 * Calls back after a file was saved. Watches its folder, since many editors save by putting a new file in the old one's
 * place, which a watch on the file itself would lose.
 *
 * @param file What to watch, asked for each time, since another file of the folder may be opened.
 * @returns    Ends the watch.
 */
export function watchFile(file: () => string, onSaved: () => void): () => void {
  let settling: NodeJS.Timeout | null = null;
  const watcher = watch(dirname(file()), (_event, name) => {
    if (name !== null && name !== basename(file())) return;
    if (settling !== null) clearTimeout(settling);
    settling = setTimeout(onSaved, SETTLE_MS);
  });
  return () => {
    if (settling !== null) clearTimeout(settling);
    watcher.close();
  };
}
