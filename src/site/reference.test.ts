import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parseDocument } from "yaml";
import { formatSiteError, loadSite, siteSchema } from "./index.ts";
import { REFERENCE_TABLES, tablesOf, withCurrentTables } from "./reference.ts";
import type { JsonSchema } from "./shape/reader.ts";

const root = join(import.meta.dirname, "..", "..");
const read = (path: string): string => readFileSync(join(root, path), "utf8");
const page = read("docs/site-file.md");
const examples = ["first-tank", "alder-row-school", "alder-row-school-mended"].map((name) => `examples/${name}.yaml`);

/** The keywords of JSON Schema that the published schema uses; anything else in it is an error. */
function breaches(value: unknown, schema: JsonSchema, path: string): readonly string[] {
  const isMap = typeof value === "object" && value !== null && !Array.isArray(value);
  const entries = isMap ? Object.entries(value) : [];
  return Object.entries(schema).flatMap(([keyword, wanted]): readonly string[] => {
    const breach = (holds: boolean): readonly string[] =>
      holds ? [] : [`${path}: ${keyword} ${JSON.stringify(wanted)}`];
    switch (keyword) {
      case "$schema":
      case "title":
      case "description":
      case "examples":
        return [];
      case "type": {
        const type = Array.isArray(value) ? "array" : isMap ? "object" : typeof value;
        return breach(type === wanted || (wanted === "integer" && Number.isInteger(value)));
      }
      case "const":
        return breach(value === wanted);
      case "enum":
        return breach((wanted as readonly unknown[]).includes(value));
      case "pattern":
        return breach(typeof value !== "string" || new RegExp(wanted as string, "u").test(value));
      case "maxLength":
        return breach(typeof value !== "string" || value.length <= (wanted as number));
      case "minimum":
        return breach(typeof value !== "number" || value >= (wanted as number));
      case "maximum":
        return breach(typeof value !== "number" || value <= (wanted as number));
      case "maxItems":
        return breach(!Array.isArray(value) || value.length <= (wanted as number));
      case "minProperties":
        return breach(!isMap || entries.length >= (wanted as number));
      case "items":
        return Array.isArray(value)
          ? value.flatMap((item, at) => breaches(item, wanted as JsonSchema, `${path}[${at}]`))
          : [];
      case "anyOf":
        return breach((wanted as readonly JsonSchema[]).some((option) => breaches(value, option, path).length === 0));
      case "required":
        return breach((wanted as readonly string[]).every((key) => entries.some(([name]) => name === key)));
      case "propertyNames":
        return entries.flatMap(([name]) => breaches(name, wanted as JsonSchema, `${path}.${name}`));
      case "properties":
        return entries.flatMap(([name, inner]) => {
          const known = wanted as Readonly<Record<string, JsonSchema>>;
          return Object.hasOwn(known, name) ? breaches(inner, known[name], `${path}.${name}`) : [];
        });
      case "additionalProperties": {
        const known = (schema.properties ?? {}) as Readonly<Record<string, JsonSchema>>;
        const others = entries.filter(([name]) => !Object.hasOwn(known, name));
        if (wanted === false) return breach(others.length === 0);
        return others.flatMap(([name, inner]) => breaches(inner, wanted as JsonSchema, `${path}.${name}`));
      }
      default:
        return [`${path}: the schema uses '${keyword}', which this test does not know`];
    }
  });
}

const asData = (text: string): unknown => parseDocument(text).toJS();

describe("the reference page", () => {
  it("is current (after a key has changed, `vitest run -u src/site/reference.test.ts` writes it anew)", async () => {
    await expect(withCurrentTables(page)).toMatchFileSnapshot(join(root, "docs/site-file.md"));
  });

  it("shows every table once", () => {
    expect([...tablesOf(page)].sort()).toEqual(Object.keys(REFERENCE_TABLES).sort());
  });

  const written = [...page.matchAll(/```yaml\n([\s\S]*?)```/g)].map((match) => match[1]);

  it("holds examples, and every one of them loads", () => {
    expect(written.length).toBeGreaterThanOrEqual(8);
    for (const text of written)
      expect(loadSite(text, "docs/site-file.md").errors.map(formatSiteError), text).toEqual([]);
  });
});

describe("the published schema", () => {
  it("is current (after a key has changed, `vitest run -u src/site/reference.test.ts` writes it anew)", async () => {
    const published = `${JSON.stringify(siteSchema, null, 2)}\n`;
    await expect(published).toMatchFileSnapshot(join(root, "docs/site.schema.json"));
  });

  it("accepts the examples", () => {
    for (const path of examples) expect(breaches(asData(read(path)), siteSchema, path)).toEqual([]);
  });

  it("accepts what the page shows", () => {
    for (const match of page.matchAll(/```yaml\n([\s\S]*?)```/g))
      expect(breaches(asData(match[1]), siteSchema, "page")).toEqual([]);
  });

  it("refuses unknown keys, missing keys, wrong words and bare numbers", () => {
    const faults = [
      "unit-missing",
      "key-misspelt",
      "key-missing",
      "word-misspelt",
      "list-in-place-of-keys",
      "systems-missing",
    ];
    for (const name of faults) {
      expect(breaches(asData(read(`test/bad-input/${name}.yaml`)), siteSchema, name).length, name).toBeGreaterThan(0);
    }
  });
});
