/**
 * What a report of an incident says, as data: `validation/reports/NAME.yaml` beside the description of its place,
 * `examples/incidents/NAME.yaml`. Expectations and tolerances come from the report alone.
 */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parse } from "yaml";
import { Fields } from "./fields.ts";

const VERDICTS = ["absorbed", "handled", "handed over", "late", "unseen"] as const;
const MARKS = ["sign", "learned", "act", "harm"] as const;
const WAYS = ["looking", "call", "push", "text", "siren", "mail"] as const;
const TIMES = ["sign", "noticed", "told", "acting", "harm_early", "harm_likely", "harm_late"] as const;
const TAKES = ["value", "rise", "fall", "most", "least"] as const;

export type Mark = (typeof MARKS)[number];

/** A value of the report, or how far it went at most or at least. */
export type Bound = number | { readonly atMost: number } | { readonly atLeast: number };
export type Tolerance = { readonly within: number } | { readonly factor: number };

/** A number of the report, and where the simulator has its own. */
export interface Figure {
  readonly what: string;
  /** A curve, `display.temperature_c`; or one of the times of the drill, in hours. */
  readonly quantity: string | null;
  readonly minutes: (typeof TIMES)[number] | null;
  /** With the people who come, or with nobody: where the report's own help did not change it. */
  readonly course: "attended" | "alone";
  readonly take: (typeof TAKES)[number];
  /** Minutes after the fault: at this moment, or all the time until that one. */
  readonly at: number | null;
  readonly until: number | null;
  readonly reported: Bound;
  readonly unit: string;
  readonly tolerance: Tolerance | null;
  readonly reason: string;
}

export interface Incident {
  /** Name of both files, without the ending. */
  readonly name: string;
  readonly siteFile: string;
  readonly incident: string;
  readonly family: string;
  readonly faults: readonly string[];
  readonly circumstance: string;
  /** Minutes, where what is named lasted longer than the fault of our list does. */
  readonly lasts: number | null;
  readonly reported: string;
  readonly expected: readonly (typeof VERDICTS)[number][];
  readonly because: string;
  /** Quantity that showed first, where the report says so. */
  readonly first: string | null;
  readonly learned: { readonly who: string; readonly by: (typeof WAYS)[number] } | "nobody" | null;
  readonly order: readonly Mark[];
  readonly figures: readonly Figure[];
  readonly lacks: string;
  /** What does not fit, by the name of its line on the page, and why as far as we know. */
  readonly misfits: Readonly<Record<string, string>>;
}

const REPORTS = fileURLToPath(new URL("../reports/", import.meta.url));
const SITES = fileURLToPath(new URL("../../examples/incidents/", import.meta.url));

/** All incidents, by their number. */
export function readIncidents(): readonly Incident[] {
  const names = readdirSync(REPORTS).map((file) => file.replace(/\.yaml$/, ""));
  return names.map(readIncident).sort((a, b) => (a.incident < b.incident ? -1 : 1));
}

function readIncident(name: string): Incident {
  const file = new Fields(`validation/reports/${name}.yaml`, parse(readFileSync(`${REPORTS}${name}.yaml`, "utf8")));
  const incident: Incident = {
    name,
    siteFile: `${SITES}${name}.yaml`,
    incident: file.text("incident"),
    family: file.text("family"),
    faults: file.texts("faults"),
    circumstance: file.text("circumstance"),
    lasts: file.has("lasts") ? file.time("lasts") : null,
    reported: file.text("reported"),
    expected: file.words("expected", VERDICTS),
    because: file.text("because"),
    first: file.has("first") ? file.text("first") : null,
    learned: file.has("learned") ? learnedOf(file) : null,
    order: file.words("order", MARKS),
    figures: file.list("figures").map((value, place) => figureOf(new Fields(`${name}, figure ${place + 1}`, value))),
    lacks: file.text("lacks"),
    misfits: file.has("misfits") ? textsOf(file.within("misfits")) : {},
  };
  file.end();
  return incident;
}

function learnedOf(file: Fields): Incident["learned"] {
  if (file.any("learned") === "nobody") return "nobody";
  const learned = file.within("learned");
  return { who: learned.text("who"), by: learned.word("by", WAYS) };
}

function textsOf(fields: Fields): Readonly<Record<string, string>> {
  return Object.fromEntries(fields.keys().map((key) => [key, fields.text(key)]));
}

function figureOf(fields: Fields): Figure {
  const figure: Figure = {
    what: fields.text("what"),
    quantity: fields.has("quantity") ? fields.text("quantity") : null,
    minutes: fields.has("minutes") ? fields.word("minutes", TIMES) : null,
    course: fields.has("course") ? fields.word("course", ["attended", "alone"] as const) : "attended",
    take: fields.has("take") ? fields.word("take", TAKES) : "value",
    at: fields.has("at") ? fields.time("at") : null,
    until: fields.has("until") ? fields.time("until") : null,
    reported: boundOf(fields),
    unit: fields.text("unit"),
    tolerance: fields.has("tolerance") ? toleranceOf(fields.within("tolerance")) : null,
    reason: fields.text("reason"),
  };
  fields.end();
  return figure;
}

function boundOf(fields: Fields): Bound {
  if (typeof fields.any("reported") === "number") return fields.number("reported");
  const bound = fields.within("reported");
  return bound.has("at-most") ? { atMost: bound.number("at-most") } : { atLeast: bound.number("at-least") };
}

function toleranceOf(fields: Fields): Tolerance {
  return fields.has("within") ? { within: fields.number("within") } : { factor: fields.number("factor") };
}
