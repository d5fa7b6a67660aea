/** Pumps, air and what keeps the water moving. */
import { deviceById, type Site } from "../../site/index.ts";
import { mend } from "./ends.ts";
import type { FaultMode } from "./fault.ts";
import { devicesOf, devicesWhere, MAINS, quarterly, sparesOf, supplyOf } from "./parts.ts";
import { generic, guess, reported } from "./rates.ts";

const PUMPS = ["return-pump", "wave-pump"] as const;

/** Pumps and skimmers that a hub can hold off. */
function pausedBy(site: Site, hub: string): readonly string[] {
  const held = site.devices.filter(
    (device) => device.by === hub && ["return-pump", "wave-pump", "skimmer"].includes(device.kind),
  );
  return held.map((device) => device.id);
}

/** What a waiting pump stands in for: the pumps of its system, and their supply where it has its own. */
function standsInFor(site: Site, part: string): readonly string[] {
  const own = deviceById(site, part);
  const onBattery = site.batteries.some((battery) => battery.feeds.includes(part));
  const moving = site.devices.filter(
    (other) =>
      other.id !== part &&
      other.spare === null &&
      other.system === own.system &&
      ["return-pump", "wave-pump", "air-pump"].includes(other.kind),
  );
  const supplies = moving.flatMap((pump) => supplyOf(site, pump.id));
  return [...new Set([...moving.map((pump) => pump.id), ...(onBattery ? [MAINS, ...supplies] : [])])];
}

export const circulationModes: readonly FaultMode[] = [
  {
    mode: "stops",
    group: "circulation",
    name: "Return pump stops",
    onset: "sudden",
    of: "device",
    parts: devicesOf("return-pump"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "free or replace {part}", needs: "repair", minutes: 30, apply: mend },
    sight: "still",
    rate: generic(0.16, "between pumps and motors of industry, at light duty, cleaned twice a year"),
    helps: [
      "a notice when {part} draws no power or moves no water",
      "wave pumps or an air pump on another circuit",
      "a tried spare pump on the shelf",
    ],
  },
  {
    mode: "stops",
    group: "circulation",
    name: "Wave pump stops",
    onset: "sudden",
    of: "device",
    parts: devicesOf("wave-pump"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "clean or replace {part}", needs: "repair", minutes: 20, apply: mend },
    sight: "still",
    rate: guess(0.3, "motors of this size last three or four years"),
    helps: ["a second wave pump on another supply", "a notice when {part} draws no power"],
  },
  {
    mode: "spins-empty",
    group: "circulation",
    name: "Pump hums but moves no water",
    onset: "sudden",
    of: "device",
    parts: devicesOf(...PUMPS),
    inject: (bench, part) => bench.set(part, "idle", 1),
    end: { act: "take {part} apart and put it right", needs: "repair", minutes: 30, apply: mend },
    sight: "still",
    rate: guess(0.05, "slipped magnet, broken shaft or trapped air"),
    helps: ["a sensor of flow or level, for the power of {part} looks normal", "a second pump"],
  },
  {
    mode: "slows",
    group: "circulation",
    name: "Pump loses flow to scale and snails",
    onset: "creeping",
    of: "device",
    parts: devicesOf(...PUMPS),
    // Keepers lose 10 to 30 % in half a year; a screen that catches weed loses half in a month, which is taken here.
    inject: (bench, part) => bench.set(part, "outputPerDay", -0.02),
    end: { act: "clean {part}", needs: "repair", minutes: 30, apply: mend },
    sight: "nothing",
    rate: reported(0.5, "every pump that is not cleaned"),
    helps: ["cleaning of {part} twice a year", "a notice when its flow or power falls under 70 %"],
  },
  {
    mode: "runs-slow",
    group: "circulation",
    name: "Pump comes back at its lowest speed after a reset",
    onset: "sudden",
    of: "device",
    parts: devicesOf(...PUMPS),
    inject: (bench, part) => bench.set(part, "output", 0.3),
    end: { act: "set the speed of {part} again", needs: "reset", minutes: 10, apply: mend },
    sight: "still",
    rate: guess(0.05, "drivers that forget their settings when power blinks"),
    helps: ["a sensor of flow with a notice", "a driver that keeps its speed through a power cut"],
  },
  {
    mode: "no-restart",
    group: "circulation",
    name: "Pump will not start again once it has stopped",
    onset: "latent",
    of: "device",
    parts: devicesOf("return-pump"),
    inject: (bench, part) => bench.set(part, "noRestart", 1),
    end: { act: "take {part} out, clean it and start it", needs: "repair", minutes: 30, apply: mend },
    sight: "nothing",
    rate: guess(0.03, "a pump that was cleaned a year ago, at each restart"),
    helps: [
      "cleaning of {part} twice a year",
      "a switch-off trial every three months, with a look that it starts",
      "a sensor of flow with a notice",
    ],
    triedEveryMonths: (site, part) => quarterly(deviceById(site, part).cleanedMonths),
    backs: (site, part) => supplyOf(site, part),
  },
  {
    mode: "pause-left-on",
    group: "circulation",
    name: "Feeding pause at the hub never ends",
    onset: "sudden",
    of: "hub",
    parts: (site) => site.hubs.filter((hub) => pausedBy(site, hub.id).length > 0).map((hub) => hub.id),
    inject(bench, part) {
      for (const pump of pausedBy(bench.site, part)) bench.set(pump, "socket", -1);
    },
    end: {
      act: "end the pause at {part}",
      needs: "reset",
      minutes: 5,
      apply(bench, part) {
        for (const pump of pausedBy(bench.site, part)) bench.release(pump, "socket");
      },
    },
    sight: "still",
    rate: guess(0.5, "one act in a hundred is left unfinished, and people feed often"),
    helps: ["a pause that ends by itself after ten minutes", "a notice when no pump has run for half an hour"],
  },
  {
    mode: "pause-left-on",
    group: "circulation",
    name: "Pump's own pause key was pressed and forgotten",
    onset: "sudden",
    of: "device",
    parts: devicesWhere((device) => device.by === null && PUMPS.some((kind) => kind === device.kind)),
    inject: (bench, part) => bench.set(part, "schedule", -1),
    end: { act: "start {part} again", needs: "reset", minutes: 5, apply: mend },
    sight: "still",
    rate: guess(0.2, "one act in a hundred is left unfinished"),
    helps: ["a pause that ends by itself after ten minutes", "a notice when {part} draws no power"],
  },
  {
    mode: "stops",
    group: "circulation",
    name: "Air pump stops",
    onset: "sudden",
    of: "device",
    parts: devicesOf("air-pump"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "put another air pump in place of {part}", needs: "repair", minutes: 15, apply: mend },
    sight: "still",
    rate: guess(0.4, "diaphragms last two or three years"),
    helps: ["another source of oxygen that does not hang on {part}", "a new diaphragm every year"],
  },
  {
    mode: "weakens",
    group: "circulation",
    name: "Air pump gives less and less air",
    onset: "creeping",
    of: "device",
    parts: devicesOf("air-pump"),
    // A torn diaphragm or clogged stone: gone in a month.
    inject: (bench, part) => bench.set(part, "outputPerDay", -0.03),
    end: { act: "change diaphragm and stone of {part}", needs: "repair", minutes: 15, apply: mend },
    sight: "nothing",
    rate: reported(0.4, "stones clog in months, diaphragms tear in years"),
    helps: ["a new stone every month and a new diaphragm every year", "an oxygen probe with a notice"],
  },
  {
    mode: "spare-dead",
    group: "circulation",
    name: "Waiting pump has been dead for months",
    onset: "latent",
    of: "device",
    parts: sparesOf("return-pump", "wave-pump", "air-pump", "skimmer"),
    inject: (bench, part) => bench.set(part, "dead", 1),
    end: { act: "replace {part} or its cells, and try it", needs: "repair", minutes: 20, apply: mend },
    sight: "nothing",
    rate: guess(0.2, "household alarms that nobody tries are dead in a quarter of homes; taken a little better"),
    helps: ["a trial run of {part} every month, written down", "fresh cells with a date on them"],
    triedEveryMonths: (site, part) => quarterly(deviceById(site, part).spare?.lastTriedMonths),
    backs: standsInFor,
  },
];
