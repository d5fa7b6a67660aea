/**
 * `npm run tool -- node validation/remedies.ts [--write] [--keep FOLDER] [ID ...]`: what each remedy of the example school really
 * does. Each is written into the file, the changed school is rehearsed whole, and its verdicts are set against those before.
 * Prints a table; with `--write` writes docs/remedies.md as well. `--keep` keeps results there, so that only what has changed is
 * rehearsed again.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { remediesFor } from "../src/planning/index.ts";
import { editSite, loadSite } from "../src/site/index.ts";
import { compare, type Effect } from "./remedies/effect.ts";
import { page } from "./remedies/page.ts";
import { keptRehearsals } from "./remedies/rehearsed.ts";

const FILE = "examples/alder-row-school.yaml";
const PAGE = fileURLToPath(new URL("../docs/remedies.md", import.meta.url));

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    write: { type: "boolean", default: false },
    keep: { type: "string" },
    threads: { type: "string", default: String(availableParallelism()) },
  },
});
if (values.write && positionals.length > 0) throw new Error("--write writes all remedies: leave the names out");

const rehearsed = keptRehearsals(values.keep ?? null, Number(values.threads));
const text = readFileSync(new URL(`../${FILE}`, import.meta.url), "utf8");
const before = await rehearsed(text);
const site = loadSite(text, FILE).site;
if (site === null) throw new Error(`${FILE} can not be read`);
const all = remediesFor(site, before);
const unknown = positionals.filter((id) => !all.some((one) => one.id === id || one.kind === id));
if (unknown.length > 0) throw new Error(`No remedy is called ${unknown.join(", ")}`);

const effects: Effect[] = [];
for (const remedy of all) {
  if (positionals.length > 0 && !positionals.includes(remedy.id) && !positionals.includes(remedy.kind)) continue;
  const edited = editSite(text, remedy.edits);
  if (edited.text === null) throw new Error(`${remedy.id}: ${edited.problem.message}`);
  const effect = compare(remedy, before, await rehearsed(edited.text));
  effects.push(effect);
  print(effect);
}
if (values.write) writeFileSync(PAGE, page(FILE, before, effects));

function print({ remedy, asAimed, better, worse, sooner, fresh }: Effect): void {
  const figures = `${asAimed.length}/${remedy.aims.length} as aimed, ${better.length} better, ${worse.length} worse, ${fresh.length} new`;
  console.log(`${remedy.id}: ${figures}`);
  const missed = remedy.aims.filter((id) => !asAimed.includes(id));
  for (const [word, ids] of [
    ["missed", missed],
    ["worse", worse],
    ["sooner", sooner],
    ["new", fresh],
  ] as const)
    if (ids.length > 0) console.log(`  ${word}: ${ids.slice(0, 12).join(" ")}${ids.length > 12 ? " ..." : ""}`);
}
