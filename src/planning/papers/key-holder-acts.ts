/**
 * What someone with a key can be asked to do, in words for a person who knows nothing of aquariums. Each kind gathers faults that
 * look alike from the door and are met by the same act.
 */
import type { Fault } from "../../drills/index.ts";
import { listWords } from "../../rules/index.ts";
import type { Device, DeviceKind, Site, Skill } from "../../site/index.ts";

export interface ActKind {
  /** What the person must be able to do; any of these is enough. */
  readonly needs: readonly Skill[];
  readonly fits: (fault: Fault, device: Device | undefined) => boolean;
  readonly see: string;
  readonly act: (site: Site, parts: readonly string[]) => string;
  /** Devices whose plugs it is about. */
  readonly plugs: (site: Site, parts: readonly string[]) => readonly string[];
}

const itself = (_site: Site, parts: readonly string[]): readonly string[] => parts;
const none = (): readonly string[] => [];

/** Those earlier in the list win a fault that fits two. */
export const ACT_KINDS: readonly ActKind[] = [
  {
    needs: ["unplug"],
    fits: ({ mode }, device) =>
      device?.kind === "heater" && mode.end.needs === "unplug" && mode.end.act.startsWith("pull"),
    see: "A temperature is above its highest",
    act: (_site, parts) =>
      `Unplug the ${parts.length === 1 ? "heater" : "heaters of that tank"}, nothing else. Then call.`,
    plugs: itself,
  },
  {
    needs: ["unplug", "top-off"],
    fits: ({ mode }) => mode.group === "top-off" && /pull the plug|lift the hose/.test(mode.end.act),
    see: "A sump is brim-full, or water runs into it without end",
    act: () => "Unplug the top-off of that tank and lift its hose out of the water. Then call.",
    plugs: itself,
  },
  {
    needs: ["unplug", "mop"],
    fits: ({ mode }) => mode.group === "plumbing" && mode.sight === "water",
    see: "Water on the floor",
    act: (_site, parts) =>
      parts.length === 0
        ? "Do not stand in it. Call, then lay towels."
        : "Do not stand in it. With dry hands unplug the pump of that tank, if its plug is dry. Call, then lay towels.",
    plugs: pumpsOf,
  },
  {
    needs: ["unplug"],
    fits: ({ mode }) => mode.group === "dosing" && mode.end.act.startsWith("pull the plug"),
    see: "A dosing pump hums without end",
    act: () => "Unplug it. Touch none of its liquids. Then call.",
    plugs: itself,
  },
  {
    needs: ["unplug"],
    fits: ({ mode }, device) => device?.kind === "skimmer" && mode.end.needs === "unplug",
    see: "The cup of a skimmer runs over",
    act: () => "Unplug it. Then call.",
    plugs: itself,
  },
  {
    needs: ["reset"],
    fits: ({ mode }) => mode.of === "circuit" && mode.end.act.startsWith("close the"),
    see: "Everything on one strip or circuit is dead",
    act: (_site, parts) => `Close its breaker once (${listWords(parts)}). If it falls again, leave it and call.`,
    plugs: none,
  },
  {
    needs: ["start-generator"],
    fits: ({ mode }) => mode.group === "power" && mode.of === "battery",
    see: "The power is out",
    act: (_site, parts) =>
      `Start ${listWords(parts)}; a generator outdoors only, far from doors and windows. No food. Then call.`,
    plugs: none,
  },
  {
    needs: ["reset"],
    fits: ({ mode }) => mode.of === "hub" && mode.end.act.startsWith("restart"),
    see: "The box that switches the sockets shows nothing or stands still",
    act: (_site, parts) => `Pull its plug, count to ten, put it back (${listWords(parts)}). Then call.`,
    plugs: none,
  },
  {
    needs: ["top-off", "refill"],
    fits: ({ mode }) => mode.group === "top-off" && mode.end.act.startsWith("top off by hand"),
    see: "A sump is below its line",
    act: () => "Fill it slowly to the line, only from the can marked FRESH. Then call.",
    plugs: none,
  },
  {
    needs: ["feed"],
    fits: ({ mode }) => mode.group === "feeding" && mode.end.needs === "feed",
    see: "The feeder has given nothing today",
    act: () => "Feed today\u2019s pack, no more. They always look hungry.",
    plugs: none,
  },
];

const MOVES_WATER: readonly DeviceKind[] = ["return-pump", "top-off"];

/** What fills the floor from the systems of these bodies and flows. */
function pumpsOf(site: Site, parts: readonly string[]): readonly string[] {
  const systems = new Set(
    [...site.bodies, ...site.flows].filter(({ id }) => parts.includes(id)).map(({ system }) => system),
  );
  return site.devices
    .filter(({ system, kind, on }) => systems.has(system) && MOVES_WATER.includes(kind) && on !== null)
    .map(({ id }) => id);
}
