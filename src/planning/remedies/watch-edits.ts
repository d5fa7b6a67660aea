/** New sensors and rules as they are written, with what each needs in order to be believed. */
import type { Device, Hub, Sensor, Site, SiteEdit } from "../../site/index.ts";
import { keys, set } from "./writing.ts";

/** A new sensor with what a sensor needs in order to be believed: it tells when it falls silent, and is tried. */
export function sensorEdit(name: string, hub: Hub | null, what: Readonly<Record<string, string | null>>): SiteEdit {
  return set(["sensors", name], keys({ ...what, hub: hub?.id ?? null, "silent-after": "10 min", tested: "1 month" }));
}

interface NewRule {
  readonly when: Readonly<Record<string, string>>;
  readonly until?: Readonly<Record<string, string>>;
  readonly acts?: readonly Device[];
  readonly only?: string;
  readonly atMost?: string;
  readonly notice: "urgent" | "soon";
  readonly says: string;
}

export function ruleEdit(name: string, hub: Hub | null, rule: NewRule): SiteEdit {
  const acts = rule.acts ?? [];
  return set(
    ["rules", name],
    keys({
      hub: hub?.id ?? null,
      when: rule.when,
      do: acts.length === 0 ? null : Object.fromEntries(acts.map(({ id }) => [id, "off"])),
      until: acts.length === 0 ? null : (rule.until ?? null),
      "at-most": acts.length === 0 ? null : (rule.atMost ?? null),
      only: rule.only ?? null,
      notice: rule.notice,
      says: rule.says,
      tested: "1 month",
    }),
  );
}

/** Reading that has not moved for so long is stuck; where a still reading means nothing there is none. */
export const FLAT_AFTER: Readonly<Record<string, string>> = {
  temperature: "12 h",
  ph: "24 h",
  salinity: "24 h",
  oxygen: "24 h",
  level: "2 days",
  flow: "2 h",
  power: "2 h",
  light: "20 h",
};

/** What makes a sensor tell that it is dead; nothing where something does so already. */
export function guardEdits(site: Site, sensor: Sensor): readonly SiteEdit[] {
  const guarded = site.rules.some(({ when }) =>
    when.all.some((term) => term.sensor === sensor.id && (term.is.op === "silent" || term.is.op === "unchanged")),
  );
  const taken = site.rules.some(({ id }) => id === `${sensor.id}-silent` || id === `${sensor.id}-flat`);
  if (guarded || taken || sensor.hub === null) return [];
  const flat = FLAT_AFTER[sensor.measures];
  const silent = sensor.everyH > 0 ? `${Math.ceil(2.5 * sensor.everyH)} h` : "10 min";
  const at = (key: string, value: string) => set(["sensors", sensor.id, key], value);
  return [
    at("silent-after", silent),
    ...(flat === undefined ? [] : [at("flat-after", flat)]),
    ...(sensor.testedMonths === null || sensor.testedMonths > 3 ? [at("tested", "1 month")] : []),
  ];
}
