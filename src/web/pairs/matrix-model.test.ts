import { expect, it } from "vitest";
import { censusOf, pairResultsOf } from "../../../test/browser/fixtures/results.ts";
import { school, twelveSystems } from "../../../test/browser/fixtures/sites.ts";
import { cellsOf, pairsOf } from "../../server/pair-cells.ts";
import {
  busiestFirst,
  fitting,
  kindOf,
  MOST_FIELDS,
  matrixOf,
  overviewOf,
  partsOf,
  stepInGrid,
  systemsOfParts,
} from "./matrix-model.ts";

const site = school();
const cells = cellsOf(pairsOf(pairResultsOf(site)), censusOf(site));
const systemOf = systemsOfParts(site);

it("only parts with a pair that harms only together are shown at first, and every such pair has its field", () => {
  const shown = fitting(cells, "together", null, systemOf);
  const matrix = matrixOf(shown, cells, site, systemOf);
  expect(shown.length).toBeGreaterThan(0);
  for (const cell of shown) expect(kindOf(matrix.cell(cell.first, cell.trigger))).toBe("together");
  for (const first of partsOf(matrix.rows))
    expect(partsOf(matrix.columns).some((trigger) => kindOf(matrix.cell(first, trigger)) === "together")).toBe(true);
});

it("rows and columns are grouped by system, each part once, the whole site first", () => {
  const { rows, columns } = matrixOf(cells, cells, site, systemOf);
  for (const groups of [rows, columns]) {
    expect(new Set(partsOf(groups)).size).toBe(partsOf(groups).length);
    for (const { system, parts } of groups) for (const part of parts) expect(systemOf(part)).toBe(system);
  }
  expect(columns[0].system).toBeNull();
});

it("a system leaves the pairs of which one part belongs to it", () => {
  for (const { first, trigger } of fitting(cells, "all", "lagoon", systemOf))
    expect([systemOf(first), systemOf(trigger)]).toContain("lagoon");
});

it("arrow keys stay inside the grid, Home and End go along a row or to the corners", () => {
  const size = { rows: 3, columns: 5 };
  expect(stepInGrid("ArrowRight", false, { row: 0, column: 4 }, size)).toEqual({ row: 0, column: 4 });
  expect(stepInGrid("ArrowDown", false, { row: 0, column: 4 }, size)).toEqual({ row: 1, column: 4 });
  expect(stepInGrid("Home", false, { row: 2, column: 3 }, size)).toEqual({ row: 2, column: 0 });
  expect(stepInGrid("End", true, { row: 0, column: 0 }, size)).toEqual({ row: 2, column: 4 });
  expect(stepInGrid("x", false, { row: 0, column: 0 }, size)).toBeNull();
});

it("the part to look at first begins most of the pairs that harm only together", () => {
  const busiest = busiestFirst(cells);
  const count = (part: string) =>
    cells.filter(({ first }) => first === part).reduce((sum, cell) => sum + cell.only_together, 0);
  expect(busiest?.count).toBe(Math.max(...cells.map(({ first }) => count(first))));
  expect(busiestFirst([])).toBeNull();
});

it("a site that is too large for its parts is drawn as systems by systems, each field the sum of its parts", () => {
  const large = twelveSystems();
  const many = cellsOf(pairsOf(pairResultsOf(large)), censusOf(large));
  const of = systemsOfParts(large);
  const shown = fitting(many, "all", null, of);
  const fields = matrixOf(shown, many, large, of);
  expect(partsOf(fields.rows).length * partsOf(fields.columns).length).toBeGreaterThan(MOST_FIELDS);
  const overview = overviewOf(shown, many, large, of);
  expect(partsOf(overview.rows).length).toBeLessThanOrEqual(13);
  const within = { first: "basin-3", trigger: "basin-3" };
  const own = fitting(many, "all", null, of, within);
  expect(own.length).toBeGreaterThan(0);
  const together = own.reduce((sum, { only_together }) => sum + only_together, 0);
  expect(overview.cell("basin-3", "basin-3")?.only_together).toBe(together);
});
