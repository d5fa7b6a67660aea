/** Pieces of a site file: a line, what is assumed in it, and which answers stand in it. */

export interface Piece {
  readonly indent: number;
  readonly text: string;
  /** Told above the line, and to the person: a sentence. */
  readonly assumes?: string;
  /** Whose answer stands at a key, "heater-1.power" -> "tanks.0.heaterPower". */
  readonly marks?: Marks;
}

export type Marks = Readonly<Record<string, string>>;

export function piece(indent: number, text: string, assumes?: string | null, marks?: Marks): Piece {
  return {
    indent,
    text,
    ...(assumes === undefined || assumes === null ? {} : { assumes }),
    ...(marks === undefined ? {} : { marks }),
  };
}

/** What needs no quotes, also inside brackets. */
const PLAIN = /^[\p{L}\p{N}](?:[\p{L}\p{N} ./%+-]*[\p{L}\p{N}.%])?$/u;
/** Signs that JSON leaves as they are and a site file refuses. */
const UNPRINTABLE = /[\u007f-\u009f\u2028\u2029\ufeff\ufffe\uffff]/g;

/** Any text as one YAML value. */
export function scalar(text: string): string {
  const trimmed = text.trim();
  if (PLAIN.test(trimmed)) return trimmed;
  return JSON.stringify(trimmed).replace(
    UNPRINTABLE,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}

export type Value = string | number | readonly string[] | { readonly [key: string]: Value | null | undefined };

/** A value as YAML on one line; keys whose value is null are left out. */
export function inline(value: Value): string {
  if (typeof value === "number") return String(value);
  if (typeof value === "string") return scalar(value);
  if (Array.isArray(value)) return `[${value.length === 0 ? "" : ` ${value.map(scalar).join(", ")} `}]`;
  const entries = Object.entries(value as Record<string, Value | null | undefined>).filter(
    (entry): entry is [string, Value] => entry[1] !== null && entry[1] !== undefined,
  );
  return entries.length === 0 ? "{}" : `{ ${entries.map(([key, each]) => `${key}: ${inline(each)}`).join(", ")} }`;
}

const WIDTH = 110;
/** No line ends between a figure and its unit. */
const BREAKS = /(?<!\d) | (?=\S{6})/;

function comment(indent: number, sentence: string): string[] {
  const lead = `${" ".repeat(indent)}# `;
  const lines: string[] = [];
  let line = "";
  for (const word of sentence.split(BREAKS)) {
    if (line !== "" && lead.length + line.length + 1 + word.length > WIDTH) {
      lines.push(lead + line);
      line = word;
    } else {
      line = line === "" ? word : `${line} ${word}`;
    }
  }
  return [...lines, lead + line];
}

/** The text of a file; an empty line stands before each block of the top level. */
export function textOf(heading: string, pieces: readonly Piece[]): string {
  const lines = pieces.flatMap((each) => [
    ...(each.indent === 0 && each.text.endsWith(":") ? [""] : []),
    ...(each.assumes === undefined ? [] : comment(each.indent, `Assumed: ${each.assumes}`)),
    `${" ".repeat(each.indent)}${each.text}`,
  ]);
  return `${[...comment(0, heading), ...lines].join("\n")}\n`;
}
