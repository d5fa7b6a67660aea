/** Reads a site file or says what is wrong with it and ends the command. */
import type { NotFoundError } from "../foundation/index.ts";
import { formatSiteError, readSiteFile, type Site } from "../site/index.ts";

/** The site, or null after its errors were printed and the exit code was set to 1. */
export async function openSite(file: string): Promise<Site | null> {
  const { site, errors } = await readSiteFile(file);
  if (site) return site;
  for (const error of errors) process.stderr.write(`${formatSiteError(error)}\n`);
  process.exitCode = 1;
  return null;
}

/** Prints what was asked for in vain, with the hint. */
export function printNotFound(error: NotFoundError): void {
  process.stderr.write(`${error.message}${error.hint === "" ? "" : `; ${error.hint}`}\n`);
  process.exitCode = 1;
}

export function print(text: string): void {
  process.stdout.write(`${text}\n`);
}

/** One line of JSON, the whole answer. */
export function printJson(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value)}\n`);
}
