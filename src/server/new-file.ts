import { access, writeFile } from "node:fs/promises";
import { join } from "node:path";

const LONGEST_NAME = 100;
const FREE_NAMES = 1000;

/** A name for a site file: of one folder, seen by everyone, ending as site files do. */
export function isSiteFileName(name: string): boolean {
  return name.length <= LONGEST_NAME && /^[\p{L}\p{N}][\p{L}\p{N} ._-]*\.ya?ml$/u.test(name);
}

/** The wanted name, or the next one that nobody has: "reef.yaml", "reef-2.yaml", "reef-3.yaml". */
export async function freeName(folder: string, wanted: string): Promise<string> {
  for (const name of namesLike(wanted)) {
    const isFree = await access(join(folder, name)).then(
      () => false,
      () => true,
    );
    if (isFree) return name;
  }
  throw new Error(`Cannot find a free name like ${wanted}: the first ${FREE_NAMES} are taken`);
}

/**
 * Writes a file that was not there; what is there already is never written over.
 *
 * @returns False where the name is taken.
 */
export async function writeNewFile(folder: string, name: string, text: string): Promise<boolean> {
  try {
    await writeFile(join(folder, name), text, { flag: "wx" });
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw error;
  }
}

/** Writes under the wanted name or the next free one, and says which it was. */
export async function writeUnderFreeName(folder: string, wanted: string, text: string): Promise<string> {
  for (;;) {
    const name = await freeName(folder, wanted);
    if (await writeNewFile(folder, name, text)) return name; // else somebody was quicker
  }
}

function* namesLike(wanted: string): Generator<string> {
  yield wanted;
  const [, stem, ending] = /^(.*)(\.ya?ml)$/.exec(wanted) ?? [wanted, wanted, ""];
  for (let number = 2; number <= FREE_NAMES; number++) yield `${stem}-${number}${ending}`;
}
