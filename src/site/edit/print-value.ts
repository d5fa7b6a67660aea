/** Values as they are written into a site file. */
import { Document, visit } from "yaml";
import type { WrittenValue } from "./site-edit.ts";

/** On one line, between brackets where it is a set or a list, quoted where it must be: `{ kind: heater, power: 300 W }`. */
export function flowText(value: WrittenValue): string {
  // Written inside a list, so that a comma or a bracket in a plain text is quoted as it must be there.
  const document = new Document([value], { schema: "failsafe" });
  visit(document, {
    Collection: (_key, node) => {
      node.flow = true;
    },
    Scalar: (_key, node) => {
      if (node.value === "" || /\p{Cc}/u.test(String(node.value))) node.type = "QUOTE_DOUBLE";
    },
  });
  const text = document.toString({ lineWidth: 0, flowCollectionPadding: true });
  return text
    .trim()
    .replace(/^\[\s*/, "")
    .replace(/\s*\]$/, "");
}

/**
 * What follows the colon of a key, or the dash of a list: on the same line where it fits into `room` characters, else as
 * a block on lines of its own.
 */
export function valueText(value: WrittenValue, indent: number, room: number): string {
  const line = flowText(value);
  if (typeof value === "string" || isPlain(value) || line.length <= room) return ` ${line}`;
  const pad = " ".repeat(indent + 2);
  if (Array.isArray(value)) {
    return value
      .map((item: WrittenValue) => `\n${pad}-${valueText(item, indent + 2, Number.POSITIVE_INFINITY)}`)
      .join("");
  }
  return Object.entries(value)
    .map(([key, inner]) => `\n${pad}${flowText(key)}:${valueText(inner, indent + 2, Math.max(room, 100 - indent))}`)
    .join("");
}

/** Nothing to break into lines. */
function isPlain(value: WrittenValue): boolean {
  return typeof value === "object" && Object.keys(value).length === 0;
}
