/**
 * Readers: how one value of a site file is written, read, printed and described. The loader, the JSON Schema and the
 * reference page all come from the same readers, so that they can not contradict each other.
 */
import type { Dimension, Limits, Problem, Result, WallMoment, WallWindow } from "../../foundation/index.ts";
import {
  didYouMean,
  factsOf,
  findUnit,
  formatMinuteOfDay,
  formatQuantity,
  formatWindow,
  parseLocalTime,
  parseMoment,
  parseQuantity,
  parseWindow,
} from "../../foundation/index.ts";
import type { Place, Report } from "../text/site-error.ts";
import type { Tree } from "../text/yaml-tree.ts";
import { kindInWords } from "../text/yaml-tree.ts";

export type JsonSchema = Readonly<Record<string, unknown>>;

/** What a reader needs to complain: where it is, and to whom. */
export interface At {
  readonly report: Report;
  readonly where: string;
}

/** A value and the place where it is written. */
export interface Found<T> {
  readonly value: T;
  readonly place: Place;
}

export interface Reader<T> {
  /** The value, or undefined after an error was reported. */
  read(tree: Tree, at: At): T | undefined;
  /** As a person would write it. */
  print(value: T): string;
  readonly schema: JsonSchema;
  /** What to write, in words, for the reference page. */
  readonly words: string;
  /** How a form asks for it, where plain text is not the whole answer. */
  readonly form?: FormFacts;
}

/** What a form must know of a key to offer more than a line to write on. */
export interface FormFacts {
  /** The only words that can stand here. */
  readonly choices?: readonly string[];
  /** Kinds of parts whose names can stand here, in words: "a body, room, device or circuit". */
  readonly names?: string;
  /** The word for "there is none", where one is allowed. */
  readonly none?: string;
  /** Several can stand here. */
  readonly many?: boolean;
}

export function complain(at: At, place: Place, problem: Problem): undefined {
  at.report.error(place, at.where, problem.code, problem.message, problem.hint);
  return undefined;
}

export function complainAbout(at: At, tree: Tree, code: string, message: string, hint: string): undefined {
  return complain(at, tree.place, { code, message, hint });
}

/** The text of a tree node, or undefined after complaining that something else stands there. */
export function textOf(tree: Tree, at: At, wanted: string): string | undefined {
  if (tree.kind === "text") return tree.text;
  const message = tree.kind === "empty" ? "nothing is written here" : `${kindInWords(tree)} stands here`;
  return complain(at, tree.place, { code: "value/kind", message, hint: `write ${wanted}` });
}

/** A reader of a single text, from a function that gives the value or the problem. */
export function textReader<T>(
  words: string,
  schema: JsonSchema,
  parse: (text: string) => Result<T>,
  print: (value: T) => string,
): Reader<T> {
  return {
    words,
    schema,
    print,
    read: (tree, at) => {
      const text = textOf(tree, at, words);
      if (text === undefined) return undefined;
      const result = parse(text);
      return result.ok ? result.value : complain(at, tree.place, result.problem);
    },
  };
}

const NUMBER_THEN_UNIT = "^\\s*[-+\\u2212]?(\\d+\\.?\\d*|\\.\\d+)([eE][-+]?\\d+)?\\s*\\D.*$";

/** What one writes for quantities that are asked for in a unit of their own. */
const EXAMPLES_IN: Readonly<Record<string, string>> = {
  m3: "60 m3",
  kg: "40 kg",
  mA: "30 mA",
  min: "30 min",
  h: "6 h",
  d: "7 d",
  months: "3 months",
};

/** A quantity, given in the canonical unit of its dimension or in another unit of it (`months` for a duration). */
export function quantity(dimension: Dimension, limits: Limits = {}, unitSymbol?: string): Reader<number> {
  const facts = factsOf(dimension);
  const unit = unitSymbol === undefined ? null : findUnit(dimension, unitSymbol);
  const factor = unit?.factor ?? 1;
  const example = EXAMPLES_IN[unitSymbol ?? ""] ?? facts.example;
  const text = { type: "string", pattern: NUMBER_THEN_UNIT, examples: [example] };
  const schema = facts.bare === true ? { anyOf: [text, { type: "number" }] } : text;
  return textReader(
    `${facts.words}, like \`${example}\``,
    schema,
    (written) => {
      const result = parseQuantity(written.replace(/\s+ago$/i, ""), dimension, limits);
      return result.ok ? { ok: true, value: result.value.value / factor } : result;
    },
    (value) => formatQuantity(value * factor, dimension, unit?.symbol),
  );
}

/** A text of at most so many characters. */
export function text(words: string, longest = 300): Reader<string> {
  return textReader(
    words,
    { type: "string", maxLength: longest },
    (written) =>
      written.length <= longest
        ? { ok: true, value: written }
        : {
            ok: false,
            problem: {
              code: "value/too-long",
              message: `this text has ${written.length} characters`,
              hint: `keep it to ${longest}`,
            },
          },
    (value) => value,
  );
}

/** One word of a fixed set. */
export function choice<const T extends string>(options: readonly T[]): Reader<T> {
  const words = options.map((option) => `\`${option}\``).join(", ");
  const reader = textReader<T>(
    `one of ${words}`,
    { enum: options },
    (written) => {
      const found = options.find((option) => option === written.toLowerCase());
      if (found !== undefined) return { ok: true, value: found };
      return {
        ok: false,
        problem: {
          code: "value/choice",
          message: `'${written}' is not one of the words for this`,
          hint: didYouMean(written, options),
        },
      };
    },
    (value) => value,
  );
  return { ...reader, form: { choices: options } };
}

/** `yes` or `no`. */
export function yesNo(): Reader<boolean> {
  const reader = textReader<boolean>(
    "`yes` or `no`",
    { enum: ["yes", "no", true, false] },
    (written) => {
      const word = written.toLowerCase();
      if (word === "yes" || word === "true") return { ok: true, value: true };
      if (word === "no" || word === "false") return { ok: true, value: false };
      return {
        ok: false,
        problem: { code: "value/yes-no", message: `'${written}' is neither yes nor no`, hint: "write yes or no" },
      };
    },
    (value) => (value ? "yes" : "no"),
  );
  return { ...reader, form: { choices: ["yes", "no"] } };
}

/** A whole number in a range. */
export function wholeNumber(min: number, max: number, example: number): Reader<number> {
  return textReader(
    `a whole number, like \`${example}\``,
    { type: "integer", minimum: min, maximum: max },
    (written) => {
      const value = Number(written);
      if (/^\d+$/.test(written) && value >= min && value <= max) return { ok: true, value };
      return {
        ok: false,
        problem: {
          code: "value/number",
          message: `'${written}' is not a whole number from ${min} to ${max}`,
          hint: `write one like ${example}`,
        },
      };
    },
    String,
  );
}

/** How long ago something was proved, in months, or `never`. */
export function monthsAgo(): Reader<number | null> {
  return orNone(quantity("duration", { max: 1e9 }, "months"), "never");
}

/** Any reader, or the word that stands for "there is none". */
export function orNone<T>(inner: Reader<T>, word = "none"): Reader<T | null> {
  return {
    words: `${inner.words}, or \`${word}\``,
    schema: { anyOf: [inner.schema, { const: word }] },
    form: { ...inner.form, none: word },
    print: (value) => (value === null ? word : inner.print(value)),
    read: (tree, at) => (tree.kind === "text" && tree.text.toLowerCase() === word ? null : inner.read(tree, at)),
  };
}

/** A list, or a single value in place of a list of one. Items keep their places. */
export function listOf<T>(inner: Reader<T>, most = 200): Reader<readonly Found<T>[]> {
  return {
    words: `${inner.words}; one or a list`,
    schema: { anyOf: [inner.schema, { type: "array", items: inner.schema, maxItems: most }] },
    form: { ...inner.form, many: true },
    print: (values) => (values.length === 0 ? "none" : values.map((item) => inner.print(item.value)).join(", ")),
    read: (tree, at) => {
      const items = tree.kind === "list" ? tree.items : [tree];
      if (items.length > most) {
        return complain(at, tree.place, {
          code: "value/too-many",
          message: `this list has ${items.length} entries`,
          hint: `keep it to ${most}`,
        });
      }
      // Entries of a list are told apart by their number; a single value in its place has none.
      const values = items.map((item, index) => {
        const where = tree.kind === "list" ? `${at.where}[${index + 1}]` : at.where;
        return { value: inner.read(item, { report: at.report, where }), place: item.place };
      });
      return values.some((item) => item.value === undefined) ? undefined : (values as Found<T>[]);
    },
  };
}

/** The id of another part; whether it exists is checked when everything is read. */
export function nameOf(kinds: string): Reader<string> {
  const reader = textReader<string>(
    `the name of ${kinds}`,
    { type: "string" },
    (written) => ({ ok: true, value: written }),
    (value) => value,
  );
  return { ...reader, form: { names: kinds } };
}

export function timeWindow(): Reader<WallWindow> {
  return textReader(
    "a window of local time, like `weekdays 07:00-16:00`",
    { type: "string", examples: ["weekdays 07:00-16:00"] },
    parseWindow,
    formatWindow,
  );
}

export function returningMoment(): Reader<WallMoment> {
  return textReader(
    "a time of day, like `weekdays 08:15`",
    { type: "string", examples: ["weekdays 08:15"] },
    parseMoment,
    (moment) =>
      `${formatWindow({ days: moment.days, fromMin: 0, toMin: 1440 }).replace("daily", "")} ${formatMinuteOfDay(moment.atMin)}`,
  );
}

/** A local date and time; kept as it is written. */
export function localTime(): Reader<string> {
  return textReader(
    "a local date and time, like `2026-08-15T02:00`",
    { type: "string", pattern: "^\\d{4}-\\d{2}-\\d{2}[T ]\\d{2}:\\d{2}$" },
    (written) => {
      const parsed = parseLocalTime(written);
      return parsed.ok ? { ok: true, value: written.replace(" ", "T").slice(0, 16) } : parsed;
    },
    (value) => value,
  );
}
