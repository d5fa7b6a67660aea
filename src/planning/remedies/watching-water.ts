/** Remedies that let somebody know of the water: limits of pH, salinity and oxygen. */
import { formatNumber } from "../../foundation/index.ts";
import type { Body, Device, Site } from "../../site/index.ts";
import { concerns, type Finding } from "./finding.ts";
import { bodyOf, canSwitch, devicesIn, home, hubFor, onSocket, pumpedFlows, sensorsIn, tells } from "./places.ts";
import type { Draft } from "./remedy.ts";
import { canTell, isSeenFirst, wantsWord } from "./telling.ts";
import { guardEdits, ruleEdit, sensorEdit } from "./watch-edits.ts";
import { freeName } from "./writing.ts";

/** What brings alkalinity: it is stopped when the pH is too high. */
function alkalineFeeds(site: Site, system: string): readonly Device[] {
  return site.devices.filter((device) => {
    const source = bodyOf(site, device.from)?.holds;
    if (device.system !== system || source === undefined) return false;
    return source.kind === "limewater" || (source.kind === "solution" && source.of === "alkalinity");
  });
}

const HIGH_PH = 8.6;
const HIGH_PH_ENDS = 8.5;
const LOW_PH = 7.6;

export function phLimit(site: Site, system: string): readonly Draft[] {
  const feeds = alkalineFeeds(site, system);
  const living = home(site, system);
  const probe = sensorsIn(site, system, "ph").find(({ hub }) => hub !== null);
  if (living === null || (probe !== undefined && tells(site, probe.id))) return [];
  const hub = probe === undefined ? hubFor(site, system) : (site.hubs.find(({ id }) => id === probe.hub) ?? null);
  const acts = feeds.filter((device) => canSwitch(device, hub));
  const name = probe?.id ?? freeName(site, `${system}-ph-probe`);
  const at = probe?.at ?? living.id;
  return [
    {
      kind: probe === undefined ? "ph-watch" : "ph-notice",
      of: system,
      title:
        acts.length === 0
          ? `${probe === undefined ? "A pH probe" : "Limits on the pH probe"} for ${system}, with notices`
          : `A pH limit for ${system} that stops ${acts.map(({ id }) => id).join(" and ")} and tells someone`,
      parts: [living.id, ...(probe ? [probe.id] : []), ...acts.map(({ id }) => id)],
      edits: [
        ...(probe === undefined
          ? [sensorEdit(name, hub, { measures: "ph", in: at, "flat-after": "24 h" })]
          : guardEdits(site, probe)),
        ...acts.flatMap((device) => onSocket(site, device, hub)),
        ruleEdit(freeName(site, `${system}-ph-high`), hub, {
          when: { [name]: `above ${HIGH_PH} pH`, for: "10 min" },
          acts,
          until: { [name]: `below ${HIGH_PH_ENDS} pH` },
          notice: "urgent",
          says: `The pH of ${system} is too high`,
        }),
        ruleEdit(freeName(site, `${system}-ph-low`), hub, {
          when: { [name]: `below ${LOW_PH} pH`, for: "1 h" },
          notice: "soon",
          says: `The pH of ${system} is low`,
        }),
      ],
      why: "Too much alkalinity shows in the pH first, within minutes, and so does air that is used up.",
      needs: `${probe === undefined ? "A pH probe in the flow, set with fresh fluid every month or two" : "Rules on the probe that is there"}${acts.length === 0 ? "" : "; a switched socket that falls off without the hub for what doses"}, tried every three months.`,
      caution: acts.length === 0 ? undefined : "Wear goggles and gloves with limewater and strong solutions.",
      meets: (finding) =>
        canTell(site, finding, hub) &&
        wantsPh(
          finding,
          living.id === at || !site.flows.some(({ id, by }) => id === finding.part || by === finding.part),
        ) &&
        concerns(finding, system),
    },
  ];
}

/** Alkaline water harms within minutes, which the rule must meet by itself; air that is used up takes hours. A probe elsewhere than the animals sees it only while water goes round. */
function wantsPh(finding: Finding, sees: boolean): boolean {
  const { stressor, untold, drill } = finding;
  if (stressor === "high-ph") return untold || drill.verdict === "late";
  return stressor === "low-ph" && sees && wantsWord(finding) && !isSeenFirst(finding);
}

export function salinityLimit(site: Site, system: string): readonly Draft[] {
  const living = home(site, system);
  if (living === null || living.holds.kind !== "salt") return [];
  if (sensorsIn(site, system, "salinity").some(({ id }) => tells(site, id))) return [];
  const hub = hubFor(site, system);
  const acts = devicesIn(site, system, "top-off", "refill-valve").filter(
    (device) => canSwitch(device, hub) && bodyOf(site, device.in)?.holds.kind === "salt",
  );
  const name = freeName(site, `${system}-salinity-probe`);
  const at = pumpedFlows(site, system)[0]?.from ?? living.id;
  const ppt = (offset: number) => `${formatNumber(Math.round(10 * (salinityOf(living) + offset)) / 10)} ppt`;
  return [
    {
      kind: "salinity-watch",
      of: system,
      title: `A salinity probe in ${at} with a notice${acts.length === 0 ? "" : ` that also stops ${acts.map(({ id }) => id).join(" and ")}`}`,
      parts: [at, ...acts.map(({ id }) => id)],
      edits: [
        sensorEdit(name, hub, { measures: "salinity", in: at, "flat-after": "24 h" }),
        ...acts.flatMap((device) => onSocket(site, device, hub)),
        ruleEdit(freeName(site, `${system}-salinity-low`), hub, {
          when: { [name]: `below ${ppt(-1)}`, for: "10 min" },
          acts,
          until: { [name]: `above ${ppt(-0.6)}` },
          notice: "urgent",
          says: `The salinity of ${system} falls`,
        }),
        ruleEdit(freeName(site, `${system}-salinity-high`), hub, {
          when: { [name]: `above ${ppt(1.2)}`, for: "30 min" },
          notice: "soon",
          says: `The salinity of ${system} rises`,
        }),
      ],
      why: "Fresh water that runs in, and salt water that runs out unseen, both show in the salinity long before animals suffer.",
      needs: `A conductivity probe in the flow of ${at}, compared with another instrument every month.`,
      meets: (finding) =>
        canTell(site, finding, hub) &&
        !isSeenFirst(finding) &&
        concerns(finding, system) &&
        (finding.stressor === "low-salinity" || finding.stressor === "high-salinity" || finding.mode === "weeps") &&
        wantsWord(finding),
    },
  ];
}

function salinityOf(body: Body): number {
  return body.holds.kind === "salt" ? body.holds.salinity : 35;
}

const LOW_OXYGEN_MG_L = 4.5;

export function oxygenLimit(site: Site, system: string): readonly Draft[] {
  const living = home(site, system);
  if (living === null || sensorsIn(site, system, "oxygen").some(({ id }) => tells(site, id))) return [];
  const hub = hubFor(site, system);
  const name = freeName(site, `${living.id}-oxygen`);
  return [
    {
      kind: "oxygen-watch",
      of: system,
      title: `An oxygen probe in ${living.id} with a notice`,
      parts: [living.id],
      edits: [
        sensorEdit(name, hub, { measures: "oxygen", in: living.id, "flat-after": "24 h" }),
        ruleEdit(freeName(site, `${living.id}-oxygen-low`), hub, {
          when: { [name]: `below ${LOW_OXYGEN_MG_L} mg/L`, for: "10 min" },
          notice: "urgent",
          says: `${living.id} lacks oxygen`,
        }),
      ],
      why: "Overfeeding and standing pumps end in water without oxygen, and animals bear that for hours only.",
      needs: `An optical probe in ${living.id}, its cap renewed when it is due, compared in air every three months.`,
      meets: (finding) =>
        canTell(site, finding, hub) &&
        wantsWord(finding) &&
        !isSeenFirst(finding) &&
        concerns(finding, system) &&
        finding.stressor === "hypoxia",
    },
  ];
}
