/** Where in the site file each part is written, and how a new one is. */
import type { Described, EditAnswer, Site, SiteAnswer, WrittenValue } from "../../server/contract/index.ts";

type Keys = readonly (string | number)[];

/** A part as the file has it. */
export interface PartPlace {
  readonly kind: Described;
  /** Keys from the top of the file down to the part. */
  readonly path: Keys;
  /** What is written there; null where the part is taken for granted. */
  readonly written: WrittenValue | null;
}

const SECTIONS: Readonly<Partial<Record<Described, Keys>>> = {
  room: ["rooms"],
  circuit: ["power", "circuits"],
  battery: ["power", "batteries"],
  link: ["links"],
  hub: ["hubs"],
  system: ["systems"],
  device: ["devices"],
  sensor: ["sensors"],
  rule: ["rules"],
  person: ["people"],
  circumstance: ["circumstances"],
};

/** The path of a new part of a kind; null for what stands in a list, or under another part that is not given. */
export function pathFor(kind: Described, id: string, system: string | null): Keys | null {
  if (kind === "body") return system === null ? null : ["systems", system, "bodies", id];
  const section = SECTIONS[kind];
  return section === undefined ? null : [...section, id];
}

/** Where a part of the site is written; null where there is no such part. */
export function placeOf(
  site: Site,
  written: SiteAnswer["written"] | EditAnswer["written"],
  id: string,
): PartPlace | null {
  const found = (kind: Described, path: Keys | null): PartPlace | null =>
    path === null ? null : { kind, path, written: valueAt(written, path) };
  const has = (parts: readonly { readonly id: string }[]): boolean => parts.some((part) => part.id === id);
  const body = site.bodies.find((candidate) => candidate.id === id);
  if (body !== undefined) return found("body", pathFor("body", id, body.system));
  const flow = site.flows.find((candidate) => candidate.id === id);
  if (flow !== undefined) {
    const list: Keys = ["systems", flow.system, "circulation"];
    const entries = valueAt(written, list);
    const index = Array.isArray(entries)
      ? entries.findIndex((entry: WrittenValue) => isSet(entry) && nameOfFlow(entry) === id)
      : -1;
    return index < 0 ? null : found("flow", [...list, index]);
  }
  if (has(site.devices)) return found("device", pathFor("device", id, null));
  if (has(site.sensors)) return found("sensor", pathFor("sensor", id, null));
  if (has(site.circuits)) return found("circuit", pathFor("circuit", id, null));
  if (has(site.batteries)) return found("battery", pathFor("battery", id, null));
  if (has(site.links)) return found("link", pathFor("link", id, null));
  if (has(site.hubs)) return found("hub", pathFor("hub", id, null));
  if (has(site.people)) return found("person", pathFor("person", id, null));
  if (has(site.rooms)) return found("room", pathFor("room", id, null));
  if (has(site.systems)) return found("system", pathFor("system", id, null));
  if (has(site.rules)) return found("rule", pathFor("rule", id, null));
  if (has(site.circumstances)) return found("circumstance", pathFor("circumstance", id, null));
  return null;
}

function nameOfFlow(entry: { readonly [key: string]: WrittenValue }): string {
  return typeof entry.name === "string" ? entry.name : `${String(entry.from)}-to-${String(entry.to)}`;
}

export function isSet(value: WrittenValue | null | undefined): value is { readonly [key: string]: WrittenValue } {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** What is written at a path; null where nothing is. */
export function valueAt(written: WrittenValue | null, path: Keys): WrittenValue | null {
  let value: WrittenValue | null = written;
  for (const key of path) {
    if (Array.isArray(value)) value = (value[Number(key)] as WrittenValue | undefined) ?? null;
    else if (isSet(value)) value = value[String(key)] ?? null;
    else return null;
  }
  return value;
}

/** A name that no part has yet: the wished one, or with the next free number behind it. */
export function freeName(site: Site, wished: string): string {
  const taken = new Set(
    [
      site.rooms,
      site.circuits,
      site.batteries,
      site.links,
      site.hubs,
      site.systems,
      site.bodies,
      site.flows,
      site.devices,
      site.sensors,
      site.rules,
      site.people,
      site.circumstances,
    ].flatMap((parts) => parts.map(({ id }) => id)),
  );
  if (!taken.has(wished)) return wished;
  const stem = wished.replace(/-\d+$/, "");
  let number = 2;
  while (taken.has(`${stem}-${number}`)) number += 1;
  return `${stem}-${number}`;
}
