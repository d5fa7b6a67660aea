/** Which few things a sheet asks first about a part: what its faults hang on. */
import type { Described, FieldFacts, Site } from "../../server/contract/index.ts";
import { editWords } from "../words/site-edit.ts";

const FIRST: Readonly<Partial<Record<Described, readonly string[]>>> = {
  site: ["site", "zone", "ladder"],
  room: ["holds", "outside", "air", "cools-to", "floor-drain", "time-constant"],
  circuit: ["on", "limit", "trips-on-leak", "stays-open-after-cut"],
  battery: ["energy", "power", "feeds", "on", "starts-itself", "last-tried"],
  link: ["kind", "on", "via"],
  hub: ["on", "sends-over", "reads-every", "watchdog", "siren", "tested"],
  system: ["room"],
  body: ["volume", "brim", "surface", "livestock.corals", "livestock.fish", "holds.temperature"],
  flow: ["by", "drain", "spare-drain", "back-siphon", "check-valve", "tested"],
  sensor: ["measures", "in", "at", "hub", "type", "tested"],
  rule: ["when", "until", "do", "notice", "says", "at-most"],
  person: ["reached-by", "asleep", "on-site", "travel", "can", "looks"],
  "silence-watch": ["tells", "after", "tested"],
  circumstance: ["starts", "horizon", "closed", "reservoirs"],
};

const STORE = ["volume", "holds", "holds.solution", "holds.strength", "fill", "brim", "room"];

/** Of devices by kind; others ask for what all devices have. */
const FIRST_OF_DEVICE: Readonly<Record<string, readonly string[]>> = {
  heater: ["power", "own-thermostat", "cut-out", "on", "without-hub", "in"],
  chiller: ["power", "own-thermostat", "on", "without-hub", "in", "age"],
  fan: ["power", "own-thermostat", "on", "without-hub", "in", "age"],
  "return-pump": ["flow", "power", "on", "in", "cleaned", "age"],
  "wave-pump": ["flow", "power", "on", "in", "cleaned", "age"],
  "top-off": ["from", "own-float.stops-at", "own-float.spare-stops-at", "own-float.longest-run", "can-siphon", "on"],
  "refill-valve": ["own-float.stops-at", "own-float.spare-stops-at", "own-float.longest-run", "flow", "on", "in"],
  doser: ["from", "amount", "doses", "on", "without-hub", "in"],
  "water-change": ["from", "amount", "doses", "on", "without-hub", "in"],
  feeder: ["amount", "doses", "holds", "on", "without-hub", "in"],
  light: ["schedule", "par", "power", "on", "without-hub", "in"],
};
const ANY_DEVICE = ["power", "flow", "on", "without-hub", "in", "age"];

export const keyOf = (field: FieldFacts): string => field.path.join(".");

/** A key as words: "its own thermostat". */
export function keyWords(field: FieldFacts): string {
  return editWords.key[keyOf(field)] ?? field.path.join(" ").replaceAll("-", " ");
}

/** What a body of water holds is asked for by the keys of what it is: sea water, or a solution; others are a word. */
function fitsWater({ path }: FieldFacts, holds: string): boolean {
  if (path[0] !== "holds" || path.length === 1) return path[0] !== "holds" || holds !== "solution";
  const isOfSolution = path[1] === "solution" || path[1] === "strength";
  return holds === "solution" ? isOfSolution : holds === "salt" && !isOfSolution;
}

/** The fields of a part that it can have, the few that matter most first; `few` says how many those are. */
export function fieldsInOrder(
  fields: readonly FieldFacts[],
  kind: Described,
  site: Site,
  id: string,
): { readonly fields: readonly FieldFacts[]; readonly few: number } {
  const device = kind === "device" ? site.devices.find((candidate) => candidate.id === id) : undefined;
  const body = kind === "body" ? site.bodies.find((candidate) => candidate.id === id) : undefined;
  const isStore = body?.role === "reservoir" || body?.role === "container";
  const first =
    device !== undefined ? (FIRST_OF_DEVICE[device.kind] ?? ANY_DEVICE) : isStore ? STORE : (FIRST[kind] ?? []);
  const can = fields.filter(
    (field) =>
      (field.onlyFor.length === 0 || device === undefined || field.onlyFor.includes(device.kind)) &&
      (kind !== "body" || fitsWater(field, body?.holds.kind ?? "salt")),
  );
  const few = first.flatMap((key) => can.filter((field) => keyOf(field) === key));
  const rest = can.filter((field) => !few.includes(field));
  const byWeight = [...rest].sort((a, b) => rank(a) - rank(b));
  return { fields: [...few, ...byWeight], few: few.length };
}

function rank({ otherwise, weight, path }: FieldFacts): number {
  return otherwise === "" && path.length === 1 ? 0 : weight;
}
