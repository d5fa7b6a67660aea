/** What a form may ask about each kind of part: made from the readers that load a file, so that the two can not contradict. */
import { BODY_KEYS, FLOW_KEYS, LIVESTOCK_KEYS, SALT_WATER_KEYS, SOLUTION_KEYS, SYSTEM_KEYS } from "./keys/bodies.ts";
import { DEVICE_KEYS, KINDS_OF_KEY, OWN_FLOAT_KEYS, SPARE_KEYS } from "./keys/devices.ts";
import { CIRCUMSTANCE_KEYS, PERSON_KEYS } from "./keys/people.ts";
import { BATTERY_KEYS, CIRCUIT_KEYS, HUB_KEYS, LINK_KEYS, SILENCE_WATCH_KEYS } from "./keys/power.ts";
import { ROOM_KEYS, SET_BACK_KEYS } from "./keys/rooms.ts";
import { RULE_KEYS, SENSOR_KEYS } from "./keys/sensors-and-rules.ts";
import { SITE_KEYS } from "./keys/site-keys.ts";
import type { DeviceKind, PartKind } from "./model.ts";
import type { Field, Fields, Weight } from "./shape/fields.ts";

/** One key of a part, for a form. */
export interface FieldFacts {
  /** Keys under the part's own: ["power"], or ["livestock", "fish"] for a key of a block. */
  readonly path: readonly string[];
  /** What it says, in a sentence. */
  readonly doc: string;
  /** What to write, in words. */
  readonly write: string;
  /** What holds where it is left out; empty where it must be written. */
  readonly otherwise: string;
  /** 1 decides verdicts, 2 shifts them, 3 hardly matters. */
  readonly weight: Weight;
  readonly choices: readonly string[];
  /** Kinds of parts that it can name. */
  readonly names: readonly PartKind[];
  readonly none: string | null;
  readonly many: boolean;
  /** Sensors with what must be so, or devices with what they are switched to. */
  readonly pairs: "condition" | "acts" | null;
  /** Kinds of devices for which it means something; empty for all. */
  readonly onlyFor: readonly DeviceKind[];
}

/** What can be described, by the word for it. */
export type Described = "site" | "silence-watch" | "circumstance" | Exclude<PartKind, "mains">;

const KIND_OF_WORD: Readonly<Record<string, readonly PartKind[]>> = {
  body: ["body"],
  room: ["room"],
  device: ["device"],
  pump: ["device"],
  circuit: ["circuit"],
  battery: ["battery"],
  hub: ["hub"],
  link: ["link"],
  person: ["person"],
  "this circulation": [],
};

function namesOf(words: string): readonly PartKind[] {
  return words
    .split(/, | or /)
    .map((word) => word.replace(/^an? /, ""))
    .flatMap((word) => KIND_OF_WORD[word] ?? []);
}

const PAIRS: Readonly<Record<string, "condition" | "acts">> = { when: "condition", until: "condition", do: "acts" };
/** `on` of a device may also name a battery that stands between. */
const ALSO: Readonly<Record<string, readonly PartKind[]>> = { "device.on": ["battery"] };

function factsOf(kind: Described, key: string, field: Field<unknown>, under: readonly string[]): FieldFacts {
  const { reader, doc, otherwise, weight } = field;
  const names = namesOf(reader.form?.names ?? "");
  const onlyFor = kind === "device" ? KINDS_OF_KEY[(under[0] ?? key) as keyof typeof KINDS_OF_KEY] : undefined;
  return {
    path: [...under, key],
    doc,
    write: reader.words,
    otherwise,
    weight,
    choices: reader.form?.choices ?? [],
    names: [...names, ...(ALSO[`${kind}.${key}`] ?? [])],
    none: reader.form?.none ?? null,
    many: reader.form?.many ?? false,
    pairs: kind === "rule" ? (PAIRS[key] ?? null) : null,
    onlyFor: onlyFor ?? [],
  };
}

/** Blocks whose keys a form asks for one by one. */
const BLOCKS: Readonly<Record<string, Fields>> = {
  "body.livestock": LIVESTOCK_KEYS,
  "device.own-float": OWN_FLOAT_KEYS,
  "room.set-back": SET_BACK_KEYS,
};
/** Blocks that may also be a single word: the word is asked for, and then the keys. */
const OR_WORD: Readonly<Record<string, Fields>> = {
  "body.holds": { ...SALT_WATER_KEYS, solution: SOLUTION_KEYS.solution, strength: SOLUTION_KEYS.strength },
  "device.spare": SPARE_KEYS,
};

function fieldsOf(kind: Described, fields: Fields): readonly FieldFacts[] {
  return Object.entries(fields).flatMap(([key, field]) => {
    const id = `${kind}.${key}`;
    const inner = BLOCKS[id] ?? OR_WORD[id];
    const own = BLOCKS[id] === undefined ? [factsOf(kind, key, field, [])] : [];
    const deeper = Object.entries(inner ?? {}).map(([deep, deepField]) => factsOf(kind, deep, deepField, [key]));
    return [...own, ...deeper];
  });
}

const WHOLE_PARTS = [
  "rooms",
  "power",
  "links",
  "hubs",
  "systems",
  "devices",
  "sensors",
  "rules",
  "people",
  "circumstances",
];

function without(fields: Fields, keys: readonly string[]): Fields {
  return Object.fromEntries(Object.entries(fields).filter(([key]) => !keys.includes(key)));
}

/** Every key that a form may ask for, by the kind of part that has it. */
export const FIELD_REFERENCE: Readonly<Record<Described, readonly FieldFacts[]>> = {
  site: fieldsOf("site", without(SITE_KEYS, [...WHOLE_PARTS, "silence-watch"])),
  room: fieldsOf("room", ROOM_KEYS),
  circuit: fieldsOf("circuit", CIRCUIT_KEYS),
  battery: fieldsOf("battery", BATTERY_KEYS),
  link: fieldsOf("link", LINK_KEYS),
  hub: fieldsOf("hub", HUB_KEYS),
  system: fieldsOf("system", without(SYSTEM_KEYS, ["bodies", "circulation"])),
  body: fieldsOf("body", BODY_KEYS),
  flow: fieldsOf("flow", FLOW_KEYS),
  device: fieldsOf("device", DEVICE_KEYS),
  sensor: fieldsOf("sensor", SENSOR_KEYS),
  rule: fieldsOf("rule", RULE_KEYS),
  person: fieldsOf("person", PERSON_KEYS),
  circumstance: fieldsOf("circumstance", without(CIRCUMSTANCE_KEYS, ["away"])),
  "silence-watch": fieldsOf("silence-watch", SILENCE_WATCH_KEYS),
};
