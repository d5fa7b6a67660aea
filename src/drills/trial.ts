/**
 * How often someone tries a part, from its description. What is tried every quarter or oftener is found dead by the next trial,
 * late but before it is needed.
 */
import type { Site } from "../site/index.ts";
import type { Fault } from "./faults/fault.ts";

/** Trials that are farther apart count as none, months. */
const QUARTER = 3;

/** Months between trials that would find this fault; null where nobody tries. */
export function trialMonths(site: Site, fault: Fault): number | null {
  const months = fault.mode.triedEveryMonths?.(site, fault.part) ?? written(site, fault.part);
  return months !== null && months <= QUARTER ? months : null;
}

function written(site: Site, part: string): number | null {
  const tested = [...site.hubs, ...site.flows, ...site.sensors, ...site.rules, ...site.people].find(
    (one) => one.id === part,
  )?.testedMonths;
  if (tested !== undefined) return tested;
  const device = site.devices.find((one) => one.id === part);
  if (device) return device.testedMonths ?? device.spare?.lastTriedMonths ?? null;
  const battery = site.batteries.find((one) => one.id === part);
  if (battery) return battery.lastTriedMonths;
  if (site.links.some((link) => link.id === part)) return ofLink(site, part);
  return part === "*" ? (site.silenceWatch?.testedMonths ?? null) : null;
}

/** A link is tried whenever a hub that sends over it is, or the watch outside. */
function ofLink(site: Site, link: string): number | null {
  const over = site.hubs.filter((hub) => hub.sendsOver.includes(link)).map((hub) => hub.testedMonths ?? null);
  const tried = [...over, site.silenceWatch?.testedMonths ?? null].filter((months) => months !== null);
  return tried.length === 0 ? null : Math.min(...tried);
}
