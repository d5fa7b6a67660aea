/**
 * YAML text to a plain tree of maps, lists and texts, each with its place. The only file that knows the YAML library.
 *
 * Every scalar stays the text that was written: whether `on`, `1.10` or `25.5 degC` means something is for the reader of
 * that key to say. References (`&`, `*`, `<<`) are refused: a description says everything once, and they can be made to
 * blow up.
 */
import type { Node, Pair, YAMLError } from "yaml";
import { isAlias, isMap, isScalar, isSeq, LineCounter, parseDocument } from "yaml";
import type { Place, Report } from "./site-error.ts";
import { FILE_START } from "./site-error.ts";
import { syntaxWords, unclosedBracketAt } from "./yaml-words.ts";

export interface MapEntry {
  readonly key: string;
  readonly keyPlace: Place;
  readonly value: Tree;
}

export type Tree =
  | { readonly kind: "text"; readonly text: string; readonly place: Place }
  | { readonly kind: "list"; readonly items: readonly Tree[]; readonly place: Place }
  | { readonly kind: "map"; readonly entries: readonly MapEntry[]; readonly place: Place }
  | { readonly kind: "empty"; readonly place: Place };

export const LARGEST_FILE_BYTES = 5_000_000;
/** The deepest key of a site file lies seven levels down. */
export const DEEPEST_NESTING = 16;

/** What a tree node is, in words, for messages. */
export function kindInWords(tree: Tree): string {
  return { text: "a plain value", list: "a list", map: "a set of keys", empty: "nothing" }[tree.kind];
}

const PLAIN_TAGS = ["tag:yaml.org,2002:str", "tag:yaml.org,2002:map", "tag:yaml.org,2002:seq"];

interface Walk {
  readonly report: Report;
  readonly placeOf: (offset: number) => Place;
}

function refuse(walk: Walk, node: Node, code: string, message: string, hint: string): Tree {
  const place = walk.placeOf(node.range?.[0] ?? 0);
  walk.report.error(place, "", code, message, hint);
  return { kind: "empty", place };
}

function toEntry(pair: Pair, walk: Walk, depth: number, mapPlace: Place): MapEntry | null {
  const key = pair.key as Node | null;
  if (key === null || !isScalar(key)) {
    const place = key === null ? mapPlace : walk.placeOf(key.range?.[0] ?? 0);
    walk.report.error(place, "", "yaml/key", "a key must be a plain word", "write keys like 'volume: 620 L'");
    return null;
  }
  const keyPlace = walk.placeOf(key.range?.[0] ?? 0);
  const value = pair.value as Node | null;
  return {
    key: String(key.value ?? ""),
    keyPlace,
    value: value === null ? { kind: "empty", place: keyPlace } : toTree(value, walk, depth),
  };
}

function toTree(node: Node, walk: Walk, depth: number): Tree {
  const place = walk.placeOf(node.range?.[0] ?? 0);
  if (depth > DEEPEST_NESTING) {
    return refuse(
      walk,
      node,
      "yaml/too-deep",
      `more than ${DEEPEST_NESTING} levels deep`,
      "no key of a site file lies that deep",
    );
  }
  if (isAlias(node)) {
    return refuse(
      walk,
      node,
      "yaml/reference",
      `'*${node.source}' refers to another place in the file`,
      "write the value out: references are not used in site files",
    );
  }
  if ((isMap(node) || isSeq(node) || isScalar(node)) && node.anchor !== undefined) {
    return refuse(
      walk,
      node,
      "yaml/reference",
      `'&${node.anchor}' marks a value for reuse`,
      "write the value out: references are not used in site files",
    );
  }
  if (node.tag !== undefined && !PLAIN_TAGS.includes(node.tag)) {
    return refuse(walk, node, "yaml/tag", `the tag '${node.tag}' is not used in site files`, "leave the tag out");
  }
  if (isMap(node)) {
    const entries = node.items.map((pair) => toEntry(pair, walk, depth + 1, place)).filter((entry) => entry !== null);
    return { kind: "map", entries, place };
  }
  if (isSeq(node))
    return { kind: "list", items: node.items.map((item) => toTree(item as Node, walk, depth + 1)), place };
  const text = isScalar(node) ? String(node.value ?? "").trim() : "";
  return text === "" ? { kind: "empty", place } : { kind: "text", text, place };
}

function tooDeep(report: Report): void {
  const hint = `no key of a site file lies more than ${DEEPEST_NESTING} levels deep`;
  report.error(FILE_START, "", "yaml/too-deep", "the file is nested too deeply to be read", hint);
}

/** Reports syntax errors, the first of each line: the others of that line follow from it. */
function reportSyntax(
  errors: readonly YAMLError[],
  text: string,
  placeOf: (offset: number) => Place,
  report: Report,
): void {
  if (errors.some((error) => error.code === "RESOURCE_EXHAUSTION")) {
    tooDeep(report);
    return;
  }
  const unclosed = errors.length > 0 ? unclosedBracketAt(text) : null;
  if (unclosed !== null) {
    report.error(
      placeOf(unclosed),
      "",
      "yaml/syntax",
      `the bracket '${text[unclosed]}' is not closed`,
      "close it with the bracket that fits",
    );
    return;
  }
  const lines = new Set<number>();
  // After a tab nothing else is as it seems.
  const tabs = errors.filter((error) => error.code === "TAB_AS_INDENT");
  for (const error of tabs.length > 0 ? tabs : errors) {
    const place = placeOf(error.pos[0]);
    if (lines.has(place.line)) continue;
    lines.add(place.line);
    const { message, hint } = syntaxWords(error);
    report.error(place, "", "yaml/syntax", message, hint);
  }
}

function parse(text: string, lineCounter: LineCounter): ReturnType<typeof parseDocument> | null {
  try {
    // "failsafe" keeps every scalar as its text; duplicate keys are reported by the reader, with both places.
    return parseDocument(text, {
      lineCounter,
      schema: "failsafe",
      uniqueKeys: false,
      merge: false,
      logLevel: "error",
      prettyErrors: false,
    });
  } catch (error) {
    // The library recurses: a file of a hundred thousand brackets exhausts the stack.
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** The tree of a text, or null where the text is no YAML at all; what is wrong goes to the report. */
export function parseYaml(text: string, report: Report): Tree | null {
  if (text.length > LARGEST_FILE_BYTES) {
    report.error(
      FILE_START,
      "",
      "file/too-large",
      `the file has ${text.length} characters; more than ${LARGEST_FILE_BYTES} are not read`,
      "split the place into several sites",
    );
    return null;
  }
  const control = /(?![\t\n\r])\p{Cc}/u.exec(text);
  if (control !== null) {
    const before = text.slice(0, control.index).split("\n");
    const place = { line: before.length, column: before[before.length - 1].length + 1 };
    report.error(place, "", "yaml/not-text", "the file holds bytes that are not text", "save it as plain UTF-8 text");
    return null;
  }
  const lineCounter = new LineCounter();
  const placeOf = (offset: number): Place => {
    const { line, col } = lineCounter.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const document = parse(text, lineCounter);
  if (document === null) {
    tooDeep(report);
    return null;
  }
  reportSyntax(document.errors, text, placeOf, report);
  if (!report.clean) return null;
  if (document.contents === null) {
    report.error(FILE_START, "", "file/empty", "the file is empty", "begin with 'site: Name of the place'");
    return null;
  }
  return toTree(document.contents as Node, { report, placeOf }, 0);
}
