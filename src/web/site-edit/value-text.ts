/** Values of the file as the text of a field, and back. */
import type { FieldFacts, WrittenValue } from "../../server/contract/index.ts";
import { isSet } from "./part-path.ts";

/** One line for a value: entries of a list between commas. A set of keys is not shown on a line: null. */
export function lineOf(value: WrittenValue | null): string | null {
  if (value === null) return "";
  if (typeof value === "string") return value;
  if (isSet(value)) return null;
  const items = (value as readonly WrittenValue[]).map(lineOf);
  return items.every((item) => item !== null) ? items.join(", ") : null;
}

/** What a line says; null where it is empty. A key that takes several gets a list where there is more than one. */
export function valueSaid(line: string, { many }: Pick<FieldFacts, "many">): WrittenValue | null {
  const trimmed = line.trim();
  if (trimmed === "") return null;
  if (!many) return trimmed;
  const items = trimmed
    .split(",")
    .map((item) => item.trim())
    .filter((item) => item !== "");
  return items.length === 1 ? items[0] : items;
}

/** The single words of a value that may be a list. */
export function itemsOf(value: WrittenValue | null): readonly string[] {
  if (value === null || value === "") return [];
  if (typeof value === "string") return [value];
  return isSet(value) ? [] : (value as readonly WrittenValue[]).filter((item) => typeof item === "string");
}

/** A short way to say a value in a sentence. */
export function saidOf(value: WrittenValue | null): string {
  if (value === null || value === "") return "";
  const line = lineOf(value);
  if (line !== null) return line;
  return Object.entries(value as { readonly [key: string]: WrittenValue })
    .map(([key, inner]) => `${key} ${saidOf(inner)}`)
    .join(", ");
}
