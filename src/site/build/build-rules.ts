/** Rules, from what was written of them. */

import type { SENSOR_KEYS, WrittenCondition } from "../keys/sensors-and-rules.ts";
import { RULE_KEYS } from "../keys/sensors-and-rules.ts";
import type { Body, ConditionSpec, Device, Hub, RuleSpec, Sensor } from "../model.ts";
import type { WrittenPart } from "../shape/fields.ts";
import type { Found } from "../shape/reader.ts";
import type { Building } from "./building.ts";
import { takerFor, valuesOf } from "./building.ts";
import { formatComparison, formatDuration, parseComparison } from "./comparisons.ts";
import { MEASURES } from "./measures.ts";

type Keys = typeof RULE_KEYS;

export interface RuleSurroundings {
  readonly hubs: readonly Hub[];
  readonly sensors: readonly Sensor[];
  readonly devices: readonly Device[];
  readonly bodies: readonly Body[];
}

function buildCondition(
  building: Building,
  where: string,
  hub: string,
  written: WrittenCondition,
  around: RuleSurroundings,
): ConditionSpec {
  const all: ConditionSpec["all"][number][] = [];
  for (const term of written.terms) {
    if (!building.refers(term.sensor, term.sensorPlace, ["sensor"], `${where}.${term.sensor}`)) continue;
    const sensor = around.sensors.find((entry) => entry.id === term.sensor);
    // A sensor that could not be built has its own error already.
    if (sensor === undefined) continue;
    if (sensor.hub !== hub) {
      const reader = sensor.hub === null ? "no hub reads it" : `${sensor.hub} reads it`;
      building.report.error(
        term.sensorPlace,
        `${where}.${term.sensor}`,
        "rule/other-hub",
        `${hub} can not see ${sensor.id}: ${reader}`,
        "let the rule run on the hub that reads its sensors",
      );
    }
    const fullL =
      sensor.measures === "level" ? (around.bodies.find((body) => body.id === sensor.at)?.volumeL ?? null) : null;
    const is = parseComparison(term.text, { sensor, fullL, sensors: around.sensors });
    if (is.ok) {
      all.push({ sensor: sensor.id, is: is.value });
      if (is.value.op === "differs") building.references.push({ name: is.value.from, place: term.place });
    } else
      building.report.error(
        term.place,
        `${where}.${term.sensor}`,
        is.problem.code,
        is.problem.message,
        is.problem.hint,
      );
  }
  return { all, forS: written.forS?.value ?? 0 };
}

/** A condition in words: `display-temp above 27.2 degC for 10 min`. */
export function conditionInWords(condition: ConditionSpec, sensors: readonly Sensor[]): string {
  const terms = condition.all.map(({ sensor, is }) => {
    const found = sensors.find((entry) => entry.id === sensor);
    return found === undefined ? sensor : `${sensor} ${formatComparison(is, found)}`;
  });
  const hold = condition.forS > 0 ? ` for ${formatDuration(condition.forS)}` : "";
  return `${terms.join(" and ")}${hold}`;
}

function buildActs(
  building: Building,
  part: WrittenPart<Keys>,
  hub: string,
  devices: readonly Device[],
): RuleSpec["act"] {
  return (part.written.do?.value ?? []).flatMap((act) => {
    const where = `${part.id}.do.${act.device}`;
    if (!building.refers(act.device, act.devicePlace, ["device"], where)) return [];
    const device = devices.find((entry) => entry.id === act.device);
    if (device === undefined) return [];
    if (device.by !== hub) {
      const plugged = device.by === null ? "is plugged straight in" : `is switched by ${device.by}`;
      building.report.error(
        act.devicePlace,
        where,
        "rule/not-switched",
        `${hub} can not switch ${device.id}: it ${plugged}`,
        `write by: ${hub} at ${device.id}, or leave 'by' out there`,
      );
    }
    return [{ device: act.device, state: act.state }];
  });
}

function hubOf(building: Building, part: WrittenPart<Keys>, _around: RuleSurroundings, usual: () => string): string {
  const { hub } = part.written;
  if (hub === undefined) return usual();
  building.refers(hub.value, hub.place, ["hub"], `${part.id}.hub`);
  return hub.value;
}

function conditionOf(
  building: Building,
  where: string,
  hub: string,
  found: Found<WrittenCondition> | undefined,
  around: RuleSurroundings,
): ConditionSpec {
  return found === undefined ? { all: [], forS: 0 } : buildCondition(building, where, hub, found.value, around);
}

/** Who tries a hub tries its rules. */
function testedWithHub(around: RuleSurroundings, hub: string): number | null {
  return around.hubs.find((entry) => entry.id === hub)?.testedMonths ?? null;
}

function buildRule(building: Building, part: WrittenPart<Keys>, around: RuleSurroundings): RuleSpec | null {
  const { id, written } = part;
  const take = takerFor(building, id, part.idPlace.line, RULE_KEYS, written);
  if (written.when === undefined) return null;
  const hub = hubOf(building, part, around, () => take("hub", around.hubs[0]?.id ?? "hub"));
  const when = conditionOf(building, `${id}.when`, hub, written.when, around);
  const untilWritten = written.until?.value ?? null;
  const act = buildActs(building, part, hub, around.devices);
  const notice = written.notice?.value ?? null;
  if (notice === null && (written.do?.value ?? []).length === 0 && !building.report.concerns(`${id}.do`)) {
    building.error(
      { place: part.idPlace },
      id,
      "rule/does-nothing",
      `the rule ${id} switches nothing and tells nobody`,
      "add do: { device: on }, or notice: urgent",
    );
  }
  return {
    id,
    hub,
    when,
    until: untilWritten === null ? null : buildCondition(building, `${id}.until`, hub, untilWritten, around),
    act,
    notice,
    says:
      notice === null ? (written.says?.value ?? "") : take("says", `${id}: ${conditionInWords(when, around.sensors)}`),
    atMostS: act.length > 0 ? take("at-most", null) : (written["at-most"]?.value ?? null),
    notOftenerS: written["not-oftener"]?.value ?? 0,
    only: valuesOf(written.only?.value ?? []),
    testedMonths: written.tested?.value ?? testedWithHub(around, hub),
  };
}

/** The id of the rule that a sensor's `silent-after` or `flat-after` stands for. */
export function ruleOfSensor(sensor: string, key: "silent-after" | "flat-after"): string {
  return `${sensor}-${key === "silent-after" ? "silent" : "flat"}`;
}

function guardsOf(
  building: Building,
  part: WrittenPart<typeof SENSOR_KEYS>,
  around: RuleSurroundings,
): readonly RuleSpec[] {
  const sensor = around.sensors.find((entry) => entry.id === part.id);
  if (sensor === undefined) return [];
  return (["silent-after", "flat-after"] as const).flatMap((key): RuleSpec[] => {
    const found = part.written[key];
    const forS = found?.value ?? null;
    if (found === undefined || forS === null) return [];
    if (sensor.hub === null) {
      building.error(
        found,
        `${part.id}.${key}`,
        "sensor/no-hub",
        `no hub reads ${part.id}`,
        "write hub: the hub that reads it",
      );
      return [];
    }
    const flat = key === "flat-after";
    if (flat && MEASURES[sensor.measures].says !== "number") {
      const message = `${part.id} is a contact, which may rest for weeks`;
      building.error(
        found,
        `${part.id}.${key}`,
        "sensor/contact",
        message,
        "take the key out, and try it now and then",
      );
      return [];
    }
    return [
      {
        id: ruleOfSensor(part.id, key),
        hub: sensor.hub,
        when: { all: [{ sensor: part.id, is: { op: flat ? "unchanged" : "silent", forS } }], forS: 0 },
        until: null,
        act: [],
        notice: "soon",
        says: flat ? `${part.id} does not move` : `${part.id} is silent`,
        atMostS: null,
        notOftenerS: 0,
        only: [],
        testedMonths: sensor.testedMonths,
      },
    ];
  });
}

/** The rules that are written, then those that sensors bring with them. */
export function buildRules(
  building: Building,
  parts: readonly WrittenPart<Keys>[],
  sensors: readonly WrittenPart<typeof SENSOR_KEYS>[],
  around: RuleSurroundings,
): readonly RuleSpec[] {
  const written = parts.map((part) => buildRule(building, part, around)).filter((rule) => rule !== null);
  return [...written, ...sensors.flatMap((part) => guardsOf(building, part, around))];
}
