/** Names and values of new parts, as a person would write them. */
import { formatNumber } from "../../foundation/index.ts";
import type { EditPath, SiteEdit, WrittenValue } from "../../site/index.ts";
import { partsOfSite, type Site } from "../../site/index.ts";

export function set(path: EditPath, value: WrittenValue): SiteEdit {
  return { op: "set", path, value };
}

/** To two significant digits, so that nobody reads more into it than there is. */
export function tidy(value: number): number {
  if (!(value > 0)) return 0;
  const step = 10 ** (Math.floor(Math.log10(value)) - 1);
  return Math.floor(value / step + 1e-9) * step;
}

export function litres(value: number): string {
  return `${formatNumber(Math.round(value * 100) / 100)} L`;
}

export function degC(value: number): string {
  return `${formatNumber(Math.round(value * 10) / 10)} degC`;
}

export function watts(value: number): string {
  return `${Math.round(value)} W`;
}

/** Up to whole minutes. */
export function wholeMinutes(seconds: number): string {
  return `${Math.max(1, Math.ceil(seconds / 60))} min`;
}

export function list(values: readonly string[]): WrittenValue {
  return values.length === 1 ? values[0] : values;
}

/** Words that can not be names (docs/site-file.md). */
const RESERVED = ["mains", "for", "after", "none", "never", "on", "off"];
const LONGEST = 64;
/** Rules that a sensor brings with it have names after its own. */
const BROUGHT = ["", "-silent", "-flat"];

/** A name that is free in this site, as wanted or with a number behind it. */
export function freeName(site: Site, wanted: string): string {
  const taken = new Set([
    ...RESERVED,
    ...partsOfSite(site).map(({ part }) => part.id),
    ...site.batteries.map(({ id }) => id),
    ...site.links.map(({ id }) => id),
  ]);
  const isFree = (name: string) => BROUGHT.every((ending) => !taken.has(`${name}${ending}`));
  const short = wanted.slice(0, LONGEST - 10);
  for (let number = 1; ; number++) {
    const name = number === 1 ? short : `${short}-${number}`;
    if (isFree(name)) return name;
  }
}

/** Keys of a part without those that have no value. */
export function keys(values: Readonly<Record<string, WrittenValue | null>>): WrittenValue {
  return Object.fromEntries(
    Object.entries(values).filter((entry): entry is [string, WrittenValue] => entry[1] !== null),
  );
}
