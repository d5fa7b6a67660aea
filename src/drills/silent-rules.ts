/**
 * Why the rules that could have noticed a harm had nothing to say when it began. Worked out for a drill that is told in full, and
 * never in a rehearsal.
 */
import { explainRule, isActive } from "../rules/index.ts";
import type { Comparison, Quantity, RuleSpec, Sensor, Site } from "../site/index.ts";
import {
  askLever,
  hubWorks,
  type Looker,
  leverAt,
  sensedProbes,
  type Twin,
  timeS,
  truthProbes,
} from "../twin/index.ts";
import type { Course } from "./course.ts";
import { minutesAt } from "./recorder.ts";
import type { Setting } from "./setting.ts";
import type { SilentRule } from "./types.ts";

/** More than these make no one wiser. */
const MOST = 5;

interface Cue {
  readonly quantity: Quantity;
  /** Which way the quantity goes; a rule that waits for the other way could not have noticed. */
  readonly goes: "up" | "down";
  /** Name of the true quantity in the trace. */
  readonly truth: string | null;
  readonly words: string;
}

const HEAT: Cue = { quantity: "temperature", goes: "up", truth: "temperature_c", words: "temperature" };
const CUES: Readonly<Record<string, readonly Cue[]>> = {
  heat: [HEAT],
  cold: [{ ...HEAT, goes: "down" }],
  hypoxia: [
    { quantity: "oxygen", goes: "down", truth: "oxygen_mg_l", words: "oxygen" },
    { quantity: "orp", goes: "down", truth: null, words: "ORP" },
  ],
  "low-salinity": [{ quantity: "salinity", goes: "down", truth: "salinity", words: "salinity" }],
  "high-salinity": [{ quantity: "salinity", goes: "up", truth: "salinity", words: "salinity" }],
  "high-ph": [{ quantity: "ph", goes: "up", truth: "ph_total", words: "pH" }],
  "low-ph": [{ quantity: "ph", goes: "down", truth: "ph_total", words: "pH" }],
  co2: [{ quantity: "ph", goes: "down", truth: "ph_total", words: "pH" }],
  ammonia: [{ quantity: "orp", goes: "down", truth: null, words: "ammonia or ORP" }],
  emersion: [
    { quantity: "level", goes: "down", truth: "volume_l", words: "level" },
    { quantity: "float", goes: "down", truth: "volume_l", words: "level" },
  ],
  darkness: [{ quantity: "light", goes: "down", truth: null, words: "light" }],
  "water on the floor": [{ quantity: "leak", goes: "up", truth: null, words: "water on the floor" }],
};

const UNITS: Partial<Readonly<Record<Quantity, string>>> = {
  temperature: "°C",
  "air-temperature": "°C",
  oxygen: "mg/L",
  alkalinity: "dKH",
  orp: "mV",
  level: "L",
  flow: "L/h",
  power: "W",
  "air-co2": "ppm",
};
/** Digits of true values in words, as people know them. */
const DIGITS: Partial<Readonly<Record<Quantity, number>>> = { ph: 2, level: 0, float: 0 };

/**
 * One line for each rule that looks for such a harm and has not begun by now, in the state that the twin is in; or one that says that
 * nothing looks for it.
 */
export function silentRules({ model }: Setting, twin: Twin, course: Course, begun: ReadonlySet<string>): SilentRule[] {
  const what = course.harmWhat;
  const cues = what === null ? undefined : CUES[what.stressor];
  if (what === null || cues === undefined) return [];
  const { site } = model;
  const system = site.bodies.find(({ id }) => id === what.body)?.system ?? null;
  const lines: SilentRule[] = [];
  let watched = false;
  for (const [place, looker] of model.lookers.entries()) {
    for (const [rule, spec] of looker.table.rules.entries()) {
      const seen = seenBy(site, spec, cues, system);
      if (seen === null) continue;
      watched = true;
      if (
        begun.has(spec.id) ||
        isActive(looker.table, twin.ruleStates[place], rule) ||
        lines.some((line) => line.rule === spec.id)
      )
        continue;
      const why = whyNot(twin, looker, place, rule);
      const where = whereItSits(twin, seen.sensor, seen.cue, what.body);
      lines.push({
        rule: spec.id,
        sensor: seen.sensor.id,
        at_min: minutesAt(timeS(twin)),
        why: [why, ...where].join("; "),
      });
    }
  }
  if (watched) return lines.slice(0, MOST);
  const subject = what.group === "house" ? cues[0].words : `${cues[0].words} in ${system ?? what.body}`;
  return [{ rule: null, sensor: null, at_min: minutesAt(timeS(twin)), why: `no rule asks for ${subject}` }];
}

/** The first term of a rule by which it could see such a harm; null: it has none, or tells and switches off nothing. */
function seenBy(
  site: Site,
  spec: RuleSpec,
  cues: readonly Cue[],
  system: string | null,
): { readonly sensor: Sensor; readonly cue: Cue } | null {
  if (spec.notice === null && spec.act.length === 0) return null;
  for (const { sensor: id, is } of spec.when.all) {
    const sensor = site.sensors.find((one) => one.id === id);
    const cue = sensor && cues.find((one) => one.quantity === sensor.measures && goesSo(is, one.goes));
    if (!sensor || !cue) continue;
    const own = site.bodies.find((body) => body.id === sensor.at)?.system ?? null;
    if (system === null || own === null || own === system) return { sensor, cue };
  }
  return null;
}

function goesSo({ op }: Comparison, goes: Cue["goes"]): boolean {
  if (op === "above" || op === "rising" || op === "wet" || op === "present") return goes === "up";
  if (op === "below" || op === "falling" || op === "dry" || op === "absent") return goes === "down";
  return true;
}

function whyNot(twin: Twin, looker: Looker, place: number, rule: number): string {
  const { site } = twin.model;
  const hub = site.hubs[looker.hub].id;
  if (!hubWorks(twin, looker.hub)) return `did not fire: ${hub}, which runs it, did not work`;
  const spec = looker.table.rules[rule];
  if (askLever(twin, leverAt(twin.model, spec.id, "off")) > 0) return "did not fire: it is switched off";
  const units = site.sensors.map(({ measures }) => UNITS[measures] ?? "");
  const readings = Float64Array.from(sensedProbes(twin.model), (probe) => probe.read(twin));
  return explainRule({ ...looker.table, units }, twin.ruleStates[place], rule, readings, timeS(twin));
}

/** Where the sensor sits and what was true there and in the body that is harmed, where the two differ or the sensor is wrong. */
function whereItSits(twin: Twin, sensor: Sensor, { truth, quantity, words }: Cue, body: string): string[] {
  if (truth === null || sensor.atKind !== "body") return [];
  const probes = truthProbes(twin.model);
  const read = (at: string) => probes.find(({ name }) => name === `${at}.${truth}`)?.read(twin);
  const own = read(sensor.at);
  const harmed = read(body);
  if (own === undefined || harmed === undefined) return [];
  const unit = UNITS[quantity] ?? "";
  const figure = (value: number) => `${value.toFixed(DIGITS[quantity] ?? 1)}${unit === "" ? "" : ` ${unit}`}`;
  if (sensor.at === body) return [`the true ${words} in ${body} was ${figure(own)}`];
  return [`${sensor.id} sits in ${sensor.at}, where it was ${figure(own)}, while ${body} had ${figure(harmed)}`];
}
