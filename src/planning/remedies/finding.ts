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
  /** Systems that it is about. */
  readonly systems: readonly string[];
  /** Circuit without power, where the fault takes one away. */
  readonly lost: string | null;
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
        systems: systemsOf(site, drill, trigger.part),
        lost: circuitLost(site, trigger.part, trigger.mode),
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
export function concerns(finding: Finding, system: string): boolean {
  return finding.systems.includes(system);
}

function systemsOf(site: Site, drill: DrillResult, part: string): readonly string[] {
  const harmed = HARMED.exec(drill.finding ?? "")?.[1];
  const body = site.bodies.find(({ id }) => id === harmed);
  if (body) return [body.system];
  if (drill.system !== null) return [drill.system];
  const group = drill.harm?.slice(0, drill.harm.lastIndexOf(", ")) ?? null;
  return site.systems
    .map(({ id }) => id)
    .filter((system) => serves(site, part, system) && (group === null || livesIn(site, group, system)));
}

/** Whether animals of the harmed group live in a system; the floor is everywhere. */
function livesIn(site: Site, group: string, system: string): boolean {
  if (group === "house") return true;
  return site.bodies.some(
    ({ system: own, livestock }) =>
      own === system &&
      (livestock.corals === group ||
        (livestock.fishG > 0 && livestock.fishGroup === group) ||
        (livestock.invertebrates && group === "invertebrates")),
  );
}

/** Whether a part that belongs to no system serves this one: its power, its hub, its rules, its room, or everything. */
function serves(site: Site, part: string, system: string): boolean {
  if (part === "mains") return true;
  const devices = site.devices.filter((device) => device.system === system);
  const isOurs = (id: string) => devices.some((device) => device.id === id);
  if (site.circuits.some(({ id }) => id === part))
    return devices.some(({ on }) => circuitsAbove(site, on).includes(part));
  if (site.hubs.some(({ id }) => id === part)) return devices.some(({ by }) => by === part);
  const rule = site.rules.find(({ id }) => id === part);
  if (rule) return rule.act.some(({ device }) => isOurs(device));
  return site.systems.some(({ id, room }) => id === system && room === part);
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
function circuitLost(site: Site, part: string, mode: string): string | null {
  if (!DARK.includes(mode)) return null;
  if (site.circuits.some(({ id }) => id === part)) return part;
  const device = site.devices.find(({ id }) => id === part);
  const guarded = circuitsAbove(site, device?.on ?? null).find(
    (id) => site.circuits.find((circuit) => circuit.id === id)?.tripsOnLeakMA !== null,
  );
  return guarded ?? null;
}
