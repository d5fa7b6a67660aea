/** Changes of the description in plain words: which part, which key, what was written there and what will be. */
import type { SiteEdit, WrittenValue } from "../../server/contract/index.ts";
import { isSet, valueAt } from "../site-edit/part-path.ts";
import { remedyWords } from "../words/remedies.ts";

export interface EditInWords {
  readonly part: string;
  /** The key below the part; empty where the part as a whole is meant. */
  readonly key: string;
  /** Null where nothing was written. */
  readonly was: string | null;
  /** Null where it is taken out. */
  readonly becomes: string | null;
}

export function editInWords(edit: SiteEdit, written: WrittenValue | null): EditInWords {
  switch (edit.op) {
    case "rename":
      return { part: edit.from, key: remedyWords.edit.name, was: edit.from, becomes: edit.to };
    case "take-out":
      return { part: edit.part, key: "", was: null, becomes: null };
    default: {
      const length = partLength(edit.path);
      const old = valueAt(written, edit.path);
      return {
        part: partName(edit.path.slice(0, length), written),
        key: edit.path
          .slice(length)
          .map((key) => spaced(String(key)))
          .join(", "),
        was: old === null ? null : valueInWords(old),
        becomes: edit.op === "remove" ? null : valueInWords(edit.value),
      };
    }
  }
}

/** How many keys lead to a part; what follows them is a key of it. */
function partLength(path: readonly (string | number)[]): number {
  const [first, , third] = path;
  if (first === "power") return 3;
  if (first === "systems") return third === "bodies" || third === "circulation" ? 4 : 2;
  return SECTIONS.includes(String(first)) ? 2 : 1;
}

const SECTIONS = ["rooms", "links", "hubs", "devices", "sensors", "rules", "people", "circumstances"];

function partName(path: readonly (string | number)[], written: WrittenValue | null): string {
  const last = path[path.length - 1];
  if (typeof last === "string") return path.length === 1 ? spaced(last) : last;
  const entry = valueAt(written, path);
  if (!isSet(entry)) return spaced(String(path[path.length - 2]));
  return typeof entry.name === "string" ? entry.name : `${String(entry.from)}-to-${String(entry.to)}`;
}

function valueInWords(value: WrittenValue): string {
  if (typeof value === "string") return value.replace(/\bdegC\b/g, "\u00b0C").replace(/\bdegF\b/g, "\u00b0F");
  if (isSet(value))
    return Object.entries(value)
      .map(([key, inner]) => `${spaced(key)} ${valueInWords(inner)}`)
      .join(", ");
  return (value as readonly WrittenValue[]).map(valueInWords).join(", ");
}

/** Keys of the file are words joined by hyphens. */
function spaced(key: string): string {
  return key.replaceAll("-", " ");
}
