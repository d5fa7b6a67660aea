/**
 * Rooms stand on each other and look down only, go through a room's index, and form no ring; the rooms that must
 * replay bit for bit touch no clock, no chance, no disk and no package. The house first, then the checker itself.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join, sep } from "node:path";
import { expect, it } from "vitest";
import { type Files, wrongArrows } from "./arrows.ts";

const src = join(import.meta.dirname, "..", "src");
const isSource = (path: string) => /\.tsx?$/.test(path) && !/\.test\.tsx?$/.test(path);

function house(): Files {
  const paths = readdirSync(src, { recursive: true, encoding: "utf8" }).filter(isSource);
  return new Map(paths.map((path) => [path.split(sep).join("/"), readFileSync(join(src, path), "utf8")]));
}

it("every arrow in the house points down", () => {
  const files = house();
  expect(files.size, "no module was found under src/").toBeGreaterThan(0);
  expect(wrongArrows(files)).toEqual([]);
});

it.each([
  [
    "an arrow that points up",
    "twin/step.ts",
    'import type { Drill } from "../drills/index.ts";',
    "imports upward: twin -> drills",
  ],
  [
    "a floor that looks at the web",
    "cli/main.ts",
    'import { app } from "../web/main.tsx";',
    "imports upward: cli -> web",
  ],
  [
    "a deferred arrow that points up",
    "site/check.ts",
    'const t = await import("../twin/index.ts");',
    "imports upward: site -> twin",
  ],
  [
    "a type named in place",
    "site/check.ts",
    'type T = import("../twin/index.ts").Twin;',
    "imports upward: site -> twin",
  ],
  [
    "a look past an index",
    "twin/step.ts",
    'export { heat } from "../science/heat/heat.ts";',
    "imports past the index of science",
  ],
  [
    "a web that knows the server",
    "web/main.tsx",
    'import { serve } from "../server/index.ts";',
    "imports server/index.ts: web may import only server/contract",
  ],
  [
    "a contract that knows the server",
    "server/contract/index.ts",
    'import { serve } from "../index.ts";',
    "imports upward: server/contract -> server",
  ],
  ["chance", "science/gas.ts", "const bubble = Math.random();", "uses Math.random"],
  ["a clock", "drills/drill.ts", "const at = Date.now();", "uses Date.now"],
  ["a date of today", "rules/when.ts", "const at = new Date();", "uses new Date()"],
  ["a disk", "twin/trace.ts", 'import { writeFileSync } from "node:fs";', "imports node:fs"],
  ["a package", "rules/when.ts", 'import { z } from "zod";', "imports the package zod"],
  ["a room off the plan", "attic/box.ts", 'import { heat } from "../science/index.ts";', "stands in no room"],
])("the checker sees %s", (_, path, text, reason) => {
  expect(wrongArrows(new Map([[path, text]]))[0]).toContain(`${path} ${reason}`);
});

it("the checker sees a ring of imports, and none where types or a deferred import close it", () => {
  const closedBy = (line: string) =>
    new Map([
      ["twin/a.ts", 'import { b } from "./b.ts";'],
      ["twin/b.ts", line],
    ]);
  expect(wrongArrows(closedBy('import { a } from "./a.ts";'))).toEqual([
    "ring of imports: twin/a.ts -> twin/b.ts -> twin/a.ts",
  ]);
  expect(wrongArrows(closedBy('import type { A } from "./a.ts";'))).toEqual([]);
  expect(wrongArrows(closedBy('const a = await import("./a.ts");'))).toEqual([]);
});

it.each([
  ["the loader reads files", "site/read-site-file.ts", 'import { readFileSync } from "node:fs";'],
  ["a worker is a thread", "drills/worker.ts", 'import { parentPort } from "node:worker_threads";'],
  ["a moment that was given", "site/zone.ts", "const at = new Date(whenMs);"],
  ["the web shares the contract", "web/main.tsx", 'import type { SiteAnswer } from "../server/contract/index.ts";'],
])("the checker lets pass: %s", (_, path, text) => {
  expect(wrongArrows(new Map([[path, text]]))).toEqual([]);
});
