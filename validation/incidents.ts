/**
 * `npm run tool -- node validation/incidents.ts [--write] [NAME ...]`: reported accidents against their rehearsal.
 * Prints what was reported, what is simulated and whether it fits; with `--write` writes docs/incidents.md as well.
 */
import { writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { drillIncident, rehearseUnknowing } from "./incidents/drilled.ts";
import { page, type Told } from "./incidents/page.ts";
import { readIncidents } from "./incidents/record.ts";

const PAGE = fileURLToPath(new URL("../docs/incidents.md", import.meta.url));

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    write: { type: "boolean", default: false },
    threads: { type: "string", default: String(availableParallelism()) },
  },
});

if (values.write && positionals.length > 0) throw new Error("--write writes all incidents: leave the names out");

const all = readIncidents();
const unknown = positionals.filter((name) => !all.some((one) => one.name === name || one.incident === name));
if (unknown.length > 0) throw new Error(`No incident is called ${unknown.join(", ")}`);

const told: Told[] = [];
for (const incident of all) {
  if (positionals.length > 0 && !positionals.includes(incident.name) && !positionals.includes(incident.incident))
    continue;
  const drilled = drillIncident(incident);
  const warned = await rehearseUnknowing(incident, Number(values.threads));
  told.push({ ...drilled, warned });
  print(told[told.length - 1]);
}
if (values.write) writeFileSync(PAGE, page(told));

function print({ incident, lines, warned }: Told): void {
  const called = warned.called.length > 0 ? "the rehearsal calls it" : "the rehearsal does not call it";
  console.log(`${incident.incident} ${incident.name} (${incident.family}): ${called}`);
  for (const line of lines) {
    console.log(`  ${line.fits ? "fits" : "DOES NOT FIT"}  ${line.what}: ${line.reported} | ${line.simulated}`);
  }
}
