import { open, rename, rm, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";

/**
 * Writes a file so that whoever reads it finds the old text or the new one and never half of either, also after the power
 * fails: into a file beside it, down to the disk, then under its name. Its permissions stay.
 *
 * @throws Where the folder can't be written; the old file then stands as it was.
 */
export async function writeWhole(path: string, text: string): Promise<void> {
  const beside = join(dirname(path), `.${basename(path)}.${process.pid}.part`);
  const mode = (await stat(path).catch(() => null))?.mode ?? 0o644;
  try {
    const file = await open(beside, "w", mode);
    try {
      await file.writeFile(text, "utf8");
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, path);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}
