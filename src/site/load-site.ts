/**
 * From the text of a site file to a checked, frozen `Site`.
 *
 * text -> tree (`text/`) -> what was written, key by key (`keys/`) -> parts with defaults (`build/`) -> checks across
 * parts (`check/`). Errors are collected on the way and told all at once; with any error there is no site.
 */
import { deepFreeze } from "../foundation/index.ts";
import { buildSystems } from "./build/build-bodies.ts";
import { buildDevices } from "./build/build-devices.ts";
import { buildFlows, flowId } from "./build/build-flows.ts";
import { buildCircumstances, buildLadder, buildPeople } from "./build/build-people.ts";
import { buildPower, buildSilenceWatch, carryDevices } from "./build/build-power.ts";
import { buildRooms } from "./build/build-rooms.ts";
import { buildRules, ruleOfSensor } from "./build/build-rules.ts";
import { buildSensors } from "./build/build-sensors.ts";
import type { DefaultUsed, NamePlace } from "./build/building.ts";
import { Building, byImportance, takerFor } from "./build/building.ts";
import { fitBrims, fitCircuits } from "./build/fit-defaults.ts";
import { sketchRules } from "./build/rule-sketch.ts";
import { settleDemand } from "./build/settle-demand.ts";
import { checkPeople } from "./check/check-people.ts";
import { checkPower } from "./check/check-power.ts";
import { checkRules } from "./check/check-rules.ts";
import { checkWater } from "./check/check-water.ts";
import type { SENSOR_KEYS } from "./keys/sensors-and-rules.ts";
import type { WrittenSite } from "./keys/site-keys.ts";
import { SITE_KEYS } from "./keys/site-keys.ts";
import { zoneProblem } from "./local-clocks.ts";
import type { PartKind, Site } from "./model.ts";
import type { WrittenPart } from "./shape/fields.ts";
import { readFields } from "./shape/fields.ts";
import type { Place, SiteError } from "./text/site-error.ts";
import { Report } from "./text/site-error.ts";
import { parseYaml } from "./text/yaml-tree.ts";

/** What came of loading: a site and no errors, or errors and no site. */
export interface LoadedSite {
  readonly site: Site | null;
  /** In file order. */
  readonly errors: readonly SiteError[];
  /** Defaults that were used, those that matter most to verdicts first. */
  readonly defaults: readonly DefaultUsed[];
  /** Where each part is named: at its own place, and wherever the file refers to it. Empty without a site. */
  readonly names: readonly NamePlace[];
}

export const MOST_PARTS = 2000;

interface NamedPlace {
  readonly id: string;
  readonly kind: PartKind;
  readonly place: Place;
  /** Where its name itself is written; null where the name follows from other words. */
  readonly nameAt: Place | null;
  readonly written: Readonly<Record<string, { readonly place: Place } | undefined>>;
}

interface AnyPart {
  readonly id: string;
  readonly idPlace: Place;
  readonly written: NamedPlace["written"];
}

/** A sensor's guards are rules with names of their own, which no other part may have. */
function rulesBroughtBy(sensor: WrittenPart<typeof SENSOR_KEYS>): readonly NamedPlace[] {
  return (["silent-after", "flat-after"] as const).flatMap((key): NamedPlace[] => {
    const found = sensor.written[key];
    if (found === undefined || found.value === null) return [];
    return [{ id: ruleOfSensor(sensor.id, key), kind: "rule", place: found.place, nameAt: null, written: {} }];
  });
}

function writtenNames(site: WrittenSite): readonly NamedPlace[] {
  const named = (kind: PartKind, parts: readonly AnyPart[] | undefined): NamedPlace[] =>
    (parts ?? []).map((part) => ({
      id: part.id,
      kind,
      place: part.idPlace,
      nameAt: part.idPlace,
      written: part.written,
    }));
  const systems = site.systems?.value ?? [];
  return [
    ...named("room", site.rooms?.value),
    ...named("circuit", site.power?.value.circuits?.value),
    ...named("battery", site.power?.value.batteries?.value),
    ...named("link", site.links?.value),
    ...named("hub", site.hubs?.value),
    ...named("system", systems),
    ...systems.flatMap((system) => named("body", system.written.bodies?.value)),
    ...systems.flatMap((system) =>
      (system.written.circulation?.value ?? []).flatMap((flow): NamedPlace[] => {
        const id = flowId(flow.value);
        const nameAt = flow.value.name?.place ?? null;
        return id === null ? [] : [{ id, kind: "flow", place: flow.place, nameAt, written: flow.value }];
      }),
    ),
    ...named("device", site.devices?.value),
    ...named("sensor", site.sensors?.value),
    ...named("rule", site.rules?.value),
    ...(site.sensors?.value ?? []).flatMap(rulesBroughtBy),
    ...named("person", site.people?.value),
  ];
}

function zoneOf(building: Building, written: WrittenSite): string {
  const take = takerFor(building, "site", 1, SITE_KEYS, written);
  const zone = take("zone", "UTC");
  const problem = zoneProblem(zone);
  if (problem !== null && written.zone !== undefined) {
    const hint = problem === "" ? "write an IANA zone like Europe/London" : `did you mean '${problem}'?`;
    building.error(written.zone, "zone", "zone/unknown", `no time zone is called '${zone}'`, hint);
    return "UTC";
  }
  return zone;
}

/** The parts that stand by themselves, then those that need them. */
function buildSite(building: Building, written: WrittenSite): Site {
  const systemParts = written.systems?.value ?? [];
  const ruleParts = written.rules?.value ?? [];
  const rooms = buildRooms(building, written.rooms?.value);
  const power = buildPower(building, written);
  const { systems, bodies: shaped } = buildSystems(building, systemParts, rooms);
  const rules = sketchRules(ruleParts, power.hubs);
  const around = {
    bodies: shaped,
    hubs: power.hubs,
    batteries: power.batteries,
    firstCircuit: power.circuits[0].id,
    circuits: power.circuits.length,
    rules,
  };
  const { devices, onBattery } = buildDevices(building, written.devices?.value ?? [], around);
  const bodyParts = systemParts.flatMap((system) => system.written.bodies?.value ?? []);
  const flows = buildFlows(building, systemParts, shaped, devices);
  const bodies = fitBrims(bodyParts, settleDemand(building, bodyParts, shaped, devices), flows);
  const sensorParts = written.sensors?.value ?? [];
  const sensors = buildSensors(building, sensorParts, { bodies, devices, hubs: power.hubs });
  const people = buildPeople(building, written);
  const ladder = buildLadder(building, written, people);
  return {
    name: written.site?.value ?? "",
    zone: zoneOf(building, written),
    rooms,
    ...power,
    circuits: fitCircuits(
      power.circuits,
      (written.power?.value.circuits?.value.length ?? 0) === 0,
      devices,
      power.mains.volts,
    ),
    batteries: carryDevices(power.batteries, onBattery),
    systems,
    bodies,
    flows,
    devices,
    sensors,
    rules: buildRules(building, ruleParts, sensorParts, { hubs: power.hubs, sensors, devices, bodies }),
    people,
    ladder,
    silenceWatch: buildSilenceWatch(building, written),
    circumstances: buildCircumstances(building, written, people, ladder),
  };
}

function noteAbsentSections(building: Building, written: WrittenSite): void {
  for (const key of ["sensors", "rules"] as const) {
    if ((written[key]?.value.length ?? 0) > 0) continue;
    building.noteDefault("site", key, "none", SITE_KEYS[key].weight, SITE_KEYS[key].why, written[key]?.place.line ?? 1);
  }
}

/** Loads a site from its text; `file` is only for the messages. Pure: reads no file and knows no clock. */
export function loadSite(text: string, file: string): LoadedSite {
  const report = new Report(file);
  const none = (): LoadedSite => ({ site: null, errors: report.errors, defaults: [], names: [] });
  const tree = parseYaml(text, report);
  if (tree === null || !report.clean) return none();
  const written = readFields(tree, SITE_KEYS, { report, where: "" }, "a site");
  if (written === undefined) return none();
  const names = writtenNames(written);
  if (names.length > MOST_PARTS) {
    report.error(
      names[MOST_PARTS].place,
      "",
      "file/too-many-parts",
      `the site has ${names.length} parts; more than ${MOST_PARTS} are not read`,
      "split the place into several sites",
    );
    return none();
  }
  const building = new Building(report);
  for (const name of names) {
    building.enter(name.id, name.kind, name.place);
    building.noteKeys(name.id, name.place, name.written);
  }
  const site = buildSite(building, written);
  noteAbsentSections(building, written);
  if (report.clean) {
    checkPower(building, site);
    checkWater(building, site);
    checkRules(building, site);
    checkPeople(building, site);
  }
  if (!report.clean) return none();
  const defaults = byImportance(building.defaults);
  const named = names.flatMap(({ id, nameAt }) => (nameAt === null ? [] : [{ name: id, place: nameAt }]));
  return deepFreeze({ site, errors: [], defaults, names: [...named, ...building.references] });
}
