/**
 * What a report of an incident says, as data: `validation/reports/NAME.yaml` beside the description of its place,
 * `examples/incidents/NAME.yaml`. Expectations and tolerances come from the report alone.
 */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parse } from "yaml";
import { z } from "zod";

const MINUTES = { min: 1, h: 60, d: 1440 } as const;

/** `8.5 h`, `10 min` or `5 d`, in minutes. */
const time = z
  .string()
  .regex(/^\d+(\.\d+)? (min|h|d)$/, "write a time like 8.5 h")
  .transform((text) => {
    const [count, unit] = text.split(" ") as [string, keyof typeof MINUTES];
    return Number(count) * MINUTES[unit];
  });

const verdict = z.enum(["absorbed", "handled", "handed over", "late", "unseen"]);

const bound = z.union([
  z.number(),
  z.strictObject({ "at-most": z.number() }),
  z.strictObject({ "at-least": z.number() }),
]);

/** A number of the report, and where the simulator has its own. */
const figure = z.strictObject({
  what: z.string(),
  /** A curve, `display.temperature_c`; or one of the times of the drill, in hours. */
  quantity: z.string().optional(),
  minutes: z.enum(["sign", "noticed", "told", "acting", "harm_early", "harm_likely", "harm_late"]).optional(),
  /** With the people who come, or with nobody: where the report's own help did not change it. */
  course: z.enum(["attended", "alone"]).default("attended"),
  take: z.enum(["value", "rise", "fall", "most", "least"]).default("value"),
  at: time.optional(),
  until: time.optional(),
  reported: bound,
  unit: z.string(),
  tolerance: z.union([z.strictObject({ within: z.number() }), z.strictObject({ factor: z.number() })]).optional(),
  reason: z.string(),
});

const mark = z.enum(["sign", "learned", "act", "harm"]);

const learned = z.union([
  z.literal("nobody"),
  z.strictObject({ who: z.string(), by: z.enum(["looking", "call", "push", "text", "siren", "mail"]) }),
]);

const record = z.strictObject({
  incident: z.string().regex(/^I\d{3}$/),
  family: z.string(),
  faults: z.array(z.string()).min(1),
  circumstance: z.string(),
  /** Where what is named lasts longer than the fault of our list does. */
  lasts: time.optional(),
  reported: z.string(),
  expected: z.array(verdict).min(1),
  because: z.string(),
  /** Quantity that showed first, where the report says so. */
  first: z.string().optional(),
  learned: learned.optional(),
  order: z.array(mark),
  figures: z.array(figure),
  lacks: z.string(),
  /** What does not fit, by the name of its line on the page, and why as far as we know. */
  misfits: z.record(z.string(), z.string()).default({}),
});

export type Figure = z.infer<typeof figure>;
export type Mark = z.infer<typeof mark>;
export type VerdictWord = z.infer<typeof verdict>;

export interface Incident extends z.infer<typeof record> {
  /** Name of both files, without the ending. */
  readonly name: string;
  readonly siteFile: string;
}

const REPORTS = fileURLToPath(new URL("../reports/", import.meta.url));
const SITES = fileURLToPath(new URL("../../examples/incidents/", import.meta.url));

/** All incidents, by their number. */
export function readIncidents(): readonly Incident[] {
  const names = readdirSync(REPORTS).map((file) => file.replace(/\.yaml$/, ""));
  return names.map(readIncident).sort((a, b) => (a.incident < b.incident ? -1 : 1));
}

function readIncident(name: string): Incident {
  const checked = record.safeParse(parse(readFileSync(`${REPORTS}${name}.yaml`, "utf8")));
  if (!checked.success) throw new Error(`validation/reports/${name}.yaml: ${z.prettifyError(checked.error)}`);
  return { ...checked.data, name, siteFile: `${SITES}${name}.yaml` };
}
