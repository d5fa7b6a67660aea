/**
 * What was tried on the real place and what came of it, and the ages in the site file that follow from it.
 *
 * The journal dates its results and the file does not, so that where the journal has a word on a trial, it counts. An age of the
 * file that several trials renew is that of the worst of them: a siphon break that was tried says nothing about the spare drain.
 */
import { deepFreeze } from "../../foundation/index.ts";
import type { Site } from "../../site/index.ts";
import { provingTrials } from "./trials/proving-trials.ts";
import type { Renews, Trial, TrialResult } from "./types.ts";

/** One result, as it stands in the journal. */
export interface JournalEntry {
  readonly id: string;
  /** When it was tried, ISO. */
  readonly at: string;
  readonly trial: string;
  readonly part: string;
  readonly held: boolean;
  readonly note: string;
  readonly by: string;
}

/** A result that was written down by mistake. */
export interface TakenBack {
  readonly id: string;
  readonly at: string;
  readonly takesBack: string;
}

export type JournalLine = JournalEntry | TakenBack;

const MONTH_MS = (365.2425 / 12) * 86_400_000;
/** Ages move in steps of this many months, so that a site does not change with every glance at the clock. */
const STEP_MONTHS = 0.1;

/** The last result of each trial that was not taken back; of two at one moment the one that was written later. */
export function lastResults(lines: readonly JournalLine[]): ReadonlyMap<string, TrialResult> {
  const takenBack = new Set(lines.flatMap((line) => ("takesBack" in line ? [line.takesBack] : [])));
  const last = new Map<string, TrialResult>();
  for (const line of lines) {
    if ("takesBack" in line || takenBack.has(line.id)) continue;
    const before = last.get(line.trial);
    if (before !== undefined && Date.parse(before.at) > Date.parse(line.at)) continue;
    const { id, at, held, note, by } = line;
    last.set(line.trial, { id, at, held, note, by });
  }
  return last;
}

/** Months from a moment to now, rounded up to a step: a trial is never younger than it is. */
export function monthsSince(at: string, nowMs: number): number {
  const months = Math.max(0, (nowMs - Date.parse(at)) / MONTH_MS);
  return Math.round(Math.ceil(months / STEP_MONTHS - 1e-9)) / Math.round(1 / STEP_MONTHS);
}

/** What the site file says about the part of a trial. */
export function writtenAge(site: Site, { part, renews }: Pick<Trial, "part" | "renews">): number | null {
  const age = (parts: readonly { readonly id: string; readonly testedMonths?: number | null }[]) =>
    parts.find(({ id }) => id === part)?.testedMonths ?? null;
  switch (renews?.of) {
    case "sensor":
      return age(site.sensors);
    case "rule":
      return age(site.rules);
    case "hub":
      return age(site.hubs);
    case "device":
      return age(site.devices);
    case "flow":
      return age(site.flows);
    case "person":
      return age(site.people);
    case "battery":
      return site.batteries.find(({ id }) => id === part)?.lastTriedMonths ?? null;
    case "spare":
      return site.devices.find(({ id }) => id === part)?.spare?.lastTriedMonths ?? null;
    case "silence watch":
      return site.silenceWatch?.testedMonths ?? null;
    default:
      return null;
  }
}

/** Months since a trial was last seen to hold: by its last result, else by the file; null where it failed or never was. */
export function ageOf(site: Site, trial: Trial, last: TrialResult | undefined, nowMs: number): number | null {
  if (last === undefined) return writtenAge(site, trial);
  return last.held ? monthsSince(last.at, nowMs) : null;
}

/** The same site with the ages that the journal gives; the very same value where it gives none. */
export function applyJournal(site: Site, lines: readonly JournalLine[], nowMs: number): Site {
  const last = lastResults(lines);
  if (last.size === 0) return site;
  const trials = provingTrials(site);
  const renewed = new Map<string, number | null>();
  for (const { part, renews } of trials.filter(({ id, renews }) => renews !== null && last.has(id))) {
    if (renews === null || renewed.has(keyOf(part, renews.of))) continue;
    const all = trials.filter((one) => one.part === part && one.renews?.of === renews.of);
    renewed.set(keyOf(part, renews.of), oldest(all.map((one) => ageOf(site, one, last.get(one.id), nowMs))));
  }
  return renewed.size === 0 ? site : deepFreeze(withAges(site, renewed));
}

function keyOf(part: string, of: Renews["of"]): string {
  return `${of} ${part}`;
}

/** Never (null) is older than any age. */
function oldest(ages: readonly (number | null)[]): number | null {
  return ages.reduce<number | null>((most, age) => (most === null || age === null ? null : Math.max(most, age)), 0);
}

function withAges(site: Site, ages: ReadonlyMap<string, number | null>): Site {
  const tested = <P extends { readonly id: string }>(parts: readonly P[], of: Renews["of"]): readonly P[] =>
    parts.map((part) => {
      const age = ages.get(keyOf(part.id, of));
      return age === undefined ? part : { ...part, testedMonths: age };
    });
  const silence = ages.get(keyOf("*", "silence watch"));
  return {
    ...site,
    hubs: tested(site.hubs, "hub"),
    flows: tested(site.flows, "flow"),
    sensors: tested(site.sensors, "sensor"),
    rules: tested(site.rules, "rule"),
    people: tested(site.people, "person"),
    devices: tested(site.devices, "device").map((device) => {
      const age = ages.get(keyOf(device.id, "spare"));
      return age === undefined || device.spare === null ? device : { ...device, spare: { lastTriedMonths: age } };
    }),
    batteries: site.batteries.map((battery) => {
      const age = ages.get(keyOf(battery.id, "battery"));
      return age === undefined ? battery : { ...battery, lastTriedMonths: age };
    }),
    silenceWatch:
      site.silenceWatch === null || silence === undefined
        ? site.silenceWatch
        : { ...site.silenceWatch, testedMonths: silence },
  };
}
