/**
 * Where in a text one change of a site file goes. Each change replaces one stretch of the text and leaves every other
 * character as it stands: comments, order, alignment and the way a person breaks lines are theirs.
 */
import type { Node, Pair, Scalar, YAMLMap, YAMLSeq } from "yaml";
import { isMap, isScalar, isSeq } from "yaml";
import { flowText, valueText } from "./print-value.ts";
import type { EditPath, WrittenValue } from "./site-edit.ts";

/** Characters from..to of a text give way to other characters. */
export interface Splice {
  readonly from: number;
  readonly to: number;
  readonly by: string;
}

type Parent = YAMLMap<Node, Node | null> | YAMLSeq<Node>;
type Entry = Pair<Node, Node | null>;

/** Longer than this, a new part is written on lines of its own. */
const LINE = 120;

/** The change that writes a value at a path; null where there is no such place. */
export function setSplice(
  text: string,
  root: Node,
  path: EditPath,
  value: WrittenValue,
  order: readonly string[],
): Splice | null {
  const { node: parent, rest } = deepest(root, path);
  if (parent === null || rest.length === 0) return null;
  const [key, ...deeper] = rest;
  const wrapped = wrap(deeper, value);
  if (isMap(parent)) {
    const entry = entryOf(parent as YAMLMap<Node, Node | null>, String(key));
    if (entry === undefined) {
      const isRoot = parent === root;
      return insertKey(text, parent as YAMLMap<Node, Node | null>, String(key), wrapped, isRoot ? order : []);
    }
    return replaceValue(text, parent as YAMLMap<Node, Node | null>, entry, wrapped);
  }
  if (isSeq(parent)) {
    const items = (parent as YAMLSeq<Node>).items;
    const index = Number(key);
    if (!Number.isInteger(index) || index < 0 || index > items.length) return null;
    if (index < items.length) return replaceNode(text, items[index], wrapped, parent.flow === true);
    return appendItem(text, parent as YAMLSeq<Node>, wrapped);
  }
  return null;
}

/** The change that takes an entry away; null where there is none. */
export function removeSplice(text: string, root: Node, path: EditPath): Splice | null {
  const { node: parent, rest } = deepest(root, path);
  if (parent === null || rest.length !== 1) return null;
  const items: readonly (Entry | Node)[] = (parent as Parent).items as readonly (Entry | Node)[];
  const index = isMap(parent)
    ? items.findIndex((item) => keyText(item as Entry) === String(rest[0]))
    : isSeq(parent)
      ? Number(rest[0])
      : -1;
  if (!Number.isInteger(index) || index < 0 || index >= items.length) return null;
  const empty = isMap(parent) ? "{}" : "[]";
  if ((parent as Parent).flow === true) return removeFromFlow(text, parent as Parent, items, index, empty);
  if (items.length === 1) return emptyBlock(text, parent as Parent, items[0], empty);
  const from = startOfLine(text, startOf(items[index], isSeq(parent), text));
  return { from, to: afterLine(text, endOf(items[index])), by: "" };
}

/** The node that holds the last key of a path that can be followed, and what is left of the path. */
function deepest(root: Node | null, path: EditPath): { readonly node: Node | null; readonly rest: EditPath } {
  let node = root;
  for (let depth = 0; depth < path.length; depth++) {
    const rest = path.slice(depth);
    if (rest.length === 1) return { node, rest };
    const child = isMap(node)
      ? entryOf(node as YAMLMap<Node, Node | null>, String(path[depth]))?.value
      : isSeq(node)
        ? (node as YAMLSeq<Node>).items[Number(path[depth])]
        : undefined;
    // What is missing, empty or a plain value gives way to a block of its own.
    if (child === undefined || child === null || !(isMap(child) || isSeq(child))) return { node, rest };
    node = child;
  }
  return { node, rest: [] };
}

function wrap(path: EditPath, value: WrittenValue): WrittenValue {
  return path.reduceRight<WrittenValue>((inner, key) => ({ [String(key)]: inner }), value);
}

function keyText(entry: Entry): string {
  return isScalar(entry.key) ? String((entry.key as Scalar).value ?? "") : "";
}

function entryOf(map: YAMLMap<Node, Node | null>, key: string): Entry | undefined {
  return (map.items as Entry[]).find((entry) => keyText(entry) === key);
}

function rangeOf(node: Node): readonly [number, number, number] {
  return node.range ?? [0, 0, 0];
}

/** Where an entry begins: its key, or the dash of a list. */
function startOf(item: Entry | Node, inSeq: boolean, text: string): number {
  if (!inSeq) return rangeOf((item as Entry).key)[0];
  const at = rangeOf(item as Node)[0];
  return text.lastIndexOf("-", at - 1);
}

/** Where the last character of a node's own text ends, without the comment beside it. */
function endOf(item: Entry | Node | null): number {
  if (item === null) return 0;
  if ("key" in item) {
    const entry = item as Entry;
    const keyEnd = rangeOf(entry.key)[1] + 1;
    return entry.value === null ? keyEnd : Math.max(keyEnd, endOf(entry.value));
  }
  const node = item as Node;
  if ((isMap(node) || isSeq(node)) && node.flow !== true && node.items.length > 0)
    return endOf(node.items[node.items.length - 1] as Entry | Node);
  return rangeOf(node)[1];
}

function startOfLine(text: string, at: number): number {
  return text.lastIndexOf("\n", at - 1) + 1;
}

/** After the line break that ends the line of this place; the end of the text where none does. */
function afterLine(text: string, at: number): number {
  if (at > 0 && text[at - 1] === "\n") return at;
  const end = text.indexOf("\n", at);
  return end < 0 ? text.length : end + 1;
}

function columnOf(text: string, at: number): number {
  return at - startOfLine(text, at);
}

function insertKey(
  text: string,
  map: YAMLMap<Node, Node | null>,
  key: string,
  value: WrittenValue,
  order: readonly string[],
): Splice {
  const entries = map.items as Entry[];
  if (map.flow === true) return insertInFlow(text, map, `${flowText(key)}: ${flowText(value)}`);
  const indent = columnOf(text, rangeOf(entries[0].key)[0]);
  const after = entryBefore(entries, key, order);
  const siblings = entries.map((entry) => entry.value);
  const inFlow = siblings.some((sibling) => isMap(sibling) && sibling.flow === true);
  const line = keyLine(key, value, indent, inFlow);
  const isSection = order.length > 0 && typeof value !== "string";
  const gap = isSection ? "\n" : "";
  if (after === null) {
    const first = startOfLine(text, rangeOf(entries[0].key)[0]);
    return { from: first, to: first, by: `${line}\n${gap}` };
  }
  return insertAfterLine(text, endOf(after), `${gap}${line}`);
}

/** The entry that a new one follows: by the usual order of a site file where it has one, else the last. */
function entryBefore(entries: readonly Entry[], key: string, order: readonly string[]): Entry | null {
  const place = order.indexOf(key);
  if (place < 0) return entries[entries.length - 1];
  const earlier = entries.filter((entry) => {
    const other = order.indexOf(keyText(entry));
    return other >= 0 && other < place;
  });
  return earlier.length === 0 ? null : earlier[earlier.length - 1];
}

function keyLine(key: string, value: WrittenValue, indent: number, inFlow: boolean): string {
  const pad = " ".repeat(indent);
  return `${pad}${flowText(key)}:${valueText(value, indent, inFlow ? Number.POSITIVE_INFINITY : LINE - indent - key.length)}`;
}

function insertAfterLine(text: string, at: number, lines: string): Splice {
  const place = afterLine(text, at);
  const breaks = place > 0 && text[place - 1] !== "\n";
  return { from: place, to: place, by: `${breaks ? "\n" : ""}${lines}\n` };
}

function insertInFlow(text: string, holder: Parent, item: string): Splice {
  const items = holder.items as readonly (Entry | Node)[];
  const [open, close] = rangeOf(holder);
  if (items.length === 0) return { from: open, to: close, by: text[open] === "{" ? `{ ${item} }` : `[ ${item} ]` };
  const last = items[items.length - 1];
  const end = endOf(last);
  const begin = isMap(holder) ? rangeOf((last as Entry).key)[0] : rangeOf(last as Node)[0];
  const tail = /^\s*,/.exec(text.slice(end, close));
  const at = tail === null ? end : end + tail[0].length;
  const ownLine = /^\s*$/.test(text.slice(startOfLine(text, begin), begin)) && startOfLine(text, begin) > open;
  const comma = tail === null ? "," : "";
  const after = tail === null ? "" : ",";
  if (!ownLine) return { from: at, to: at, by: `${comma} ${item}${after}` };
  const pad = " ".repeat(columnOf(text, begin));
  const lineEnd = Math.max(at, text.indexOf("\n", at) < 0 ? at : text.indexOf("\n", at));
  return { from: at, to: lineEnd, by: `${comma}${text.slice(at, lineEnd)}\n${pad}${item}${after}` };
}

function appendItem(text: string, list: YAMLSeq<Node>, value: WrittenValue): Splice {
  if (list.flow === true || list.items.length === 0) return insertInFlow(text, list, flowText(value));
  const last = list.items[list.items.length - 1];
  const indent = columnOf(text, startOf(last, true, text));
  return insertAfterLine(
    text,
    endOf(last),
    `${" ".repeat(indent)}-${valueText(value, indent, Number.POSITIVE_INFINITY)}`,
  );
}

function replaceValue(text: string, parent: YAMLMap<Node, Node | null>, entry: Entry, value: WrittenValue): Splice {
  const keyEnd = rangeOf(entry.key)[1];
  const colon = text.indexOf(":", keyEnd) + 1;
  const old = entry.value;
  const isEmpty = old === null || endOf(old) <= colon;
  if (isEmpty) {
    const indent = columnOf(text, rangeOf(entry.key)[0]);
    const by = parent.flow === true ? ` ${flowText(value)}` : valueText(value, indent, emptyRoom(value, indent));
    return { from: colon, to: colon, by };
  }
  const isBlock = (isMap(old) || isSeq(old)) && old.flow !== true;
  if (!isBlock) return replaceNode(text, old, value, parent.flow === true);
  const indent = columnOf(text, rangeOf(entry.key)[0]);
  return { from: colon, to: endOf(old), by: valueText(value, indent, LINE - indent) };
}

/** Under an empty heading parts stand on lines of their own. */
function emptyRoom(value: WrittenValue, indent: number): number {
  const holdsParts = typeof value === "object" && Object.values(value).some((inner) => typeof inner === "object");
  return holdsParts ? 0 : LINE - indent;
}

function replaceNode(text: string, node: Node, value: WrittenValue, inFlow: boolean): Splice {
  const from = rangeOf(node)[0];
  const isBlock = (isMap(node) || isSeq(node)) && node.flow !== true;
  if (isBlock) {
    const indent = columnOf(text, from);
    return { from, to: endOf(node), by: valueText(value, indent, LINE).trimStart() };
  }
  const by = inFlow || typeof value !== "string" ? flowText(value) : valueText(value, 0, LINE).trimStart();
  return { from, to: rangeOf(node)[1], by };
}

function removeFromFlow(
  text: string,
  parent: Parent,
  items: readonly (Entry | Node)[],
  index: number,
  empty: string,
): Splice {
  const begin = (item: Entry | Node): number => rangeOf(isMap(parent) ? (item as Entry).key : (item as Node))[0];
  const [open, close] = rangeOf(parent);
  if (items.length === 1) return { from: open, to: close, by: empty };
  const start = begin(items[index]);
  const end = endOf(items[index]);
  const ownLine = /^\s*$/.test(text.slice(startOfLine(text, start), start)) && startOfLine(text, start) > open;
  if (index === items.length - 1) {
    // The comma before it goes too, the comment behind the one before it stays.
    const before = endOf(items[index - 1]);
    const between = text.slice(before, start);
    const kept = between.replace(",", "");
    return { from: before, to: end, by: between.includes("#") ? kept.trimEnd() : "" };
  }
  const comma = text.indexOf(",", end) + 1;
  if (ownLine) return { from: startOfLine(text, start), to: afterLine(text, comma), by: "" };
  return { from: start, to: comma + (/^[ \t]+/.exec(text.slice(comma))?.[0].length ?? 0), by: "" };
}

/** The last entry of a block leaves the block empty, and still there. */
function emptyBlock(text: string, parent: Parent, item: Entry | Node, empty: string): Splice {
  const start = startOf(item, isSeq(parent), text);
  const before = text.slice(0, start);
  const heading = /:[ \t]*(#[^\n]*)?(\n[ \t]*(#[^\n]*)?)*\n?[ \t]*$/.exec(before);
  if (heading === null) return { from: start, to: endOf(item), by: empty };
  const colon = heading.index + 1;
  return { from: colon, to: endOf(item), by: ` ${empty}${text.slice(colon, startOfLine(text, start)).trimEnd()}` };
}
