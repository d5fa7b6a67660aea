/** What is written for a new part, with whatever it can not be without. */
import type { Described, Site, SiteEdit, WrittenValue } from "../../server/contract/index.ts";
import { freeName, pathFor } from "./part-path.ts";

/** What someone has said about a part that is not there yet. */
export interface NewPart {
  readonly kind: Described;
  /** Kind of a device, or the role of a body; empty otherwise. */
  readonly sort: string;
  readonly name: string;
  /** The part's own keys by their dotted paths. */
  readonly said: Readonly<Record<string, WrittenValue>>;
  /** System of a body. */
  readonly system: string;
  /** Body that a new return pump pumps to. */
  readonly into: string;
  /** Container of its own that it draws from; empty where it draws from one that is there. */
  readonly container: { readonly name: string; readonly volume: string; readonly holds: string } | null;
  /** Litres of the display of a new system. */
  readonly displayVolume: string;
}

const SOLUTIONS: Readonly<Record<string, WrittenValue>> = {
  fresh: "fresh",
  limewater: "limewater",
  alkalinity: { solution: "alkalinity" },
  calcium: { solution: "calcium" },
  magnesium: { solution: "magnesium" },
  carbon: { solution: "carbon" },
};

/** Nested keys from dotted ones. */
function nested(said: NewPart["said"]): { readonly [key: string]: WrittenValue } {
  const made: Record<string, WrittenValue> = {};
  for (const [key, value] of Object.entries(said)) {
    const [outer, inner] = key.split(".");
    if (inner === undefined) made[outer] = value;
    else made[outer] = { ...(typeof made[outer] === "object" ? made[outer] : {}), [inner]: value } as WrittenValue;
  }
  return made;
}

/** The changes that write it, the waters that it needs before the part itself. */
export function editsOf(site: Site, part: NewPart): readonly SiteEdit[] {
  const { kind, sort, name, said, system, into, container, displayVolume } = part;
  if (kind === "system") {
    const value = { ...nested(said), bodies: { [`${name}-display`]: { volume: displayVolume } } };
    return [{ op: "set", path: ["systems", name], value }];
  }
  const path = pathFor(kind, name, system);
  if (path === null) return [];
  const sorted: { readonly [key: string]: WrittenValue } =
    kind === "device" ? { kind: sort } : kind === "body" ? { role: sort } : {};
  const from: { readonly [key: string]: WrittenValue } = container === null ? {} : { from: container.name };
  const edits: SiteEdit[] = [{ op: "set", path, value: { ...sorted, ...nested(said), ...from } }];
  if (kind !== "device") return edits;
  const home = site.bodies.find(({ id }) => id === said.in)?.system ?? null;
  if (container !== null && home !== null) {
    const water = { volume: container.volume, holds: SOLUTIONS[container.holds] ?? container.holds };
    edits.unshift({ op: "set", path: ["systems", home, "bodies", container.name], value: water });
  }
  if (sort === "return-pump" && into !== "" && home !== null && typeof said.in === "string") {
    const flows = site.flows.filter((flow) => flow.system === home).length;
    const usual = `${said.in}-to-${into}`;
    // A second pump between the same waters: its way needs a name of its own.
    const named: { readonly [key: string]: WrittenValue } = site.flows.some(({ id }) => id === usual)
      ? { name: freeName(site, usual) }
      : {};
    const value = { ...named, from: said.in, to: into, by: name };
    edits.push(
      flows === 0
        ? { op: "set", path: ["systems", home, "circulation"], value: [value] }
        : { op: "set", path: ["systems", home, "circulation", flows], value },
    );
  }
  return edits;
}
