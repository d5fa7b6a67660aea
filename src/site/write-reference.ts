/**
 * Writes what is published from the readers: the tables of docs/site-file.md and docs/site.schema.json.
 *
 * Run it after a key has changed: node src/site/write-reference.ts
 */
import { readFileSync, writeFileSync } from "node:fs";
import { withCurrentTables } from "./reference.ts";
import { siteSchema } from "./site-schema.ts";

const docs = new URL("../../docs/", import.meta.url);
const page = new URL("site-file.md", docs);

writeFileSync(page, withCurrentTables(readFileSync(page, "utf8")));
writeFileSync(new URL("site.schema.json", docs), `${JSON.stringify(siteSchema, null, 2)}\n`);
