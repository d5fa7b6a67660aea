/** Batteries and generators that are not there on the day. */
import type { Battery, Site } from "../../site/index.ts";
import { mend } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import { circuitsAbove, MAINS, quarterly } from "./parts.ts";
import { guess, reported } from "./rates.ts";

/** Parts that a battery carries, and what fails before it is needed. */
function carriedBy(site: Site, battery: string): readonly string[] {
  const own = site.batteries.find((one) => one.id === battery);
  const circuits = (own?.feeds ?? []).flatMap((id) => {
    const on = [...site.devices, ...site.links, ...site.hubs].find((part) => part.id === id)?.on ?? null;
    return circuitsAbove(site, on).map((circuit) => circuit.id);
  });
  const behind = circuitsAbove(site, own?.on ?? null).map((circuit) => circuit.id);
  return [...new Set([MAINS, ...circuits, ...behind])];
}

function batteries(kind: Battery["kind"], fits: (battery: Battery) => boolean): FaultMode["parts"] {
  return (site) =>
    site.batteries.filter((battery) => battery.kind === kind && fits(battery)).map((battery) => battery.id);
}

const triedBattery: FaultMode["triedEveryMonths"] = (site, part) =>
  quarterly(site.batteries.find((battery) => battery.id === part)?.lastTriedMonths);

export const batteryModes: readonly FaultMode[] = [
  {
    mode: "battery-dead",
    group: "power",
    name: "Battery has lost its capacity",
    onset: "latent",
    of: "battery",
    parts: batteries("battery", () => true),
    inject: (bench, part) => bench.set(part, "capacity", 0.05),
    end: { act: "replace the cells of {part}", needs: "repair", minutes: 20, apply: mend },
    sight: "nothing",
    rate: reported(0.25, "cells last three or four years, half as long in a warm cabinet"),
    helps: [
      "a trial with the plug pulled twice a year, for its full time",
      "a date on {part} and new cells every three years",
    ],
    triedEveryMonths: triedBattery,
    backs: carriedBy,
  },
  {
    mode: "no-takeover",
    group: "power",
    name: "Battery does not take over when the power goes",
    onset: "latent",
    of: "battery",
    parts: batteries("battery", (battery) => battery.startsItself),
    inject: (bench, part) => bench.set(part, "noTakeover", 1),
    end: { act: "switch {part} to standby and try it", needs: "reset", minutes: 10, apply: mend },
    sight: "nothing",
    rate: reported(0.1, "left off, or in the wrong socket"),
    helps: ["a trial every month: pull the plug and look"],
    triedEveryMonths: triedBattery,
    backs: carriedBy,
  },
  {
    mode: "will-not-start",
    group: "power",
    name: "Generator will not start",
    onset: "latent",
    of: "battery",
    parts: batteries("generator", () => true),
    inject: (bench, part) => bench.set(part, "noTakeover", 1),
    end: { act: "get {part} started or borrow another", needs: "start-generator", minutes: 60, apply: mend },
    sight: "nothing",
    rate: guess(0.15, "at each need, where it has not run for half a year; one in fifty where it runs monthly"),
    helps: ["a run under load every month", "fresh fuel twice a year"],
    triedEveryMonths: triedBattery,
    backs: carriedBy,
  },
  {
    mode: "fuel-short",
    group: "power",
    name: "Generator has fuel for an hour or two only",
    onset: "latent",
    of: "battery",
    parts: batteries("generator", () => true),
    inject: (bench, part) => bench.set(part, "capacity", 0.15),
    end: { act: "fetch fuel for {part}", needs: "everything", minutes: 60, apply: mend },
    sight: "nothing",
    rate: reported(0.2, "cans that were used for something else"),
    helps: ["a full can that is used for nothing else", "fresh fuel twice a year"],
    triedEveryMonths: triedBattery,
    backs: carriedBy,
  },
];
