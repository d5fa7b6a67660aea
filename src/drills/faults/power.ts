/** Mains, circuits, batteries and the sockets that a hub switches. */
import type { Battery, Site } from "../../site/index.ts";
import { aerateByHand, closeAbove, mend, unplug, unplugAndClose } from "./ends.ts";
import type { Bench, FaultMode } from "./fault.ts";
import { circuitsAbove, circuitsWhere, devicesWhere, leakTrips, MAINS, quarterly, switchedDevices } from "./parts.ts";
import { counted, generic, guess, reported } from "./rates.ts";

/** A pump with a bad winding, mA. */
const WINDING_LEAK_MA = 60;
/** Water on a plug board, mA. */
const WET_LEAK_MA = 80;
const WET_MOTORS = ["return-pump", "wave-pump", "skimmer", "chiller", "top-off"];

function startedByHand(site: Site): readonly Battery[] {
  return site.batteries.filter((battery) => !battery.startsItself);
}

function startAll(bench: Bench): void {
  for (const battery of startedByHand(bench.site)) bench.startBattery(battery.id);
}

/** People cannot bring the mains back: they start what stands by, or give air by hand. */
const START: FaultMode["end"] = { act: "start the generator", needs: "start-generator", minutes: 15, apply: startAll };
const AERATE: FaultMode["end"] = {
  act: "aerate by hand until the power is back",
  needs: "everything",
  minutes: 20,
  apply: aerateByHand,
};

/** A mode of the mains, once for sites with a generator and once for those without: people end it differently. */
function ofMains(
  mode: Pick<FaultMode, "mode" | "name" | "inject" | "lastsMin" | "rate" | "helps"> & Partial<Pick<FaultMode, "sight">>,
  applies: (site: Site) => boolean = () => true,
): readonly FaultMode[] {
  const common = { group: "power", onset: "sudden", of: "mains", sight: "dark", ...mode } as const;
  const where = (site: Site, byHand: boolean) => applies(site) && startedByHand(site).length > 0 === byHand;
  return [
    { ...common, parts: (site) => (where(site, true) ? [MAINS] : []), end: START },
    { ...common, parts: (site) => (where(site, false) ? [MAINS] : []), end: AERATE },
  ];
}

function cut(mode: string, name: string, minutes: number, rate: FaultMode["rate"], helps: readonly string[]) {
  return ofMains({ mode, name, inject: (bench, part) => bench.set(part, "down", 1), lastsMin: minutes, rate, helps });
}

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

const MOBILE_LINKS = (site: Site) => site.links.filter((link) => link.kind === "mobile");

export const powerModes: readonly FaultMode[] = [
  ...cut(
    "cut-40-min",
    "Power cut of 40 minutes",
    40,
    counted(0.7, "North American homes have 1.0 ordinary cuts a year, most under an hour"),
    [
      "a switch-off trial with a look that every pump starts again",
      "a notice that leaves before the router dies: router and hub on a battery",
    ],
  ),
  ...cut(
    "cut-4-h",
    "Power cut of four hours",
    240,
    counted(0.3, "North American homes have 1.0 ordinary cuts a year of 1.8 h on average"),
    ["an air pump on a battery that starts by itself", "a hub and a way for messages on batteries"],
  ),
  ...cut(
    "cut-12-h",
    "Power cut of twelve hours",
    720,
    counted(0.1, "storms: 0.4 cuts a year, half of them over six hours"),
    ["an air pump on a battery for 24 hours", "a generator and someone who can start it", "blankets around the tank"],
  ),
  ...cut("cut-48-h", "Power cut of two days", 2880, counted(0.03, "the long tail of storm cuts in bad years"), [
    "a generator with fuel for two days, and someone who can start it",
    "an air pump on a battery for 48 hours",
    "heat that needs no mains",
  ]),
  ...ofMains(
    {
      mode: "cut-12-h-no-mobile",
      name: "Power cut of twelve hours that takes the mobile network with it",
      inject(bench, part) {
        bench.set(part, "down", 1);
        for (const link of MOBILE_LINKS(bench.site)) bench.set(link.id, "down", 1);
      },
      lastsMin: 720,
      rate: guess(0.03, "masts fail in a fifth to two fifths of regional cuts over eight hours"),
      helps: [
        "someone near who comes by when they hear nothing",
        "a watch outside that turns silence into a notice",
        "a siren in the house",
      ],
    },
    (site) => MOBILE_LINKS(site).length > 0,
  ),
  ...ofMains({
    mode: "sags",
    name: "Mains voltage sags until motors stall",
    inject: (bench, part) => bench.set(part, "sag", 1),
    lastsMin: 120,
    sight: "still",
    rate: guess(0.2, "seasonal, where lines are long or loads are large"),
    helps: ["a sensor of flow with a notice, for power seems present", "an air pump on a battery"],
  }),
  {
    mode: "surges",
    group: "power",
    name: "Surge kills the hubs and the routers",
    onset: "sudden",
    of: "mains",
    parts: (site) => (site.hubs.length > 0 ? [MAINS] : []),
    inject(bench) {
      for (const hub of bench.site.hubs) bench.set(hub.id, "dead", 1);
      for (const link of bench.site.links) if (link.kind !== "mobile") bench.set(link.id, "down", 1);
    },
    end: {
      act: "run the place by hand and replace what has died",
      needs: "everything",
      minutes: 60,
      apply(bench) {
        for (const hub of bench.site.hubs) bench.release(hub.id, "dead");
        for (const link of bench.site.links) bench.release(link.id, "down");
      },
    },
    sight: "display",
    rate: guess(0.02, "lightning and switching, by region"),
    helps: [
      "surge protection at the board",
      "sockets that fall to a harmless state",
      "thermostats and floats that need no hub",
    ],
  },
  {
    mode: "trips",
    group: "power",
    name: "Leakage protection of the circuit opens for no lasting cause",
    onset: "sudden",
    of: "circuit",
    parts: circuitsWhere((circuit) => circuit.tripsOnLeakMA !== null),
    inject: (bench, part) => bench.set(part, "open", 1),
    end: { act: "close the protection of {part}", needs: "reset", minutes: 10, apply: closeAbove },
    sight: "dark",
    rate: guess(0.3, "damp plugs: one in three wet circuits a year"),
    helps: [
      "pumps and heaters shared out over two protected circuits",
      "a sensor of power behind {part}, with a notice",
    ],
  },
  {
    mode: "opens",
    group: "power",
    name: "Breaker of the circuit opens",
    onset: "sudden",
    of: "circuit",
    parts: circuitsWhere((circuit) => circuit.tripsOnLeakMA === null),
    inject: (bench, part) => bench.set(part, "open", 1),
    end: { act: "close the breaker of {part}", needs: "reset", minutes: 10, apply: closeAbove },
    sight: "dark",
    rate: generic(0.09, "breakers of industry, with the overloads of a household besides"),
    helps: ["pumps and heaters shared out over two circuits", "a sensor of power behind {part}, with a notice"],
  },
  {
    mode: "stays-open-after-blink",
    group: "power",
    name: "Protection stays open after a blink of the mains",
    onset: "sudden",
    of: "circuit",
    parts: circuitsWhere((circuit) => circuit.staysOpenAfterCut),
    inject: (bench, part) => bench.set(part, "open", 1),
    end: { act: "close the protection of {part}", needs: "reset", minutes: 10, apply: closeAbove },
    sight: "dark",
    rate: counted(1, "North American homes have 1.0 ordinary cuts a year; this kind stays open after each"),
    helps: [
      "protection of the kind that closes again by itself, put in by an electrician",
      "a sensor of power behind {part}, with a notice",
    ],
  },
  {
    mode: "strip-burns-out",
    group: "power",
    name: "Socket strip burns out",
    onset: "sudden",
    of: "circuit",
    parts: circuitsWhere((circuit) => circuit.on !== null),
    inject: (bench, part) => bench.set(part, "open", 1),
    end: {
      act: "put another strip in place of {part}",
      needs: "repair",
      minutes: 20,
      apply: (bench, part) => bench.closeCircuit(part),
    },
    sight: "smell",
    rate: guess(0.01, "thin contacts under constant load, in salt air"),
    helps: ["life support shared out over two strips", "a better strip, away from damp", "a smoke alarm in the room"],
  },
  {
    mode: "gets-wet",
    group: "power",
    name: "Water gets into plugs or sockets and opens the protection",
    onset: "sudden",
    of: "circuit",
    parts: circuitsWhere((circuit, site) => leakTrips(site, circuit.id, WET_LEAK_MA)),
    inject: (bench, part) => bench.set(part, "leakMA", WET_LEAK_MA),
    end: {
      act: "dry the sockets of {part}, then close the protection",
      needs: "reset",
      minutes: 40,
      apply(bench, part) {
        bench.release(part, "leakMA");
        closeAbove(bench, part);
      },
    },
    sight: "dark",
    rate: reported(0.05, "a frequent end of small leaks"),
    helps: [
      "sockets above the highest water, with drip loops",
      "pumps and heaters shared out over two protected circuits",
    ],
  },
  {
    mode: "leaks-current",
    group: "power",
    name: "Motor leaks current into the water and opens the protection",
    onset: "sudden",
    of: "device",
    parts: devicesWhere(
      (device, site) =>
        WET_MOTORS.includes(device.kind) && device.on !== null && leakTrips(site, device.on, WINDING_LEAK_MA),
    ),
    inject: (bench, part) => bench.set(part, "leakMA", WINDING_LEAK_MA),
    end: {
      act: "find and unplug {part}, then close the protection",
      needs: "reset",
      minutes: 30,
      apply: unplugAndClose,
    },
    sight: "dark",
    rate: guess(0.02, "old pumps leak before they die"),
    helps: ["pumps and heaters shared out over two protected circuits", "a yearly meter test of old pumps"],
  },
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
  {
    mode: "socket-stays-on",
    group: "power",
    name: "Relay of a hub's socket welds shut",
    onset: "sudden",
    of: "device",
    parts: switchedDevices("return-pump", "wave-pump", "air-pump", "light", "feeder", "steriliser", "other"),
    inject: (bench, part) => bench.set(part, "socket", 1),
    end: { act: "pull the plug of {part}", needs: "unplug", minutes: 5, apply: unplug },
    sight: "nothing",
    rate: generic(0.006, "one switched channel in fifty fails in a year, a third of these closed where motors start"),
    helps: ["a sensor of power on {part}, and a notice when it draws some while switched off"],
  },
  {
    mode: "socket-stays-off",
    group: "power",
    name: "Relay of a hub's socket no longer closes",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => device.by !== null && device.kind !== "siren"),
    inject: (bench, part) => bench.set(part, "socket", -1),
    end: { act: "move {part} to a socket that works", needs: "unplug", minutes: 5, apply: mend },
    sight: "nothing",
    rate: generic(0.016, "one switched channel in fifty fails in a year, most of these open"),
    helps: ["a sensor of power or flow on {part} with a notice", "a second device on another socket"],
  },
];
