/** Remedies that let somebody know: thermometers, guards of sensors and rules, and what the other files of watching offer. */
import { formatNumber } from "../../foundation/index.ts";
import type { Body, RuleSpec, Sensor, Site } from "../../site/index.ts";
import { concerns, type Finding } from "./finding.ts";
import { bodyOf, devicesIn, home, hubFor, keptAtC, sensorsIn, tells } from "./places.ts";
import type { Draft } from "./remedy.ts";
import { canTell, wantsWord } from "./telling.ts";
import { FLAT_AFTER, guardEdits, ruleEdit, sensorEdit } from "./watch-edits.ts";
import { lightWatch, noticeBelowCutOut, powerWatch, pumpWatch } from "./watching-devices.ts";
import { displayHigh, sumpLow } from "./watching-levels.ts";
import { oxygenLimit, phLimit, salinityLimit } from "./watching-water.ts";
import { degC, freeName, set } from "./writing.ts";

/** A notice above and below what is kept, K: far enough from a warm afternoon, early enough to come. */
const LIMIT_K = 1.5;
const DIFFERS_K = 1;
const KINDS = ["digital", "thermistor", "platinum"];
const PROBE_FAULTS = [
  "reads-low",
  "reads-high",
  "drifts-low",
  "drifts-high",
  "lead-broken",
  "lead-shorted",
  "shows-minus-127",
  "shows-85",
  "out-of-water",
];

export function watchingRemedies(site: Site): readonly Draft[] {
  return [
    ...site.systems.flatMap(({ id }) => [
      ...thermometer(site, id),
      ...phLimit(site, id),
      ...salinityLimit(site, id),
      ...oxygenLimit(site, id),
      ...displayHigh(site, id),
      ...sumpLow(site, id),
    ]),
    ...site.sensors.flatMap((sensor) => [...sensorGuard(site, sensor)]),
    ...site.rules.flatMap(({ id }) => [...ruleNotice(site, id), ...plausibleRange(site, id)]),
    ...site.devices.flatMap((device) => [
      ...pumpWatch(site, device),
      ...powerWatch(site, device),
      ...lightWatch(site, device),
      ...noticeBelowCutOut(site, device),
    ]),
  ];
}

/** Where the next thermometer belongs: with the animals, then with the heater, which may cook a sump that stands still. */
function placeFor(site: Site, system: string, seen: readonly Sensor[]): Body | null {
  const living = home(site, system);
  const heated = bodyOf(site, devicesIn(site, system, "heater")[0]?.in ?? null);
  const has = (body: Body | null) => body !== null && seen.some(({ at }) => at === body.id);
  return !has(living) || heated === null || has(heated) ? living : heated;
}

function thermometer(site: Site, system: string): readonly Draft[] {
  const living = home(site, system);
  const seen = sensorsIn(site, system, "temperature");
  const telling = seen.filter(({ id }) => tells(site, id));
  if (living === null || telling.length >= 2) return [];
  if (telling.length === 1 && seen.length >= 2) return [];
  const body = placeFor(site, system, seen) ?? living;
  const hub = hubFor(site, system);
  const name = freeName(site, `${body.id}-thermometer`);
  const type = KINDS.find((kind) => seen.every((sensor) => sensor.type !== kind)) ?? KINDS[0];
  const keptC = keptAtC(living);
  const other = seen.find((sensor) => sensor.hub === (hub?.id ?? null));
  const acts = devicesIn(site, system, "heater").filter((heater) => hub !== null && heater.by === hub.id);
  const first = seen.length === 0;
  return [
    {
      kind: "second-thermometer",
      of: first ? `${system}-first` : system,
      title: first
        ? `A temperature sensor in ${body.id}, with limits and notices`
        : `A second temperature sensor of another kind in ${body.id}, with limits of its own`,
      parts: [body.id, ...seen.map(({ id }) => id)],
      edits: [
        sensorEdit(name, hub, { measures: "temperature", in: body.id, type, "flat-after": "12 h" }),
        ruleEdit(freeName(site, `${body.id}-warm-limit`), hub, {
          when: { [name]: `above ${degC(keptC + LIMIT_K)}`, for: "10 min" },
          acts,
          until: { [name]: `below ${degC(keptC + LIMIT_K / 2)}` },
          notice: "urgent",
          says: `${body.id} is too warm`,
        }),
        ruleEdit(freeName(site, `${body.id}-cold-limit`), hub, {
          when: { [name]: `below ${degC(keptC - LIMIT_K)}`, for: "20 min" },
          notice: "urgent",
          says: `${body.id} is too cold`,
        }),
        ...(other === undefined
          ? []
          : [
              ruleEdit(freeName(site, `${system}-thermometers-differ`), hub, {
                when: { [name]: `differs from ${other.id} by ${DIFFERS_K} K`, for: "20 min" },
                notice: "soon",
                says: `The thermometers ${other.id} and ${name} disagree`,
              }),
            ]),
      ],
      why: first
        ? "Nothing measures the water that the animals are in."
        : "One sensor cannot be doubted; two of different kinds in two places show each other's errors, and the standing pump between them.",
      needs: `A ${type} sensor in the flow of ${body.id}, compared with a thermometer that you trust, now and every three months.`,
      meets: (finding) =>
        canTell(site, finding, hub) &&
        ((wantsWord(finding) && isWarmth(finding) && concerns(finding, system)) ||
          (seen.some(({ id }) => id === finding.part) && PROBE_FAULTS.includes(finding.mode)) ||
          (finding.part === hub?.id && finding.mode === "probes-fall-silent")),
    },
  ];
}

function isWarmth({ stressor }: Finding): boolean {
  return stressor === "heat" || stressor === "cold";
}

function sensorGuard(site: Site, sensor: Sensor): readonly Draft[] {
  const edits = guardEdits(site, sensor);
  if (edits.length === 0) return [];
  const hub = site.hubs.find(({ id }) => id === sensor.hub) ?? null;
  const moves = FLAT_AFTER[sensor.measures] !== undefined;
  return [
    {
      kind: "sensor-guard",
      of: sensor.id,
      title: moves
        ? `A notice when ${sensor.id} falls silent or no longer moves`
        : `A notice when ${sensor.id} falls silent`,
      parts: [sensor.id],
      edits,
      why: "A sensor that shows nothing, or always the same, otherwise looks like one that is content.",
      needs: `Two settings at ${sensor.id}, tried by pulling its lead now and every three months.`,
      meets: (finding) =>
        canTell(site, finding, hub) &&
        ((finding.part === sensor.id && (finding.mode === "falls-silent" || (moves && finding.mode === "freezes"))) ||
          (finding.part === sensor.hub && finding.mode === "probes-fall-silent" && sensor.measures === "temperature")),
    },
  ];
}

/** "Saved, and nobody knows": a rule that switches off what goes wrong, without a word. */
function ruleNotice(site: Site, id: string): readonly Draft[] {
  const rule = site.rules.find((one) => one.id === id);
  if (rule === undefined || rule.notice !== null || rule.act.length === 0) return [];
  if (rule.act.some(({ state }) => state === "on")) return [];
  return [
    {
      kind: "rule-notice",
      of: id,
      title: `A notice when ${id} steps in`,
      parts: [id],
      edits: [set(["rules", id, "notice"], "soon")],
      why: "What was saved without a word meets the next fault without a backup.",
      needs: "One line of settings, and a trial that the notice arrives.",
      meets: (finding) =>
        finding.drill.verdict === "handled" &&
        (finding.sentence.includes(id) ||
          finding.sentence.includes(rule.says) ||
          rule.act.some(({ device }) => device === finding.part)),
    },
  ];
}

/** Nothing that lives here is kept colder, °C: a reading below it is a fault of the sensor. */
const LEAST_C = 15;

/** A lead that breaks reads far below any water; a rule that heats on it cooks. */
function plausibleRange(site: Site, id: string): readonly Draft[] {
  const rule = site.rules.find((one) => one.id === id);
  if (rule === undefined || !rule.act.some(({ state }) => state === "on")) return [];
  const term = rule.when.all.find(
    ({ sensor, is }) =>
      is.op === "below" &&
      is.value > LEAST_C + 1 &&
      site.sensors.some((one) => one.id === sensor && one.measures === "temperature"),
  );
  if (term === undefined || term.is.op !== "below" || !isWarmedOtherwise(site, rule)) return [];
  return [
    {
      kind: "plausible-range",
      of: id,
      title: `${id} acts only on readings that water can have`,
      parts: [id, term.sensor],
      edits: [
        set(["rules", id, "when", term.sensor], `between ${degC(LEAST_C)} and ${formatNumber(term.is.value)} degC`),
      ],
      why: "A broken lead reads far below any water, and the rule would heat without end.",
      needs:
        "One value of the rule; a very cold tank must then be warmed by hand, or by a heater with a thermostat of its own.",
      meets: (finding) => finding.part === term.sensor && ["lead-broken", "shows-minus-127"].includes(finding.mode),
    },
  ];
}

/** Whether something else still warms: a rule that no longer heats on a false reading would else leave it cold. */
function isWarmedOtherwise(site: Site, rule: RuleSpec): boolean {
  const heaters = site.devices.filter(({ kind }) => kind === "heater");
  const led = heaters.filter(({ id }) => rule.act.some(({ device }) => device === id));
  return led.every(({ system }) =>
    heaters.some((one) => one.system === system && one.ownThermostatC !== null && !led.includes(one)),
  );
}
