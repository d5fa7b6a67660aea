/** Whether a hub can tell anybody of a fault while it lasts. */
import type { Hub, Site } from "../../site/index.ts";
import { circuitsAbove, type Finding, isMainsCut } from "./finding.ts";
import { circuitBehind } from "./loads.ts";

const MUTE = ["hangs", "dies", "loses-its-rules", "notices-muted"];

export function onBattery(site: Site, part: { readonly id: string; readonly on: string | null }): boolean {
  return site.batteries.some(({ id, feeds }) => id === part.on || feeds.includes(part.id));
}

/** Circuits without which the hub is dead; none where a battery carries it. */
export function hubCircuits(site: Site, hub: Hub): readonly string[] {
  return onBattery(site, hub) ? [] : circuitsAbove(site, circuitBehind(site, hub.on));
}

/** True where the fault leaves the hub alive and its rules at work. */
export function canTell(site: Site, finding: Finding, hub: Hub | null): boolean {
  if (hub === null) return !isMainsCut(finding);
  if (finding.part === hub.id && MUTE.includes(finding.mode)) return false;
  if (finding.mode === "surges" || finding.mode === "sags") return false;
  const needs = hubCircuits(site, hub);
  if (needs.length > 0 && isMainsCut(finding)) return false;
  const lost = finding.lost;
  return lost === null || !needs.includes(lost);
}

/** A finding that a message could change: nobody is told, or too late, and there is time to come. */
export function wantsWord(finding: Finding): boolean {
  return !finding.tooQuick && (finding.untold || finding.drill.verdict === "late");
}

/** Share of the time to harm after which signs in the water itself are clear. */
const SIGNS_SHARE = 0.6;

/** True where somebody happens to look before the water itself shows anything: no probe is sooner. */
export function isSeenFirst({ drill }: Finding): boolean {
  const { acting, harm_early: harm } = drill.minutes;
  return drill.found_by_chance && acting !== null && harm !== null && acting < SIGNS_SHARE * harm;
}
