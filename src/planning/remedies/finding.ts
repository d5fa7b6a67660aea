/** A finding of the rehearsal, with what remedies ask of it. */
import type { DrillResult } from "../../drills/index.ts";
import type { Site } from "../../site/index.ts";

export interface Finding {
  readonly drill: DrillResult;
  /** The fault that triggers it; of a pair the second. */
  readonly part: string;
  readonly mode: string;
  /** All faults, "part.mode" each. */
  readonly faults: readonly string[];
  /** What harms, e.g. "hypoxia"; null where a stand-in or a sensor is dead and nothing is harmed. */
  readonly stressor: string | null;
  readonly closed: boolean;
  /** True where it is known that no help could have come in time. */
  readonly tooQuick: boolean;
  /** Nobody learned of it by a message. */
  readonly untold: boolean;
  readonly sentence: string;
}

/** Help that must be there within this time is not brought by a message. */
const QUICK_MIN = 20;

export function findingsOf(site: Site, drills: readonly DrillResult[]): readonly Finding[] {
  const closed = new Map(site.circumstances.map((one) => [one.id, one.closed]));
  return drills.flatMap((drill): Finding[] => {
    if (drill.finding === null) return [];
    const trigger = drill.faults[drill.faults.length - 1];
    return [
      {
        drill,
        part: trigger.part,
        mode: trigger.mode,
        faults: drill.faults.map(({ part, mode }) => `${part}.${mode}`),
        stressor: drill.harm === null ? null : drill.harm.slice(drill.harm.lastIndexOf(", ") + 2),
        closed: closed.get(drill.circumstance) ?? false,
        tooQuick: drill.last_useful !== null && drill.last_useful < QUICK_MIN,
        untold: drill.minutes.told === null,
        sentence: drill.finding,
      },
    ];
  });
}

/** Words in which a finding says what is harmed: "invertebrates in reef-display are short of oxygen". */
const HARMED = / in ([\w-]+) are /;

/** Whether a finding is about a system: by the animals that are harmed, or by the part that fails. */
export function concerns(site: Site, finding: Finding, system: string): boolean {
  const harmed = HARMED.exec(finding.sentence)?.[1];
  const body = site.bodies.find(({ id }) => id === harmed);
  if (body) return body.system === system;
  if (finding.drill.system !== null) return finding.drill.system === system;
  return serves(site, finding.part, system);
}

/** Whether a part that belongs to no system serves this one: its power, its hub, its room, or everything. */
function serves(site: Site, part: string, system: string): boolean {
  const devices = site.devices.filter((device) => device.system === system);
  if (site.circuits.some(({ id }) => id === part))
    return devices.some(({ on }) => circuitsAbove(site, on).includes(part));
  if (site.hubs.some(({ id }) => id === part)) return hubsOf(site, system).includes(part);
  const rule = site.rules.find(({ id }) => id === part);
  if (rule)
    return (
      rule.act.some(({ device }) => devices.some(({ id }) => id === device)) || hubsOf(site, system)[0] === rule.hub
    );
  if (site.rooms.some(({ id }) => id === part))
    return site.systems.some(({ id, room }) => id === system && room === part);
  return part === "mains";
}

/** Circuits from the plug up to the mains. */
export function circuitsAbove(site: Site, circuit: string | null): readonly string[] {
  const own = site.circuits.find(({ id }) => id === circuit);
  return own === undefined ? [] : [own.id, ...circuitsAbove(site, own.on)];
}

/** Hubs that read or switch something of a system, those that read most first; without any, the first of the site. */
export function hubsOf(site: Site, system: string): readonly string[] {
  const bodies = new Set(site.bodies.filter((body) => body.system === system).map(({ id }) => id));
  const devices = new Set(site.devices.filter((device) => device.system === system).map(({ id }) => id));
  const uses = (hub: string) =>
    site.sensors.filter((sensor) => sensor.hub === hub && (bodies.has(sensor.at) || devices.has(sensor.at))).length +
    site.devices.filter((device) => device.by === hub && devices.has(device.id)).length;
  const used = site.hubs.filter(({ id }) => uses(id) > 0).sort((a, b) => uses(b.id) - uses(a.id));
  return (used.length > 0 ? used : site.hubs.slice(0, 1)).map(({ id }) => id);
}

/** Faults that take a circuit's power away. */
const DARK = [
  "trips",
  "opens",
  "strip-burns-out",
  "gets-wet",
  "stays-open-after-blink",
  "leaks-current",
  "falls-in-wet",
  "cracks",
  "quartz-cracks",
];
const CUTS = ["cut-40-min", "cut-4-h", "cut-12-h", "cut-48-h", "cut-12-h-no-mobile"];

/** Power is gone on one circuit, while the mains are there. */
export function isLocalPowerLoss({ mode }: Finding): boolean {
  return DARK.includes(mode);
}

/** The public supply is gone. */
export function isMainsCut({ mode }: Finding): boolean {
  return CUTS.includes(mode);
}

/** Circuit that a fault of a circuit, or of a device that leaks current, takes down. */
export function circuitLost(site: Site, finding: Finding): string | null {
  if (!isLocalPowerLoss(finding)) return null;
  if (site.circuits.some(({ id }) => id === finding.part)) return finding.part;
  const device = site.devices.find(({ id }) => id === finding.part);
  const guarded = circuitsAbove(site, device?.on ?? null).find(
    (id) => site.circuits.find((circuit) => circuit.id === id)?.tripsOnLeakMA !== null,
  );
  return guarded ?? null;
}
