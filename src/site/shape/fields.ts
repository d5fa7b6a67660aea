/** Sets of keys: what may stand in one block of a site file, and how such a block is read. */
import { didYouMean } from "../../foundation/index.ts";
import type { Place } from "../text/site-error.ts";
import type { MapEntry, Tree } from "../text/yaml-tree.ts";
import { kindInWords } from "../text/yaml-tree.ts";
import type { At, Found, JsonSchema, Reader } from "./reader.ts";
import { complain } from "./reader.ts";

/** How much a value matters to the verdicts: 1 decides them, 2 shifts them, 3 hardly. */
export type Weight = 1 | 2 | 3;

export interface Field<T> {
  readonly reader: Reader<T>;
  /** What it says, in a sentence. */
  readonly doc: string;
  /** What holds where it is left out; empty where it must be written. */
  readonly otherwise: string;
  readonly weight: Weight;
  /** Why the default matters; empty where it does not. */
  readonly why: string;
  /** Words that people write instead. */
  readonly slips: readonly string[];
}

export type Fields = Readonly<Record<string, Field<unknown>>>;
type ValueOf<F> = F extends Field<infer T> ? T : never;

/** What was written in one block: the keys that were there and could be read. */
export type Written<F> = { readonly [K in keyof F]?: Found<ValueOf<F[K]>> };
export type FieldValue<F, K extends keyof F> = ValueOf<F[K]>;

interface FieldWords {
  readonly weight?: Weight;
  readonly why?: string;
  readonly slips?: readonly string[];
}

/** A key that may be left out; `otherwise` says in words what then holds. */
export function optional<T>(reader: Reader<T>, doc: string, otherwise: string, words: FieldWords = {}): Field<T> {
  return { reader, doc, otherwise, weight: words.weight ?? 3, why: words.why ?? "", slips: words.slips ?? [] };
}

/** A key that must be written. */
export function must<T>(reader: Reader<T>, doc: string, slips: readonly string[] = []): Field<T> {
  return { reader, doc, otherwise: "", weight: 3, why: "", slips };
}

export function under(at: At, key: string): At {
  return { report: at.report, where: at.where === "" ? key : `${at.where}.${key}` };
}

function keyHint(key: string, fields: Fields): string {
  const known = Object.entries(fields);
  const lower = key.toLowerCase().replace(/_/g, "-");
  const slip = known.find(([, field]) => field.slips.includes(lower));
  if (slip !== undefined) return `did you mean '${slip[0]}'?`;
  return didYouMean(
    key,
    known.map(([name]) => name),
  );
}

/** The entries of a block, each key once; the second of a pair is an error that names the first. */
export function singleEntries(tree: Tree, at: At, wanted: string): readonly MapEntry[] | undefined {
  if (tree.kind === "empty") return [];
  if (tree.kind !== "map") {
    return complain(at, tree.place, {
      code: "value/kind",
      message: `${kindInWords(tree)} stands here`,
      hint: `write ${wanted}`,
    });
  }
  const seen = new Map<string, Place>();
  return tree.entries.filter((entry) => {
    const first = seen.get(entry.key);
    if (first === undefined) {
      seen.set(entry.key, entry.keyPlace);
      return true;
    }
    at.report.error(
      entry.keyPlace,
      under(at, entry.key).where,
      "key/twice",
      `'${entry.key}' is written twice; it is already on line ${first.line}`,
      "keep one of them",
    );
    return false;
  });
}

/** Reads a block: unknown, doubled and missing keys are errors; everything readable is returned. */
export function readFields<F extends Fields>(tree: Tree, fields: F, at: At, wanted: string): Written<F> | undefined {
  const entries = singleEntries(tree, at, `the keys of ${wanted}`);
  if (entries === undefined) return undefined;
  const written: Record<string, Found<unknown>> = {};
  for (const { key, keyPlace, value } of entries) {
    const field = Object.hasOwn(fields, key) ? fields[key] : undefined;
    if (field === undefined) {
      at.report.error(
        keyPlace,
        under(at, key).where,
        "key/unknown",
        `'${key}' is not a key of ${wanted}`,
        keyHint(key, fields),
      );
      continue;
    }
    const read = field.reader.read(value, under(at, key));
    if (read !== undefined) written[key] = { value: read, place: value.place };
  }
  for (const [key, field] of Object.entries(fields)) {
    if (field.otherwise !== "" || entries.some((entry) => entry.key === key)) continue;
    at.report.error(
      tree.place,
      under(at, key).where,
      "key/missing",
      `'${key}' is missing`,
      `add ${key}: ${field.reader.words.replace(/`/g, "")}`,
    );
  }
  return written as Written<F>;
}

/** The JSON Schema of a block. */
export function fieldsSchema(fields: Fields): JsonSchema {
  const properties = Object.fromEntries(
    Object.entries(fields).map(([key, field]) => [key, { description: field.doc, ...field.reader.schema }]),
  );
  const required = Object.entries(fields)
    .filter(([, field]) => field.otherwise === "")
    .map(([key]) => key);
  return { type: "object", properties, additionalProperties: false, ...(required.length > 0 ? { required } : {}) };
}

/** A block as the value of a key. */
export function block<F extends Fields>(fields: F, wanted: string): Reader<Written<F>> {
  return {
    words: `the keys of ${wanted}`,
    schema: fieldsSchema(fields),
    print: () => wanted,
    read: (tree, at) => readFields(tree, fields, at, wanted),
  };
}

/** One named part as it was written. */
export interface WrittenPart<F> {
  readonly id: string;
  readonly idPlace: Place;
  readonly place: Place;
  readonly written: Written<F>;
}

const ID_PATTERN = "^[\\p{L}][\\p{L}\\p{N}_-]{0,63}$";
const ID = new RegExp(ID_PATTERN, "u");
const NOT_FOR_PARTS = ["for", "none", "on", "off", "never", "after"];

function idProblem(id: string): string | null {
  if (!ID.test(id)) return "a name begins with a letter and holds letters, digits, '-' and '_' only, like heater-1";
  if (NOT_FOR_PARTS.includes(id) || id in Object.prototype) return "this word has another meaning: choose another name";
  return null;
}

/** A block of named parts: `heater-1: { ... }`. The part's own keys are reported under its name alone. */
export function partsOf<F extends Fields>(fields: F, wanted: string): Reader<readonly WrittenPart<F>[]> {
  return {
    words: `names, each with the keys of ${wanted}`,
    schema: { type: "object", propertyNames: { pattern: ID_PATTERN }, additionalProperties: fieldsSchema(fields) },
    print: (parts) => parts.map((part) => part.id).join(", "),
    read: (tree, at) => {
      const entries = singleEntries(tree, at, `names, each with the keys of ${wanted}`);
      if (entries === undefined) return undefined;
      return entries.flatMap(({ key, keyPlace, value }): WrittenPart<F>[] => {
        const problem = idProblem(key);
        // The part is kept: what refers to it would otherwise seem wrong too.
        if (problem !== null)
          at.report.error(keyPlace, under(at, key).where, "name/form", `'${key}' can not be a name`, problem);
        const written = readFields(value, fields, { report: at.report, where: key }, wanted);
        return written === undefined ? [] : [{ id: key, idPlace: keyPlace, place: value.place, written }];
      });
    },
  };
}
