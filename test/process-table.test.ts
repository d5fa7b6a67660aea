/** The table of docs/science.md that says what the twin does names code that is there, and tests that say so. */
import { existsSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";

const root = new URL("../", import.meta.url);

interface Row {
  readonly process: string;
  readonly cells: readonly string[];
}

function rows(): Row[] {
  const text = readFileSync(new URL("docs/science.md", root), "utf8");
  const section = text.slice(text.indexOf("\n## What the twin does\n"), text.indexOf("\nNot in the twin, and why:"));
  return section
    .split("\n")
    .filter((line) => line.startsWith("| ") && !line.startsWith("| process |"))
    .map((line) => line.split(" | ").map((cell) => cell.replace(/^\| | \|$/g, "").trim()))
    .map((cells) => ({ process: cells[0], cells }));
}

/** Where a file lies that is written without its room. */
function placeOf(name: string): URL {
  return new URL(name.includes("/") ? name : `src/twin/${name}`, root);
}

it("has a row for each process", () => {
  expect(rows().length).toBeGreaterThan(40);
});

it.each(rows())("$process: equation, source, certainty, code and test are all there", ({ cells }) => {
  expect(cells.length).toBe(6);
  for (const cell of cells) expect(cell).not.toBe("");
  const code = /^`(.+)`$/.exec(cells[4])?.[1] ?? "";
  expect(existsSync(placeOf(code)), code).toBe(true);
  const [, file = "", words = ""] = /^`(.+)`, "(.+)"$/.exec(cells[5]) ?? [];
  expect(readFileSync(placeOf(file), "utf8")).toContain(words);
});
