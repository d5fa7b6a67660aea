/** What every bench needs: the examples, and the name of the machine. */
import { readFileSync } from "node:fs";
import { availableParallelism, cpus } from "node:os";
import { loadSite, type Site } from "../src/site/index.ts";

/** The machine that the figures belong to. */
export const machine = `${cpus()[0]?.model.trim() ?? "unknown processor"}, ${availableParallelism()} threads, Node ${process.versions.node}`;

/** A site of the project, by its path in it. */
export function siteAt(path: string): Site {
  const { site } = loadSite(readFileSync(new URL(`../${path}`, import.meta.url), "utf8"), path);
  if (!site) throw new Error(`${path} does not load; \`slackwater check ${path}\` says why`);
  return site;
}
