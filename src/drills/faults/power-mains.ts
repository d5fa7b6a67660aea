/** The public supply: cuts, sags, surges. */
import type { Battery, Site } from "../../site/index.ts";
import { aerateByHand } from "./ends.ts";
import type { Bench, FaultMode } from "./fault.ts";
import { MAINS } from "./parts.ts";
import { counted, guess } from "./rates.ts";

function startedByHand(site: Site): readonly Battery[] {
  return site.batteries.filter((battery) => !battery.startsItself);
}

function startAll(bench: Bench): void {
  for (const battery of startedByHand(bench.site)) bench.startBattery(battery.id);
  closeWhatStayedOpen(bench);
}

function aerateAndClose(bench: Bench): void {
  aerateByHand(bench);
  closeWhatStayedOpen(bench);
}

/** Whoever comes after a cut, or waits for its end, also closes the protection that a cut leaves open. */
function closeWhatStayedOpen(bench: Bench): void {
  for (const circuit of bench.site.circuits) if (circuit.staysOpenAfterCut) bench.closeCircuit(circuit.id);
}

/** People cannot bring the mains back: they start what stands by, or give air by hand. */
const START: FaultMode["end"] = { act: "start the generator", needs: "start-generator", minutes: 15, apply: startAll };
const AERATE: FaultMode["end"] = {
  act: "aerate by hand until the power is back",
  needs: "everything",
  minutes: 20,
  apply: aerateAndClose,
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

const MOBILE_LINKS = (site: Site) => site.links.filter((link) => link.kind === "mobile");

export const mainsModes: readonly FaultMode[] = [
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
];
