/** What every builder shares: the report, the register of names, and the record of defaults that were used. */
import { didYouMean } from "../../foundation/index.ts";
import type { PartKind } from "../model.ts";
import type { Fields, FieldValue, Weight, Written } from "../shape/fields.ts";
import type { Found } from "../shape/reader.ts";
import type { Place, Report } from "../text/site-error.ts";
import { FILE_START } from "../text/site-error.ts";

/** A value that the file leaves out and the loader filled in. */
export interface DefaultUsed {
  /** The part, or the site's own key. */
  readonly part: string;
  readonly key: string;
  /** As a person would write it. */
  readonly value: string;
  /** Why it matters to the verdicts; empty where it hardly does. */
  readonly why: string;
  /** 1 decides verdicts, 2 shifts them, 3 hardly matters. */
  readonly weight: Weight;
  /** Line of the part in the file; 1 where the whole section is left out. */
  readonly line: number;
}

/** A place in the file that holds the name of a part: the part's own key, or a value or key that refers to it. */
export interface NamePlace {
  readonly name: string;
  readonly place: Place;
}

const KIND_WORDS: Readonly<Record<PartKind, string>> = {
  room: "room",
  circuit: "circuit",
  battery: "battery",
  link: "link",
  hub: "hub",
  body: "body",
  flow: "circulation",
  device: "device",
  sensor: "sensor",
  rule: "rule",
  person: "person",
  mains: "mains",
  system: "system",
};

export function withArticle(word: string): string {
  return /^[aeiou]/.test(word) ? `an ${word}` : `a ${word}`;
}

export class Building {
  readonly report: Report;
  readonly defaults: DefaultUsed[] = [];
  /** Every place that names another part, so that a part can be given another name everywhere. */
  readonly references: NamePlace[] = [];
  readonly #keys = new Map<string, Place>();
  readonly #names = new Map<string, { readonly kind: PartKind; readonly place: Place }>();

  constructor(report: Report) {
    this.report = report;
    this.#names.set("mains", { kind: "mains", place: FILE_START });
  }

  /** Enters a name; a name that is taken is an error that says by what. */
  enter(id: string, kind: PartKind, place: Place): void {
    const taken = this.#names.get(id);
    if (taken === undefined) {
      this.#names.set(id, { kind, place });
      return;
    }
    const what =
      taken.kind === "mains"
        ? "stands for the mains"
        : `is already ${withArticle(KIND_WORDS[taken.kind])} (line ${taken.place.line})`;
    const hint = "every name is used once in a site: choose another, such as one with the system's name before it";
    this.report.error(place, id, "name/taken", `'${id}' ${what}`, hint);
  }

  /** Enters a name for a part that the file leaves out, changed as far as needed to be free. */
  enterImplied(wanted: string, kind: PartKind): string {
    let id = wanted;
    for (let number = 2; this.#names.has(id); number++) id = `${wanted}-${number}`;
    this.#names.set(id, { kind, place: FILE_START });
    return id;
  }

  /** Remembers where the keys of a part are written, so that checks across parts can point at them. */
  noteKeys(id: string, place: Place, written: Readonly<Record<string, { readonly place: Place } | undefined>>): void {
    this.#keys.set(id, place);
    for (const [key, found] of Object.entries(written)) {
      if (found !== undefined) this.#keys.set(`${id}.${key}`, found.place);
    }
  }

  /** Reports what is wrong with a key of a part, or with the part itself where the key is empty or not written. */
  complain(id: string, key: string, code: string, message: string, hint: string): void {
    const where = key === "" ? id : `${id}.${key}`;
    const place = this.#keys.get(where) ?? this.#keys.get(id) ?? FILE_START;
    this.report.error(place, where, code, message, hint);
  }

  kindOf(id: string): PartKind | null {
    return this.#names.get(id)?.kind ?? null;
  }

  lineOf(id: string): number {
    return this.#names.get(id)?.place.line ?? 1;
  }

  placeOf(id: string): Place {
    return this.#names.get(id)?.place ?? FILE_START;
  }

  names(kinds: readonly PartKind[]): readonly string[] {
    return [...this.#names].filter(([, entry]) => kinds.includes(entry.kind)).map(([id]) => id);
  }

  /** True where the name is that of a part of one of the kinds; otherwise reports what is wrong with it. */
  refers(name: string, place: Place, kinds: readonly PartKind[], where: string): boolean {
    const kind = this.kindOf(name);
    this.references.push({ name, place });
    if (kind !== null && kinds.includes(kind)) return true;
    const wanted = kinds.map((entry) => KIND_WORDS[entry]).join(" or ");
    const message =
      kind === null
        ? `no ${wanted} is called '${name}'`
        : `'${name}' is ${withArticle(KIND_WORDS[kind])}, not ${withArticle(wanted)}`;
    this.report.error(
      place,
      where,
      kind === null ? "name/unknown" : "name/kind",
      message,
      didYouMean(name, this.names(kinds)),
    );
    return false;
  }

  /** The found name where it refers to such a part, else undefined (after an error) as if it were not written. */
  reference(found: Found<string> | undefined, kinds: readonly PartKind[], where: string): string | undefined {
    return found !== undefined && this.refers(found.value, found.place, kinds, where) ? found.value : undefined;
  }

  noteDefault(part: string, key: string, value: string, weight: Weight, why: string, line: number): void {
    this.defaults.push({ part, key, value, why, weight, line });
  }

  error(found: { readonly place: Place }, where: string, code: string, message: string, hint: string): void {
    this.report.error(found.place, where, code, message, hint);
  }
}

/**
 * Gives what was written for a key, or the default, which is then recorded; `weight` replaces the key's usual one where
 * the default matters less for this part.
 */
export type Taker<F extends Fields> = <K extends keyof F & string>(
  key: K,
  fallback: FieldValue<F, K>,
  weight?: Weight,
) => FieldValue<F, K>;

export function takerFor<F extends Fields>(
  building: Building,
  part: string,
  line: number,
  fields: F,
  written: Written<F>,
): Taker<F> {
  return (key, fallback, weight) => {
    const found = written[key] as Found<FieldValue<F, typeof key>> | undefined;
    if (found !== undefined) return found.value;
    const field = fields[key];
    building.noteDefault(part, key, field.reader.print(fallback), weight ?? field.weight, field.why, line);
    return fallback;
  };
}

/** The values of a list without their places. */
export function valuesOf<T>(list: readonly Found<T>[]): readonly T[] {
  return list.map((item) => item.value);
}

/** Values as a list for a taker's fallback; their place is never used. */
export function asFound<T>(values: readonly T[]): readonly Found<T>[] {
  return values.map((value) => ({ value, place: FILE_START }));
}

/** Kept to so many decimals, so that derived defaults are the same on every machine and readable. */
export function rounded(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale;
}

/** Keys whose defaults decide most verdicts, the most telling first; the rest follow in file order. */
const TELLING = [
  "brim",
  "back-siphon",
  "drain",
  "spare-drain",
  "longest-run",
  "own-thermostat",
  "cut-out",
  "without-hub",
  "time-constant",
  "silence-watch",
  "looks",
  "reached-by",
  "on-site",
  "livestock",
  "surface",
];

/** Defaults with those first that matter most to the verdicts. */
export function byImportance(defaults: readonly DefaultUsed[]): readonly DefaultUsed[] {
  const rank = (entry: DefaultUsed): number =>
    TELLING.includes(entry.key) ? TELLING.indexOf(entry.key) : TELLING.length;
  return [...defaults].sort((a, b) => a.weight - b.weight || rank(a) - rank(b) || a.line - b.line);
}
