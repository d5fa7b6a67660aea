/**
 * The page about faults says what the code says. After a change of the catalogue: `WRITE_DOCS=1 npm test -- faults-page`
 * writes its table anew.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { partIndex, type Site } from "../../site/index.ts";
import { fullSite, fullSiteWithoutGenerator } from "./full-site-for-tests.ts";
import { type FaultMode, faultModes } from "./index.ts";

const PAGE = new URL("../../../docs/faults.md", import.meta.url);
const BEGIN = "<!-- table: begin -->";
const END = "<!-- table: end -->";
const sites = [fullSite(), fullSiteWithoutGenerator()];

/** What kind of thing a part is, in the words of a site file. */
function kindInWords(site: Site, part: string): string {
  if (part === "mains") return "the mains";
  if (part === "*") return "the whole site";
  const found = partIndex(site).get(part);
  switch (found?.kind) {
    case "device":
      return found.part.kind;
    case "body":
      return found.part.role;
    case "sensor":
      return `${found.part.measures} sensor`;
    case "battery":
      return found.part.kind;
    case "link":
      return `${found.part.kind} link`;
    default:
      return found?.kind ?? part;
  }
}

function strikes(mode: FaultMode): string {
  const words = sites.flatMap((site) => mode.parts(site).map((part) => kindInWords(site, part)));
  return [...new Set(words)].sort().join(", ");
}

function rowsOf(group: string): string {
  const seen = new Map<string, FaultMode>();
  for (const mode of faultModes) if (mode.group === group) seen.set(`${mode.mode}: ${mode.name}`, mode);
  const rows = [...seen.values()].map((mode) => {
    const unit = mode.onset === "latent" ? "when needed" : "a year";
    const often = `${mode.rate.perYear} ${unit}, times or over ${mode.rate.factor}`;
    return `| \`${mode.mode}\` | ${mode.name} | ${mode.onset} | ${strikes(mode)} | ${often} | ${mode.rate.source} |`;
  });
  return [
    `### ${group} (${rows.length})`,
    "",
    "| mode | what happens | onset | strikes | how often | from what |",
    "|---|---|---|---|---|---|",
    ...rows,
    "",
  ].join("\n");
}

function table(): string {
  const groups = [...new Set(faultModes.map((mode) => mode.group))];
  return `${BEGIN}\n${groups.map(rowsOf).join("\n")}${END}`;
}

describe("docs/faults.md", () => {
  it("lists every mode as the code has it", () => {
    const page = readFileSync(PAGE, "utf8");
    const [before, rest] = page.split(BEGIN);
    const after = rest.split(END)[1];
    if (process.env.WRITE_DOCS === "1") writeFileSync(PAGE, `${before}${table()}${after}`);
    expect(readFileSync(PAGE, "utf8")).toBe(`${before}${table()}${after}`);
  });
});
