/** Writes a person's changes into the text of a site file. Pure: text in, text out. */
import type { Node } from "yaml";
import { isMap, isScalar, LineCounter, parseDocument } from "yaml";
import type { NamePlace } from "../build/building.ts";
import { SITE_KEYS } from "../keys/site-keys.ts";
import { loadSite } from "../load-site.ts";
import type { EditPath, SiteEdit, WrittenValue } from "./site-edit.ts";
import type { Splice } from "./splice.ts";
import { removeSplice, setSplice } from "./splice.ts";
import type { TakenOut } from "./take-out.ts";
import { takeOut } from "./take-out.ts";

/** What came of changing a text: the new text, or the first change that could not be made and why, with nothing changed. */
export type EditedText =
  | { readonly text: string; readonly problem: null }
  | {
      readonly text: null;
      readonly problem: { readonly index: number; readonly message: string; readonly hint: string };
    };

const OPTIONS = {
  schema: "failsafe",
  uniqueKeys: false,
  merge: false,
  logLevel: "error",
  prettyErrors: false,
} as const;

/** A text that is no YAML has no keys to change. */
class NotEditable extends Error {
  override readonly name = "NotEditable";
  readonly hint: string;

  constructor(message: string, hint: string) {
    super(message);
    this.hint = hint;
  }
}

/**
 * Makes the changes one after the other; all of them or none.
 *
 * Only what a change names is written anew: comments, order and spacing of everything else stay, character for character.
 * Whether the result describes a place is for `loadSite` to say.
 */
export function editSite(text: string, edits: readonly SiteEdit[]): EditedText {
  let now = text;
  for (const [index, edit] of edits.entries()) {
    try {
      now = carryOut(now, edit);
    } catch (error) {
      if (!(error instanceof NotEditable)) throw error;
      return { text: null, problem: { index, message: error.message, hint: error.hint } };
    }
  }
  return { text: now, problem: null };
}

function carryOut(text: string, edit: SiteEdit): string {
  if (edit.op === "rename") return rename(text, edit.from, edit.to);
  if (edit.op !== "take-out") return change(text, edit);
  return taken(text, edit.part).edits.reduce(carryOut, text);
}

/** The file as plain values, every one the text that was written; null where it is no YAML. */
export function writtenSite(text: string): WrittenValue | null {
  const document = parse(text);
  return document === null ? null : plain(document.contents as Node | null);
}

function parse(text: string): ReturnType<typeof parseDocument> | null {
  try {
    const document = parseDocument(text, OPTIONS);
    return document.errors.length > 0 ? null : document;
  } catch (error) {
    // The library recurses: a file of a hundred thousand brackets exhausts the stack.
    if (error instanceof RangeError) return null;
    throw error;
  }
}

function plain(node: Node | null): WrittenValue {
  if (isScalar(node)) return String(node.value ?? "").trim();
  if (node === null || !("items" in node)) return "";
  if (!isMap(node)) return (node.items as Node[]).map(plain);
  const entries = node.items.map(({ key, value }): [string, WrittenValue] => [
    isScalar(key) ? String(key.value ?? "") : "",
    plain(value as Node | null),
  ]);
  return Object.fromEntries(entries);
}

function change(text: string, edit: Extract<SiteEdit, { path: EditPath }>): string {
  const document = parse(text);
  if (document === null || !isMap(document.contents))
    throw new NotEditable("the file can not be read as it stands, so nothing can be written into it", "mend it first");
  const where = edit.path.join(".");
  if (edit.op === "remove") {
    const splice = removeSplice(text, document.contents, edit.path);
    if (splice === null) throw new NotEditable(`there is no ${where} in the file`, "it may be gone already");
    return spliced(text, [splice]);
  }
  const before = at(document.contents, edit.path);
  const old = before === undefined ? undefined : plain(before);
  if (old !== undefined && same(old, edit.value)) return text;
  // A set in place of a set changes only the keys that differ, so that the rest keeps its comments.
  if (isSet(old) && isSet(edit.value)) return spread(text, edit.path, old, edit.value);
  const splice = setSplice(text, document.contents, edit.path, edit.value, Object.keys(SITE_KEYS));
  if (splice === null) throw new NotEditable(`nothing can be written at ${where}`, "the file has another shape there");
  return spliced(text, [splice]);
}

type WrittenSet = { readonly [key: string]: WrittenValue };

function isSet(value: WrittenValue | undefined): value is WrittenSet {
  return typeof value === "object" && !Array.isArray(value);
}

function spread(text: string, path: EditPath, old: WrittenSet, value: WrittenSet): string {
  const gone = Object.keys(old).filter((key) => !Object.hasOwn(value, key));
  const set = Object.entries(value).reduce(
    (now, [key, inner]) => change(now, { op: "set", path: [...path, key], value: inner }),
    text,
  );
  return gone.reduce((now, key) => change(now, { op: "remove", path: [...path, key] }), set);
}

function at(root: Node, path: EditPath): Node | null | undefined {
  let node: Node | null | undefined = root;
  for (const key of path) {
    if (isMap(node)) {
      const entry = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(key));
      if (entry === undefined) return undefined;
      node = entry.value as Node | null;
    } else if (node !== null && node !== undefined && "items" in node) {
      node = (node.items as Node[])[Number(key)];
    } else return undefined;
  }
  return node;
}

function same(a: WrittenValue, b: WrittenValue): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

function spliced(text: string, splices: readonly Splice[]): string {
  return [...splices]
    .sort((a, b) => b.from - a.from)
    .reduce((now, { from, to, by }) => now.slice(0, from) + by + now.slice(to), text);
}

interface NamedPlaces {
  readonly names: readonly NamePlace[];
  offsetOf(entry: NamePlace): number;
}

/** Where the loader has read names; it must have found no error. */
function namesIn(text: string, what: string): NamedPlaces {
  const { site, names } = loadSite(text, "");
  if (site === null) throw new NotEditable(`${what} while the file has errors`, "mend the errors first");
  const counter = new LineCounter();
  parseDocument(text, { ...OPTIONS, lineCounter: counter });
  return { names, offsetOf: ({ place }) => counter.lineStarts[place.line - 1] + place.column - 1 };
}

function taken(text: string, part: string): TakenOut {
  const { names, offsetOf } = namesIn(text, `${part} can not be taken out`);
  const document = parse(text);
  if (document === null || !names.some(({ name }) => name === part))
    throw new NotEditable(`'${part}' is not written in the file`, "what is taken for granted can not be taken out");
  return takeOut(document.contents as Node, names, offsetOf, part);
}

/** Writes another name wherever the loader has read the old one as the name of this part. */
function rename(text: string, from: string, to: string): string {
  const { names, offsetOf } = namesIn(text, `${from} can not be given another name`);
  const places = names.filter(({ name }) => name === from);
  if (places.length === 0)
    throw new NotEditable(`'${from}' is not written in the file`, "what is taken for granted has no name to change");
  const starts = new Set(places.map((entry) => nameAt(text, offsetOf(entry), from)));
  return spliced(
    text,
    [...starts].map((start) => ({ from: start, to: start + from.length, by: to })),
  );
}

/** Where the name stands in the value that begins here: all of it, the last word of a step of the ladder, or after a "from". */
function nameAt(text: string, start: number, name: string): number {
  const end = text.indexOf("\n", start);
  const line = text.slice(start, end < 0 ? text.length : end);
  const forms = [
    `^(["']?)${name}(?![\\p{L}\\p{N}_-])`,
    `^(["']?after\\s.*?\\s)${name}(?=["']?\\s*(?:[,\\]}#]|$))`,
    `^(["']?differs\\s+from\\s+)${name}(?=\\s)`,
  ];
  for (const form of forms) {
    const found = new RegExp(form, "iu").exec(line);
    if (found !== null) return start + found[1].length;
  }
  throw new NotEditable(`'${name}' could not be found on the line that names it`, "change it by hand");
}
