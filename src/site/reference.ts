/**
 * The tables of `docs/site-file.md`, made from the same readers that load a file, so that the page can not drift.
 *
 * The page's prose is written by hand; between `<!-- table: name -->` and `<!-- end -->` stands what is made here.
 */
import type { Dimension } from "../foundation/index.ts";
import { DIMENSIONS, factsOf } from "../foundation/index.ts";
import { MEASURES } from "./build/measures.ts";
import { BODY_KEYS, FLOW_KEYS, LIVESTOCK_KEYS, SALT_WATER_KEYS, SOLUTION_KEYS, SYSTEM_KEYS } from "./keys/bodies.ts";
import { DEVICE_KEYS, KINDS_OF_KEY, OWN_FLOAT_KEYS, SPARE_KEYS } from "./keys/devices.ts";
import { AWAY_KEYS, CIRCUMSTANCE_KEYS, PERSON_KEYS, STEP_KEYS } from "./keys/people.ts";
import { BATTERY_KEYS, CIRCUIT_KEYS, HUB_KEYS, LINK_KEYS, POWER_KEYS, SILENCE_WATCH_KEYS } from "./keys/power.ts";
import { ROOM_KEYS, SET_BACK_KEYS } from "./keys/rooms.ts";
import { RULE_KEYS, SENSOR_KEYS } from "./keys/sensors-and-rules.ts";
import { SITE_KEYS } from "./keys/site-keys.ts";
import type { Fields } from "./shape/fields.ts";

function table(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string =>
    `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
  return [line(heads), line(heads.map(() => "---")), ...rows.map(line)].join("\n");
}

function keyTable(fields: Fields): string {
  const rows = Object.entries(fields).map(([key, field]) => [
    `\`${key}\``,
    field.doc,
    field.reader.words,
    field.otherwise === "" ? "**must be written**" : field.otherwise,
  ]);
  return table(["key", "what it says", "write", "left out"], rows);
}

/** Known so that it can be refused by name: no factor turns lux into the light that corals use. */
const NOWHERE_ASKED_FOR: Dimension = "illuminance";

function unitTable(): string {
  const dimensions = (Object.keys(DIMENSIONS) as Dimension[]).filter((dimension) => dimension !== NOWHERE_ASKED_FOR);
  const rows = dimensions.map((dimension) => {
    const facts = factsOf(dimension);
    return [facts.words, facts.units.map((unit) => `\`${unit.symbol}\``).join(", "), `\`${facts.example}\``];
  });
  return table(["for", "units", "example"], rows);
}

function sensorTable(): string {
  const rows = Object.entries(MEASURES).map(([quantity, measure]) => [
    `\`${quantity}\``,
    measure.words,
    measure.sits.join(" or "),
    measure.types.map((type) => `\`${type.name}\``).join(", "),
    measure.says === "number" ? "numbers" : measure.says === "contact" ? "`wet`, `dry`" : "`present`, `absent`",
  ]);
  return table(["measures", "what", "sits at", "types, most usual first", "a rule may ask for"], rows);
}

function kindTable(): string {
  const rows = Object.entries(KINDS_OF_KEY).map(([key, kinds]) => [`\`${key}\``, kinds.join(", ")]);
  return table(["key", "only for"], rows);
}

export const REFERENCE_TABLES: Readonly<Record<string, () => string>> = {
  site: () => keyTable(SITE_KEYS),
  room: () => keyTable(ROOM_KEYS),
  "set-back": () => keyTable(SET_BACK_KEYS),
  power: () => keyTable(POWER_KEYS),
  circuit: () => keyTable(CIRCUIT_KEYS),
  battery: () => keyTable(BATTERY_KEYS),
  link: () => keyTable(LINK_KEYS),
  hub: () => keyTable(HUB_KEYS),
  system: () => keyTable(SYSTEM_KEYS),
  body: () => keyTable(BODY_KEYS),
  "salt water": () => keyTable(SALT_WATER_KEYS),
  solution: () => keyTable(SOLUTION_KEYS),
  livestock: () => keyTable(LIVESTOCK_KEYS),
  circulation: () => keyTable(FLOW_KEYS),
  device: () => keyTable(DEVICE_KEYS),
  "kinds of device": kindTable,
  "own-float": () => keyTable(OWN_FLOAT_KEYS),
  spare: () => keyTable(SPARE_KEYS),
  sensor: () => keyTable(SENSOR_KEYS),
  "what is measured": sensorTable,
  rule: () => keyTable(RULE_KEYS),
  person: () => keyTable(PERSON_KEYS),
  "step of the ladder": () => keyTable(STEP_KEYS),
  "silence watch": () => keyTable(SILENCE_WATCH_KEYS),
  circumstance: () => keyTable(CIRCUMSTANCE_KEYS),
  absence: () => keyTable(AWAY_KEYS),
  units: unitTable,
};

const BLOCK = /<!-- table: ([^>]+?) -->\n[\s\S]*?<!-- end -->/g;

/** The page with all its tables made anew; an unknown table stays as it is. */
export function withCurrentTables(page: string): string {
  return page.replace(BLOCK, (whole, name: string) => {
    const make = Object.hasOwn(REFERENCE_TABLES, name) ? REFERENCE_TABLES[name] : undefined;
    return make === undefined ? whole : `<!-- table: ${name} -->\n\n${make()}\n\n<!-- end -->`;
  });
}

/** Names of the tables that a page shows. */
export function tablesOf(page: string): readonly string[] {
  return [...page.matchAll(BLOCK)].map((match) => match[1]);
}
